"""Energy of a hanging piece, its forces and its stiffness.

Spans: ``k / 2 (length - rest)^2`` while taut, nothing while slack (a convex function of the
nodes, so a net of spans alone has one equilibrium). Bars: the same, both ways. Contact of knots
with each other and with what the piece holds: ``k / 2 overlap^2``. Weight: linear.

The stiffness k stands for knots and things that do not give; real cord stretches besides, and how
much decides how strands share a load. Simplified: no friction, no bending stiffness of free cord,
sinnets and rows of hitches straight. Holds for hung pieces at rest.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from scipy.sparse import csr_matrix

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
        stiffness: of knots along their height and of contact, N/mm, and of cord that has no
            stretch of its own.
        give: (s,) float, mm/N, stretch of the spans' own.
    """

    rest: Floats
    stiffness: float
    give: Floats | float = 0.0

    @property
    def along(self) -> Floats:
        """(s,) float: stiffness of the taut spans, N/mm: both in series."""
        found: Floats = self.stiffness / (1.0 + self.stiffness * (self.give + 0.0 * self.rest))
        return found


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
    taut: Floats = pull.along * np.maximum(0.0, length - pull.rest)
    return taut


def energy(frame: Frame, x: Points, pull: Pull, touching: Touching) -> float:
    """Value alone, for trying a step, N mm."""
    t = tensions(frame, x, pull)
    k = pull.stiffness
    total = 0.5 * float((t * t / pull.along).sum()) + float(frame.weight @ x[:, 2])
    for part in (_bar_rows(frame.bars, x), *_bend_rows(frame, x), *_touch_rows(touching, x)):
        total += 0.5 * k * float(part.residual @ part.residual)
    return total


def expand(frame: Frame, x: Points, pull: Pull, touching: Touching) -> Terms:
    """Value, gradient and stiffness."""
    n, k = len(x), pull.stiffness
    gradient = np.zeros(3 * n)
    gradient[2::3] = frame.weight
    value = float(frame.weight @ x[:, 2])
    blocks: list[_Rows] = []
    for part in (_bar_rows(frame.bars, x), *_bend_rows(frame, x), *_touch_rows(touching, x)):
        if len(part.residual):
            gradient += _pushed(part, k * part.residual, n)
            blocks.append(_Rows(part.residual, part.nodes, np.sqrt(k) * part.slope))
            value += 0.5 * k * float(part.residual @ part.residual)
    blocks += _bar_sway(frame, x, k)
    span_value, span_gradient, span_blocks = _span_terms(frame, x, pull)
    gradient += span_gradient
    gradient *= frame.free.ravel()
    return Terms(value + span_value, gradient, _matrix(blocks + span_blocks, frame, n))


def _span_terms(frame: Frame, x: Points, pull: Pull) -> tuple[float, Floats, list[_Rows]]:
    spans, n = frame.spans, len(x)
    delta = spans.a.at(x) - spans.b.at(x)
    length = np.linalg.norm(delta, axis=1)
    stretch = length - pull.rest
    # A span without length of its own has no direction: it is a spring along every axis.
    loose = pull.rest <= 0.0
    live = np.flatnonzero((stretch > 0.0) | loose)
    loose, length, stretch = loose[live], length[live], stretch[live]
    stiffness = pull.along[live]
    u = delta[live] / np.maximum(length, 1e-12)[:, None]
    force = stiffness * np.maximum(stretch, 0.0)
    value = 0.5 * float((force * np.maximum(stretch, 0.0)).sum())
    root = np.sqrt(stiffness)
    along = np.where(loose, 0.0, root)
    # Across its direction a taut span is as stiff as its pull over its length.
    across = np.where(loose, root, np.sqrt(force / np.maximum(length, 1e-9)))
    taut = np.where(loose, 0.0, 1.0)
    flat = np.eye(3)[None] - taut[:, None, None] * (u[:, :, None] * u[:, None, :])
    ways = [u * along[:, None], *(flat[:, c, :] * across[:, None] for c in range(3))]
    blocks = [_span_rows(spans, live, way) for way in ways]
    gradient = _pushed(_span_rows(spans, live, u), force, n)
    return value, gradient, blocks


def _span_rows(spans: Spans, live: Ints, direction: Points) -> _Rows:
    """How far apart the ends of some spans move along directions (l, 3)."""
    at, ab = spans.a.part(live).slopes(direction)
    bt, bb = spans.b.part(live).slopes(direction)
    ends = (spans.a.top, spans.a.bottom, spans.b.top, spans.b.bottom)
    nodes = np.stack([e[live] for e in ends], axis=1)
    return _Rows(np.zeros(len(live)), nodes, np.stack([at, ab, -bt, -bb], axis=1))


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


def _bar_sway(frame: Frame, x: Points, stiffness: float) -> list[_Rows]:
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
        out.append(_Rows(rows.residual, rows.nodes, np.stack([across, -across], axis=1)))
    return out


def _touch_rows(touching: Touching, x: Points) -> list[_Rows]:
    """Contacts as half-spaces: ``normal . (a - b) >= gap``."""
    overlap = touching.gap - np.einsum("ij,ij->i", touching.normal, touching.between(x))
    hit = overlap > 0.0
    nodes, slope = touching.slopes()
    return [_Rows(overlap[hit], nodes[hit], -slope[hit])]


def _columns(nodes: Ints) -> Ints:
    """Where the coordinates of nodes stand in a vector of all of them."""
    flat: Ints = (3 * nodes[:, :, None] + np.arange(3)).ravel()
    return flat


def _pushed(part: _Rows, force: Floats, n: int) -> Floats:
    """(3 n,) float: the rows' forces at their nodes."""
    weights = (part.slope * force[:, None, None]).ravel()
    pushed: Floats = np.bincount(_columns(part.nodes), weights, minlength=3 * n).astype(np.float64)
    return pushed


def _matrix(parts: list[_Rows], frame: Frame, n: int) -> csr_matrix:
    """All rows, one below the other. Every row has its entries together, so nothing is sorted."""
    data = [(p.slope * frame.free[p.nodes]).ravel() for p in parts]
    filled = [np.full(len(p.nodes), 3 * p.nodes.shape[1]) for p in parts]
    columns = [_columns(p.nodes) for p in parts]
    ends = np.cumsum(np.concatenate([[0], *filled]))
    entries = (np.concatenate([[0.0], *data])[1:], np.concatenate([[0], *columns])[1:], ends)
    return csr_matrix(entries, shape=(len(ends) - 1, 3 * n))
