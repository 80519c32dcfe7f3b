"""Every knot and every free length of a piece in space, ready to be drawn.

A knot is an instance of its tight curves, put where its bar hangs, facing as it faces, as large as
its cord is thick. Free cord runs from where a strand leaves one knot to where it comes into the
next, through the points at which it lies round what the piece holds. Lengths in mm; x to the right,
y away from the viewer, z up.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.placed_cell import Cell, Way, cell
from cordwright.draw.placed_cords import FreeCord, WayPoints, free_cords
from cordwright.hang.mounts import lies_level, ring_radius
from cordwright.knots.spec import KnotName

if TYPE_CHECKING:
    from collections.abc import Sequence

    from cordwright.draw.placed_cell import CurvesSource, Points
    from cordwright.hang.frame import Frame
    from cordwright.hang.shape import Held
    from cordwright.piece.model import Piece, Strand


@dataclass(frozen=True, slots=True)
class Instance:
    """One knot where it hangs.

    Args:
        knot: its index in the piece.
        cell: its curves.
        origin: (3,) float, mm, middle of its upper edge.
        axes: (3, 3) float, no unit; columns are its right, away and up as unit vectors, turned
            with the twist of its sinnet.
        d: mm, diameter of its working cord.
        strands: of the piece, by place.
    """

    knot: int
    cell: Cell
    origin: Points
    axes: Points
    d: float
    strands: tuple[int, ...]

    def way(self, strand: int) -> Points:
        """(n, 3) float: a strand's way through its cell, d."""
        return self.cell.ways[self.strands.index(strand)].points

    def ends(self, strand: int) -> Ends:
        """Where a strand comes in and goes out."""
        way = self.way(strand)
        e = self.at(way[[0, 1, -2, -1]])
        into, out = unit(e[1] - e[0]), unit(e[3] - e[2])
        return Ends(e[0], into, e[3], out)

    def at(self, points: Points) -> Points:
        """(n, 3) float: where points of its cell (in d) are, mm."""
        where: Points = self.origin + self.d * points @ self.axes.T
        return where


@dataclass(frozen=True, slots=True)
class Ends:
    """Where a strand comes into a knot and goes out of it.

    Args:
        enters: (3,) float, mm.
        into: (3,) unit vector along the strand there.
        leaves: (3,) float, mm.
        out: (3,) unit vector.
    """

    enters: Points
    into: Points
    leaves: Points
    out: Points


@dataclass(frozen=True, slots=True)
class Placed:
    """A piece in space.

    Args:
        piece: as worked.
        knots: every knot, in the piece's order.
        cords: every free length.
        held: what it holds, if anything.
        base: (3,) float, mm, middle of the held thing's base.
        way_points: where free lengths are led between their knots.
        turn: radians by which it was turned about the vertical since it was hung; the side that
            was in front goes to the right.
    """

    piece: Piece
    knots: tuple[Instance, ...]
    cords: tuple[FreeCord, ...]
    way_points: WayPoints
    held: Held | None = None
    base: Points | None = None
    turn: float = 0.0


def placed(
    piece: Piece,
    frame: Frame,
    x: Points,
    source: CurvesSource,
    *,
    held: Held | None = None,
    vessel_node: int = -1,
) -> Placed:
    """A piece in space.

    Args:
        piece: as worked.
        frame: its nodes, bars and spans.
        x: (n, 3) float, mm, where the nodes are.
        source: of tight curves.
        held: what it holds.
        vessel_node: node at the middle of its base.
    """
    knots = on_the_ring(piece, _instances(piece, frame, x, source))
    knots = with_bundles_in_order(piece, knots)
    points = WayPoints(_inner(frame, x), _begins(frame, x), passing(piece))
    cords = free_cords(piece, knots, points)
    base = x[vessel_node] if held is not None else None
    return Placed(piece, knots, cords, points, held, base)


def _instances(piece: Piece, frame: Frame, x: Points, source: CurvesSource) -> tuple[Instance, ...]:
    cells = {spec: cell(figures, source) for spec, figures in piece.figures.items()}
    bars = frame.bars
    top, bottom = x[bars.top], x[bars.bottom]
    up = unit(top - bottom)
    away = unit(bars.facing - (bars.facing * up).sum(axis=1)[:, None] * up)
    right = np.cross(away, up)
    found = []
    for i, k in enumerate(bars.knot):
        knot = piece.knots[int(k)]
        shape = cells[knot.spec]
        axes = np.stack([right[i], away[i], up[i]], axis=1)
        if shape.twist:
            axes = axes @ about_z(shape.twist * knot.number)
        d = piece.values[f"d:{knot.cord}"]
        found.append(Instance(knot.id, shape, top[i], axes, d, knot.strands))
    return tuple(sorted(found, key=lambda n: n.knot))


def on_the_ring(piece: Piece, knots: Sequence[Instance]) -> tuple[Instance, ...]:
    """The same knots; lark's heads on a ring point away from its middle, and take its curve."""
    radius = ring_radius(piece)
    if not radius:
        return tuple(knots)
    turned = _bent if lies_level(piece) else _radial
    return tuple(turned(k, radius) if k.cell.spec.name is KnotName.LARKS_HEAD else k for k in knots)


