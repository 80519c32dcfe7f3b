"""Whether a body can be put into its net: loops of cord that it has to pass.

Cord bends but does not stretch: a body passes a loop of it if the loop is at least as long as the
body is round. Two loops count. The *mouth* is the uppermost round of knots, from knot to knot by
the shortest way down and up again, which is how far it opens. The *way in* between two neighbouring
arms is closed by their shortest way above, and by the mouth's edge below.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from scipy.sparse import csr_matrix
from scipy.sparse.csgraph import dijkstra

from cordwright.knots.spec import KnotName

if TYPE_CHECKING:
    from cordwright.hang.frame import Ints
    from cordwright.hang.shape import Shape
    from cordwright.piece.model import Knot


@dataclass(frozen=True, slots=True)
class Ways:
    """Loops that what is held must pass.

    Args:
        mouth_mm: length of the net's uppermost round, pulled open.
        between_mm: length of the longest loop between two neighbouring arms; None where there is
            nothing above the mouth.
    """

    mouth_mm: float
    between_mm: float | None


def ways_in(shape: Shape) -> Ways | None:
    """The loops of a piece, from its lengths at rest; None if no round of knots closes it."""
    top = _mouth(shape.piece.knots)
    if len(top) < 2:
        return None
    first = min(k.id for k in top)
    edges = _edges(shape)
    round_ = [k.id for k in top]
    inside = {e: mm for e, mm in edges.items() if e[0] >= first}
    down = _apart(shape, inside, round_)
    wide = [_width(shape, k) for k in top]
    mouth = sum(down[i] + 0.5 * (wide[i] + wide[i - 1]) for i in range(len(top)))
    if not np.isfinite(mouth):
        return None
    return Ways(mouth, _between(shape, edges, first, set(round_)))


def _between(
    shape: Shape, edges: dict[tuple[int, int], float], first: int, mouth: set[int]
) -> float | None:
    """The longest loop between neighbouring arms: what comes together in one knot above it."""
    ends = {a: None for a, b in sorted(edges) if b in mouth and 0 <= a < first}
    arms = sorted(ends, key=lambda a: _slot(shape.piece.knots[a]))
    if len(arms) < 2:
        return None
    over = _apart(shape, {e: mm for e, mm in edges.items() if e[1] < first}, arms)
    under = _apart(shape, {e: mm for e, mm in edges.items() if e[1] >= first}, arms)
    loops = [a + b for a, b in zip(over, under, strict=True) if np.isfinite(a + b)]
    return max(loops) if loops else None


def _slot(knot: Knot) -> float:
    """Its place in the line-up; a knot over the seam counts from its wider side."""
    slots = sorted(knot.slots) or [0]
    if slots[-1] - slots[0] > knot.of / 2:
        slots = [s - knot.of if s > knot.of / 2 else s for s in slots]
    return sum(slots) / len(slots)


def _apart(shape: Shape, edges: dict[tuple[int, int], float], knots: list[int]) -> list[float]:
    """Shortest way in mm along cord from the knot before, round the circle, to each knot."""
    count = len(shape.piece.knots) + 1  # the last one is what the piece hangs on
    rows: Ints = np.array([a % count for a, _ in edges], dtype=np.int64)
    columns: Ints = np.array([b for _, b in edges], dtype=np.int64)
    graph = csr_matrix((np.array(list(edges.values())), (rows, columns)), shape=(count, count))
    far = dijkstra(graph, directed=False, indices=knots)
    return [float(far[i - 1, knots[i]]) for i in range(len(knots))]


def _mouth(knots: tuple[Knot, ...]) -> list[Knot]:
    """The uppermost round of knots that each tie some of the strands, in order round the net."""
    rounds = [
        k
        for k in knots
        if k.shape == "round"
        and len(k.slots) < k.of
        and k.spec.name not in (KnotName.LARKS_HEAD, KnotName.DOUBLE_HALF_HITCH)
    ]
    if not rounds:
        return []
    first = rounds[0]
    same = [k for k in rounds if (k.step, k.row, k.number) == (first.step, first.row, first.number)]
    return sorted(same, key=lambda k: k.column)


def _edges(shape: Shape) -> dict[tuple[int, int], float]:
    """The shortest cord in mm between the middles of knots; -1 is what the piece hangs on."""
    piece = shape.piece
    free = _free(shape)
    edges: dict[tuple[int, int], float] = {}
    for strand in piece.strands:
        for i, (a, b) in enumerate(itertools.pairwise(strand.course), 1):
            high = 0.5 * (piece.mm(piece.knots[a.knot].height + piece.knots[b.knot].height))
            length = free.get((strand.id, i), piece.mm(b.free)) + high
            edge = (a.knot, b.knot)
            edges[edge] = min(length, edges.get(edge, np.inf))
        if strand.course and piece.cords[strand.cord].part == "mount":
            stop = strand.course[0]
            high = 0.5 * piece.mm(piece.knots[stop.knot].height)
            edges[-1, stop.knot] = free.get((strand.id, 0), piece.mm(stop.free)) + high
    return edges


def _free(shape: Shape) -> dict[tuple[int, int], float]:
    """Free cord in mm above each stop, by strand and stop, as the shape has it."""
    spans = shape.settled.frame.spans
    found: dict[tuple[int, int], float] = {}
    for strand, stop, mm in zip(spans.strand, spans.stop, shape.settled.rest, strict=True):
        key = (int(strand), int(stop))
        found[key] = found.get(key, 0.0) + float(mm)
    return found


def _width(shape: Shape, knot: Knot) -> float:
    return shape.piece.figures[knot.spec].width_d * shape.piece.values[f"d:{knot.cord}"]
