"""Which runs end where others lie over them, so that a gap parts what is behind from the front.

The gap is left open: what lies behind really ends there, whatever a figure is laid on. Cords that
lie side by side leave no gap, and where a gap would not be seen none is made.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain
from typing import TYPE_CHECKING, cast

import numpy as np

from cordwright.draw.layers import sampled

if TYPE_CHECKING:
    from numpy.typing import NDArray
    from scipy.spatial import cKDTree

    from cordwright.draw.layers import Run, Samples, Tube

    Floats = NDArray[np.float64]
    Ints = NDArray[np.int64]

GAP = 0.07
"""Width of the gap, in diameters of the thinnest cord shown."""

BEHIND = 0.3
"""A cord is parted from one that is nearer by this share of the sum of their radii; two tight cords
of which one is less far behind lie rather side by side."""

LEAST = 3
"""A gap is made where it is seen in so many places more than not, a fifth of a diameter apart."""

WITHIN = (0.0, 0.5, 0.9)
"""A run of which no place so far from its middle, in its radius, can be seen is hidden."""

INSIDE = 0.95
"""What reaches into a gap by less than this share of its radius counts; the rest is its rim."""


@dataclass(frozen=True, slots=True)
class Seen:
    """What is seen of the runs of a picture.

    Args:
        gaps: for each run that ends at a gap, the runs in front of it that make the gap.
        hidden: runs of which nothing is seen.
    """

    gaps: Mapping[int, tuple[int, ...]]
    hidden: frozenset[int]


def seen_of(tubes: Sequence[Tube], runs: Sequence[Run]) -> Seen:
    """Which runs are seen, and where they end at gaps.

    Args:
        tubes: the cords as they are seen.
        runs: parts of them from back to front.
    """
    from scipy.spatial import cKDTree

    samples = sampled(tubes)
    run = _run_of(samples, runs)
    tree = cKDTree(samples.points[:, :2])
    reach = INSIDE * float(samples.radius.max())
    hidden = set(range(len(runs)))
    for out in WITHIN:
        places = _places(tree, samples, out * samples.radius, reach)
        hidden -= set(run[places.own[places.top(run) <= run[places.own]]].tolist())
    gap = GAP * min(t.diameter for t in tubes)
    places = _places(tree, samples, samples.radius + 0.5 * gap, reach)
    counts: dict[tuple[int, int], int] = {}
    for own, inside in places.open(run):
        for depth, (lower, behind) in enumerate(_seen_in_gap(samples, run, own, inside)):
            key = lower, int(run[own])
            # What lies below the run that ends there would only be a crumb in the gap.
            sure = LEAST if depth else 1
            counts[key] = counts.get(key, 0) + (sure if behind else -1)
    gaps: dict[int, list[int]] = {}
    for (lower, upper), count in sorted(counts.items()):
        if count >= LEAST and not {lower, upper} & hidden:
            gaps.setdefault(lower, []).append(upper)
    return Seen({lower: tuple(uppers) for lower, uppers in gaps.items()}, frozenset(hidden))


@dataclass(frozen=True, slots=True)
class _Places:
    """Places beside samples.

    Args:
        own: (m,) int, the sample of each.
        inside: (k,) int, samples in whose tubes the places lie, place by place.
        first: (m + 1,) int, where each place's begin among them.
    """

    own: Ints
    inside: Ints
    first: Ints

    def top(self, run: Ints) -> Ints:
        """(m,) int: the last run that is painted at each place; -1 where there is none."""
        found = np.full(len(self.own), -1, dtype=np.int64)
        some = np.diff(self.first) > 0
        if some.any():
            found[some] = np.maximum.reduceat(run[self.inside], self.first[:-1][some])
        return found

    def open(self, run: Ints) -> Iterator[tuple[int, Ints]]:
        """Places at which nothing lies over the sample's own run: the sample, and what is there."""
        top = self.top(run)
        for i in np.flatnonzero((top >= 0) & (top <= run[self.own])).tolist():
            yield int(self.own[i]), self.inside[self.first[i] : self.first[i + 1]]


def _places(tree: cKDTree, samples: Samples, out: Floats, reach: float) -> _Places:
    """Places so far out to both sides of every sample."""
    spots, own = _beside(samples, out)
    near = cast("list[list[int]]", tree.query_ball_point(spots, reach))
    spot = np.repeat(np.arange(len(spots)), [len(n) for n in near])
    flat = np.fromiter(chain.from_iterable(near), dtype=np.int64, count=len(spot))
    apart = np.hypot(*(samples.points[flat, :2] - spots[spot]).T)
    kept = apart < INSIDE * samples.radius[flat]
    first = np.searchsorted(spot[kept], np.arange(len(spots) + 1))
    return _Places(own, flat[kept], first)


def _seen_in_gap(samples: Samples, run: Ints, own: int, inside: Ints) -> list[tuple[int, bool]]:
    """Runs that would be seen in a gap beside a sample, and whether each is behind its run.

    Args:
        samples: of all cords.
        run: of each sample.
        own: the sample that the gap is beside.
        inside: samples in whose tubes the place lies.
    """
    upper = int(run[own])
    found: dict[int, bool] = {}
    for i in inside[np.argsort(-run[inside], kind="stable")].tolist():
        lower = int(run[i])
        if lower == upper or lower in found:
            continue
        nearer = samples.points[own, 2] - samples.points[i, 2]
        found[lower] = nearer > BEHIND * (samples.radius[own] + samples.radius[i])
        if not found[lower]:
            break
    return list(found.items())


def _beside(samples: Samples, out: Floats) -> tuple[Floats, Ints]:
    """(m, 2) float: places at both rims of every cord, so far out; and the sample of each."""
    flat = samples.points[:, :2]
    way = np.gradient(flat, axis=0)
    way /= np.maximum(np.hypot(way[:, 0], way[:, 1]), 1e-9)[:, None]
    aside = np.stack([-way[:, 1], way[:, 0]], axis=1) * out[:, None]
    number = np.arange(len(flat))
    return np.concatenate([flat + aside, flat - aside]), np.concatenate([number, number])


def _run_of(samples: Samples, runs: Sequence[Run]) -> Ints:
    """(n,) int: the run of each sample."""
    found = np.zeros(len(samples.cord), dtype=np.int64)
    for n, run in enumerate(runs):
        on = (samples.cord == run.cord) & (samples.along >= run.start - 1e-9)
        found[on & (samples.along <= run.end + 1e-9)] = n
    return found


def touching(runs: Sequence[Run], tubes: Sequence[Tube], room: float) -> NDArray[np.bool_]:
    """(n, n) bool: which runs come so near each other on the page.

    Args:
        runs: parts of the cords.
        tubes: the cords as they are seen.
        room: between their rims, and of half a sample's distance besides.
    """
    from scipy.spatial import cKDTree

    samples = sampled(tubes)
    step = 0.5 * float(samples.radius.max())
    reach = 2 * float(samples.radius.max()) + room + step
    # A run's laps reach as far as the sample before it and behind it.
    own = [
        np.flatnonzero(
            (samples.cord == r.cord)
            & (samples.along >= r.start - step)
            & (samples.along <= r.end + step)
        )
        for r in runs
    ]
    run = np.repeat(np.arange(len(runs)), [len(o) for o in own])
    tree = cKDTree(samples.points[np.concatenate(own), :2])
    pairs = run[tree.query_pairs(reach, output_type="ndarray")]
    found = np.eye(len(runs), dtype=bool)
    found[pairs[:, 0], pairs[:, 1]] = found[pairs[:, 1], pairs[:, 0]] = True
    return found