def _radial(head: Instance, radius: float) -> Instance:
    across, height = float(head.origin[0]), float(head.origin[2])
    angle = float(np.arctan2(across, radius - height))
    c, s = np.cos(angle), np.sin(angle)
    lean = np.array([[c, 0.0, -s], [0.0, 1.0, 0.0], [s, 0.0, c]])
    on = head.cell.ways[-1]
    r, half = radius / head.d, 0.5 * head.cell.spec.over_d
    along = np.linspace(on.points[:, 0].min(), on.points[:, 0].max(), len(on.points)) / r
    arc = np.stack([r * np.sin(along), 0 * along, r * (1.0 - np.cos(along)) - half], axis=1)
    bent = replace(head.cell, ways=(*head.cell.ways[:-1], Way(on.place, arc)))
    # The ring's wire has its axis half a wire below what hangs highest on it.
    wire = half * head.d
    middle = np.array([0.0, head.origin[1], radius - wire])
    origin = middle + (radius - wire) * np.array([s, 0.0, -c])
    return replace(head, cell=bent, origin=origin, axes=lean @ head.axes)


def _bent(head: Instance, radius: float) -> Instance:
    """A lark's head on a ring that lies level: its bit of wire is bent away from the viewer."""
    on = head.cell.ways[-1]
    r, half = radius / head.d, 0.5 * head.cell.spec.over_d
    along = np.linspace(on.points[:, 0].min(), on.points[:, 0].max(), len(on.points)) / r
    arc = np.stack([r * np.sin(along), r * (1.0 - np.cos(along)), 0 * along - half], axis=1)
    bent = replace(head.cell, ways=(*head.cell.ways[:-1], Way(on.place, arc)))
    return replace(head, cell=bent)


def about_z(angle: float) -> Points:
    """(3, 3) float: the turn by an angle in radians about the z axis."""
    c, s = np.cos(angle), np.sin(angle)
    return np.array([[c, -s, 0.0], [s, c, 0.0], [0.0, 0.0, 1.0]])


def unit(v: Points) -> Points:
    """Vectors of length 1 along the last axis."""
    out: Points = v / np.maximum(np.linalg.norm(v, axis=-1, keepdims=True), 1e-12)
    return out


def _inner(frame: Frame, x: Points) -> dict[tuple[int, int], Points]:
    """Where spans that are cut into parts run between their ends."""
    spans = frame.spans
    lower = spans.b.at(x)
    parts: dict[tuple[int, int], list[Points]] = {}
    for i, (strand, stop) in enumerate(zip(spans.strand, spans.stop, strict=True)):
        parts.setdefault((int(strand), int(stop)), []).append(lower[i])
    return {key: np.array(p[:-1]) for key, p in parts.items() if len(p) > 1}


def _begins(frame: Frame, x: Points) -> dict[int, Points]:
    """Where strands that are held at the top without a knot begin, by strand."""
    spans = frame.spans
    plain = (spans.a.top == spans.a.bottom) & (spans.stop == 0)
    upper = spans.a.at(x)
    rows = np.flatnonzero(plain)
    return {int(spans.strand[i]): upper[i] for i in rows}


def passing(piece: Piece) -> dict[tuple[int, int], int]:
    """Which free lengths pass in front of others (+1) or behind them (-1)."""
    found: dict[tuple[int, int], int] = {}
    for each in piece.passes:
        depth = piece.mm(each.depth)
        for strands, forward in ((each.front, 1), (each.behind, -1)):
            for s in strands:
                found[(s, _after(piece, piece.strands[s], depth))] = forward
    return found


def _after(piece: Piece, strand: Strand, depth: float) -> int:
    """Index of the strand's first stop that is tied below a depth."""
    for i, stop in enumerate(strand.course):
        if piece.mm(piece.knots[stop.knot].top) >= depth - 1e-6:
            return i
    return len(strand.course)


def with_bundles_in_order(piece: Piece, knots: Sequence[Instance]) -> tuple[Instance, ...]:
    """The same knots; strands come into a wrapped bundle beside those that they hang beside.

    In a tight bundle every filler runs straight and like any other, so which one takes which way
    is free.
    """
    return tuple(
        _in_order(piece, knots, k) if k.cell.spec.name is KnotName.GATHERING else k for k in knots
    )


def _in_order(piece: Piece, knots: Sequence[Instance], at: Instance) -> Instance:
    strands = at.strands[1:]
    ways = at.cell.ways[1:]
    seats = np.array([w.points[0, :2] for w in ways])
    come = np.array([_comes_from(piece, knots, at, s) for s in strands])
    by_seat = np.lexsort((seats[:, 1], np.round(seats[:, 0], 1)))
    by_strand = np.lexsort((come[:, 1], np.round(come[:, 0], 1)))
    seated = list(strands)
    for seat, strand in zip(by_seat, by_strand, strict=True):
        seated[int(seat)] = strands[int(strand)]
    return Instance(at.knot, at.cell, at.origin, at.axes, at.d, (at.strands[0], *seated))


def _comes_from(piece: Piece, knots: Sequence[Instance], at: Instance, strand: int) -> Points:
    """(2,) float: right and away of where a strand was before, from the bundle's middle, d."""
    course = piece.strands[strand].course
    i = next(i for i, s in enumerate(course) if s.knot == at.knot)
    if i == 0:
        return np.zeros(2)
    before = knots[course[i - 1].knot]
    leaves = before.at(before.way(strand)[-1:])[0]
    local: Points = (leaves - at.origin) @ at.axes[:, :2] / at.d
    return local
