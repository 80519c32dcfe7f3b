"""Proof that no cord passed through another while it moved.

Two edges can only pass through one another if their distance before a move is at most what
their vertices move. Where that simple test does not settle it, the move is followed: four
points moving straight are in one plane at the roots of a cubic (as in X. Provot, 'Collision and
self-collision handling in cloth model dedicated to design garments', 1997), and there the two
edges either cross or do not.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np
from numpy.polynomial import polynomial
from scipy.optimize import brentq

from cordwright.knots.contact import NEAR_ALONG, Pairs, segment_closest
from cordwright.knots.mesh import Floats, Mesh, State, edge_ends, image

if TYPE_CHECKING:
    from cordwright.knots.tangle import Points

FOLLOWED = 64
"""Parts into which a move within one plane is divided."""


def passes(mesh: Mesh, before: State, after: State, pairs: Pairs) -> int:
    """How many pairs of edges passed through one another between two states.

    ``pairs`` must hold every pair that is within reach of the move (``near_pairs``).
    """
    c0 = _corners(mesh, before, pairs)
    c1 = _corners(mesh, after, pairs)
    touch = segment_closest(*c0)
    moved = [np.linalg.norm(b - a, axis=1) for a, b in zip(c0, c1, strict=True)]
    reach = np.maximum(moved[0], moved[1]) + np.maximum(moved[2], moved[3])
    # Parts of one tight bend: the bend limit keeps them from closing up.
    bend = pairs.apart < 0.6 * NEAR_ALONG * mesh.diameter[pairs.a]
    doubtful = np.flatnonzero((touch.distance <= reach) & ~bend)
    return sum(_meet([c[i] for c in c0], [c[i] for c in c1]) for i in doubtful)


def _corners(mesh: Mesh, state: State, pairs: Pairs) -> tuple[Points, Points, Points, Points]:
    p, q = edge_ends(mesh, state)
    return (
        p[pairs.a],
        q[pairs.a],
        image(mesh, state, p[pairs.b], pairs.cell),
        image(mesh, state, q[pairs.b], pairs.cell),
    )


def _meet(c0: list[Floats], c1: list[Floats]) -> bool:
    """Whether two edges whose four ends move straight from c0 to c1 ever touch centre to centre."""

    def line(i: int, j: int) -> list[tuple[float, float]]:
        start, end = c0[j] - c0[i], c1[j] - c1[i]
        return [(float(s), float(e - s)) for s, e in zip(start, end, strict=True)]

    e1, e2, r = line(0, 1), line(2, 3), line(0, 2)
    total = np.zeros(4)
    for x, y, z in ((0, 1, 2), (1, 2, 0), (2, 0, 1)):
        cross = polynomial.polysub(
            polynomial.polymul(e1[y], e2[z]), polynomial.polymul(e1[z], e2[y])
        )
        term = polynomial.polymul(cross, r[x])
        total[: len(term)] += term
    nearest = 1e-6
    if not np.any(np.abs(total) > 1e-15):
        # Always in one plane: no root tells when they meet, so the move is followed in small
        # parts, and nearer than half of what can happen within one of them is doubt enough.
        times = np.linspace(0.0, 1.0, FOLLOWED + 1).tolist()
        nearest += max(float(np.linalg.norm(b - a)) for a, b in zip(c0, c1, strict=True)) / FOLLOWED
    else:
        times = _flat_times(total)
    for t in times:
        at = [(1 - t) * a + t * b for a, b in zip(c0, c1, strict=True)]
        near = segment_closest(at[0][None], at[1][None], at[2][None], at[3][None])
        if near.distance[0] < nearest:
            return True
    return False


def _flat_times(cubic: Floats) -> list[float]:
    """Times from 0 to 1 at which a cubic is zero or turns round.

    Args:
        cubic: (4,) float, coefficients from the constant on.
    """
    # Roots of a companion matrix are wrong where the cubic is nearly a line, as it is when both
    # edges keep their directions; between its turns each root is found by its change of sign.
    _, c, b, a = cubic * (1.0, 1.0, 2.0, 3.0)
    inner = b * b - 4.0 * a * c
    turns: list[float] = []
    if inner >= 0.0:
        q = -0.5 * (b + np.copysign(np.sqrt(inner), b))
        turns = [float(n / d) for n, d in ((q, a), (c, q)) if abs(n) < abs(d)]
    stops = [0.0, *sorted(t for t in turns if 0.0 < t < 1.0), 1.0]

    def value(t: float) -> float:
        return float(polynomial.polyval(t, cubic))

    found = stops[1:-1]
    for low, high in pairwise(stops):
        if value(low) * value(high) <= 0.0:
            found.append(float(brentq(value, low, high, xtol=1e-15)))
    return found
