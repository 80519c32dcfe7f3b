"""A knot drawn once: the courses of its cords through space, before tightening.

All lengths are in diameters d of the working cord. The axes are the maker's: x to the right,
y away from the maker (front is negative y), z up; strands come in at the top and go out at the
bottom.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from cordwright.errors import KnotError
from cordwright.knots.spec import Role

Points = NDArray[np.float64]
"""(n, 3) float: positions in d."""

Path = Literal["open", "closed", "periodic"]


@dataclass(frozen=True, slots=True)
class Course:
    """One cord's way through the tangle.

    Args:
        points: (n, 3) float, way points in d, in order along the cord; a smooth curve is laid
            through them. A closed course does not repeat its first point; a periodic one ends
            one step before the image of the point at which its continuation starts.
        path: ``open`` ends are held in planes; ``closed`` joins on itself; ``periodic`` goes on
            as a course of the next cell.
        role: what the cord does in the knot.
        diameter: in d.
        tension: pull in this cord, against the pull in the working cord as 1.
        fixed: a rigid thing (ring, rod): it takes contact and never moves.
        hold: for open courses, which coordinates of both end points stay where drawn; free ones
            slide until the cord leaves square to the held ones.
        goes_on_as: for periodic courses, the index of the course that continues it in the next
            cell (its own index if it comes out where it went in).
        place: which strand of the line-up it is (left to right where strands come in); None for
            rings and rods. Two courses of one place are two parts of one strand.
    """

    points: Points
    path: Path = "open"
    role: Role = Role.WORKING
    diameter: float = 1.0
    tension: float = 1.0
    fixed: bool = False
    hold: tuple[bool, bool, bool] = (False, False, True)
    goes_on_as: int | None = None
    place: int | None = None


@dataclass(frozen=True, slots=True)
class Repeat:
    """How the tangle repeats: along a sinnet or side by side in a row.

    The next cell is this one turned by ``twist`` about the z axis and moved by ``period`` along
    ``direction``. Both are found by tightening unless held.

    Args:
        direction: (3,) unit vector; a twist needs the z axis.
        period: distance to the next cell in d (the start value if free).
        twist: radians (the start value if free).
        free_twist: whether tightening may turn the cells against one another.
        free_period: whether tightening may move them.
        push: force that presses the cells together, against the working cord's pull as 1.
    """

    direction: tuple[float, float, float]
    period: float
    twist: float = 0.0
    free_twist: bool = False
    free_period: bool = True
    push: float = 0.0

    def __post_init__(self) -> None:
        turns = self.twist != 0.0 or self.free_twist
        if turns and (self.direction[0] or self.direction[1]):
            raise KnotError("a repeat that turns must run along the z axis")


@dataclass(frozen=True, slots=True)
class Symmetry:
    """An isometry that maps the tangle to itself.

    ``x -> matrix @ x + shift * period * direction`` maps the course ``s`` onto the course
    ``onto[s]``, run backwards if ``reverse``.

    Args:
        matrix: (3, 3) orthogonal.
        onto: index of the course that each course lands on.
        reverse: whether courses land run backwards.
        shift: in periods.
    """

    matrix: tuple[tuple[float, float, float], ...]
    onto: tuple[int, ...]
    reverse: bool = False
    shift: float = 0.0


@dataclass(frozen=True, slots=True)
class Tangle:
    """All courses of a knot, how it repeats, and the symmetry that it is known to have."""

    courses: tuple[Course, ...]
    repeat: Repeat | None = None
    symmetries: tuple[Symmetry, ...] = field(default=())

    def __post_init__(self) -> None:
        for s, course in enumerate(self.courses):
            if len(course.points) < 2:
                raise KnotError(f"course {s} of the tangle has fewer than two points")
            if course.path == "periodic" and (self.repeat is None or course.goes_on_as is None):
                raise KnotError(f"course {s} goes on into a next cell that does not exist")


MIRROR_X = np.diag([-1.0, 1.0, 1.0])


def mirrored(tangle: Tangle) -> Tangle:
    """The same knot for the other hand: left and right change places.

    Places are numbered from the left again, and a row that ran to the right runs to the left.
    """
    places = sorted({c.place for c in tangle.courses if c.place is not None})
    flip = dict(zip(places, reversed(places), strict=True))
    courses = tuple(
        Course(
            points=c.points @ MIRROR_X,
            path=c.path,
            role=c.role,
            diameter=c.diameter,
            tension=c.tension,
            fixed=c.fixed,
            hold=c.hold,
            goes_on_as=c.goes_on_as,
            place=None if c.place is None else flip[c.place],
        )
        for c in tangle.courses
    )
    r = tangle.repeat
    if r is not None:
        dx, dy, dz = r.direction
        r = Repeat((-dx, dy, dz), r.period, -r.twist, r.free_twist, r.free_period, r.push)
    symmetries = tuple(
        Symmetry(_rows(MIRROR_X @ np.array(s.matrix) @ MIRROR_X), s.onto, s.reverse, s.shift)
        for s in tangle.symmetries
    )
    return Tangle(courses, r, symmetries)


def _rows(m: NDArray[np.float64]) -> tuple[tuple[float, float, float], ...]:
    return tuple((float(a), float(b), float(c)) for a, b, c in m)


def bundle(count: int) -> Points:
    """(count, 2) float: centres of so many touching discs of diameter 1, packed round the origin.

    Points of the triangular lattice nearest to the centre of the pack; for 2 to 7 discs this is
    the tightest pack, beyond it a start from which tightening finds its own.
    """
    best: Points | None = None
    best_radius = np.inf
    a = np.arange(-6, 7)
    i, j = np.meshgrid(a, a)
    lattice = np.stack([(i + 0.5 * j).ravel(), (np.sqrt(3) / 2 * j).ravel()], axis=1)
    for centre in ((0.0, 0.0), (0.5, 0.0), (0.5, np.sqrt(3) / 6), (0.25, np.sqrt(3) / 4)):
        r = np.linalg.norm(lattice - np.array(centre), axis=1)
        pick = lattice[np.argsort(np.round(r, 9), kind="stable")[:count]]
        pick = pick - pick.mean(axis=0)
        radius = float(np.linalg.norm(pick, axis=1).max())
        if radius < best_radius - 1e-9:
            best, best_radius = pick, radius
    if best is None:
        raise KnotError("a bundle holds at least one cord")
    return best


def through(points: Sequence[Sequence[float]]) -> Points:
    """(n, 3) float array of way points written as a list."""
    return np.asarray(points, dtype=np.float64)
