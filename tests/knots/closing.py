"""Closing up tangles, so that libraries of knots and links can tell their kind.

A tangle that repeats is bent round into a ring of one or more cells: what winds along it closes
on itself there, and moving cords about without passing them through one another changes nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from cordwright.knots.mesh import State, resampled, turn
from cordwright.knots.tangle import Repeat

if TYPE_CHECKING:
    from cordwright.knots.mesh import Floats
    from cordwright.knots.tangle import Points, Tangle
    from tests.topology.diagram import Curve

FAR = 40.0
"""How far from a knot its ends are joined, in d."""

FINE = 0.08
"""Edges are divided into parts of about this length before they are bent round, in d."""


@dataclass(frozen=True, slots=True)
class Shape:
    """Curves of a tangle's courses, tight or as drawn.

    Args:
        tangle: which courses go on as which.
        curves: (n, 3) float for each course, in d.
        period: in d.
        twist: radians.
    """

    tangle: Tangle
    curves: tuple[Points, ...]
    period: float
    twist: float

    @property
    def along(self) -> Points:
        """(3,) float: unit vector to the next cell."""
        repeat = self.tangle.repeat or Repeat((0.0, 0.0, -1.0), 0.0)
        return np.array(repeat.direction)


def as_drawn(tangle: Tangle) -> Shape:
    """The smooth curves from which tightening begins."""
    repeat = tangle.repeat
    period, twist = (repeat.period, repeat.twist) if repeat else (0.0, 0.0)
    points = [c.points for c in tangle.courses]
    mesh, state = resampled(tangle, points, State(points[0], period, twist), 3)
    curves = [state.x[a:b] for a, b in zip(mesh.start, mesh.start[1:], strict=False)]
    return Shape(tangle, tuple(curves), period, twist)


def followed(shape: Shape, course: int, cells: int) -> Points:
    """(n, 3) float: a cord through so many cells, up to where the next one would begin."""
    parts, cell = [], 0
    following: int | None = course
    while following is not None and cell < cells:
        parts.append(_in_cell(shape, shape.curves[following], cell))
        following, cell = shape.tangle.courses[following].goes_on_as, cell + 1
    if following is not None:
        parts.append(_in_cell(shape, shape.curves[following][:1], cell))
    return np.concatenate(parts)


def _in_cell(shape: Shape, x: Points, cell: int) -> Points:
    moved: Points = turn(x, np.full(len(x), cell * shape.twist))
    return moved + cell * shape.period * shape.along


def workers_joined(shape: Shape, cells: int) -> Curve:
    """Both working cords over so many cells as one curve, joined far above and far below.

    Their ends are led away sideways from the axis first, then up or down.
    """
    a, b = followed(shape, 0, cells), followed(shape, 1, cells)
    down = [a, _led_out(a[-1], -1.0)]
    up = [_led_out(b[-1], -1.0)[::-1], b[::-1], _led_out(b[0], 1.0)]
    return np.concatenate([_led_out(a[0], 1.0)[::-1], *down, *up])


def lead_clearance(shape: Shape, cells: int) -> float:
    """How near the leads of ``workers_joined`` come to the cords that they pass, in d."""
    cords = [followed(shape, i, cells) for i in (0, 1)]
    nearest = np.inf
    for this, other in (cords, cords[::-1]):
        for end, up in ((this[0], 1.0), (this[-1], -1.0)):
            lead = _led_out(end, up)
            for part in (lead[0], lead[1]):
                line = end + np.linspace(0, 1, 400)[:, None] * (part - end)
                gap = np.linalg.norm(line[:, None] - other[None], axis=2).min()
                nearest = min(nearest, float(gap))
    return nearest


def _led_out(end: Points, up: float) -> Points:
    away = end * [1.0, 1.0, 0.0]
    away = away / np.linalg.norm(away)
    aside = end + FAR * away
    return np.array([aside, aside + up * FAR * np.array([0.0, 0.0, 1.0])])


def in_a_ring(shape: Shape, cells: int = 1) -> list[Curve]:
    """So many cells bent round into a ring, each closed cord a curve; the ring's axis is the last.

    With its axis the ring stands for the tangle: without, it could be taken out of the ring's
    round. Open courses, whose ends stand out above and below a row, are joined outside of it.
    """
    wide = 2.0 + max(float(np.linalg.norm(c[:, :2], axis=1).max()) for c in shape.curves)
    wide = max(wide, 2.0 + max(float(np.abs(_ways(shape, c)[1]).max()) for c in shape.curves))
    whole = cells * shape.period
    done: set[tuple[int, int]] = set()
    curves = []
    for start in [(i, k) for k in range(cells) for i in range(len(shape.curves))]:
        parts, at = [], start
        while at not in done:
            done.add(at)
            course, cell = at
            c = shape.tangle.courses[course]
            edge = _in_cell(shape, shape.curves[course], cell)
            if c.path == "periodic" and c.goes_on_as is not None:
                nxt = _in_cell(shape, shape.curves[c.goes_on_as][:1], cell + 1)
                edge = np.concatenate([edge, nxt])
                at = (c.goes_on_as, (cell + 1) % cells)
            fine = _divided(edge)
            if c.path == "open":
                fine = np.concatenate([fine, _round_outside(fine)])
            fine = _bent(shape, fine, whole, wide)
            parts.append(fine[:-1] if c.path == "periodic" else fine)
        if parts:
            curves.append(np.concatenate(parts))
    high = 2 * FAR
    axis = np.array([[0, 0, -high], [0, 0, high], [2 * high, 0, high], [2 * high, 0, -high]])
    return [*curves, axis]


def _divided(x: Points) -> Points:
    edges = len(x) - 1
    parts = int(np.ceil(np.linalg.norm(np.diff(x, axis=0), axis=1).mean() / FINE))
    at = np.linspace(0, edges, parts * edges + 1)
    return np.stack([np.interp(at, np.arange(len(x)), x[:, k]) for k in range(3)], axis=1)


def _ways(shape: Shape, x: Points) -> tuple[Floats, Floats]:
    """How far points lie along the repeat and how far aside: up in a row, right in a sinnet.

    In a row that slants, hanging cord stays in its cell: the two ways are not square.
    """
    along = shape.along
    if along[0]:
        way = x[:, 0] / along[0]
        return way, x[:, 2] - way * along[2]
    return x[:, 2] / along[2], x[:, 0]


def _bent(shape: Shape, x: Points, whole: float, wide: float) -> Points:
    """Bent round the y axis; the twist is taken out evenly first, so that the ring closes."""
    way, _ = _ways(shape, x)
    x = turn(x, -way / shape.period * shape.twist)
    way, aside = _ways(shape, x)
    angle, radius = 2 * np.pi * way / whole, wide + aside
    return np.stack([radius * np.cos(angle), radius * np.sin(angle), x[:, 1]], axis=1)


def _round_outside(x: Points) -> Points:
    """From the end of an open course back to its start, far behind the row."""
    back: Points = np.linspace(x[-1], x[0], 60) + np.array([0.0, FAR, 0.0])
    return back


def alone(x: Points) -> Curve:
    """An open cord along z as one closed curve, joined far aside."""
    top, bottom = _beyond(x[1], x[0]), _beyond(x[-2], x[-1])
    aside = np.array([4 * FAR, 0.0, 0.0])
    return _bends(np.array([*x, bottom, bottom + aside, top + aside, top]))


def ends_joined(first: Points, second: Points) -> Curve:
    """Two open cords as one closed curve: end of the first to start of the second and so on.

    The ends are joined by straight lines between points far out on the lines of their last edges.
    """
    led = [[_beyond(x[1], x[0]), *x, _beyond(x[-2], x[-1])] for x in (first, second)]
    return np.concatenate([_bends(np.array(x)) for x in led])


def _bends(x: Points) -> Points:
    """Without the points on straight parts: whether edges in one line cross is not decided."""
    kept = [x[0]]
    for point, following in pairwise(x[1:]):
        a, b = point - kept[-1], following - point
        if np.linalg.norm(np.cross(a, b)) > 1e-6 * np.linalg.norm(a) * np.linalg.norm(b):
            kept.append(point)
    return np.array([*kept, x[-1]])


def _beyond(inner: Points, end: Points) -> Points:
    way = end - inner
    out: Points = end + FAR * way / np.linalg.norm(way)
    return out
