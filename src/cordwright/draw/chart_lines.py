"""The chart's strands: from knot to knot along their lanes, over the seam, behind and in front."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.chart_gaps import EDGE, Lying, Part, left_of
from cordwright.draw.chart_layout import Layout, Spot, hitch_rows
from cordwright.draw.placed import passing
from cordwright.knots.spec import KnotName

if TYPE_CHECKING:
    from cordwright.draw.chart_rows import Seat
    from cordwright.draw.placed_cell import Points
    from cordwright.piece.model import Strand

END = 1.6
"""How far a strand that ends is followed below its last knot, lanes."""


@dataclass(frozen=True, slots=True)
class Track:
    """A strand from one knot to the next, or to its end.

    Args:
        strand: of the piece.
        points: lanes from the middle, lanes down.
        order: +1 in front of others, -1 behind them.
        ends: whether the strand ends here.
    """

    strand: int
    points: tuple[tuple[float, float], ...]
    order: int = 0
    ends: bool = False


@dataclass(frozen=True, slots=True)
class Ending:
    """Where a strand ends.

    Args:
        x: lane.
        y: lanes down.
        mm: of cord below the last knot.
    """

    x: float
    y: float
    mm: int


def tracks(layout: Layout) -> list[Track]:
    """Every strand between the knots that are shown, those behind others first."""
    forward = passing(layout.piece)
    found: list[Track] = []
    for strand in layout.piece.strands:
        found.extend(_of_strand(layout, strand, forward))
    return sorted(found, key=lambda t: t.order)


def passed_over(every: Sequence[Track]) -> dict[int, list[Part]]:
    """What is left of tracks that others pass over, by their index.

    Where the plan does not say which strand passes in front, it is the one that goes to the right,
    or more so.
    """
    lines = [Lying(np.array(t.points), i) for i, t in enumerate(every)]
    low = np.array([line.points.min(axis=0) for line in lines]).reshape(-1, 2)
    high = np.array([line.points.max(axis=0) for line in lines]).reshape(-1, 2)
    order = np.array([t.order for t in every])
    aside = np.array([line.points[-1, 0] - line.points[0, 0] for line in lines])
    found = {}
    for i in range(len(every)):
        near = (low < high[i] + EDGE).all(axis=1) & (high > low[i] - EDGE).all(axis=1)
        front = [lines[k] for k in np.flatnonzero(near & (order > 0) & (order[i] <= 0))]
        level = near & (order == 0) & (order[i] == 0) & (aside > aside[i] + 1e-6)
        front += [lines[k] for k in np.flatnonzero(level) if _cross(lines[i], lines[k])]
        if front:
            found[i] = left_of(lines[i], front)
    return found


def _cross(one: Lying, other: Lying) -> bool:
    """Whether two lines cross, neither at its end."""
    return any(
        _turn(a, b, c) * _turn(a, b, d) < 0.0 and _turn(c, d, a) * _turn(c, d, b) < 0.0
        for a, b in pairwise(one.points)
        for c, d in pairwise(other.points)
    )


def _turn(a: Points, b: Points, c: Points) -> float:
    """Twice the area of a triangle; its sign says which way round it goes."""
    return float((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]))


def _of_strand(
    layout: Layout, strand: Strand, forward: dict[tuple[int, int], int]
) -> Iterator[Track]:
    before: tuple[Seat, int] | None = None
    for i, stop in enumerate(strand.course):
        knot = layout.piece.knots[stop.knot]
        if stop.place >= len(knot.strands):
            continue
        seat = layout.rows.seats[stop.knot]
        if before is not None and layout.is_shown(seat) and not _in_row(layout, before, seat):
            a, b = layout.exit(*before), layout.entry(seat, stop.place)
            for points in _led(a, b, layout, before[0].row, seat.row):
                yield Track(strand.id, points, forward.get((strand.id, i), 0))
        before = (seat, stop.place)
    if before is not None and layout.rows.shown(before[0].row) is not None:
        yield from _end(layout, strand, before)


def _in_row(layout: Layout, before: tuple[Seat, int], seat: Seat) -> bool:
    """Whether both are hitches of one row that the strand holds: its line is the row's own."""
    a, b = layout.piece.knots[before[0].knot], layout.piece.knots[seat.knot]
    return (
        b.spec.name is KnotName.DOUBLE_HALF_HITCH
        and before[1] == 0
        and seat.along > 0
        and a.strands[0] == b.strands[0]
        and before[0].row == seat.row
    )


def _end(layout: Layout, strand: Strand, last: tuple[Seat, int]) -> Iterator[Track]:
    knot = layout.piece.knots[last[0].knot]
    tucked = knot.spec.name is KnotName.GATHERING and last[1] == 0
    if tucked or strand.end.kind == "laid in":
        return
    a = layout.exit(*last)
    yield Track(strand.id, ((a.x, a.y), (a.x, a.y + END)), ends=True)


def endings(layout: Layout) -> list[Ending]:
    """Where strands end, and how much cord hangs there."""
    found = []
    for strand in layout.piece.strands:
        stops = [s for s in strand.course if s.place < len(layout.piece.knots[s.knot].strands)]
        if not stops:
            continue
        last = (layout.rows.seats[stops[-1].knot], stops[-1].place)
        for track in _end(layout, strand, last):
            x, y = track.points[-1]
            found.append(Ending(x, y, round(layout.piece.mm(strand.end.length))))
    return found


def _led(
    a: Spot, b: Spot, layout: Layout, above: int, row: int
) -> list[tuple[tuple[float, float], ...]]:
    """Straight down, then to the side just above the row; twice where it runs over the seam."""
    turn = max(a.y, min(layout.top[row] - layout.band[row] + 0.15, b.y - 0.2))
    of = layout.rows.of[row] if layout.rows.round[row] else 0
    if of and abs(a.x - b.x) > of / 2:
        over = of if a.x < b.x else -of
        # Where the work has widened since, lanes above do not go on beyond the seam.
        begins = a.x + over if layout.rows.of[above] == of else b.x
        return [
            ((a.x, a.y), (a.x, turn), (b.x - over, b.y)),
            ((begins, turn), (b.x, b.y)),
        ]
    if abs(a.x - b.x) < 1e-6:
        return [((a.x, a.y), (b.x, b.y))]
    return [((a.x, a.y), (a.x, turn), (b.x, b.y))]


@dataclass(frozen=True, slots=True)
class Holding:
    """A holding cord along a row of hitches.

    Args:
        strand: of the piece.
        first, last: where it begins and where it goes to: lanes from the middle, and down.
        seen: what is seen of it between its hitches.
    """

    strand: int
    first: tuple[float, float]
    last: tuple[float, float]
    seen: tuple[Part, ...]


def holding(layout: Layout) -> list[Holding]:
    """Holding cords of the rows shown."""
    shown = [s for s in layout.rows.seats if layout.is_shown(s)]
    found = []
    for row in hitch_rows(layout.piece, shown):
        first, last = layout.entry(row[0], 0), layout.exit(row[-1], 0)
        strand = layout.piece.knots[row[0].knot].strands[0]
        a, b = (first.x, first.y), (last.x, last.y)
        # In its sign a hitch has the cord where it lies in front; here it is what shows between.
        over = [
            Lying(line.part.middle + np.array([layout.middle(s), layout.upper(s)]), 1)
            for s in row
            for line in layout.signs[layout.piece.knots[s.knot].spec].lines
        ]
        seen = left_of(Lying(np.array([a, b]), 0), over)
        found.append(Holding(strand, a, b, tuple(seen)))
    return found
