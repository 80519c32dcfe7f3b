"""Knots worked one under another round fillers: half knot, square knot, half hitch.

A half knot: the left working cord A crosses in front of the fillers and goes out behind the
right one; the right one B crosses behind the fillers and comes out to the front between A and
the fillers. The half turn about the vertical axis takes A to B. A square knot is a half knot
and then its mirror image; so its lower half is drawn by reflecting the upper one.
"""

from __future__ import annotations

import numpy as np

from cordwright.errors import KnotError
from cordwright.knots.spec import Role
from cordwright.knots.tangle import Course, Points, Repeat, Symmetry, Tangle, bundle, through

FILLER_TENSION = 6.0
"""Pull in a filler, against 1 in a working cord: fillers are held taut (common practice) while
the working cords are drawn up; from 4 to 10 a square knot's figures move by less than 1 %, a half
knot's height by 3 % (docs/solver.md)."""

PUSH = 1.0
"""Force that pushes a knot up against the last one, against 1 in a working cord. Makers push
sinnets and rows together (common practice); how hard is a choice, and docs/solver.md shows what
half and double of it would change."""

_DOWN = (0.0, 0.0, -1.0)
_HALF_TURN = ((-1.0, 0.0, 0.0), (0.0, -1.0, 0.0), (0.0, 0.0, 1.0))
_UPSIDE_DOWN = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, -1.0))

_QUARTER = 2.2
"""Height at which a half knot's bar is drawn below its start, in d; loose enough to be free."""


def square_knot(fillers: int, filler_d: float = 1.0) -> Tangle:
    """One square knot of a sinnet, left half first."""
    core = _core(fillers, filler_d)
    side, front = _box(core, filler_d)
    upper = _half(side, front)
    bottom = through([(side + _ROOM, 0.0, -2 * _QUARTER)])
    turn_round = np.concatenate([upper, bottom]) * [1, 1, -1] + [0, 0, -4 * _QUARTER]
    a = np.concatenate([upper, turn_round[::-1][:-1]])
    b = a * [-1, -1, 1]
    height = 4 * _QUARTER
    workers = (
        Course(a, "periodic", goes_on_as=0, place=0),
        Course(b, "periodic", goes_on_as=1, place=fillers + 1),
    )
    return Tangle(
        workers + _fillers(core, filler_d, height, 2),
        _repeat(fillers, height),
        (
            *_half_turn(core),
            Symmetry(_UPSIDE_DOWN, tuple(range(2 + fillers)), reverse=True, shift=1.0),
        ),
    )


def half_knot(fillers: int, filler_d: float = 1.0) -> Tangle:
    """One half knot of a spiral sinnet: the working cords change sides, the twist is free."""
    core = _core(fillers, filler_d)
    side, front = _box(core, filler_d)
    a = _half(side, front)
    b = a * [-1, -1, 1]
    height = 2 * _QUARTER
    workers = (
        Course(a, "periodic", goes_on_as=1, place=0),
        Course(b, "periodic", goes_on_as=0, place=fillers + 1),
    )
    return Tangle(
        workers + _fillers(core, filler_d, height, 2),
        _repeat(fillers, height, free_twist=True),
        _half_turn(core),
    )


def half_hitch(fillers: int, filler_d: float = 1.0) -> Tangle:
    """One half hitch of a sinnet: the left cord goes round the fillers and out under itself."""
    core = _core(fillers, filler_d)
    side, front = _box(core, filler_d)
    far, q = side + _ROOM, _QUARTER
    hitch = through(
        [
            (-far, 0.0, 0.0),
            (-far, 0.4, -q / 2),
            (-side - 1.2, -0.6 * front, -0.9 * q),
            (-side, -front, -q),
            (side, -front, -q),
            (side + 1.3, 0.0, -q),
            (side, front, -q),
            (-side, front, -q * 0.9),
            (-side - 1.0, 0.0, -q / 2),
            (-far, -0.7 * front, -q / 2),
            (-far - 1.2, 0.0, -1.1 * q),
        ]
    )
    worker = Course(hitch, "periodic", goes_on_as=0, place=0)
    return Tangle(
        (worker, *_fillers(core, filler_d, 2 * q, 1)),
        _repeat(fillers, 2 * q, free_twist=True),
    )


_ROOM = 2.2


def _repeat(fillers: int, height: float, *, free_twist: bool = False) -> Repeat:
    # A taut filler slides through its knots: what it pulls on is only its length beyond the
    # straight way, so its pull times the period is taken off again.
    push = PUSH - fillers * FILLER_TENSION
    return Repeat(_DOWN, height, free_twist=free_twist, push=push)


def _half(side: float, front: float) -> Points:
    """The left working cord through a half knot; its last point is left to what follows."""
    far, q = side + _ROOM, _QUARTER
    return through(
        [
            (-far, 0.0, 0.0),
            (-far, 0.4, -q / 2),
            (-side - 1.2, -0.6 * front, -0.9 * q),
            (-side, -front, -q),
            (0.0, -front, -q),
            (side, -front, -0.95 * q),
            (side + 1.0, 0.0, -q / 2),
            (far, 0.7 * front, -q / 2),
            (far + 1.2, 0.0, -1.1 * q),
        ]
    )


def _core(fillers: int, filler_d: float) -> Points:
    """(fillers, 2) float: where the fillers run, left to right and front to back."""
    if not 1 <= fillers <= 16:
        raise KnotError(
            f"a sinnet was asked for round {fillers} fillers",
            remedy="use 1 to 16 fillers; bundle more of them with a gathering knot",
        )
    if not 0.2 <= filler_d <= 5.0:
        raise KnotError(
            f"the fillers are {filler_d:.2g} times as thick as the working cords",
            remedy="use fillers from a fifth to five times the working cord",
        )
    if fillers <= 2:
        pack = np.stack([np.arange(fillers) - (fillers - 1) / 2, np.zeros(fillers)], axis=1)
    elif fillers == 4:
        pack = np.array([[-0.5, -0.5], [0.5, -0.5], [-0.5, 0.5], [0.5, 0.5]])
    else:
        pack = bundle(fillers)
    # A little room between fillers, so that none starts inside another.
    out: Points = 1.1 * filler_d * pack
    return out[np.lexsort((out[:, 1], np.round(out[:, 0], 6)))]


def _box(core: Points, filler_d: float) -> tuple[float, float]:
    """Half width of the fillers' centres, and how far in front of them a cord runs clear."""
    side = float(np.abs(core[:, 0]).max())
    deep = float(np.abs(core[:, 1]).max())
    return side + 0.5 * (filler_d - 1.0), deep + 0.5 * filler_d + 1.3


def _half_turn(core: Points) -> tuple[Symmetry, ...]:
    """The half turn that takes one working cord to the other, if the fillers allow it."""
    miss = np.linalg.norm(core[:, None, :] + core[None, :, :], axis=2)
    if float(miss.min(axis=1).max()) > 1e-6:
        return ()
    return (Symmetry(_HALF_TURN, (1, 0, *(2 + int(i) for i in miss.argmin(axis=1)))),)


def _fillers(core: Points, filler_d: float, height: float, first: int) -> tuple[Course, ...]:
    z = np.linspace(0.0, -height, 9)[:-1]
    return tuple(
        Course(
            np.stack([0 * z + x, 0 * z + y, z], axis=1),
            "periodic",
            role=Role.FILLER,
            diameter=filler_d,
            tension=FILLER_TENSION,
            goes_on_as=first + i,
            place=i + 1,
        )
        for i, (x, y) in enumerate(core)
    )
