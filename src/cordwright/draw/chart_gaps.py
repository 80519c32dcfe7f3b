"""Gaps in the chart: a line ends a little before one that lies in front of it, and goes on beyond.

As in the figures of knots nothing is painted to make a gap: what lies behind really is left out, so
that charts look alike on every ground. Ends are cut square, and crumbs that would be left between
two gaps are left out too.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.placed_cell import evenly

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from cordwright.draw.placed_cell import Points

    Ints = NDArray[np.int64]
    Mask = NDArray[np.bool_]

EDGE, FILL = 0.2, 0.13
"""Widths of a strand's outline and of its colour, lanes."""

SIDE = 0.25 * (EDGE + FILL)
"""How far the middle of each of its outlines is from a strand's middle, lanes."""

CLEAR = 0.18
"""How far from the middle of a strand in front those behind it end, lanes."""

GRAIN = 0.02
"""Distance of the places that are looked at, lanes."""

ROUND = 4
"""Places to either side over which corners are rounded."""

OWN = 0.5
"""A strand does not part itself where it goes on: only so far along it, lanes."""

CRUMB = 0.12
"""Shorter parts between two gaps are left out, lanes."""


@dataclass(frozen=True, slots=True)
class Lying:
    """A line of the chart.

    Args:
        points: (n, 2) float, lanes.
        strand: of which it is a part.
        start: how far along the strand it begins, lanes.
    """

    points: Points
    strand: int
    start: float = 0.0

    def along(self) -> Points:
        """(n,) float: how far along the strand each of its points is."""
        steps = np.hypot(*np.diff(self.points, axis=0).T)
        return self.start + np.concatenate([[0.0], np.cumsum(steps)])


@dataclass(frozen=True, slots=True)
class Part:
    """What is seen of a line in one place: both its outlines, which need not end abreast.

    Args:
        left, right: (n, 2) float, lanes, in the direction of the line.
    """

    left: Points
    right: Points

    @property
    def points(self) -> Points:
        """(n, 2) float: all round it."""
        return np.concatenate([self.left, self.right[::-1]])

    @property
    def middle(self) -> Points:
        """(n, 2) float: about half way between its outlines."""
        count = max(len(self.left), len(self.right))
        at = np.linspace(0.0, 1.0, count)
        sides = [
            np.stack([np.interp(at, np.linspace(0.0, 1.0, len(s)), p) for p in s.T], axis=1)
            for s in (self.left, self.right)
        ]
        mid: Points = 0.5 * (sides[0] + sides[1])
        return mid


def parted(lines: Sequence[Lying]) -> list[list[Part]]:
    """What is left of each line, in parts.

    Args:
        lines: from back to front.
    """
    return [left_of(line, lines[i + 1 :]) for i, line in enumerate(lines)]


def left_of(line: Lying, in_front: Sequence[Lying]) -> list[Part]:
    """What is left of a line below others."""
    fine = replace(line, points=_rounded(line.points))
    sides = _sides(fine.points)
    low, high = fine.points.min(axis=0) - EDGE - CLEAR, fine.points.max(axis=0) + EDGE + CLEAR
    hidden = np.zeros((2, len(fine.points)), dtype=bool)
    for other in in_front:
        if (other.points.max(axis=0) > low).all() and (other.points.min(axis=0) < high).all():
            upper = replace(other, points=_rounded(other.points))
            hidden |= [_under(side, fine, upper) for side in sides]
    return _seen(sides, hidden)


def _rounded(points: Points) -> Points:
    """(n, 2) float: the line with many points, its corners rounded; its ends stay."""
    fine = evenly(points, GRAIN)
    wide = min(ROUND, (len(fine) - 1) // 2)
    if wide < 1:
        return fine
    # Led on beyond its ends as far as the mean reaches, in mirror image about them.
    led = np.concatenate(
        [2 * fine[0] - fine[wide:0:-1], fine, 2 * fine[-1] - fine[-2 : -wide - 2 : -1]]
    )
    total = np.concatenate([np.zeros((1, 2)), np.cumsum(led, axis=0)])
    mean: Points = (total[2 * wide + 1 :] - total[: -2 * wide - 1]) / (2 * wide + 1)
    return mean


def whole(points: Points) -> Part:
    """A line of which all is seen."""
    return Part(*_sides(points))


def _sides(points: Points) -> tuple[Points, Points]:
    """Both outlines of a line."""
    way = np.gradient(points, axis=0)
    way /= np.maximum(np.hypot(way[:, 0], way[:, 1]), 1e-9)[:, None]
    aside = SIDE * np.stack([way[:, 1], -way[:, 0]], axis=1)
    return points + aside, points - aside


def _under(side: Points, lower: Lying, upper: Lying) -> Mask:
    """(n,) bool: where an outline is too near to a line in front, beside it and not beyond it."""
    hidden = np.zeros(len(side), dtype=bool)
    mine, theirs = _near(side, upper.points), _near(upper.points, side)
    if not (len(mine) and len(theirs)):
        return hidden
    gap = ((side[mine, None] - upper.points[None, theirs]) ** 2).sum(axis=2)
    if lower.strand == upper.strand:
        own = np.abs(lower.along()[mine, None] - upper.along()[None, theirs]) < OWN
        gap[own] = np.inf
    nearest = gap.argmin(axis=1)
    beside = (theirs[nearest] > 0) & (theirs[nearest] < len(upper.points) - 1)
    hidden[mine] = beside & (gap[np.arange(len(mine)), nearest] < CLEAR**2)
    return hidden


def _near(points: Points, others: Points) -> Ints:
    """(m,) int: which points are no further than a gap from the box round others."""
    low, high = others.min(axis=0) - CLEAR, others.max(axis=0) + CLEAR
    found: Ints = np.flatnonzero(((points > low) & (points < high)).all(axis=1))
    return found


def _seen(sides: tuple[Points, Points], hidden: Mask) -> list[Part]:
    """The parts of a line of which something is seen.

    Args:
        sides: its outlines.
        hidden: (2, n) bool, where each is.
    """
    gone = np.concatenate([[True], hidden.all(axis=0), [True]])
    edges = np.flatnonzero(np.diff(gone.astype(np.int8)))
    parts = []
    for first, last in zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True):
        seen = [np.flatnonzero(~h[first:last]) + first for h in hidden]
        if min(map(len, seen)) < 2:
            continue
        cut = [side[k[0] : k[-1] + 1] for side, k in zip(sides, seen, strict=True)]
        between = first > 0 and last < hidden.shape[1]
        if not (between and GRAIN * min(map(len, cut)) < CRUMB):
            parts.append(Part(cut[0], cut[1]))
    return parts
