"""Free cord in space: smooth from where a strand leaves one knot to where it enters the next."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, cast

import numpy as np

from cordwright.draw.slack import with_slack
from cordwright.knots.spec import KnotName

if TYPE_CHECKING:
    from cordwright.draw.placed import Ends, Instance
    from cordwright.draw.placed_cell import Points
    from cordwright.piece.model import Piece, Strand

Part = Literal["free", "tail", "start"]

HANDLE = 1.0 / 3.0
"""Length of a curve's handles against the distance that it bridges: that of a straight line."""

PASSING = 0.75
"""How far cord that passes in front of other cord or behind it bulges, in diameters."""

DOWN = np.array([0.0, 0.0, -1.0])


@dataclass(frozen=True, slots=True)
class FreeCord:
    """Cord outside of knots: a chain of cubic Bézier curves.

    Args:
        strand: of the piece.
        stop: index in the strand's course of the knot at its lower end; the course's length for
            what hangs below the last knot.
        part: between knots, below the last or above the first.
        curves: (k, 4, 3) float, mm, control points.
        thick: mm.
        length: mm of cord that the piece counts for it.
    """

    strand: int
    stop: int
    part: Part
    curves: Points
    thick: float
    length: float


@dataclass(frozen=True, slots=True)
class WayPoints:
    """Where free lengths are led between their knots.

    Args:
        inner: (n, 3) float, mm, on the way of what lies round something, by strand and stop.
        begins: (3,) float, mm, where a strand that begins without a knot is held.
        forward: which way what passes something else bulges: +1 to the viewer, -1 away, by strand
            and stop.
    """

    inner: Mapping[tuple[int, int], Points]
    begins: Mapping[int, Points]
    forward: Mapping[tuple[int, int], int]


def free_cords(piece: Piece, knots: Sequence[Instance], points: WayPoints) -> tuple[FreeCord, ...]:
    """Every free length, joined smoothly to where its strand leaves one knot and enters another.

    Args:
        piece: as worked.
        knots: by index, as they are drawn.
        points: where free lengths are led in between.
    """
    found: list[FreeCord] = []
    for strand in piece.strands:
        found.extend(_of_strand(piece, knots, strand, points))
    across = [float(k.origin[0]) for k in knots]
    middle = 0.5 * (min(across) + max(across)) if across else 0.0
    return with_slack(found, middle)


def _of_strand(
    piece: Piece, knots: Sequence[Instance], strand: Strand, points: WayPoints
) -> Iterator[FreeCord]:
    thick = piece.values[f"d:{piece.cords[strand.cord].cord}"]
    stops = [
        (i, s) for i, s in enumerate(strand.course) if s.place < len(piece.knots[s.knot].strands)
    ]
    if not stops:
        yield from _tied_on(piece, knots, strand, thick)
        return
    ends = [knots[s.knot].ends(strand.id) for _, s in stops]
    last = stops[-1]
    yield from _start(piece, strand, ends[0], points, thick)
    for (i, s), a, b in zip(stops[1:], ends, ends[1:], strict=False):
        between = points.inner.get((strand.id, i), np.empty((0, 3)))
        way = np.concatenate([a.leaves[None], between, b.enters[None]])
        curves = smooth(way, a.out, b.into)
        forward = points.forward.get((strand.id, i), 0)
        if forward:
            curves[:, 1:3, 1] -= forward * PASSING * thick
        yield FreeCord(strand.id, i, "free", curves, thick, piece.mm(s.free))
    tail = piece.mm(strand.end.length)
    if tail > 0.0 and not _tucked(piece, strand, last[1].knot):
        hangs = _hanging(ends[-1].leaves, ends[-1].out, tail, up=False)
        yield FreeCord(strand.id, len(strand.course), "tail", hangs, thick, tail)


def _start(
    piece: Piece, strand: Strand, first: Ends, points: WayPoints, thick: float
) -> Iterator[FreeCord]:
    """What is above a strand's first knot."""
    start, stop = piece.mm(strand.start), strand.course[0]
    at, into, up = first.enters, first.into, False
    if strand.id in points.begins:
        at, into, up = points.begins[strand.id], DOWN, True
        way = np.array([at, first.enters])
        curves = smooth(way, DOWN, first.into)
        yield FreeCord(strand.id, 0, "free", curves, thick, piece.mm(stop.free))
    if start > 0.0 and not _tucked(piece, strand, stop.knot):
        hangs = _hanging(at, -into, start, up=up)
        yield FreeCord(strand.id, -1, "start", hangs, thick, start)


def _tied_on(
    piece: Piece, knots: Sequence[Instance], strand: Strand, thick: float
) -> Iterator[FreeCord]:
    """A cord that lark's heads are tied on: straight through all of them, ends hanging."""
    heads = [knots[s.knot] for s in strand.course]
    if not heads:
        return
    half = 0.5 * piece.figures[heads[0].cell.spec].width_d * heads[0].d
    along = np.array([h.origin[0] for h in heads])
    z = float(heads[0].origin[2]) - 0.5 * thick
    left = np.array([along.min() - half, 0.0, z])
    right = np.array([along.max() + half, 0.0, z])
    side = np.array([1.0, 0.0, 0.0])
    length = float(right[0] - left[0])
    yield FreeCord(strand.id, 0, "free", smooth(np.array([left, right]), side, side), thick, length)
    for at, out, mm, part in (
        (left, -side, piece.mm(strand.start), "start"),
        (right, side, piece.mm(strand.end.length), "tail"),
    ):
        if mm > 0.0:
            stop = -1 if part == "start" else len(strand.course)
            hangs = _hanging(at, out, mm, up=False)
            yield FreeCord(strand.id, stop, cast("Part", part), hangs, thick, mm)


def _tucked(piece: Piece, strand: Strand, knot: int) -> bool:
    """A wrap's ends are drawn up under its turns."""
    tied = piece.knots[knot]
    return tied.spec.name is KnotName.GATHERING and tied.strands[0] == strand.id


def _hanging(start: Points, out: Points, length: float, *, up: bool) -> Points:
    """(1, 4, 3) float: an end that leaves a knot in one direction and then hangs straight."""
    down = -DOWN if up else DOWN
    bend = min(0.35 * length, 40.0)
    aside = out - (out @ down) * down
    tip = start + 0.5 * bend * aside + (length - 0.3 * bend * float(np.linalg.norm(aside))) * down
    return np.array([[start, start + 0.5 * bend * out, tip - 0.5 * (length - bend) * down, tip]])


def smooth(way: Points, out: Points, into: Points) -> Points:
    """(n - 1, 4, 3) float: Bézier curves through points, with given directions at both ends.

    Args:
        way: (n, 3) float, mm.
        out: (3,) unit vector at the first point.
        into: (3,) unit vector at the last.
    """
    if len(way) == 2:  # as most are
        a, b = way
        handle = HANDLE * float(np.linalg.norm(b - a))
        return np.array([[a, a + handle * out, b - handle * into, b]])
    steps = np.diff(way, axis=0)
    size = np.linalg.norm(steps, axis=1)
    tangents = np.empty_like(way)
    tangents[0], tangents[-1] = out, into
    ahead = way[2:] - way[:-2]
    tangents[1:-1] = ahead / np.maximum(np.linalg.norm(ahead, axis=1), 1e-12)[:, None]
    reach = HANDLE * size[:, None]
    inner = way[:-1] + reach * tangents[:-1], way[1:] - reach * tangents[1:]
    return np.stack([way[:-1], inner[0], inner[1], way[1:]], axis=1)
