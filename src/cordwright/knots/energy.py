"""What tightening minimises: pull times length, with stiff penalties for overlap and sharp bends.

The penalties are squares of residuals r_i with weights w_i, so the Gauss-Newton matrix is
``J^T W J``; the length term adds its exact Hessian, which is positive semidefinite. Unknowns are
the 3 n coordinates of the vertices, then the period and the twist.

Simplified: round tubes that neither flatten nor stretch, no friction, no bending stiffness
below the sharpest bend. Holds for the shape of a knot pulled tight in hard cord.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from scipy.sparse import csr_matrix, diags, vstack

from cordwright.knots.contact import Pairs, closest, contacts
from cordwright.knots.mesh import Floats, Ints, Mesh, State, edge_ends, image, turn

if TYPE_CHECKING:
    from cordwright.knots.tangle import Points

EVEN = 4.0
"""Weight that keeps the edges of a cord equally long; along the cord nothing else decides."""

BEND = 0.25
"""Weight of the bend limit against that of contact."""


@dataclass(frozen=True, slots=True)
class Terms:
    """The energy about a state, ready for a Newton step.

    Args:
        value: energy in units of the working cord's pull times d.
        gradient: (3 n + 2,) float.
        jacobian: (rows, 3 n + 2) sparse; ``jacobian.T @ jacobian`` approximates the Hessian.
    """

    value: float
    gradient: Floats
    jacobian: csr_matrix


def energy(mesh: Mesh, state: State, pairs: Pairs, stiffness: float) -> float:
    """Value alone, for trying a step."""
    return _value(*_residuals(mesh, state, pairs, stiffness), mesh, state)


def expand(mesh: Mesh, state: State, pairs: Pairs, stiffness: float) -> Terms:
    """Value, gradient and Gauss-Newton matrix."""
    edge, bend, touch = _residuals(mesh, state, pairs, stiffness)
    blocks, grad = [], np.zeros(3 * len(state.x) + 2)
    # Length: gradient T t, Hessian T / l (I - t t^T).
    live = mesh.tension > 0
    t = edge.tangent[live]
    pts, cells = _edge_points(mesh, np.flatnonzero(live))
    sign = np.array([-1.0, 1.0])
    pull = mesh.tension[live]
    row = _rows(mesh, state, pts, cells, np.einsum("p,ij->ipj", sign, t))
    grad += row.T @ pull
    root = np.sqrt(pull / edge.length[live])
    flat = np.eye(3)[None] - t[:, :, None] * t[:, None, :]
    for k in range(3):
        d = root[:, None] * flat[:, k, :]
        blocks.append(_rows(mesh, state, pts, cells, np.einsum("p,ij->ipj", sign, d)))
    for part in (bend.even, bend.bend, touch):
        if len(part.residual):
            w = np.sqrt(part.weight)
            j = _rows(mesh, state, part.points, part.cells, part.slope)
            grad += j.T @ (part.weight * part.residual)
            blocks.append(diags(w) @ j)
    repeat = mesh.tangle.repeat
    if repeat is not None:
        grad[-2] += repeat.push
        grad[-2] *= repeat.free_period
        grad[-1] *= repeat.free_twist
    else:
        grad[-2:] = 0.0
    grad[:-2] *= mesh.free.ravel()
    return Terms(_value(edge, bend, touch, mesh, state), grad, vstack(blocks).tocsr())


@dataclass(frozen=True, slots=True)
class _Edges:
    tangent: Points
    length: Floats


@dataclass(frozen=True, slots=True)
class _Part:
    """Residuals r with weights w and slopes dr/dx at the points (r, p, 3) in their cells."""

    residual: Floats
    weight: Floats
    points: Ints
    cells: Ints
    slope: Points


@dataclass(frozen=True, slots=True)
class _Corners:
    even: _Part
    bend: _Part


def _value(edge: _Edges, corner: _Corners, touch: _Part, mesh: Mesh, state: State) -> float:
    total = float(mesh.tension @ edge.length)
    for part in (corner.even, corner.bend, touch):
        total += 0.5 * float(part.weight @ part.residual**2)
    repeat = mesh.tangle.repeat
    return total + (repeat.push * state.period if repeat else 0.0)


def _residuals(
    mesh: Mesh, state: State, pairs: Pairs, stiffness: float
) -> tuple[_Edges, _Corners, _Part]:
    a, b = edge_ends(mesh, state)
    d = b - a
    length = np.maximum(np.linalg.norm(d, axis=1), 1e-9)
    edges = _Edges(d / length[:, None], length)
    corners = _corner_parts(mesh, state, edges, stiffness)
    return edges, corners, _touch_part(mesh, state, pairs, stiffness)


def _corner_parts(mesh: Mesh, state: State, edges: _Edges, stiffness: float) -> _Corners:
    e1, e2 = mesh.corner[:, 0], mesh.corner[:, 1]
    pts1, cells1 = _edge_points(mesh, e1)
    pts2, cells2 = _edge_points(mesh, e2)
    step = mesh.edge_image[e1][:, None]
    points = np.concatenate([pts1, pts2], axis=1)
    cells = np.concatenate([cells1, cells2 + step], axis=1)
    # At the joint between two cells the second edge is drawn in its own cell: turn it here.
    t1, t2 = edges.tangent[e1], turn(edges.tangent[e2], step[:, 0] * state.twist)
    l1, l2 = edges.length[e1], edges.length[e2]
    return _corner_formulas(mesh, e1, points, cells, t1, t2, l1, l2, stiffness)


def _corner_formulas(
    mesh: Mesh,
    e1: Ints,
    points: Ints,
    cells: Ints,
    t1: Points,
    t2: Points,
    l1: Floats,
    l2: Floats,
    stiffness: float,
) -> _Corners:
    pull = np.maximum(mesh.tension[e1], 0.3)
    mean = 0.5 * (l1 + l2)
    root = np.sqrt(mean)[:, None, None]
    # Slopes of l1 - l2 and of the mean length at the four ends.
    unlike = np.stack([-t1, t1, t2, -t2], axis=1)
    grow = 0.5 * np.stack([-t1, t1, -t2, t2], axis=1)
    even = _Part(
        (l1 - l2) / np.sqrt(mean),
        EVEN * pull,
        points,
        cells,
        unlike / root - (0.5 * (l1 - l2) / mean)[:, None, None] * grow / root,
    )
    # Curvature of the circle through a corner with edges l: 2 sin(angle / 2) / l.
    u = t2 - t1
    m = np.maximum(np.linalg.norm(u, axis=1), 1e-12)
    u /= m[:, None]
    over = 0.5 * mesh.diameter[e1] * m / mean - 1.0
    hot = over > 0
    scale = (0.5 * mesh.diameter[e1] / mean)[hot][:, None]
    p1 = scale * (u - t1 * np.einsum("ij,ij->i", u, t1)[:, None])[hot] / l1[hot][:, None]
    p2 = scale * (u - t2 * np.einsum("ij,ij->i", u, t2)[:, None])[hot] / l2[hot][:, None]
    over, root, mean = over[hot], root[hot], mean[hot]
    # The residual is over * sqrt(mean), so that its square is summed along the cord.
    stretch = (0.5 * over - (over + 1.0)) / mean
    slope = root * (np.stack([p1, -p1, -p2, p2], axis=1) + stretch[:, None, None] * grow[hot])
    weight = np.full(len(over), BEND * stiffness)
    bend = _Part(over * root[:, 0, 0], weight, points[hot], cells[hot], slope)
    return _Corners(even, bend)


def _touch_part(mesh: Mesh, state: State, pairs: Pairs, stiffness: float) -> _Part:
    touch = closest(mesh, state, pairs)
    gap, _ = contacts(mesh, pairs, touch)
    hit = gap < 0
    a, b, cell = pairs.a[hit], pairs.b[hit], pairs.cell[hit]
    pts1, cells1 = _edge_points(mesh, a)
    pts2, cells2 = _edge_points(mesh, b)
    s, t, n = touch.s[hit], touch.t[hit], touch.normal[hit]
    weight = np.stack([1 - s, s, t - 1, -t], axis=1)
    return _Part(
        gap[hit],
        np.full(int(hit.sum()), stiffness),
        np.concatenate([pts1, pts2], axis=1),
        np.concatenate([cells1, cells2 + cell[:, None]], axis=1),
        weight[:, :, None] * n[:, None, :],
    )


def _edge_points(mesh: Mesh, edges: Ints) -> tuple[Ints, Ints]:
    """((k, 2), (k, 2)) int: vertices of the edges and their cells."""
    return mesh.edge[edges], np.stack(
        [np.zeros(len(edges), np.int64), mesh.edge_image[edges]], axis=1
    )


def _rows(mesh: Mesh, state: State, points: Ints, cells: Ints, slope: Points) -> csr_matrix:
    """Sparse rows: slope of each residual with respect to all unknowns.

    ``slope`` (r, p, 3) is the slope with respect to the points as they lie in their cells.
    """
    r, p = points.shape
    flat = slope.reshape(-1, 3)
    cell = cells.ravel()
    back = flat if state.twist == 0.0 else turn(flat, -cell * state.twist)
    back = back * mesh.free[points.ravel()]
    rows = np.repeat(np.arange(r), p * 3)
    cols = (3 * points.reshape(-1, 1) + np.arange(3)).ravel()
    data = back.ravel()
    n = 3 * len(state.x)
    repeat = mesh.tangle.repeat
    if repeat is not None and (repeat.free_period or repeat.free_twist):
        u = np.array(repeat.direction)
        per = np.where(repeat.free_period, (flat @ u * cell).reshape(r, p).sum(axis=1), 0.0)
        spun = image(mesh, state, state.x[points.ravel()], cell)
        swept = np.stack([-spun[:, 1], spun[:, 0], np.zeros(len(spun))], axis=1)
        tw = (np.einsum("ij,ij->i", flat, swept) * cell).reshape(r, p).sum(axis=1)
        tw = tw if repeat.free_twist else np.zeros(r)
        rows = np.concatenate([rows, np.arange(r), np.arange(r)])
        cols = np.concatenate([cols, np.full(r, n), np.full(r, n + 1)])
        data = np.concatenate([data, per, tw])
    return csr_matrix((data, (rows, cols)), shape=(r, n + 2))
