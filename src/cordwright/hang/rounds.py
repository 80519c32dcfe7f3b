"""How wide work in the round comes from the hands: every round as tight as its knots let it.

Knots of a round lie at even angles, in the order of the line-up, and all at one distance from the
axis. Strands draw the rounds together lightly, each to the side as little as can be: least squares
over all strands. No round is tighter than its knots are wide side by side. Arms that hang from one
ring count as rounds too; what takes every strand lies on the axis.

The distances enter linearly, so this is a least-squares problem with a lower bound for every
unknown; the bounds that are reached are found by an active-set iteration.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
from scipy.sparse import csr_matrix, diags
from scipy.sparse.linalg import spsolve

from cordwright.hang.worked import CLOSED, in_sinnet
from cordwright.knots.spec import KnotName

if TYPE_CHECKING:
    from cordwright.hang.frame import Floats, Frame, Ints, Points, Ports
    from cordwright.piece.model import Knot, Piece

WEAK = 1e-6
"""Hold on the bound, against one strand's, for rounds that no strand draws anywhere."""

MOST_ROUNDS = 60


def rounds(piece: Piece, laid_round: list[bool], widths: Floats) -> tuple[Ints, Floats]:
    """Which knots lie in one round, and how near to the axis a round can come.

    Args:
        piece: as worked.
        laid_round: for every knot whether it lies round the axis.
        widths: (k,) float, mm, of the knots.

    Returns:
        (k,) int, the round of every knot, -1 for none, and (r,) float, mm, the least distances.
    """
    names: dict[tuple[object, ...], int] = {}
    of = np.full(len(piece.knots), -1)
    across: list[float] = []
    share: list[float] = []
    for k in piece.knots:
        if not laid_round[k.id] or not k.of or len(k.slots) >= k.of:
            continue
        found = names.setdefault((k.step, k.section, k.row, _along(k), k.shape), len(names))
        if found == len(across):
            across.append(0.0)
            share.append(0.0)
        of[k.id] = found
        across[found] += float(widths[k.id])
        share[found] += max(1, len(k.slots)) / k.of
    least = [w / (2 * math.pi * s) for w, s in zip(across, share, strict=True)]
    return of, np.array(least, dtype=np.float64)


def _along(knot: Knot) -> int:
    """Its place in a sinnet; hitches of one row are numbered along the row."""
    return -1 if knot.spec.name is KnotName.DOUBLE_HALF_HITCH else knot.number


def drawn_in(frame: Frame, of: Ints, least: Floats) -> Points:
    """(n, 3) float: the start with every round at the distance that its strands draw it to.

    Args:
        frame: what hangs, its knots upright about the axis x = y = 0, facing it.
        of: (k,) int, round of every bar, -1 for bars that stay.
        least: (r,) float, mm, least distances.
    """
    x = frame.start.copy()
    if not len(least):
        return x
    bars = frame.bars
    out = -bars.facing[:, :2]
    node_round = np.full(len(x), -1)
    node_out = np.zeros((len(x), 2))
    for ends in (bars.top, bars.bottom):
        node_round[ends] = of
        node_out[ends] = out
    spans = frame.spans
    begun = np.flatnonzero((spans.a.top == spans.a.bottom) & (node_round[spans.a.top] < 0))
    # Strands that begin without a knot do so above their first one.
    begun = begun[node_round[spans.b.top[begun]] >= 0]
    node_round[spans.a.top[begun]] = node_round[spans.b.top[begun]]
    node_out[spans.a.top[begun]] = node_out[spans.b.top[begun]]
    fixed = x[:, :2].copy()
    fixed[node_round >= 0] = 0.0
    upright = np.concatenate([fixed, x[:, 2:]], axis=1)
    rows, columns, data, known = [], [], [], []
    count = 2 * len(frame.spans)
    for ports, sign in ((frame.spans.a, 1.0), (frame.spans.b, -1.0)):
        known.append(sign * _flat(ports, upright))
        ring, way = node_round[ports.top], node_out[ports.top]
        for axis in (0, 1):
            drawn = np.flatnonzero(ring >= 0)
            rows.append(2 * drawn + axis)
            columns.append(ring[drawn])
            data.append(sign * way[drawn, axis])
    a = csr_matrix(
        (np.concatenate(data), (np.concatenate(rows), np.concatenate(columns))),
        shape=(count, len(least)),
    )
    # Knots of a sinnet stay in line: what is drawn in is drawn in between sinnets.
    pull = np.repeat(np.sqrt(np.where(in_sinnet(frame), CLOSED, 1.0)), 2)
    radius = _bounded(diags(pull) @ a, pull * (known[0] + known[1]).ravel(), least)
    moved = node_round >= 0
    x[moved, :2] = radius[node_round[moved], None] * node_out[moved]
    return x


def _flat(ports: Ports, x: Points) -> Points:
    """(p, 2) float: where ports lie across, mm."""
    where: Points = ports.at(x)[:, :2]
    return where


def _bounded(a: csr_matrix, known: Floats, least: Floats) -> Floats:
    """Least squares of ``a r + known`` for r no less than given."""
    normal = (a.T @ a + diags(np.full(len(least), WEAK))).tocsc()
    pull = a.T @ known - WEAK * least
    held = np.ones(len(least), dtype=bool)
    r = least.copy()
    for _ in range(MOST_ROUNDS):
        # A bound is left where that lessens the sum, and held where the least lies below it.
        slope = normal @ r + pull
        held = (r <= least) & (slope >= -1e-9)
        free = np.flatnonzero(~held)
        if not len(free):
            return r
        rest = pull[free] + normal[free][:, np.flatnonzero(held)] @ least[held]
        found = np.atleast_1d(spsolve(normal[free][:, free], -rest))
        after = least.copy()
        after[free] = np.maximum(found, least[free])
        if np.allclose(after, r, atol=1e-9):
            return after
        r = after
    return r
