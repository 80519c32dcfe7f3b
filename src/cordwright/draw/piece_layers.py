"""What lies over what: cords cut into few stretches that are painted from back to front.

Two cords that overlap in the picture are ordered by their depth where they do. A cord is cut only
where it must be: stretches grow along it as long as everything behind them is painted already.
Cords neither cut into one another nor run through themselves, so the order of short pieces by depth
is the true one wherever cords cross.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Points = NDArray[np.float64]
    Ints = NDArray[np.int64]

GRAIN = 3
"""Steps between points that make one short piece: with points a quarter of a diameter apart,
three quarters of a diameter."""

OWN = 1.3
"""A cord hides itself only this many diameters further along it."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of one cord that is painted at once.

    Args:
        cord: which of the cords.
        first: index of its first point.
        last: index of its last point.
    """

    cord: int
    first: int
    last: int


def painted(cords: Sequence[Points], thick: Sequence[float]) -> list[Stretch]:
    """Stretches of cords in the order in which they are painted, the farthest first.

    Args:
        cords: (n, 3) float each, at even distances: right, up and away from the viewer.
        thick: diameter of each cord, in the unit of the points.
    """
    pieces = _Pieces(cords, thick)
    behind = pieces.behind()
    waits = np.bincount(behind[:, 1], minlength=pieces.count) if len(behind) else None
    open_ = np.zeros(pieces.count, dtype=np.int64) if waits is None else waits.astype(np.int64)
    over: list[list[int]] = [[] for _ in range(pieces.count)]
    for a, b in behind:
        over[int(a)].append(int(b))
    done = np.zeros(pieces.count, dtype=bool)
    found = []
    while not done.all():
        a, b = _longest_run(pieces, done, open_)
        done[a:b] = True
        for i in range(a, b):
            for j in over[i]:
                open_[j] -= 1
        found.append(pieces.stretch(a, b))
    return found


class _Pieces:
    """Short pieces of all cords, numbered along them one cord after the other."""

    def __init__(self, cords: Sequence[Points], thick: Sequence[float]) -> None:
        self.cords, self.thick = cords, np.asarray(thick, dtype=np.float64)
        steps = np.array([len(c) - 1 for c in cords], dtype=np.int64)
        per = np.maximum(1, np.round(steps / GRAIN)).astype(np.int64)
        self.first = np.concatenate([[0], np.cumsum(per)])
        self.count = int(self.first[-1])
        self.edges = [
            np.round(np.linspace(0, n, m + 1)).astype(np.int64)
            for n, m in zip(steps, per, strict=True)
        ]
        self.cord = np.repeat(np.arange(len(cords)), per)
        self.begins = np.zeros(self.count + 1, dtype=bool)
        self.begins[self.first] = True

    def stretch(self, a: int, b: int) -> Stretch:
        cord = int(self.cord[a])
        edges, first = self.edges[cord], int(self.first[cord])
        return Stretch(cord, int(edges[a - first]), int(edges[b - first]))

    def behind(self) -> Ints:
        """(m, 2) int: pairs of pieces of which the first is painted before the second."""
        from scipy.spatial import cKDTree

        points = np.concatenate(self.cords)
        of = np.concatenate([np.full(len(c), i) for i, c in enumerate(self.cords)])
        step = np.array([float(np.linalg.norm(c[1] - c[0])) for c in self.cords])
        along = np.concatenate([step[i] * np.arange(len(c)) for i, c in enumerate(self.cords)])
        piece = np.concatenate([self._piece_of_points(i) for i in range(len(self.cords))])
        pairs = cKDTree(points[:, :2]).query_pairs(float(self.thick.max()), output_type="ndarray")
        i, j = pairs.T
        reach = 0.5 * (self.thick[of[i]] + self.thick[of[j]])
        near = np.hypot(*(points[i, :2] - points[j, :2]).T) < reach
        apart = (of[i] != of[j]) | (np.abs(along[i] - along[j]) > OWN * self.thick[of[i]])
        keep = near & apart & (piece[i] != piece[j])
        i, j = i[keep], j[keep]
        return self._by_depth(piece[i], piece[j], points[i, 2] - points[j, 2])

    def _piece_of_points(self, cord: int) -> Ints:
        edges = self.edges[cord]
        at = np.searchsorted(edges, np.arange(len(self.cords[cord])), side="right") - 1
        of: Ints = np.clip(at, 0, len(edges) - 2) + self.first[cord]
        return of

    def _by_depth(self, a: Ints, b: Ints, deeper: Points) -> Ints:
        """Pairs of pieces, the farther one first, by the clearest difference in depth."""
        low, high = np.minimum(a, b), np.maximum(a, b)
        signed = np.where(a < b, deeper, -deeper)
        key = low * self.count + high
        order = np.lexsort((-np.abs(signed), key))
        _, first = np.unique(key[order], return_index=True)
        pick = order[first]
        far_first = signed[pick] > 0
        return np.stack(
            [
                np.where(far_first, low[pick], high[pick]),
                np.where(far_first, high[pick], low[pick]),
            ],
            axis=1,
        )


def _longest_run(pieces: _Pieces, done: NDArray[np.bool_], open_: Ints) -> tuple[int, int]:
    """The longest run of neighbouring pieces of one cord behind which all is painted."""
    ready = ~done & (open_ <= 0)
    if not ready.any():
        # Pieces that wait for one another in a ring: the one that waits for the fewest begins.
        waiting = np.where(done, np.iinfo(np.int64).max, open_)
        i = int(waiting.argmin())
        return i, i + 1
    # Runs of ready pieces begin and end where readiness or the cord changes.
    change = pieces.begins.copy()
    change[1:-1] |= ready[1:] != ready[:-1]
    breaks = np.flatnonzero(change)
    long = np.where(ready[breaks[:-1]], np.diff(breaks), 0)
    best = int(long.argmax())
    return int(breaks[best]), int(breaks[best + 1])
