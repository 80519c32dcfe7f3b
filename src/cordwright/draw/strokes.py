"""Runs of cord as paths on the page, and how they meet the runs that their cord goes on as."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.curves import at, beziers, lengths, part

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from cordwright.draw.layers import Run, Tube

    Floats = NDArray[np.float64]

ERROR = 0.018
"""How far a fitted curve may be from the cord's centre line, in diameters."""

SLOW = 0.75
"""Where a cord's picture is shorter than the cord by more than this share, it runs towards the
viewer or away, and its parts meet at an angle."""

LAP = 0.12
"""By how much a run goes on over its neighbour on the same cord that is painted before it, in
diameters; its outline goes half as far, so that no seam shows."""


@dataclass(frozen=True, slots=True)
class Page:
    """How the plane of the picture goes onto paper: x to the right, y down, in mm.

    Args:
        scale: mm per unit of the plane.
        left, top: coordinates in the plane that lie at the paper's left and upper edge.
    """

    scale: float
    left: float
    top: float

    def on(self, points: Floats) -> Floats:
        """(n, 2) float: points of the plane (right, up) on paper, in mm."""
        placed: Floats = (points[:, :2] - [self.left, self.top]) * [self.scale, -self.scale]
        return placed


def path(cubics: Floats) -> str:
    """SVG path data of joined cubics, (m, 4, 2) float, relative and in whole numbers."""
    grid = np.round(cubics).astype(np.int64)
    parts = [f"M{joined_numbers(grid[0, 0].tolist())}"]
    for start, *rest in grid:
        parts.append("c" + joined_numbers([int(v) for p in rest for v in p - start]))
    return "".join(parts)


def joined_numbers(numbers: Sequence[int]) -> str:
    """Numbers as short as path data lets them be: a minus sign parts them too.

    >>> joined_numbers([3, -4, 5])
    '3-4 5'
    """
    return str(numbers[0]) + "".join(str(n) if n < 0 else f" {n}" for n in numbers[1:])


@dataclass(frozen=True, slots=True)
class End:
    """One end of a run.

    Args:
        other: the run that the cord goes on as there; None at the cord's own end.
        covered: whether that run is painted later.
        slow: whether the cord runs along the line of sight there.
    """

    other: int | None
    covered: bool
    slow: bool

    @property
    def laps(self) -> bool:
        """Whether the run goes on over its neighbour."""
        return self.other is not None and not self.covered and not self.slow


@dataclass(frozen=True, slots=True)
class Stroke:
    """A run as a path; lengths on the page in units of the path.

    Args:
        run: its cord, and from where to where.
        data: of the path, which laps over what is painted before it.
        ends: of the run.
        start, end: arc lengths along the cord at which the path begins and ends.
        width: of the cord.
        laps: how far the path laps over its neighbours, on the page.
        length: of the path.
    """

    run: Run
    data: str
    ends: tuple[End, End]
    start: float
    end: float
    width: float
    laps: tuple[float, float]
    length: float


def stroke_of(tubes: Sequence[Tube], runs: Sequence[Run], i: int, page: Page) -> Stroke:
    """The path of a run.

    Args:
        tubes: the cords as they are seen.
        runs: parts of them from back to front.
        i: which run.
        page: where they come on paper.
    """
    run = runs[i]
    tube = tubes[run.cord]
    ends = tuple(_end(tube, runs, i, s) for s in (run.start, run.end))
    total = float(lengths(tube.points)[-1])
    by = LAP * tube.diameter
    start = max(0.0, run.start - by * ends[0].laps)
    end = min(total, run.end + by * ends[1].laps)
    points = page.on(part(tube.points, start, end))
    width = tube.diameter * page.scale
    laps = tuple(
        float(lengths(page.on(part(tube.points, *sorted(pair))))[-1]) if pair[0] != pair[1] else 0.0
        for pair in ((start, run.start), (run.end, end))
    )
    data = path(beziers(points, ERROR * width))
    length = float(lengths(points)[-1])
    return Stroke(run, data, (ends[0], ends[1]), start, end, width, (laps[0], laps[1]), length)


def _end(tube: Tube, runs: Sequence[Run], this: int, where: float) -> End:
    run = runs[this]
    # A cord has few runs; they share their ends exactly.
    others = [
        i
        for i, r in enumerate(runs)
        if r.cord == run.cord and i != this and where in (r.start, r.end)
    ]
    if not others:
        return End(None, covered=False, slow=False)
    by = 0.1 * tube.diameter
    way = np.diff(at(tube.points, np.array([where - by, where + by])), axis=0)[0]
    slow = float(np.hypot(way[0], way[1])) < SLOW * 2 * by
    return End(others[0], others[0] > this, slow)


def dashed(stroke: Stroke, left_out: tuple[float, float]) -> str | None:
    """One dash along a path, which leaves out so much at both ends; None if nothing is left."""
    drawn = stroke.length - sum(left_out)
    if drawn <= 0.0:
        return None
    far, rest = ("1e5", "") if not left_out[1] else (round(drawn), " 1e5")
    # An odd number of lengths counts twice, and the path has ended by then.
    return f' stroke-dasharray="0 {round(left_out[0])} {far}{rest}"'


def beyond(tube: Tube, where: float, by: float, page: Page) -> float:
    """Arc length at which a cord has gone so far on the page from a place, back if negative."""
    total = float(lengths(tube.points)[-1])
    step = float(np.copysign(0.05 * tube.diameter, by))
    centre = page.on(at(tube.points, np.array([where])))[0]
    reached = where
    for _ in range(30):
        further = min(max(reached + step, 0.0), total)
        if further == reached:
            break
        reached = further
        if np.hypot(*(page.on(at(tube.points, np.array([reached])))[0] - centre)) >= abs(by):
            break
    return reached
