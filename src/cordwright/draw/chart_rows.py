"""The chart's rows: which knots are tied at the same height, in which lanes, and what repeats.

A row holds what can be tied once the rows above are done; a row of hitches is one whole. Lanes are
the slots of the line-up, seen from its middle. In the round the work is cut open at the seam and
unrolled; what runs over the seam goes on at the other side.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from cordwright.knots.places import exit_order
from cordwright.knots.spec import KnotName
from cordwright.piece.lineup import in_order

if TYPE_CHECKING:
    from cordwright.piece.model import Knot, Piece

MOST_IN_A_REPEAT = 24
"""Rows of a run that is looked for at most."""


@dataclass(frozen=True, slots=True)
class Seat:
    """A knot in the chart.

    Args:
        knot: its index in the piece.
        row: in which row it stands, from 0 (the mount).
        lanes: of its places, where strands come in: lanes from the middle of the line-up.
        exits: of its places, where strands go out.
        along: for a hitch, its number within its row of hitches, else 0.
    """

    knot: int
    row: int
    lanes: tuple[float, ...]
    exits: tuple[float, ...]
    along: int


@dataclass(frozen=True, slots=True)
class Block:
    """Rows that are shown, once or as one of several repeats.

    Args:
        first: number of its first row.
        rows: how many rows are shown.
        times: how often they follow each other.
    """

    first: int
    rows: int
    times: int


@dataclass(frozen=True, slots=True)
class Rows:
    """All knots in their rows.

    Args:
        seats: by knot.
        count: of rows, the mount's among them.
        blocks: from top to bottom.
        of: slots of the line-up at each row.
        round: whether each row is worked in the round.
    """

    seats: tuple[Seat, ...]
    count: int
    blocks: tuple[Block, ...]
    of: tuple[int, ...]
    round: tuple[bool, ...]

    def shown(self, row: int) -> int:
        """The row that stands in the chart for a row: itself, or its like in the first repeat."""
        for b in self.blocks:
            if b.first <= row < b.first + b.rows * b.times:
                return b.first + (row - b.first) % b.rows
        return row


def rows_of(piece: Piece, styles: Sequence[int]) -> Rows:
    """The rows of a piece.

    Args:
        piece: as worked.
        styles: how each strand is drawn; rows are alike only if their colours are.
    """
    level = [-1] * len(piece.strands)
    mounted = _mounted(piece)
    lane: dict[int, float] = {}
    seats: list[Seat] = []
    for run in _runs(piece):
        strands = {s for k in run for s in k.strands}
        row = 0
        if run[0].spec.name is not KnotName.LARKS_HEAD:
            row = 1 + max(max(level[s] for s in strands), 0)
        seated = _seated(run, row, mounted, lane)
        for seat in seated:
            lane.update(zip(piece.knots[seat.knot].strands, seat.exits, strict=True))
        seats += seated
        for s in strands:
            level[s] = row
    count = 1 + max((s.row for s in seats), default=0)
    of, is_round = [0] * count, [False] * count
    for seat in seats:
        knot = piece.knots[seat.knot]
        of[seat.row] = max(of[seat.row], knot.of)
        is_round[seat.row] |= knot.shape == "round"
    of[0] = mounted
    blocks = _blocks(_tokens(piece, seats, count, styles))
    ordered = tuple(sorted(seats, key=lambda s: s.knot))
    return Rows(ordered, count, blocks, tuple(of), tuple(is_round))


def _runs(piece: Piece) -> list[list[Knot]]:
    """Knots one by one, and hitches of one row together."""
    runs: list[list[Knot]] = []
    for k in piece.knots:
        last = runs[-1][-1] if runs else None
        if (
            last is not None
            and k.spec.name is last.spec.name is KnotName.DOUBLE_HALF_HITCH
            and k.strands[0] == last.strands[0]
            and k.number == last.number + 1
            and k.step == last.step
        ):
            runs[-1].append(k)
        else:
            runs.append([k])
    return runs


def _mounted(piece: Piece) -> int:
    """Strands of the line-up below the mount."""
    below = (k.of for k in piece.knots if k.spec.name is not KnotName.LARKS_HEAD)
    return next(below, sum(len(k.strands) for k in piece.knots))


def _seated(run: list[Knot], row: int, mounted: int, lane: Mapping[int, float]) -> list[Seat]:
    first = run[0]
    middle = 0.5 * (first.of - 1)
    if first.spec.name is KnotName.LARKS_HEAD:
        # Mounted one after the other: the two strands of each stand in the next two slots.
        left = first.of - 0.5 * (mounted - 1)
        mounts = (left, left + 1.0)
        return [Seat(first.id, row, mounts, mounts, 0)]
    if first.spec.name is KnotName.DOUBLE_HALF_HITCH:
        return _hitches(run, row, middle)
    knot = first
    places = len(knot.strands)
    held = list(in_order(knot.slots, knot.of, knot.shape)) if knot.slots else [0]
    held = _unrolled(held, knot.of)
    lanes = [float(s) - middle for s in held]
    laid_in = places - len(lanes)
    if laid_in:
        # A wrap of its own cord takes no slot.
        ends = (lanes[0], *lanes)
        return [Seat(knot.id, row, ends, ends, 0)]
    if knot.spec.name is KnotName.GATHERING:
        wraps = min(lanes, key=lambda x: abs(x - lane.get(knot.strands[0], lanes[-1])))
        lanes = [wraps, *(x for x in lanes if x != wraps)]
    order = exit_order(knot.spec)
    return [Seat(knot.id, row, tuple(lanes), tuple(lanes[i] for i in order), 0)]


def _hitches(run: list[Knot], row: int, middle: float) -> list[Seat]:
    """A row of hitches: the holding strand crosses it, the others move up by one slot."""
    first = run[0]
    holds = len(first.slots) == 2
    slots = ([first.slots[0]] if holds else []) + [k.slots[-1] for k in run]
    slots = _unrolled(slots, first.of)
    lanes = [float(s) - middle for s in slots]
    seats = []
    for i, k in enumerate(run):
        at = lanes[i + 1] if holds else lanes[i]
        to = lanes[i] if holds else at
        seats.append(Seat(k.id, row, (lanes[0], at), (lanes[-1], to), i))
    return seats


def _unrolled(slots: list[int], of: int) -> list[int]:
    """Slots that go on beyond the seam instead of jumping back over it."""
    out = slots[:1]
    for s in slots[1:]:
        near = min((s - of, s, s + of), key=lambda t: abs(t - out[-1]))
        out.append(near if abs(s - out[-1]) > of / 2 else s)
    shift = of if min(out) < 0 else 0
    return [s + shift for s in out]


def _tokens(
    piece: Piece, seats: Sequence[Seat], count: int, styles: Sequence[int]
) -> list[tuple[object, ...]]:
    """What each row looks like."""
    rows: list[list[tuple[object, ...]]] = [[] for _ in range(count)]
    free = free_above(piece)
    for seat in seats:
        knot = piece.knots[seat.knot]
        colours = tuple(styles[s] for s in knot.strands)
        rows[seat.row].append((knot.spec, seat.lanes, seat.along, colours, free[knot.id]))
    return [tuple(sorted(r, key=repr)) for r in rows]


def free_above(piece: Piece) -> list[tuple[int, ...]]:
    """Whole mm of free cord that the plan asks for above each knot, the distinct ones."""
    found: list[set[int]] = [set() for _ in piece.knots]
    for strand in piece.strands:
        for stop in strand.course:
            if stop.asked:
                found[stop.knot].add(round(piece.mm(stop.free)))
    return [tuple(sorted(mm for mm in each if mm > 0)) for each in found]


def _blocks(tokens: Sequence[tuple[object, ...]]) -> tuple[Block, ...]:
    """Rows from top to bottom, runs that follow each other put together where that saves most."""
    blocks: list[Block] = []
    i = 0
    while i < len(tokens):
        best = Block(i, 1, 1)
        for p in range(1, min(MOST_IN_A_REPEAT, (len(tokens) - i) // 2) + 1):
            k = 1
            while tokens[i : i + p] == tokens[i + k * p : i + (k + 1) * p]:
                k += 1
            if p * (k - 1) > best.rows * (best.times - 1) and p * (k - 1) > 1:
                best = Block(i, p, k)
        blocks.append(best)
        i += best.rows * best.times
    return tuple(blocks)
