"""Which part of which cord lies in front: cords cut into runs, and the runs in painting order.

Cords are seen along a line of sight. Wherever two tubes cover one another on the page, the depth of
their centre lines says which is in front. Cords are cut only where one goes from above to below,
as little as an order from back to front allows; that order is a topological one, so that every
crossing comes out as it is in space. What is in front is never guessed from a cord's mean depth.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.curves import at, lengths
from cordwright.draw.order import painting_order

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Ints = NDArray[np.int64]

STEP = 0.2
"""Distance of the samples at which cords are compared, in d of the thinnest cord."""

TOUCH = 0.97
"""Tubes whose centre lines are apart on the page by this share of the sum of their radii, or
more, lie side by side and hide nothing of each other."""

LEVEL = 0.15
"""Centre lines nearer than this in depth, as a share of the sum of their radii, are taken to
lie side by side too: tight cords cannot cross so."""

OWN = 1.25
"""A cord hides itself only where it comes back: so far along it at least, in d."""


@dataclass(frozen=True, slots=True)
class View:
    """A line of sight.

    Args:
        turn: degrees by which the viewer steps to the right round the knot.
        tilt: degrees by which the viewer looks down on it.
    """

    turn: float = 0.0
    tilt: float = 0.0

    def seen(self, points: Floats) -> Floats:
        """(n, 3) float: to the right, up, and towards the viewer, from points in space."""
        a, b = np.radians(self.turn), np.radians(self.tilt)
        x, y, z = points.T
        right = np.cos(a) * x + np.sin(a) * y
        away = -np.sin(a) * x + np.cos(a) * y
        up = np.cos(b) * z + np.sin(b) * away
        near = np.sin(b) * z - np.cos(b) * away
        return np.stack([right, up, near], axis=1)


FRONT = View()


@dataclass(frozen=True, slots=True)
class Tube:
    """A cord as it is seen.

    Args:
        points: (n, 3) float: right, up, towards the viewer.
        diameter: in the same unit.
    """

    points: Floats
    diameter: float


@dataclass(frozen=True, slots=True)
class Run:
    """A part of a cord that is painted in one go.

    Args:
        cord: index of the cord.
        start, end: arc lengths along the cord.
    """

    cord: int
    start: float
    end: float


@dataclass(frozen=True, slots=True)
class Samples:
    """All cords' even samples in one list: where, on which cord, how far along it, how thick."""

    points: Floats
    cord: Ints
    along: Floats
    radius: Floats


def layers(tubes: Sequence[Tube]) -> tuple[Run, ...]:
    """Runs of all cords, from back to front; joined up they are the whole cords."""
    samples = sampled(tubes)
    lower, upper = overlaps(samples)
    speed = _speed(samples)
    order = painting_order(lower, upper, samples.cord, samples.points[:, 2], speed)
    return tuple(_run(samples, first, last) for first, last in order)


def _speed(samples: Samples) -> Floats:
    """(n,) float: length on the page against length of cord, from each sample to the next."""
    way = np.diff(samples.points, axis=0)
    flat, full = np.hypot(way[:, 0], way[:, 1]), np.linalg.norm(way, axis=1)
    return np.append(flat / np.maximum(full, 1e-12), 0.0)


def _run(samples: Samples, first: int, last: int) -> Run:
    """A run's ends lie half way to the samples before and after it."""

    def joint(a: int, b: int) -> float:
        same = a >= 0 and b < len(samples.cord) and samples.cord[a] == samples.cord[b]
        inside = a if a >= first else b
        return float(samples.along[[a, b] if same else [inside]].mean())

    return Run(int(samples.cord[first]), joint(first - 1, first), joint(last, last + 1))


def overlaps(samples: Samples) -> tuple[Ints, Ints]:
    """Pairs of samples that cover one another on the page: the ones behind, the ones in front."""
    from scipy.spatial import cKDTree

    reach = 2 * float(samples.radius.max())
    pairs = cKDTree(samples.points[:, :2]).query_pairs(reach, output_type="ndarray")
    i, j = pairs[:, 0], pairs[:, 1]
    sum_ = samples.radius[i] + samples.radius[j]
    apart = np.hypot(*(samples.points[i, :2] - samples.points[j, :2]).T)
    depth = samples.points[j, 2] - samples.points[i, 2]
    far = np.abs(samples.along[i] - samples.along[j]) > OWN * sum_
    keep = (apart < TOUCH * sum_) & (np.abs(depth) > LEVEL * sum_)
    keep &= (samples.cord[i] != samples.cord[j]) | far
    i, j, depth = i[keep], j[keep], depth[keep]
    return np.where(depth > 0, i, j), np.where(depth > 0, j, i)


def _places(total: float, step: float) -> Floats:
    return np.linspace(0.0, total, max(2, int(np.ceil(total / step)) + 1))


def sampled(tubes: Sequence[Tube]) -> Samples:
    """Even samples of all cords."""
    step = STEP * min(t.diameter for t in tubes)
    where = [_places(float(lengths(t.points)[-1]), step) for t in tubes]
    curves = [at(t.points, s) for t, s in zip(tubes, where, strict=True)]
    return Samples(
        np.concatenate(curves),
        np.concatenate([np.full(len(c), i) for i, c in enumerate(curves)]),
        np.concatenate(where),
        np.concatenate(
            [np.full(len(c), t.diameter / 2) for c, t in zip(curves, tubes, strict=True)]
        ),
    )
