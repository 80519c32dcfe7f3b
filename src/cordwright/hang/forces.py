"""Energy of a hanging piece, its forces and its stiffness.

Spans: ``k / 2 (length - rest)^2`` while taut, nothing while slack (a convex function of the
nodes, so a net of spans alone has one equilibrium). Bars: the same, both ways. Contact of knots
with each other and with what the piece holds: ``k / 2 overlap^2``. Weight: linear.

The stiffness k stands for cord that does not stretch. Simplified: no friction, no bending stiffness
of free cord, sinnets and rows of hitches straight. Holds for hung pieces at rest.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from scipy.sparse import csr_matrix, vstack

if TYPE_CHECKING:
    from cordwright.hang.frame import Bars, Floats, Frame, Ints, Points, Spans
    from cordwright.hang.touching import Touching

STIFF = 50.0
"""Stiffness of taut cord, bars and contact, as N/mm for every N of load: a cord that carries the
whole load is 0.02 mm too long."""


BEND = 2000.0
"""Stiffness of a sinnet or a row of hitches against bending from one knot to the next, in N mm per
radian for every N/mm of the stiffness of cord: so large that they stay straight under the loads of
a hung piece. Real ones give a little; no published figure is known."""


@dataclass(frozen=True, slots=True)
class Pull:
    """What makes the spans pull.

    Args:
        rest: (s,) float, mm, length below which a span is slack.
        stiffness: of taut cord, of knots along their height and of contact, N/mm.
    """

    rest: Floats
    stiffness: float


@dataclass(frozen=True, slots=True)
class Terms:
    """Energy about a position, ready for a Newton step.

    Args:
        value: N mm.
        gradient: (3 n,) float, N; its negative is the force that is out of balance.
        jacobian: sparse; ``jacobian.T @ jacobian`` is the stiffness, N/mm.
    """

    value: float
    gradient: Floats
    jacobian: csr_matrix


@dataclass(frozen=True, slots=True)
class _Rows:
    """Residuals (r,) with their slopes at nodes: (r, p) int and (r, p, 3) float."""

    residual: Floats
    nodes: Ints
    slope: Points


def tensions(frame: Frame, x: Points, pull: Pull) -> Floats:
    """(s,) float: pull in every span, N; 0 where slack."""
    length = np.linalg.norm(frame.spans.a.at(x) - frame.spans.b.at(x), axis=1)
    taut: Floats = pull.stiffness * np.maximum(0.0, length - pull.rest)
    return taut


def energy(frame: Frame, x: Points, pull: Pull, touching: Touching) -> float:
    """Value alone, for trying a step, N mm."""
    t = tensions(frame, x, pull)
    k = pull.stiffness
    total = 0.5 * float((t * t / k).sum()) + float(frame.weight @ x[:, 2])
    for part in (_bar_rows(frame.bars, x), *_bend_rows(frame, x), *_touch_rows(touching, x)):
        total += 0.5 * k * float(part.residual @ part.residual)
    return total


def expand(frame: Frame, x: Points, pull: Pull, touching: Touching) -> Terms:
    """Value, gradient and stiffness."""
    n, k = len(x), pull.stiffness
    gradient = np.zeros(3 * n)
    gradient[2::3] = frame.weight
    value = float(frame.weight @ x[:, 2])
    blocks = []
    for part in (_bar_rows(frame.bars, x), *_bend_rows(frame, x), *_touch_rows(touching, x)):
        if len(part.residual):
            j = _matrix(part, frame, n)
            gradient += k * (j.T @ part.residual)
            blocks.append(j * np.sqrt(k))
            value += 0.5 * k * float(part.residual @ part.residual)
    blocks += _bar_sway(frame, x, k)
    span_value, span_gradient, span_blocks = _span_terms(frame, x, pull)
    gradient += span_gradient
    gradient *= frame.free.ravel()
    return Terms(value + span_value, gradient, vstack(blocks + span_blocks).tocsr())


def _span_terms(frame: Frame, x: Points, pull: Pull) -> tuple[float, Floats, list[csr_matrix]]:
    spans, n = frame.spans, len(x)
    delta = spans.a.at(x) - spans.b.at(x)
    length = np.linalg.norm(delta, axis=1)
    stretch = length - pull.rest
    taut = stretch > 0.0
    # A span without length of its own has no direction: it is a spring along every axis.
    loose = pull.rest <= 0.0
    u = delta / np.maximum(length, 1e-12)[:, None]
    force = np.where(taut, pull.stiffness * stretch, 0.0)
    value = 0.5 * float((force * np.maximum(stretch, 0.0)).sum())
    live = taut | loose
    root = np.full(len(length), np.sqrt(pull.stiffness))
    blocks = [_span_matrix(frame, u, np.where(taut & ~loose, root, 0.0), live, n)]
    gradient = _span_matrix(frame, u, np.ones(len(length)), live, n).T @ force[live]
    # Across its direction a taut span is as stiff as its pull over its length.
    across = np.sqrt(force / np.maximum(length, 1e-9))
    across = np.where(loose, root, across)
    eye = np.eye(3)
    flat = eye[None] - np.where(loose, 0.0, 1.0)[:, None, None] * (u[:, :, None] * u[:, None, :])
    blocks += [_span_matrix(frame, flat[:, k, :], across, live, n) for k in range(3)]
    return value, gradient, blocks


def _span_matrix(
    frame: Frame, direction: Points, scale: Floats, live: np.ndarray, n: int
) -> csr_matrix:
    spans: Spans = frame.spans
    scaled = direction * scale[:, None]
    at, ab = spans.a.slopes(scaled)
    bt, bb = spans.b.slopes(scaled)
    nodes = np.stack([spans.a.top, spans.a.bottom, spans.b.top, spans.b.bottom], axis=1)
    slope = np.stack([at, ab, -bt, -bb], axis=1)
    return _matrix(_Rows(np.zeros(int(live.sum())), nodes[live], slope[live]), frame, n)


def _bar_rows(bars: Bars, x: Points) -> _Rows:
    delta = x[bars.top] - x[bars.bottom]
    length = np.maximum(np.linalg.norm(delta, axis=1), 1e-9)
    u = delta / length[:, None]
    nodes = np.stack([bars.top, bars.bottom], axis=1)
    return _Rows(length - bars.height, nodes, np.stack([u, -u], axis=1))


def _bend_rows(frame: Frame, x: Points) -> list[_Rows]:
    """Neighbours in a sinnet or a row stay parallel: the difference of their directions."""
    bars, pairs = frame.bars, frame.stiff
    if not len(pairs):
        return []
    a, b = pairs[:, 0], pairs[:, 1]
    scale = np.sqrt(BEND)
    ha, hb = scale / bars.height[a], scale / bars.height[b]
    turn = (x[bars.top[a]] - x[bars.bottom[a]]) * ha[:, None]
    turn = turn - (x[bars.top[b]] - x[bars.bottom[b]]) * hb[:, None]
    nodes = np.stack([bars.top[a], bars.bottom[a], bars.top[b], bars.bottom[b]], axis=1)
    weight = np.stack([ha, -ha, -hb, hb], axis=1)
    eye = np.eye(3)
    return [_Rows(turn[:, c], nodes, weight[:, :, None] * eye[c]) for c in range(3)]


def _bar_sway(frame: Frame, x: Points, stiffness: float) -> list[csr_matrix]:
    """Across its direction a pulled bar is as stiff as its pull over its length."""
    rows = _bar_rows(frame.bars, x)
    if not len(rows.residual):
        return []
    u = rows.slope[:, 0]
    pulled = stiffness * np.maximum(rows.residual, 0.0)
    root = np.sqrt(pulled / np.maximum(frame.bars.height, 1e-6))
    flat = np.eye(3)[None] - u[:, :, None] * u[:, None, :]
    out = []
    for k in range(3):
        across = flat[:, k, :] * root[:, None]
        slope = np.stack([across, -across], axis=1)
        out.append(_matrix(_Rows(rows.residual, rows.nodes, slope), frame, len(x)))
    return out


def _touch_rows(touching: Touching, x: Points) -> list[_Rows]:
    """Contacts as half-spaces: ``normal . (a - b) >= gap``."""
    overlap = touching.gap - np.einsum("ij,ij->i", touching.normal, touching.between(x))
    hit = overlap > 0.0
    nodes, slope = touching.slopes()
    return [_Rows(overlap[hit], nodes[hit], -slope[hit])]


def _matrix(part: _Rows, frame: Frame, n: int) -> csr_matrix:
    r, p = part.nodes.shape
    masked = part.slope * frame.free[part.nodes]
    rows = np.repeat(np.arange(r), p * 3)
    cols = (3 * part.nodes[:, :, None] + np.arange(3)).ravel()
    return csr_matrix((masked.ravel(), (rows, cols)), shape=(r, 3 * n))
