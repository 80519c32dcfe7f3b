"""The differences of nodes that a frame's forces depend on, as sparse matrices.

Ports are fixed combinations of nodes, so what lies between the ends of a span, along a bar or
between the directions of two bars is linear in the nodes: one matrix gives all of it, and its
transpose turns forces back into forces at nodes.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from scipy.sparse import csr_matrix, vstack
from scipy.sparse.linalg import splu

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from cordwright.hang.frame import Floats, Frame, Ints, Points, Ports
    from cordwright.hang.touching import Touching

BEND = 2000.0
"""Stiffness of a sinnet or a row of hitches against bending from one knot to the next, in N mm per
radian for every N/mm of the stiffness of cord: so large that they stay straight under the loads of
a hung piece. Real ones give a little; no published figure is known."""

AXES = np.arange(3)


@dataclass(frozen=True, slots=True)
class Linkage:
    """Spans, then bars, then bends; three rows each.

    Args:
        all: (3 r, 3 n) sparse, from the coordinates of nodes to differences in mm.
        drawn: its transpose.
        free: the same as ``all`` for those coordinates only that may move.
        back: transpose of ``free``.
        live: indices of the coordinates that may move, in an order in which eliminating them one
            after the other leaves their matrix sparse.
        place: (3 n,) int, place of every coordinate among these; -1 where it may not move.
        spans: how many spans.
        bars: how many bars.
    """

    all: csr_matrix
    drawn: csr_matrix
    free: csr_matrix
    back: csr_matrix
    live: Ints
    place: NDArray[np.int32]
    spans: int
    bars: int

    def apart(self, x: Points) -> tuple[Points, Points, Points]:
        """((s, 3), (k, 3), (c, 3)): along spans, up bars, and how far stiff pairs are bent; mm."""
        every = (self.all @ x.ravel()).reshape(-1, 3)
        ends = np.cumsum([self.spans, self.bars])
        spans, bars, bends = np.split(every, ends)
        return spans, bars, bends


def linkage(frame: Frame, touching: Touching | None = None) -> Linkage:
    """The differences of a frame.

    Args:
        frame: what hangs.
        touching: contacts that there may be, which decide the order of the coordinates too.
    """
    count = len(frame.start)
    parts = [
        difference(frame.spans.a, frame.spans.b, count),
        _links([(frame.bars.top, 1.0), (frame.bars.bottom, -1.0)], count),
        _bends(frame, count),
    ]
    every = vstack(parts, format="csr")
    live = np.flatnonzero(frame.free.ravel())
    meet = every if touching is None else vstack([every, gaps(touching, count)], format="csr")
    live = live[_eliminated(meet[:, live].tocsr())]
    place = np.full(3 * count, -1, dtype=np.int32)
    place[live] = np.arange(len(live))
    free = every[:, live].tocsr()
    ends = (len(frame.spans), len(frame.bars))
    return Linkage(every, every.T.tocsr(), free, free.T.tocsr(), live, place, *ends)


def same_links(one: Frame, other: Frame) -> bool:
    """Whether two frames have the same differences: all but lengths, weights and places."""
    a, b = one.bars, other.bars
    pairs = [
        (one.free, other.free),
        (one.stiff, other.stiff),
        (one.beside, other.beside),
        (a.top, b.top),
        (a.bottom, b.bottom),
        (a.height, b.height),
    ]
    for mine, theirs in ((one.spans.a, other.spans.a), (one.spans.b, other.spans.b)):
        fields = ("top", "bottom", "along", "aside", "facing")
        pairs += [(getattr(mine, name), getattr(theirs, name)) for name in fields]
    return all(np.array_equal(x, y) for x, y in pairs)


def _eliminated(free: csr_matrix) -> Ints:
    """(l,) int: coordinates in an order of little fill: least degree first (SuperLU's)."""
    if not free.shape[1]:
        return np.empty(0, np.int64)
    pattern = (free.T @ free).tocsc()
    pattern.data[:] = 0.0
    pattern.setdiag(1.0)
    factors = splu(pattern, permc_spec="MMD_AT_PLUS_A", options={"SymmetricMode": True})
    order: Ints = np.argsort(factors.perm_c)
    return order


def difference(a: Ports, b: Ports, count: int) -> csr_matrix:
    """(3 p, 3 n) sparse: from port b to port a."""
    return csr_matrix(_map(a, 1.0, count) + _map(b, -1.0, count))


def gaps(touching: Touching, count: int) -> csr_matrix:
    """(c, 3 n) sparse: distances of contacts along their normals."""
    return _distances(touching, np.arange(3 * count, dtype=np.int32), 3 * count)


def pressing(touching: Touching, links: Linkage) -> csr_matrix:
    """(c, l) sparse: the same, of those coordinates only that may move."""
    return _distances(touching, links.place, len(links.live))


def _distances(touching: Touching, place: NDArray[np.int32], size: int) -> csr_matrix:
    """(c, size) sparse: distances of contacts, each coordinate in its column; -1 has none."""
    nodes, slope = touching.slopes()
    columns = place[(3 * nodes[:, :, None] + AXES).ravel()]
    weights = np.where(columns < 0, 0.0, slope.ravel())
    ends = np.arange(len(nodes) + 1, dtype=np.int32) * (3 * nodes.shape[1])
    found = csr_matrix((weights, np.maximum(columns, 0), ends), shape=(len(nodes), size))
    found.eliminate_zeros()
    return found


def _map(ports: Ports, sign: float, count: int) -> csr_matrix:
    """(3 p, 3 n) sparse: where ports lie."""
    along, flat = ports.along, [(ports.top, 1.0 - ports.along), (ports.bottom, ports.along)]
    plain = _links([(nodes, sign * weight) for nodes, weight in flat], count)
    rows = np.flatnonzero(ports.aside)
    if not len(rows):
        return plain
    # aside * (B - T) x facing, as a matrix on B - T.
    x, y, z = ports.facing[rows].T * ports.aside[rows] * sign
    place, axis, other, weight = [], [], [], []
    for i, j, value in ((0, 1, z), (0, 2, -y), (1, 0, -z), (1, 2, x), (2, 0, y), (2, 1, -x)):
        place.append(rows)
        axis.append(np.full(len(rows), i))
        other.append(np.full(len(rows), j))
        weight.append(value)
    where = 3 * np.concatenate(place) + np.concatenate(axis)
    low, values = np.concatenate(other), np.concatenate(weight)
    row = np.tile(rows, 6)
    columns = np.concatenate([3 * ports.bottom[row] + low, 3 * ports.top[row] + low])
    entries = (np.concatenate([values, -values]), (np.concatenate([where, where]), columns))
    aside = csr_matrix(entries, shape=(3 * len(along), 3 * count))
    aside.eliminate_zeros()
    return csr_matrix(plain + aside)


def _links(ends: list[tuple[Ints, Floats | float]], count: int) -> csr_matrix:
    """(3 p, 3 n) sparse: weighted sums of nodes, axis by axis."""
    size = len(ends[0][0])
    rows = np.tile(np.arange(3 * size), len(ends))
    columns = np.concatenate([(3 * nodes[:, None] + AXES).ravel() for nodes, _ in ends])
    weights = np.concatenate([np.repeat(np.broadcast_to(w, size), 3) for _, w in ends])
    return csr_matrix((weights, (rows, columns)), shape=(3 * size, 3 * count))


def _bends(frame: Frame, count: int) -> csr_matrix:
    """Neighbours in a sinnet or a row stay parallel: the difference of their directions."""
    bars, (a, b) = frame.bars, frame.stiff.T
    ha, hb = np.sqrt(BEND) / bars.height[a], np.sqrt(BEND) / bars.height[b]
    ends = [(bars.top[a], ha), (bars.bottom[a], -ha), (bars.top[b], -hb), (bars.bottom[b], hb)]
    return _links(ends, count)
