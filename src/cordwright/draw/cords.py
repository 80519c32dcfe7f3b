"""The cords of a knot figure in space: the atlas's cells joined up, with ends coming in and out."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.curves import even, lengths, part
from cordwright.knots.spec import KnotName, KnotSpec, Role

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from cordwright.knots.atlas import Atlas
    from cordwright.knots.cell import Cell

    Points = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Cord:
    """One cord of a figure.

    Args:
        points: (n, 3) float, its centre line in d, from where it comes in to where it goes out.
        diameter: in d.
        role: what it does.
        place: which strand of the line-up it is; None for rings and rods.
        cell: in which cell it comes in, counted from 0; hitches of a row differ in it.
        fixed: a ring or rod.
    """

    points: Points
    diameter: float
    role: Role
    place: int | None
    cell: int
    fixed: bool


CELLS = {
    KnotName.SQUARE_KNOT: 2,
    KnotName.HALF_KNOT: 6,
    KnotName.HALF_HITCH: 6,
    KnotName.DOUBLE_HALF_HITCH: 3,
    KnotName.BRAID: 4,
}
"""Cells that a figure shows by default, where knots stand one under another or in a row."""

IN, OUT = 2.4, 3.2
"""How far strands are followed above and below the knot, in d."""


def cords_of(atlas: Atlas, spec: KnotSpec, cells: int | None = None) -> tuple[Cord, ...]:
    """The cords of a tight knot, or of several one after the other.

    Args:
        atlas: where tight curves come from.
        spec: which knot.
        cells: how many cells of the repeat; as many as show the knot well if None.

    Raises:
        KnotError: if the knot cannot be tied as specified.
    """
    cell = atlas.cell(spec)
    curves = atlas.curves(spec)
    if cell.direction is None:
        count = 1
    elif cells is not None:
        count = cells
    else:
        count = spec.turns if spec.name is KnotName.GATHERING else CELLS[spec.name]
    cords = [c for start in _starts(cell, count) for c in _chained(cell, curves, count, *start)]
    return _framed(tuple(cords), cell)


def _starts(cell: Cell, count: int) -> list[tuple[int, int]]:
    """Course and cell in which each cord begins."""
    return [
        (i, k)
        for i, c in enumerate(cell.courses)
        for k in range(1 if c.goes_on_as is not None or c.fixed else count)
    ]


def _chained(cell: Cell, curves: list[Points], count: int, course: int, first: int) -> list[Cord]:
    what = cell.courses[course]
    parts, at = [], course
    for k in range(first, count):
        parts.append(_moved(curves[at], cell, k))
        following = cell.courses[at].goes_on_as
        if following is None:
            break
        at = following
    points = np.concatenate(parts)
    return [Cord(points, what.diameter_d, what.role, what.place, first, what.fixed)]


def _moved(points: Points, cell: Cell, k: int) -> Points:
    """The image of a course in the k-th cell."""
    if cell.direction is None or k == 0:
        return points
    c, s = np.cos(k * cell.twist), np.sin(k * cell.twist)
    turn = np.array([[c, s, 0.0], [-s, c, 0.0], [0.0, 0.0, 1.0]])
    moved: Points = points @ turn + k * cell.period_d * np.array(cell.direction)
    return moved


def _framed(cords: tuple[Cord, ...], cell: Cell) -> tuple[Cord, ...]:
    """Ends cut or led on so that all cords reach equally far beyond the knot."""
    if cell.direction is None:
        top, bottom = _knotted(cords)
        return tuple(c if c.fixed else trimmed(c, top + IN, bottom - OUT) for c in cords)
    if abs(cell.direction[2]) > 0.99:
        top = max(float(c.points[0, 2]) for c in cords) + IN
        bottom = min(float(c.points[-1, 2]) for c in cords) - OUT
        # The wrapping cord of a gathering knot does not come in from above.
        wraps = any(c.place is None for c in cords)
        return tuple(c if wraps and c.role is Role.WORKING else _led(c, top, bottom) for c in cords)
    along = np.array(cell.direction)
    hitched = [_hitched(c) for c in cords if c.role is not Role.HOLDING]
    top = max(float(h[0, 2]) for h in hitched) + IN
    bottom = min(float(h[-1, 2]) for h in hitched) - OUT
    return tuple(
        replace(c, points=_straight_on(c.points, along, HOLDS))
        if c.role is Role.HOLDING
        else trimmed(c, top, bottom)
        for c in cords
    )


HOLDS = 2.6
"""How far a holding cord is followed beyond a row of hitches, in d."""


def _knotted(cords: tuple[Cord, ...]) -> tuple[float, float]:
    """Heights between which the cords of a knot are bent."""
    bent = [_hitched(c) for c in cords if not c.fixed]
    return max(float(b[:, 2].max()) for b in bent), min(float(b[:, 2].min()) for b in bent)


STRAIGHT = 0.06
"""Bend, in radians per d, below which a cord counts as straight."""


def _hitched(cord: Cord) -> Points:
    """The part of a cord between its straight ends."""
    points = even(cord.points, 0.25)
    way = np.diff(points, axis=0)
    way /= np.linalg.norm(way, axis=1)[:, None]
    bend = np.linalg.norm(np.diff(way, axis=0), axis=1) / 0.25
    bent = np.flatnonzero(bend > STRAIGHT)
    return points[bent[0] : bent[-1] + 3] if len(bent) else points


def _straight_on(points: Points, along: Points, by: float) -> Points:
    """A curve that goes on at both ends, ``along`` at its end and against it at its start."""
    steps = np.linspace(0.0, by, 12)[1:, None] * along
    return np.concatenate([points[0] - steps[::-1], points, points[-1] + steps])


def _led(cord: Cord, top: float, bottom: float) -> Cord:
    """The cord with an end that comes straight down to it, and one that hangs from it."""
    up = _lead(cord.points[0], cord.points[0] - cord.points[1], top)
    down = _lead(cord.points[-1], cord.points[-1] - cord.points[-2], bottom)
    return replace(cord, points=np.concatenate([up[::-1], cord.points, down]))


BEND = 1.6
"""Length over which an end that leaves a knot turns to hang, in d."""


def _lead(start: Points, tangent: Points, level: float) -> Points:
    """Points from ``start`` (left out) on to the height ``level``, turning from the tangent."""
    down = np.array([0.0, 0.0, np.sign(level - start[2])])
    t = tangent / np.linalg.norm(tangent)
    step = 0.125
    s = np.arange(1, int(BEND / step) + 1) * step / BEND
    ease = s * s * (3 - 2 * s)
    way = (1 - ease)[:, None] * t + ease[:, None] * down
    way /= np.linalg.norm(way, axis=1)[:, None]
    bend = start + step * np.cumsum(way, axis=0)
    last = bend[-1].copy()
    last[2] = level
    return np.concatenate([bend, last[None]])


def trimmed(cord: Cord, above: float, below: float) -> Cord:
    """The cord from where it first comes below ``above`` to where it last is above ``below``."""
    z = cord.points[:, 2]
    inside = np.flatnonzero((z <= above) & (z >= below))
    s = lengths(cord.points)
    return replace(cord, points=part(cord.points, float(s[inside[0]]), float(s[inside[-1]])))
