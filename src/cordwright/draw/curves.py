"""Plane curves: arc length, even samples, and few cubic Béziers through many points.

The fit is the least-squares one of P. J. Schneider, 'An algorithm for automatically fitting
digitized curves', Graphics Gems (1990): tangents at both ends are kept, parameters are improved by
Newton's method, and a stretch that misses by too much is halved at its worst point.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Points = NDArray[np.float64]
    """(n, k) float: points of a curve, in order."""

ROUNDS = 3
"""Newton rounds on a stretch before it is halved."""

LONG = 60.0
"""A straight edge longer than so many errors is held to the fit in between, too."""


def lengths(points: Points) -> NDArray[np.float64]:
    """(n,) float: arc length from the first point to each, in the points' unit."""
    steps = np.sqrt((np.diff(points, axis=0) ** 2).sum(axis=1))
    return np.concatenate([[0.0], np.cumsum(steps)])


def at(points: Points, where: NDArray[np.float64]) -> Points:
    """(m, k) float: points at the given arc lengths."""
    s = lengths(points)
    return np.stack([np.interp(where, s, c) for c in points.T], axis=1)


def even(points: Points, step: float) -> Points:
    """The curve resampled so that points lie ``step`` apart, or a little less."""
    total = float(lengths(points)[-1])
    return at(points, np.linspace(0.0, total, max(2, int(np.ceil(total / step)) + 1)))


def part(points: Points, start: float, end: float) -> Points:
    """The curve from one arc length to another, its own vertices kept."""
    s = lengths(points)
    inner = points[(s > start + 1e-9) & (s < end - 1e-9)]
    ends = at(points, np.array([start, end]))
    return np.concatenate([ends[:1], inner, ends[1:]])


def beziers(points: Points, error: float) -> Points:
    """Cubic Béziers that stay within ``error`` of every point.

    Args:
        points: (n, 2) float, at least two.
        error: largest distance from a point to its place on the curve, in the points' unit.

    Returns:
        (m, 4, 2) float: control points; each cubic starts where the last one ends, with the same
        tangent.
    """
    keep = np.ones(len(points), dtype=bool)
    keep[1:] = (np.diff(points, axis=0) ** 2).sum(axis=1) > 1e-18
    kept = points[keep]
    if len(kept) < 2:
        kept = points[[0, -1]]
    if len(kept) > 2:
        kept = _filled(kept, LONG * error)
    found: list[_Stretch] = []
    last = len(kept) - 1
    # Stretches still to be fitted: first and last point.
    open_ = [(0, last)]
    while open_:
        a, b = open_.pop()
        cubic, worst, split = _fit(kept[a : b + 1], _way(kept, a), -_way(kept, b), error)
        if worst > error and b - a >= 2:
            open_ += [(a + split, b), (a, a + split)]
            continue
        # What was halved at a bad place may go together again.
        while found:
            first = found[-1][0]
            longer, miss, _ = _fit(kept[first : b + 1], _way(kept, first), -_way(kept, b), error)
            if miss > error:
                break
            a, cubic = first, longer
            found.pop()
        found.append((a, cubic))
    return np.array([cubic for _, cubic in found])


_Stretch = tuple[int, "Points"]
"""Its first point, and its cubic."""


def _filled(points: Points, most: float) -> Points:
    """The points, and more between those that are farther apart than that."""
    count = np.maximum(1, np.ceil(np.hypot(*np.diff(points, axis=0).T) / most)).astype(np.int64)
    at = np.repeat(np.arange(len(count)), count)
    share = (np.arange(len(at)) - np.repeat(np.cumsum(count) - count, count)) / count[at]
    inner = points[at] + share[:, None] * (points[at + 1] - points[at])
    return np.concatenate([inner, points[-1:]])


def _way(points: Points, i: int) -> Points:
    """Unit tangent of a curve at one of its points."""
    return _unit(points[min(i + 1, len(points) - 1)] - points[max(i - 1, 0)])


def along(cubic: Points, t: NDArray[np.float64]) -> Points:
    """(m, 2) float: points of one cubic, (4, 2) float, at parameters from 0 to 1."""
    u = (1 - t)[:, None]
    v = t[:, None]
    a, b, c, d = cubic
    placed: Points = u**3 * a + 3 * u * u * v * b + 3 * u * v * v * c + v**3 * d
    return placed


def _fit(points: Points, ta: Points, tb: Points, error: float) -> tuple[Points, float, int]:
    """One cubic, how far it misses, and at which point it misses most."""
    if len(points) == 2:
        third = float(np.hypot(*(points[1] - points[0]))) / 3
        return _cubic(points, ta, tb, third, third), 0.0, 1
    t = lengths(points)
    t = t / t[-1]
    worst, split, cubic = np.inf, 1, points[:1]
    for _ in range(ROUNDS):
        cubic = _least_squares(points, ta, tb, t)
        miss = ((along(cubic, t) - points) ** 2).sum(axis=1)
        split = int(np.clip(miss.argmax(), 1, len(points) - 2))
        worst = float(np.sqrt(miss.max()))
        if worst <= error or worst > 16 * error:
            break
        t = _nearer(cubic, points, t)
    return cubic, worst, split


def _least_squares(points: Points, ta: Points, tb: Points, t: NDArray[np.float64]) -> Points:
    u = 1 - t
    b1, b2 = 3 * u * u * t, 3 * u * t * t
    rest = points - np.outer(u**3 + b1, points[0]) - np.outer(b2 + t**3, points[-1])
    c11, c22 = float(b1 @ b1), float(b2 @ b2)
    c12 = float(b1 @ b2) * float(ta @ tb)
    x1, x2 = float(b1 @ (rest @ ta)), float(b2 @ (rest @ tb))
    det = c11 * c22 - c12 * c12
    chord = float(np.hypot(*(points[-1] - points[0])))
    first = (x1 * c22 - x2 * c12) / det if det else 0.0
    second = (c11 * x2 - c12 * x1) / det if det else 0.0
    if min(first, second) < 1e-3 * chord or max(first, second) > 3.0 * chord:
        first = second = chord / 3
    return _cubic(points, ta, tb, first, second)


def _cubic(points: Points, ta: Points, tb: Points, first: float, second: float) -> Points:
    a, d = points[0], points[-1]
    return np.stack([a, a + first * ta, d + second * tb, d])


def _nearer(cubic: Points, points: Points, t: NDArray[np.float64]) -> NDArray[np.float64]:
    """Parameters at which the cubic comes nearer to the points, by one Newton step each."""
    one = 3 * np.diff(cubic, axis=0)
    two = 2 * np.diff(one, axis=0)
    u, v = (1 - t)[:, None], t[:, None]
    d1 = u * u * one[0] + 2 * u * v * one[1] + v * v * one[2]
    d2 = u * two[0] + v * two[1]
    off = along(cubic, t) - points
    slope = (d1 * d1).sum(axis=1) + (off * d2).sum(axis=1)
    step = np.where(np.abs(slope) > 1e-12, (off * d1).sum(axis=1) / np.where(slope, slope, 1), 0.0)
    moved = np.clip(t - step, 0.0, 1.0)
    # Points that would change their order on the curve leave the parameters as they were.
    return moved if bool((np.diff(moved) >= 0).all()) else t


def _unit(v: Points) -> Points:
    size = float(np.hypot(*v))
    return v / size if size else np.array([1.0, 0.0])
