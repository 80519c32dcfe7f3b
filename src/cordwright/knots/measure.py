"""Figures of a tight knot: height, width, depth and the cord that each strand uses.

A knot in a sinnet or a row is as high (or wide) as the distance to the next one. A knot alone
reaches from the highest to the lowest point of cord that does not hang straight: outside of
that stretch its strands are straight and use just their way.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cordwright.knots.mesh import edge_ends, edge_lengths
from cordwright.knots.places import exit_order, roles
from cordwright.knots.spec import KnotFigures, KnotName, KnotSpec, Role
from cordwright.knots.tighten import Tight, extrapolated

STRAIGHT = np.cos(np.radians(15.0))
"""A cord within 15 degrees of the hanging direction counts as hanging straight."""

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Extent:
    """Surface of the bent cord along one axis, in d."""

    low: float
    high: float

    @property
    def size(self) -> float:
        """In d."""
        return self.high - self.low


def figures(spec: KnotSpec, results: tuple[Tight, ...]) -> KnotFigures:
    """Figures of a knot from its tightening on two or more meshes, extrapolated to none.

    Args:
        spec: which knot.
        results: from ``tighten``, coarse to fine; the last two are used.
    """
    coarse, fine = results[-2:]
    ratio = _per_d(fine) / _per_d(coarse)
    raw = _raw(spec, coarse), _raw(spec, fine)
    best = np.asarray(extrapolated(raw[0], raw[1], ratio))
    height, width, depth, twist = (float(v) for v in best[:4])
    take_up = tuple(float(v) for v in best[4:])
    return KnotFigures(
        spec=spec,
        height_d=height,
        width_d=width,
        depth_d=depth,
        roles=roles(spec),
        take_up_d=take_up,
        exit_order=exit_order(spec),
        twist_deg=float(np.degrees(twist)),
        enter_d=_entries(spec, fine),
        overlap_d=fine.overlap,
        mesh_error_d=float(np.abs(best[4:] - raw[1][4:]).max()),
    )


def _entries(spec: KnotSpec, tight: Tight) -> tuple[float, ...]:
    """How far to the right of the middle each place's strand comes in, in d."""
    if spec.name is KnotName.LARKS_HEAD:
        ends = tight.curve(1)[[0, -1], 0]
        return float(ends[0]), float(ends[1])
    if spec.name is KnotName.DOUBLE_HALF_HITCH:
        return 0.0, float(tight.curve(1)[0, 0])
    first = np.array([tight.curve(i)[0, 0] for i in _by_place(tight)])
    return tuple(float(x) for x in first - 0.5 * (first.max() + first.min()))


def _per_d(tight: Tight) -> float:
    live = ~tight.mesh.rigid
    return float(live.sum()) / float(edge_lengths(tight.mesh, tight.state)[live].sum())


def _raw(spec: KnotSpec, tight: Tight) -> Floats:
    """(4 + places,) float: height, width, depth, twist, then each place's take-up."""
    if spec.name is KnotName.LARKS_HEAD:
        return _mount(spec, tight)
    if spec.name is KnotName.DOUBLE_HALF_HITCH:
        return _hitch(tight)
    if spec.name is KnotName.OVERHAND:
        return _alone(tight)
    if spec.name is KnotName.BRAID:
        return _braid(spec, tight)
    return _sinnet(spec, tight)


def _sinnet(spec: KnotSpec, tight: Tight) -> Floats:
    x, y, _ = _extents(tight, bent=False)
    head = [tight.state.period, x.size, y.size, tight.state.twist]
    lengths = tight.lengths[_by_place(tight)]
    if spec.name in {KnotName.SQUARE_KNOT, KnotName.HALF_KNOT}:
        # Odd fillers lie askew, and which working cord goes the longer way is chance.
        lengths[[0, -1]] = lengths[[0, -1]].mean()
    return np.array([*head, *lengths])


def _by_place(tight: Tight) -> NDArray[np.int64]:
    """Indices of the strands' courses from the leftmost place on."""
    places = [c.place for c in tight.mesh.tangle.courses]
    seated = [(p, i) for i, p in enumerate(places) if p is not None]
    return np.array([i for _, i in sorted(seated)], dtype=np.int64)


def _braid(spec: KnotSpec, tight: Tight) -> Floats:
    # Home after as many cells as strands, having run once through every course.
    x, y, _ = _extents(tight, bent=False)
    once_round = float(tight.lengths.sum())
    head = [spec.strands * tight.state.period, x.size, y.size, 0.0]
    return np.array(head + [once_round] * spec.strands)


def _hitch(tight: Tight) -> Floats:
    _, y, z = _extents(tight, bent=True)
    used = _cut_to(tight, 1, z.high, z.low)
    return np.array([z.size, tight.state.period, y.size, 0.0, tight.lengths[0], used])


def _alone(tight: Tight) -> Floats:
    x, y, z = _extents(tight, bent=True)
    used = [_cut_to(tight, i, z.high, z.low) for i in range(len(tight.lengths))]
    # Which strand of the bundle runs outside the bend is chance, so each is given the mean.
    return np.array([z.size, x.size, y.size, 0.0] + [float(np.mean(used))] * len(used))


def _mount(spec: KnotSpec, tight: Tight) -> Floats:
    x, y, z = _extents(tight, bent=True)
    half = 0.5 * (tight.lengths[1] - 2 * (z.low - float(tight.curve(1)[0, 2])))
    top = 0.5 * spec.over_d
    return np.array([top - z.low, x.size, y.size, 0.0, half, half])


def _cut_to(tight: Tight, course: int, high: float, low: float) -> float:
    """Length of an open course between two heights; beyond them it hangs straight."""
    ends = tight.curve(course)[[0, -1], 2]
    return float(tight.lengths[course] - (ends.max() - high) - (low - ends.min()))


def _extents(tight: Tight, *, bent: bool) -> tuple[Extent, Extent, Extent]:
    """Extent of the tubes along x, y and z; of the bent cord alone if asked."""
    mesh, state = tight.mesh, tight.state
    a, b = edge_ends(mesh, state)
    t = (b - a) / np.linalg.norm(b - a, axis=1)[:, None]
    use = ~mesh.rigid
    holding = np.array([c.role is Role.HOLDING for c in mesh.tangle.courses])
    if bent:
        use &= (np.abs(t[:, 2]) < STRAIGHT) & ~holding[mesh.course]
    mid = 0.5 * (a + b)[use]
    radius = 0.5 * mesh.diameter[use]
    side = radius[:, None] * np.sqrt(np.maximum(0.0, 1.0 - t[use] ** 2))
    low, high = (mid - side).min(axis=0), (mid + side).max(axis=0)
    x, y, z = (Extent(float(p), float(q)) for p, q in zip(low, high, strict=True))
    return x, y, z
