"""Where centre lines cross on the page, and which passes in front: exact, from the polylines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.curves import lengths

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from cordwright.draw.layers import Tube

    Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Crossing:
    """One crossing of two centre lines, or of one with itself.

    Args:
        over, under: the cords.
        over_at, under_at: arc lengths along them.
        right, up: where it is on the page.
        gap: how much nearer the upper centre line is.
    """

    over: int
    under: int
    over_at: float
    under_at: float
    right: float
    up: float
    gap: float


def crossings(tubes: Sequence[Tube]) -> tuple[Crossing, ...]:
    """All crossings, from the top of the page to its bottom."""
    from scipy.spatial import cKDTree

    start = np.concatenate([t.points[:-1] for t in tubes])
    way = np.concatenate([np.diff(t.points, axis=0) for t in tubes])
    cord = np.concatenate([np.full(len(t.points) - 1, i) for i, t in enumerate(tubes)])
    along = np.concatenate([lengths(t.points)[:-1] for t in tubes])
    size = np.linalg.norm(way, axis=1)
    # Long straight segments would make every other one a neighbour: all are cut short first.
    pieces = np.maximum(1, np.ceil(size / CHOP)).astype(np.int64)
    index = np.repeat(np.arange(len(start)), pieces)
    part = np.arange(len(index)) - np.repeat(np.cumsum(pieces) - pieces, pieces)
    share = (part / pieces[index])[:, None]
    start, way = start[index] + share * way[index], way[index] / pieces[index][:, None]
    along, size = along[index] + share[:, 0] * size[index], size[index] / pieces[index]
    cord, order = cord[index], np.arange(len(index))
    middle = start[:, :2] + 0.5 * way[:, :2]
    pairs = cKDTree(middle).query_pairs(float(size.max()), output_type="ndarray")
    i, j = pairs[:, 0], pairs[:, 1]
    apart = (np.abs(order[i] - order[j]) > 1) | (cord[i] != cord[j])
    i, j = i[apart], j[apart]
    r = start[j] - start[i]
    det = _cross(way[i], way[j])
    sound = np.abs(det) > 1e-15
    i, j, r, det = i[sound], j[sound], r[sound], det[sound]
    s, t = _cross(r, way[j]) / det, _cross(r, way[i]) / det
    # Half open, so that a crossing at a vertex counts once.
    hit = (s >= 0) & (s < 1) & (t >= 0) & (t < 1)
    i, j, s, t = i[hit], j[hit], s[hit], t[hit]
    a, b = start[i] + s[:, None] * way[i], start[j] + t[:, None] * way[j]
    found = [
        _crossing(
            (int(cord[i[k]]), float(along[i[k]] + s[k] * size[i[k]])),
            (int(cord[j[k]]), float(along[j[k]] + t[k] * size[j[k]])),
            a[k],
            float(b[k, 2] - a[k, 2]),
        )
        for k in range(len(i))
    ]
    return tuple(sorted(found, key=lambda c: (-c.up, c.right)))


CHOP = 0.25
"""Longest piece of a centre line that is compared at once."""


def _crossing(
    one: tuple[int, float], other: tuple[int, float], at: Floats, nearer: float
) -> Crossing:
    over, under = (other, one) if nearer > 0 else (one, other)
    return Crossing(over[0], under[0], over[1], under[1], float(at[0]), float(at[1]), abs(nearer))


def _cross(a: Floats, b: Floats) -> Floats:
    crossed: Floats = a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
    return crossed
