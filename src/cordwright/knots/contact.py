"""Which parts of the tubes are near one another, and how near.

Closest points of two segments: C. Ericson, 'Real-Time Collision Detection' (2005), section
5.1.9, here for many pairs at once.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from scipy.spatial import cKDTree

from cordwright.knots.mesh import Floats, Ints, Mesh, State, edge_ends, edge_lengths, image

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from cordwright.knots.tangle import Points

NEAR_ALONG = 1.7
"""Parts of one cord nearer than this along it, in its diameters, are its bend and not a contact
(two diameters of a bend at its tightest are half a circle: pi/2 = 1.57 d of cord)."""


@dataclass(frozen=True, slots=True)
class Pairs:
    """Pairs of edges that may touch.

    Args:
        a, b: (p,) int, edges; the second as it lies in cell ``cell``.
        cell: (p,) int.
        apart: (p,) float, distance along the cord in d if both are on one cord, else infinite.
    """

    a: Ints
    b: Ints
    cell: Ints
    apart: Floats


def near_pairs(mesh: Mesh, state: State, margin: float) -> Pairs:
    """All pairs of edges whose tubes are less than ``margin`` d from touching.

    Edges that follow one another, and edges of two rigid things, are left out.
    """
    p, q = edge_ends(mesh, state)
    mid, length = 0.5 * (p + q), np.linalg.norm(q - p, axis=1)
    reach = float(mesh.diameter.max() + length.max() + margin)
    cells = _cells(mesh, state, mid, reach)
    m = len(mid)
    copies = np.concatenate([image(mesh, state, mid, np.full(m, k)) for k in cells])
    tree, other = cKDTree(mid), cKDTree(copies)
    found = tree.sparse_distance_matrix(other, reach, output_type="coo_matrix")
    a, hit = found.row.astype(np.int64), found.col.astype(np.int64)
    cell, b = np.array(cells)[hit // m], hit % m
    limit = 0.5 * (mesh.diameter[a] + mesh.diameter[b]) + length.max() + margin
    once: NDArray[np.bool_] = np.less(found.data, limit) & ((cell > 0) | ((cell == 0) & (a < b)))
    once &= ~(mesh.rigid[a] & mesh.rigid[b])
    a, b, cell = a[once], b[once], cell[once]
    apart = _apart(mesh, state, a, b, cell)
    keep = apart > 0.6 * mesh.diameter[a]
    return Pairs(a[keep], b[keep], cell[keep], apart[keep])


def _cells(mesh: Mesh, state: State, mid: Points, reach: float) -> list[int]:
    repeat = mesh.tangle.repeat
    if repeat is None:
        return [0]
    along = mid @ np.array(repeat.direction)
    span = float(along.max() - along.min())
    count = int(np.ceil((span + reach) / max(state.period, 0.2)))
    return list(range(min(count, 40) + 1))


def _apart(mesh: Mesh, state: State, a: Ints, b: Ints, cell: Ints) -> Floats:
    """Distance along the cord between edge a and the image of edge b; infinite on two cords."""
    length = edge_lengths(mesh, state)
    per_course = np.bincount(mesh.course, length, minlength=len(mesh.tangle.courses))
    before = np.cumsum(length) - 0.5 * length
    local = before - np.concatenate([[0.0], np.cumsum(per_course)])[mesh.course]
    # Chains of courses that go on into one another through the cells: see docs/solver.md.
    total = np.zeros(len(per_course))
    offset = np.zeros(len(per_course))
    ranks = np.zeros(len(per_course), np.int64)
    heads = np.zeros(len(per_course), np.int64)
    ranks[mesh.course], heads[mesh.course] = mesh.rank, mesh.cycle
    for s in np.argsort(ranks, kind="stable"):
        offset[s] = total[heads[s]]
        total[heads[s]] += per_course[s]
    size = mesh.cycle_size

    def coordinate(e: Ints, k: Ints) -> tuple[Ints, Floats]:
        lane = (k - mesh.rank[e]) % size[e]
        rounds = (k - lane) // size[e]
        where = rounds * total[mesh.cycle[e]] + offset[mesh.course[e]] + local[e]
        return lane, where

    lane_a, at_a = coordinate(a, np.zeros_like(cell))
    lane_b, at_b = coordinate(b, cell)
    open_path = np.array([c.path == "open" for c in mesh.tangle.courses])
    same = (mesh.cycle[a] == mesh.cycle[b]) & (lane_a == lane_b)
    # An open or closed course does not go on into the next cell: its image is another cord.
    stays = open_path[mesh.course[a]] | mesh.closed[a]
    same &= ~(stays & (cell != 0))
    gap = np.abs(at_a - at_b)
    around = np.where(mesh.closed[a], total[mesh.cycle[a]] - gap, np.inf)
    return np.where(same, np.minimum(gap, around), np.inf)


@dataclass(frozen=True, slots=True)
class Touch:
    """Closest points of pairs of edges.

    Args:
        s, t: (p,) float, where on the first and second edge, 0 to 1.
        normal: (p, 3) float, unit vector from the second to the first.
        distance: (p,) float in d.
    """

    s: Floats
    t: Floats
    normal: Points
    distance: Floats


def closest(mesh: Mesh, state: State, pairs: Pairs) -> Touch:
    """Closest points of every pair."""
    p, q = edge_ends(mesh, state)
    p2, q2 = image(mesh, state, p[pairs.b], pairs.cell), image(mesh, state, q[pairs.b], pairs.cell)
    return segment_closest(p[pairs.a], q[pairs.a], p2, q2)


def segment_closest(p1: Points, q1: Points, p2: Points, q2: Points) -> Touch:
    """Closest points of segments p1-q1 and p2-q2, (p, 3) float each."""
    d1, d2, r = q1 - p1, q2 - p2, p1 - p2
    a = np.maximum(np.einsum("ij,ij->i", d1, d1), 1e-18)
    e = np.maximum(np.einsum("ij,ij->i", d2, d2), 1e-18)
    b = np.einsum("ij,ij->i", d1, d2)
    c = np.einsum("ij,ij->i", d1, r)
    f = np.einsum("ij,ij->i", d2, r)
    denom = a * e - b * b
    parallel = denom < 1e-9 * a * e
    s = np.clip((b * f - c * e) / np.where(parallel, 1.0, denom), 0.0, 1.0)
    s = np.where(parallel, _middle_of_overlap(a, b, c), s)
    t = (b * s + f) / e
    s = np.where(t < 0, np.clip(-c / a, 0, 1), np.where(t > 1, np.clip((b - c) / a, 0, 1), s))
    t = np.clip(t, 0.0, 1.0)
    diff = r + s[:, None] * d1 - t[:, None] * d2
    dist = np.linalg.norm(diff, axis=1)
    return Touch(s, t, diff / np.maximum(dist, 1e-12)[:, None], dist)


def _middle_of_overlap(a: Floats, b: Floats, c: Floats) -> Floats:
    """Where on the first of two parallel segments the middle of their overlap lies."""
    s0 = np.clip(-c / a, 0.0, 1.0)
    s1 = np.clip((b - c) / a, 0.0, 1.0)
    return 0.5 * (s0 + s1)


def contacts(mesh: Mesh, pairs: Pairs, touch: Touch) -> tuple[Floats, Floats]:
    """((p,), (p,)) float: gap between the tubes (negative: overlap) and their radii' sum, in d.

    Parts of one bend are not contacts: their gap is infinite.
    """
    reach = 0.5 * (mesh.diameter[pairs.a] + mesh.diameter[pairs.b])
    gap = touch.distance - reach
    bend = pairs.apart < NEAR_ALONG * mesh.diameter[pairs.a]
    return np.where(bend, np.inf, gap), reach
