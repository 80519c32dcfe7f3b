"""A gathering knot's wrapping cord in space: laid along, wound, put through its loop, drawn in.

Turns, bundle and the two legs under the turns are the atlas's. What joins them is drawn here, in
cylinder coordinates round the bundle: before the first turn the cord goes on as the coil would, so
that it lies on the bundle; after the last one too, until it dives through the loop. Then the loop
is drawn in under the turns, and the end with it. What becomes of loop and end there, where four
cords lie instead of two, is out of sight and not computed: they overlap.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.cords import cords_of
from cordwright.draw.curves import at, even, lengths
from cordwright.knots.spec import Role

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from cordwright.draw.cords import Cord
    from cordwright.knots.atlas import Atlas
    from cordwright.knots.spec import KnotSpec

    Floats = NDArray[np.float64]

DEPTH = 4.0
"""How far the loop reaches below the turns, in d."""

CLEAR = 1.3
"""How far the loop stands off the end that goes through it, in d."""

END = 3.2
"""How far the end hangs below the loop, and out of the finished knot, in d."""

BOW = 1.3
"""Half width of the loop's bend along the bundle, in d."""

SMOOTH = 0.5
"""Length over which corners of the joining parts are rounded, in d."""

DRAWN = (0.0, 0.25, 0.5, 0.75, 1.0)
"""Shares of the loop's way at which the curves are given."""


@dataclass(frozen=True, slots=True)
class _Round:
    """What the wrap runs on, in cylinder coordinates; angles grow along the coil.

    Args:
        coil: (n, 3) float, the turns.
        angle: (n,) their angles.
        a, b: (2,) angle and radius of the legs.
        pitch: from turn to turn, in d.
    """

    coil: Floats
    angle: Floats
    a: Floats
    b: Floats
    pitch: float

    @property
    def top(self) -> float:
        return float(self.coil[0, 2])

    @property
    def bottom(self) -> float:
        return float(self.coil[-1, 2])

    def radius(self, angle: Floats) -> Floats:
        """How far from the middle the coil is at an angle, turns before and after it included."""
        r = np.hypot(self.coil[:, 0], self.coil[:, 1])
        start = self.angle[0]
        one = self.angle < start + 2 * np.pi
        turned = start + np.mod(angle - start, 2 * np.pi)
        found: Floats = np.interp(turned, self.angle[one], r[one])
        return found


def winding(
    atlas: Atlas, spec: KnotSpec
) -> tuple[tuple[Cord, ...], tuple[tuple[Floats, ...], ...]]:
    """The cords of a gathering knot, the wrapping one first and in one piece, at some stages.

    Args:
        atlas: where tight curves come from.
        spec: which knot.

    Returns:
        The cords as they lie at last; and for every stage, from the wound knot to the drawn one,
        their curves, (n, 3) float in d, with as many points at each.
    """
    flip = np.array([-1.0 if spec.hand == "right" else 1.0, 1.0, 1.0])
    cords = cords_of(atlas, spec)
    coil = next(c for c in cords if c.role is Role.WORKING and c.place is not None)
    legs = [c.points.mean(axis=0) * flip for c in cords if c.place is None]
    others = [c for c in cords if c.role is not Role.WORKING]
    on = _round(coil.points * flip, legs, spec.turns)
    above = max(float(c.points[:, 2].max()) for c in others)
    low = on.bottom - DEPTH - END
    stages = []
    for share in DRAWN:
        wrap = _wrap(on, share, above, low) * flip
        stages.append((wrap, *(_longer(c.points, low) for c in others)))
    whole = (replace(coil, points=stages[-1][0]), *others)
    return whole, tuple(stages)


def _longer(points: Floats, low: float) -> Floats:
    return np.append(points, [[points[-1, 0], points[-1, 1], low]], axis=0)


def _round(coil: Floats, legs: Sequence[Floats], turns: int) -> _Round:
    angle = np.unwrap(np.arctan2(coil[:, 1], coil[:, 0]))
    if angle[-1] < angle[0]:
        raise AssertionError("the left-hand coil winds the other way")
    (pa, ra), (pb, rb) = (
        (float(np.arctan2(leg[1], leg[0])), float(np.hypot(leg[0], leg[1]))) for leg in legs
    )
    apart = (pb - pa + np.pi) % (2 * np.pi) - np.pi
    middle = pa + apart / 2
    # The end meets the middle of the loop on its way on round the bundle.
    first = angle[-1] + 0.7
    middle = first + (middle - first) % (2 * np.pi)
    a, b = np.array([middle - apart / 2, ra]), np.array([middle + apart / 2, rb])
    return _Round(coil, angle, a, b, float(coil[0, 2] - coil[-1, 2]) / turns)


def _wrap(on: _Round, share: float, above: float, low: float) -> Floats:
    """The wrapping cord with its loop drawn in by a share of its way."""
    before = _rounded(_space(_loop(on, share, above)))
    lead = _rounded(_space(_lead(on)))
    first, last = _end(on, 0.0, low), _end(on, 1.0, low)
    ease = share * share * (3 - 2 * share)
    end = _rounded(_space((1 - ease) * first + ease * last))
    return np.concatenate([before[:-1], lead[:-1], on.coil, end[1:]])


