"""Smooth curves through points of a cord, as few Bézier curves, in the picture's plane.

A curve's handles are a third of the way to the next point, along the cord's direction in space:
seen from any side that is again the cord, so what runs towards the viewer needs no other care.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Points = NDArray[np.float64]

TURN = 0.75
"""Radians that a cord turns along one Bézier curve at most."""


@dataclass(frozen=True, slots=True)
class Line:
    """A cord's points with what fitting needs, found once.

    Args:
        points: (n, 3) float, two or more.
        tangents: (n, 3) unit vectors.
        way: (n,) float, length along it.
        turned: (n,) float, radians that it has turned.
    """

    points: Points
    tangents: Points
    way: Points
    turned: Points

    def fitted(self, first: int, last: int) -> Points:
        """(k, 4, 3) float: Bézier curves from one point to another, through some in between."""
        a, b = float(self.turned[first]), float(self.turned[last])
        count = int((b - a) / TURN) + 1
        inner = [a + (b - a) * i / count for i in range(1, count)]
        between = (first + np.searchsorted(self.turned[first:last], inner)).tolist()
        keep = sorted({first, last, *between})
        p, t = self.points[keep], self.tangents[keep]
        third = np.diff(self.way[keep])[:, None] / 3.0
        out = np.empty((len(keep) - 1, 4, 3))
        out[:, 0], out[:, 3] = p[:-1], p[1:]
        out[:, 1], out[:, 2] = p[:-1] + third * t[:-1], p[1:] - third * t[1:]
        return out


def line(points: Points) -> Line:
    """Tangents, length and turn along a cord."""
    steps = np.diff(points, axis=0)
    size = np.sqrt((steps**2).sum(axis=1))
    ahead = steps / np.maximum(size, 1e-12)[:, None]
    tangents = np.empty_like(points)
    tangents[0], tangents[-1] = ahead[0], ahead[-1]
    tangents[1:-1] = ahead[1:] + ahead[:-1]
    tangents /= np.maximum(np.sqrt((tangents**2).sum(axis=1)), 1e-12)[:, None]
    cosine = np.clip((tangents[1:] * tangents[:-1]).sum(axis=1), -1.0, 1.0)
    way = np.concatenate([[0.0], np.cumsum(size)])
    return Line(points, tangents, way, np.concatenate([[0.0], np.cumsum(np.arccos(cosine))]))


def path(chains: Iterable[Points], digits: int) -> str:
    """The ``d`` of an SVG path: each chain of Bézier curves is one open line.

    Args:
        chains: (k, 4, 2) float each, x to the right and y down the page.
        digits: decimals that are kept.
    """
    words = []
    for chain in chains:
        scaled = np.rint(np.asarray(chain) * 10**digits).astype(np.int64)
        x, y = scaled[0, 0]
        words.append(f"M{number(x, digits)} {number(y, digits)}c")
        steps = scaled[:, 1:] - scaled[:, :1]
        words.append(_joined(steps.ravel().tolist(), digits))
    return "".join(words)


def _joined(values: list[int], digits: int) -> str:
    """Numbers as short as SVG reads them: a minus sign needs no blank before it."""
    words = [number(v, digits) for v in values]
    return words[0] + "".join(w if w[0] == "-" else " " + w for w in words[1:])


@lru_cache(maxsize=65536)
def number(scaled: int, digits: int) -> str:
    """A number given as a whole count of its last digit.

    >>> number(1250, 3), number(-50, 2), number(300, 2)
    ('1.25', '-.5', '3')
    """
    if not digits:
        return str(int(scaled))
    sign, size = ("-" if scaled < 0 else ""), abs(int(scaled))
    whole, rest = divmod(size, 10**digits)
    if not rest:
        return f"{sign}{whole}" if whole else "0"
    part = f"{rest:0{digits}d}".rstrip("0")
    return f"{sign}{whole or ''}.{part}"
