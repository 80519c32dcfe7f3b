"""Knots on a bundle: the overhand knot of several strands, and one turn of a gathering knot."""

from __future__ import annotations

from functools import cache

import numpy as np

from cordwright.errors import KnotError
from cordwright.knots.drawn.sinnets import FILLER_TENSION, PUSH
from cordwright.knots.spec import Role
from cordwright.knots.tangle import Course, Points, Repeat, Symmetry, Tangle, bundle
from cordwright.knots.tighten import STAGES, tighten

OVERHAND_MOST = 6
"""Strands of an overhand knot that are tightened one by one; thicker bundles take minutes."""

GATHERED_MOST = 64
"""Strands under one gathering knot."""

_HALF_TURN = ((-1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, -1.0))


def overhand(strands: int) -> Tangle:
    """An overhand knot of so many strands taken together, ends along z.

    The bundle is drawn along a tight single overhand knot, made so much larger that the bundle
    passes itself without touching.
    """
    if not 1 <= strands <= OVERHAND_MOST:
        raise KnotError(
            f"an overhand knot of {strands} strands was asked for",
            remedy=f"use 1 to {OVERHAND_MOST} strands, or bind them with a gathering knot",
        )
    if strands == 1:
        return _single()
    offsets = bundle(strands) * 1.1
    thick = 1.15 + 2 * float(np.linalg.norm(offsets, axis=1).max())
    spine = thick * _tight_single()
    u, v = _frame(spine)
    courses = tuple(Course(spine + x * u + y * v, place=i) for i, (x, y) in enumerate(offsets))
    return Tangle(courses)


def _single() -> Tangle:
    half_turn = Symmetry(_HALF_TURN, (0,), reverse=True)
    return Tangle((Course(long_trefoil(1.45, 7.0), place=0),), symmetries=(half_turn,))


@cache
def _tight_single() -> Points:
    """(n, 3) float: the tight overhand knot of one strand, in its diameters."""
    return tighten(_single(), stages=STAGES[:2])[-1].curve(0)


def long_trefoil(scale: float, reach: float) -> Points:
    """(n, 3) float: an open overhand knot from z = reach to -reach, for a cord ``scale`` thick.

    Polynomial curve (t^3 - 3 t, t^4 - 4 t^2, t^5 - 10 t): A. R. Shastri, 'Polynomial
    representations of knots', Tohoku Math. J. 44 (1992).
    """
    t = np.linspace(2.0, -2.0, 56)
    curve = scale * np.stack(
        [0.6 * (t**3 - 3 * t), 0.8 * (t**4 - 4 * t**2), 0.22 * (t**5 - 10 * t)], axis=1
    )
    x, y = curve[0, 0], curve[0, 1]
    top = np.stack([np.full(5, x), np.full(5, y), np.linspace(reach, 1.25 * curve[0, 2], 5)], 1)
    return np.concatenate([top, curve, top[::-1] * [-1, 1, -1]])


def _frame(spine: Points) -> tuple[Points, Points]:
    """Two unit normals along a curve that turn about it as little as can be."""
    t = np.gradient(spine, axis=0)
    t /= np.linalg.norm(t, axis=1)[:, None]
    u = np.empty_like(t)
    u[0] = np.cross(t[0], [0.0, 1.0, 0.0])
    u[0] /= np.linalg.norm(u[0])
    for i in range(1, len(t)):
        w = u[i - 1] - t[i] * float(u[i - 1] @ t[i])
        u[i] = w / np.linalg.norm(w)
    return u, np.cross(t, u)


def gathering_turn(core: int, core_d: float = 1.0) -> Tangle:
    """One turn of a wrap round ``core`` strands and two legs of the wrap's own cord.

    A gathering knot is tied over a loop of its cord, and the end is drawn up under the turns by
    that loop; so at every height two legs of the wrapping cord lie under the turns. The coil's
    pitch is found by tightening (turns lie against one another).
    """
    if not 1 <= core <= GATHERED_MOST:
        raise KnotError(
            f"a gathering knot round {core} strands was asked for",
            remedy=f"gather 1 to {GATHERED_MOST} strands; bind more in two bundles",
        )
    slots = 1.06 * max(1.0, core_d) * bundle(core + 2)
    radius = float(np.linalg.norm(slots, axis=1).max()) + 0.5 * max(1.0, core_d) + 0.7
    pitch = 1.3
    angle = np.linspace(0.0, 2 * np.pi, 25)[:-1]
    coil = np.stack(
        [radius * np.cos(angle), radius * np.sin(angle), -pitch * angle / (2 * np.pi)], axis=1
    )
    z = np.linspace(0.0, -pitch, 5)[:-1]
    under = []
    for i, (x, y) in enumerate(slots):
        line = np.stack([0 * z + x, 0 * z + y, z], axis=1)
        # The outermost places are the legs': they are laid on last.
        leg = i >= core
        under.append(
            Course(
                line,
                "periodic",
                role=Role.WORKING if leg else Role.FILLER,
                diameter=1.0 if leg else core_d,
                tension=FILLER_TENSION,
                goes_on_as=1 + i,
                place=None if leg else 1 + i,
            )
        )
    wrap = Course(coil, "periodic", goes_on_as=0, place=0)
    push = PUSH - (core + 2) * FILLER_TENSION
    return Tangle((wrap, *under), Repeat((0.0, 0.0, -1.0), pitch, push=push))


def clasp(reach: float = 5.0) -> Tangle:
    """Two bights hooked into one another, ends held in level planes ``reach`` d away.

    What holds a gathering knot's end under its turns, and a lark's head when it is loaded.
    """
    arc = np.linspace(0.0, np.pi, 9)
    bight = np.stack([0.9 * np.cos(arc), 0 * arc, 0.4 + 0.9 * np.sin(arc)], axis=1)
    legs = [[0.9, 0.0, -reach], [0.9, 0.0, -0.5 * reach]]
    other = [[-0.9, 0.0, -0.5 * reach], [-0.9, 0.0, -reach]]
    lower = np.concatenate([legs, bight, other])
    upper = np.stack([lower[:, 1], lower[:, 0], -lower[:, 2]], axis=1)
    return Tangle((Course(lower), Course(upper)))