def _loop(on: _Round, share: float, above: float) -> Floats:
    """(n, 3) float, angle, radius, height: down one leg, through the bend, up the other."""
    middle = (on.top + on.bottom) / 2
    turn = on.bottom - DEPTH + share * (middle - on.bottom + DEPTH)
    off = CLEAR * (1 - share) ** 2 - 0.9 * share
    s = np.linspace(0.0, 1.0, 41)
    angle = (on.a[0] + on.b[0]) / 2 - (on.b[0] - on.a[0]) / 2 * np.cos(np.pi * s)
    leg = on.a[1] + (on.b[1] - on.a[1]) * s
    stand = np.sin(np.pi * s) ** 0.7
    radius = leg + stand * (on.radius(angle) + off - leg)
    bend = np.stack([angle, radius, turn + BOW * (1 - np.sin(np.pi * s))], axis=1)
    down = _straight([*on.a, above], bend[0], 60)
    up = _straight(bend[-1], [*on.b, on.top], 60)
    return np.concatenate([down[:-1], bend, up[1:]])


def _lead(on: _Round) -> Floats:
    """From the second leg out on the bundle, and as the coil would go on, to its beginning."""
    begin = on.angle[0]
    start = begin - (begin - on.b[0]) % (2 * np.pi)
    if begin - start < 1.3:
        start -= 2 * np.pi
    height = on.top + on.pitch * (begin - start) / (2 * np.pi)
    t = np.linspace(0.0, np.pi / 2, 13)
    angle = start + 1.5 / float(on.radius(np.array([start]))[0]) * (1 - np.cos(t))
    out = on.radius(angle) - (float(on.radius(np.array([start]))[0]) - on.b[1]) * np.cos(t)
    rise = height - on.pitch * (1 - np.sin(t)) - on.pitch * (angle - start) / (2 * np.pi)
    bend = np.stack([angle, out, rise], axis=1)
    under = _straight([start, on.b[1], on.top], bend[0], 6)
    round_ = np.linspace(angle[-1], begin, 90)
    went = on.top + on.pitch * (begin - round_) / (2 * np.pi)
    coil = np.stack([round_, on.radius(round_), went], axis=1)
    return np.concatenate([under[:-1], bend[:-1], coil])


def _end(on: _Round, share: float, low: float) -> Floats:
    """From the coil's end through the loop (share 0), or under the turns and out again (1)."""
    begin = float(on.angle[-1])
    middle = (on.a[0] + on.b[0]) / 2
    wide = 1.2 / float(on.radius(np.array([middle]))[0])
    if share == 0.0:
        round_ = np.linspace(begin, middle - wide, 50)
        height = on.bottom - on.pitch * (round_ - begin) / (2 * np.pi)
        t = np.linspace(0.0, np.pi / 2, 40)
        angle = middle - wide * (1 - np.sin(t))
        dive = height[-1] - 1.2 * (1 - np.cos(t))
        bend = np.stack([angle, on.radius(angle), dive], axis=1)
        down = _straight(bend[-1], [middle, bend[-1, 1], low], 40)
    else:
        into = max(float(on.a[0]), begin + 0.3)
        round_ = np.linspace(begin, into, 50)
        height = on.bottom - 0.3 * np.sin(np.linspace(0, np.pi / 2, 50))
        half = (on.top + on.bottom) / 2 - 0.6
        bend = np.concatenate(
            [
                _straight(
                    [into, on.radius(round_[-1:])[0], height[-1]], [*on.a, height[-1] + 1], 10
                ),
                _straight([*on.a, height[-1] + 1], [*on.a, half], 12)[1:],
                _straight([*on.a, half], [*on.b, half], 20)[1:],
            ]
        )
        down = _straight([*on.b, half], [*on.b, on.bottom - END], 40)
    along = np.stack([round_, on.radius(round_), height], axis=1)
    return np.concatenate([along[:-1], bend[:-1], down])


def _straight(start: Sequence[float] | Floats, end: Sequence[float] | Floats, count: int) -> Floats:
    return np.linspace(np.asarray(start, dtype=float), np.asarray(end, dtype=float), count)


def _space(round_: Floats) -> Floats:
    angle, radius, height = round_.T
    return np.stack([radius * np.cos(angle), radius * np.sin(angle), height], axis=1)


def _rounded(points: Floats) -> Floats:
    """The curve with its corners rounded; as many points, its ends where they were."""
    count = len(points)
    fine = even(points, 0.05)
    half = int(SMOOTH / 0.05)
    index = np.arange(len(fine))
    reach = np.minimum(half, np.minimum(index, len(fine) - 1 - index))
    sums = np.concatenate([np.zeros((1, 3)), np.cumsum(fine, axis=0)])
    mean = (sums[index + reach + 1] - sums[index - reach]) / (2 * reach + 1)[:, None]
    return at(mean, np.linspace(0.0, float(lengths(mean)[-1]), count))
