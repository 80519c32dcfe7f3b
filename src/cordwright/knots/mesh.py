"""Curves as chains of short straight edges, with the images that repetition makes of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import CubicSpline

if TYPE_CHECKING:
    from cordwright.knots.tangle import Points, Tangle

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class State:
    """Where everything is.

    Args:
        x: (n, 3) float, vertex positions in d.
        period: in d; 0 if the tangle does not repeat.
        twist: radians to the next cell.
    """

    x: Points
    period: float
    twist: float


@dataclass(frozen=True, slots=True)
class Mesh:
    """What does not change while a tangle is tightened on one mesh.

    n vertices, m edges, t corners (two edges that follow one another).

    Args:
        tangle: the tangle that is meshed.
        start: (courses + 1,) int, vertices of course s are ``start[s]:start[s + 1]``.
        edge: (m, 2) int, vertices at the ends of each edge.
        edge_image: (m,) int, cell in which the edge's second end lies (0 or 1).
        course: (m,) int, course of each edge.
        corner: (t, 2) int, edges that meet; the second in the cell ``edge_image`` of the first.
        free: (n, 3) bool, coordinates that may move.
        cycle: (m,) int, which chain of courses, followed through the cells, the edge is on.
        rank: (m,) int, its course's rank in that chain.
        cycle_size: (m,) int, courses in that chain.
        closed: (m,) bool, whether its chain closes on itself within a cell.
    """

    tangle: Tangle
    start: Ints
    edge: Ints
    edge_image: Ints
    course: Ints
    corner: Ints
    free: NDArray[np.bool_]
    cycle: Ints
    rank: Ints
    cycle_size: Ints
    closed: NDArray[np.bool_]

    @property
    def diameter(self) -> Floats:
        """(m,) float: tube diameter at each edge in d."""
        return np.array([c.diameter for c in self.tangle.courses])[self.course]

    @property
    def rigid(self) -> NDArray[np.bool_]:
        """(m,) bool: edges of rigid things."""
        return np.array([c.fixed for c in self.tangle.courses])[self.course]

    @property
    def tension(self) -> Floats:
        """(m,) float: pull in each edge; 0 for rigid things."""
        pulls = [0.0 if c.fixed else c.tension for c in self.tangle.courses]
        return np.array(pulls)[self.course]


def turn(x: Points, angle: NDArray[np.floating]) -> Points:
    """(n, 3) float: each point turned about the z axis by its angle (radians)."""
    c, s = np.cos(angle), np.sin(angle)
    return np.stack([c * x[:, 0] - s * x[:, 1], s * x[:, 0] + c * x[:, 1], x[:, 2]], axis=1)


def image(mesh: Mesh, state: State, x: Points, cell: Ints) -> Points:
    """(n, 3) float: the points as they lie in the given cells."""
    repeat = mesh.tangle.repeat
    if repeat is None:
        return x
    out = x if state.twist == 0.0 else turn(x, cell * state.twist)
    along = (cell * state.period)[:, None] * np.array(repeat.direction)
    moved: Points = np.add(out, along)
    return moved


def edge_ends(mesh: Mesh, state: State) -> tuple[Points, Points]:
    """((m, 3), (m, 3)) float: both ends of every edge of the first cell."""
    a = state.x[mesh.edge[:, 0]]
    b = image(mesh, state, state.x[mesh.edge[:, 1]], mesh.edge_image)
    return a, b


def edge_lengths(mesh: Mesh, state: State) -> Floats:
    """(m,) float in d."""
    a, b = edge_ends(mesh, state)
    lengths: Floats = np.linalg.norm(b - a, axis=1)
    return lengths


def course_lengths(mesh: Mesh, state: State) -> Floats:
    """(courses,) float: length of each course within one cell, in d."""
    count = len(mesh.tangle.courses)
    return np.bincount(mesh.course, edge_lengths(mesh, state), minlength=count).astype(np.float64)


def build(tangle: Tangle, curves: list[Points], state: State) -> tuple[Mesh, State]:
    """Mesh over given vertex positions per course (the curves replace the way points)."""
    counts = np.array([len(c) for c in curves])
    start = np.concatenate([[0], np.cumsum(counts)]).astype(np.int64)
    edges: list[tuple[int, int, int, int]] = []
    free = np.ones((start[-1], 3), dtype=bool)
    first_edge: list[int] = []
    for s, c in enumerate(tangle.courses):
        a, b = int(start[s]), int(start[s + 1])
        first_edge.append(len(edges))
        edges += [(i, i + 1, 0, s) for i in range(a, b - 1)]
        if c.path == "closed":
            edges.append((b - 1, a, 0, s))
        elif c.path == "periodic" and c.goes_on_as is not None:
            edges.append((b - 1, int(start[c.goes_on_as]), 1, s))
        if c.fixed:
            free[a:b] = False
        elif c.path == "open":
            free[[a, b - 1]] = ~np.array(c.hold)
    first_edge.append(len(edges))
    corners = _corners(tangle, first_edge)
    table = np.array(edges, dtype=np.int64)
    cycle, rank, size = _chains(tangle)
    course = table[:, 3]
    mesh = Mesh(
        tangle=tangle,
        start=start,
        edge=table[:, :2],
        edge_image=table[:, 2],
        course=course,
        corner=corners,
        free=free,
        cycle=cycle[course],
        rank=rank[course],
        cycle_size=size[course],
        closed=np.array([c.path == "closed" for c in tangle.courses])[course],
    )
    return mesh, State(np.concatenate(curves), state.period, state.twist)


def _corners(tangle: Tangle, first_edge: list[int]) -> Ints:
    corners: list[tuple[int, int]] = []
    for s, c in enumerate(tangle.courses):
        if c.fixed:
            continue
        a, b = first_edge[s], first_edge[s + 1]
        corners += [(e, e + 1) for e in range(a, b - 1)]
        if c.path == "closed":
            corners.append((b - 1, a))
        elif c.path == "periodic" and c.goes_on_as is not None:
            corners.append((b - 1, first_edge[c.goes_on_as]))
    return np.array(corners, dtype=np.int64).reshape(-1, 2)


def _chains(tangle: Tangle) -> tuple[Ints, Ints, Ints]:
    """Per course: which chain it is on, its rank there, how many courses the chain has."""
    n = len(tangle.courses)
    cycle, rank, size = np.full(n, -1), np.zeros(n, np.int64), np.ones(n, np.int64)
    for s in range(n):
        if cycle[s] >= 0:
            continue
        members = [s]
        nxt = tangle.courses[s].goes_on_as
        while nxt is not None and nxt != s and tangle.courses[s].path == "periodic":
            members.append(nxt)
            nxt = tangle.courses[nxt].goes_on_as
        for r, m in enumerate(members):
            cycle[m], rank[m], size[m] = s, r, len(members)
    return cycle.astype(np.int64), rank, size


def resampled(
    tangle: Tangle, curves: list[Points], state: State, per_d: float
) -> tuple[Mesh, State]:
    """Mesh with about ``per_d`` vertices per diameter of each cord, evenly spaced along it.

    A cubic spline is laid through the given curves, carried on into the neighbouring cells.
    """
    fine = [_respaced(tangle, curves, state, s, per_d) for s in range(len(curves))]
    return build(tangle, fine, state)


def _respaced(tangle: Tangle, curves: list[Points], state: State, s: int, per_d: float) -> Points:
    c, pts = tangle.courses[s], curves[s]
    if c.path == "open":
        u, spline = _spline(pts)
        lo, hi = u[0], u[-1]
    elif c.path == "closed":
        pad = min(4, len(pts))
        u, spline = _spline(np.concatenate([pts[-pad:], pts, pts[: pad + 1]]))
        lo, hi = u[pad], u[pad + len(pts)]
    else:
        before, after = _neighbours(tangle, curves, state, s)
        u, spline = _spline(np.concatenate([before, pts, after]))
        lo, hi = u[len(before)], u[len(before) + len(pts)]
    dense = np.linspace(lo, hi, 40 * len(pts) + 1)
    xyz = spline(dense)
    arc = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(xyz, axis=0), axis=1))])
    edges = max(4, round(float(arc[-1]) * per_d / c.diameter))
    # An even number of edges lets a symmetry shift by half a period land on vertices.
    edges += edges % 2
    steps = edges + 1 if c.path == "open" else edges
    at = np.interp(np.arange(steps) * (arc[-1] / edges), arc, dense)
    out: Points = spline(at)
    return out


def _spline(pts: Points) -> tuple[Floats, CubicSpline]:
    # Centripetal parameters keep a spline through uneven way points free of loops.
    step = np.sqrt(np.linalg.norm(np.diff(pts, axis=0), axis=1))
    u = np.concatenate([[0.0], np.cumsum(np.maximum(step, 1e-9))])
    return u, CubicSpline(u, pts, bc_type="natural")


def _neighbours(
    tangle: Tangle, curves: list[Points], state: State, s: int, pad: int = 4
) -> tuple[Points, Points]:
    nxt = tangle.courses[s].goes_on_as
    prev = next(i for i, c in enumerate(tangle.courses) if c.goes_on_as == s)
    if nxt is None or tangle.repeat is None:
        raise ValueError("only periodic courses have neighbours")
    u = np.array(tangle.repeat.direction)

    def moved(x: Points, cell: int) -> Points:
        return turn(x, np.full(len(x), cell * state.twist)) + cell * state.period * u

    return moved(curves[prev][-pad:], -1), moved(curves[nxt][: pad + 1], 1)
