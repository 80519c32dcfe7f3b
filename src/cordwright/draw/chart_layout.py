"""Where everything of the chart stands: rows down the page, lanes across it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.chart_rows import Rows, Seat, free_above
from cordwright.draw.chart_signs import DOWN, HITCH, Sign
from cordwright.knots.spec import KnotName, KnotSpec

if TYPE_CHECKING:
    from cordwright.piece.model import Knot, Piece

BAND = 0.7
"""Least space between rows, lanes."""

LABEL = 0.95
"""Space for a free length that is written between rows, lanes."""

SLANTING = 0.22
"""Space for each lane that a strand goes to the side between two rows, lanes."""

MOST_SLANTING = 4.0


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a strand enters or leaves a knot: lanes from the middle, and lanes down."""

    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Layout:
    """Where rows and knots stand.

    Args:
        piece: as worked.
        rows: its rows.
        signs: by knot.
        top: of each row that is shown, lanes down; of others that of their like.
        band: space above each row, lanes.
        height: of each row.
        free: mm of free cord asked for above each knot.
    """

    piece: Piece
    rows: Rows
    signs: Mapping[KnotSpec, Sign]
    top: tuple[float, ...]
    band: tuple[float, ...]
    height: tuple[float, ...]
    free: tuple[tuple[int, ...], ...]

    @property
    def bottom(self) -> float:
        """Lower edge of the last row."""
        return max((t + h for t, h in zip(self.top, self.height, strict=True)), default=0.0)

    @property
    def half_width(self) -> float:
        """Lanes to either side of the middle that knots and strands take."""
        reach = [abs(x) for s in self.rows.seats for x in (*s.lanes, *s.exits)]
        return max(reach, default=0.0) + 1.0

    def is_shown(self, seat: Seat) -> bool:
        """Whether a knot stands in the chart itself, not only its like."""
        return self.rows.shown(seat.row) == seat.row

    def middle(self, seat: Seat) -> float:
        """Lane of a knot's middle."""
        knot = self.piece.knots[seat.knot]
        if knot.spec.name is KnotName.DOUBLE_HALF_HITCH:
            return 0.5 * (seat.lanes[1] + seat.exits[1])
        return 0.5 * (min(seat.lanes) + max(seat.lanes))

    def upper(self, seat: Seat) -> float:
        """Upper edge of a knot, lanes down."""
        knot = self.piece.knots[seat.knot]
        return self.top[self.rows.shown(seat.row)] + seat.along * slope(knot.spec)

    def entry(self, seat: Seat, place: int) -> Spot:
        """Where the strand of a place comes in."""
        return self._port(seat, place, leaving=False)

    def exit(self, seat: Seat, place: int) -> Spot:
        """Where it goes out."""
        return self._port(seat, place, leaving=True)

    def _port(self, seat: Seat, place: int, *, leaving: bool) -> Spot:
        knot = self.piece.knots[seat.knot]
        y = self.upper(seat)
        high = self.signs[knot.spec].height
        if knot.spec.name is KnotName.DOUBLE_HALF_HITCH and place == 0:
            side = 0.5 if knot.spec.hand == "right" else -0.5
            middle = self.middle(seat)
            down = 0.5 * slope(knot.spec)
            ahead = side if leaving else -side
            return Spot(middle + ahead, y + 0.5 * high + (down if leaving else -down))
        lanes = seat.exits if leaving else seat.lanes
        x = lanes[min(place, len(lanes) - 1)]
        return Spot(self.middle(seat) if knot.spec.name is KnotName.DOUBLE_HALF_HITCH else x,
                    y + (high if leaving else 0.0))  # fmt: skip


def slope(spec: KnotSpec) -> float:
    """Lanes that a row of hitches goes down from hitch to hitch."""
    if spec.name is not KnotName.DOUBLE_HALF_HITCH:
        return 0.0
    return float(np.tan(np.radians(spec.slant_deg))) * DOWN / HITCH


def layout(piece: Piece, rows: Rows, signs: Mapping[KnotSpec, Sign]) -> Layout:
    """Where rows and knots stand."""
    height = [1.0] * rows.count
    band = [BAND] * rows.count
    free = tuple(free_above(piece))
    for seat in rows.seats:
        knot = piece.knots[seat.knot]
        needs = signs[knot.spec].height + seat.along * slope(knot.spec)
        height[seat.row] = max(height[seat.row], needs)
        if free[knot.id]:
            band[seat.row] = max(band[seat.row], BAND + LABEL)
    for row, way in sideways(piece, rows).items():
        band[row] = max(band[row], BAND + min(MOST_SLANTING, SLANTING * way))
    top, y = [0.0] * rows.count, 0.0
    for row in range(rows.count):
        like = rows.shown(row)
        if like != row:
            top[row] = top[like]
            continue
        y += band[row]
        top[row] = y
        y += height[row]
    return Layout(piece, rows, signs, tuple(top), tuple(band), tuple(height), free)


def sideways(piece: Piece, rows: Rows) -> dict[int, float]:
    """Lanes that strands go to the side at most on their way to each row."""
    found: dict[int, float] = {}
    for strand in piece.strands:
        before: tuple[Seat, int] | None = None
        for stop in strand.course:
            knot = piece.knots[stop.knot]
            if stop.place >= len(knot.strands):
                continue
            seat = rows.seats[stop.knot]
            if before is not None and before[0].row != seat.row:
                a = before[0].exits[min(before[1], len(before[0].exits) - 1)]
                b = seat.lanes[min(stop.place, len(seat.lanes) - 1)]
                way = abs(a - b)
                if rows.round[seat.row] and rows.of[seat.row] == rows.of[before[0].row]:
                    way = min(way, abs(rows.of[seat.row] - way))
                found[seat.row] = max(found.get(seat.row, 0.0), way)
            before = (seat, stop.place)
    return found


def hitch_rows(piece: Piece, seats: Sequence[Seat]) -> list[list[Seat]]:
    """Hitches of one row together, in the order in which they are tied."""
    rows: list[list[Seat]] = []
    before: Knot | None = None
    for seat in seats:
        knot = piece.knots[seat.knot]
        if knot.spec.name is not KnotName.DOUBLE_HALF_HITCH:
            before = None
            continue
        if before is None or seat.along == 0 or before.strands[0] != knot.strands[0]:
            rows.append([])
        rows[-1].append(seat)
        before = knot
    return rows
