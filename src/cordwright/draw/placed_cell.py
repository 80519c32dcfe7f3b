"""Tight knots as cells: the way of every strand from where it comes in to where it goes out.

The atlas keeps one repeat of each knot, cut where its drawing happened to begin. Here repeats are
followed from cell to cell, cut at the knot's upper and lower edge, told apart by place, and moved
so that the middle of the upper edge is the origin. All lengths are in diameters d of the working
cord; x to the right, y away from the viewer, z up.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Protocol

import numpy as np

from cordwright.knots.spec import KnotName, KnotSpec, Role

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from cordwright.knots.cell import Cell as Courses
    from cordwright.knots.spec import KnotFigures

    Points = NDArray[np.float64]

STRAIGHT = float(np.cos(np.radians(15.0)))
"""As in the atlas: cord within 15 degrees of the hanging direction counts as hanging straight."""

STEP = 0.25
"""Distance of points along a way, d."""


ON_BESIDE = 0.3
"""How far beside a lark's head what it hangs on is drawn with it, d."""


class CurvesSource(Protocol):
    """Where tight curves come from; `knots.atlas.Atlas` is one."""

    def curves(self, spec: KnotSpec) -> list[Points]:
        """Tight curves, a (n, 3) float array in d for each course of the knot's tangle."""
        ...

    def cell(self, spec: KnotSpec) -> Courses:
        """What each curve is, and how they repeat."""
        ...

    def __hash__(self) -> int:
        """What is made of its curves is kept by the source."""
        ...


@dataclass(frozen=True, slots=True)
class Way:
    """One strand's way through a knot.

    Args:
        place: its place in the knot, as in `KnotSpec`; what a lark's head is tied on has the
            place after the last.
        points: (n, 3) float, d, from where it comes in to where it goes out.
    """

    place: int
    points: Points


@dataclass(frozen=True, slots=True)
class Cell:
    """One knot, its upper edge's middle at the origin.

    Args:
        spec: which knot.
        height: from its upper to its lower edge, d.
        twist: turn about the hanging direction to the next knot of a sinnet, radians.
        ways: of all strands, by place.
    """

    spec: KnotSpec
    height: float
    twist: float
    ways: tuple[Way, ...]


@lru_cache(maxsize=256)
def cell(figures: KnotFigures, source: CurvesSource) -> Cell:
    """The ways of a knot's strands, worked out once for every source.

    Args:
        figures: of the knot.
        source: of its tight curves.
    """
    spec = figures.spec
    curves, courses = source.curves(spec), source.cell(spec)
    match spec.name:
        case KnotName.LARKS_HEAD:
            ways = _mount(figures, curves)
        case KnotName.DOUBLE_HALF_HITCH:
            ways = _hitch(figures, curves, courses)
        case KnotName.OVERHAND:
            ways = _bundle(figures, curves, courses)
        case _:
            ways = _repeated(figures, curves, courses)
    evened = tuple(Way(w.place, evenly(w.points, STEP)) for w in ways)
    for way in evened:
        way.points.flags.writeable = False  # all pictures share it
    return Cell(spec, figures.height_d, courses.twist, evened)


def evenly(points: Points, step: float) -> Points:
    """(n, k) float: the same way with points at even distances of about ``step``; ends stay."""
    way = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))])
    count = max(2, round(float(way[-1]) / step) + 1)
    at = np.linspace(0.0, way[-1], count)
    return np.stack([np.interp(at, way, p) for p in points.T], axis=1)


def _mount(figures: KnotFigures, curves: list[Points]) -> tuple[Way, ...]:
    """Each half of the folded cord from its fold to where it hangs free."""
    cord, top = curves[1], 0.5 * figures.spec.over_d
    middle = len(cord) // 2
    moved = cord - [0.0, 0.0, top]
    halves = moved[middle::-1], moved[middle:]
    ways = [Way(i, _down_to(h, -figures.height_d)) for i, h in enumerate(halves)]
    # What it hangs on, as far as the knot covers it.
    on = curves[0][np.abs(curves[0][:, 0]) < 0.5 * figures.width_d + ON_BESIDE] - [0.0, 0.0, top]
    return (*ways, Way(2, on))


def _hitch(figures: KnotFigures, curves: list[Points], courses: Courses) -> tuple[Way, ...]:
    """The holding cord runs towards its side; the working cord is cut at both edges."""
    half = 0.5 * figures.height_d
    ahead = courses.period_d * np.array(courses.direction)
    holding = np.concatenate([curves[0], curves[0][:1] + ahead])
    working = _down_to(_from(curves[1], half), -half)
    return Way(0, holding - [0.0, 0.0, half]), Way(1, working - [0.0, 0.0, half])


def _bundle(figures: KnotFigures, curves: list[Points], courses: Courses) -> tuple[Way, ...]:
    """Cut to the stretch in which the cord is bent; more strands than curves lie beside them."""
    n = figures.spec.strands
    # Thick bundles are known by the figures of a thinner one; their curves are as much larger.
    grown = float(np.sqrt(n / len(curves))) if n > len(curves) else 1.0
    curves = [grown * c for c in curves]
    low, high = np.inf, -np.inf
    for c in curves:
        t = np.diff(c, axis=0)
        bent = np.abs(t[:, 2]) < STRAIGHT * np.linalg.norm(t, axis=1)
        z = 0.5 * (c[1:, 2] + c[:-1, 2])[bent]
        low, high = min(low, float(z.min()) - 0.5), max(high, float(z.max()) + 0.5)
    middle, half = 0.5 * (low + high), 0.5 * figures.height_d
    cut = [_down_to(_from(c, middle + half), middle - half) for c in curves]
    axis = np.mean([0.5 * (c[0] + c[-1]) for c in cut], axis=0)
    axis[2] = middle + half
    order = [c.place for c in courses.courses]
    if n > len(curves):
        return tuple(Way(i, cut[i % len(cut)] - axis) for i in range(n))
    ways = [Way(p, c - axis) for p, c in zip(order, cut, strict=True) if p is not None]
    return tuple(sorted(ways, key=lambda w: w.place))


def _repeated(figures: KnotFigures, curves: list[Points], courses: Courses) -> tuple[Way, ...]:
    """Ways through as many repeats as make the knot."""
    spec, cells = figures.spec, repeats(figures.spec)
    top = float(curves[0][0, 2])
    if spec.name is KnotName.BRAID:
        top = float(np.mean([c[0, 2] for c in curves]))
    bottom = top - cells * courses.period_d
    ways = []
    for i, course in enumerate(courses.courses):
        if course.place is None:
            continue
        if course.role is Role.WORKING and spec.name is not KnotName.BRAID:
            # A working cord runs up and down; it is cut where the drawing of it begins.
            chain = _chain(curves, courses, i, range(cells + 1))
            way = chain[: cells * len(curves[i]) + 1]
        else:
            chain = _chain(curves, courses, i, range(-2, cells + 2))
            way = _down_to(_from(chain, top), bottom)
        ways.append(Way(course.place, way))
    first = np.array([w.points[0, 0] for w in ways])
    x = 0.5 * (first.max() + first.min()) if spec.name is not KnotName.GATHERING else 0.0
    moved = [Way(w.place, w.points - [x, 0.0, top]) for w in ways]
    return tuple(sorted(moved, key=lambda w: w.place))


def repeats(spec: KnotSpec) -> int:
    """How many cells of its drawing make one knot."""
    if spec.name is KnotName.GATHERING:
        return spec.turns
    return spec.strands if spec.name is KnotName.BRAID else 1


def _chain(curves: list[Points], courses: Courses, at: int, cells: range) -> Points:
    """The cord that runs through course ``at`` in cell 0, from the first cell to the last."""
    onto = {i: i if c.goes_on_as is None else c.goes_on_as for i, c in enumerate(courses.courses)}
    back = {j: i for i, j in onto.items()}
    course = at
    for _ in range(-cells.start):
        course = back[course]
    parts = []
    for k in cells:
        down = np.array([0.0, 0.0, -k * courses.period_d])
        parts.append(_turned(curves[course], k * courses.twist) + down)
        course = onto[course]
    return np.concatenate(parts)


def _turned(points: Points, angle: float) -> Points:
    c, s = np.cos(angle), np.sin(angle)
    out: Points = points @ np.array([[c, s, 0.0], [-s, c, 0.0], [0.0, 0.0, 1.0]])
    return out


def _from(points: Points, z: float) -> Points:
    """The way from where it first comes down to a height."""
    below = np.flatnonzero(points[:, 2] <= z)
    i = int(below[0]) if len(below) else len(points) - 1
    if i == 0:
        return points
    return np.concatenate([_between(points[i - 1], points[i], z), points[i:]])


def _down_to(points: Points, z: float) -> Points:
    """The way to where it last comes down to a height."""
    above = np.flatnonzero(points[:, 2] > z)
    i = int(above[-1]) if len(above) else 0
    if i == len(points) - 1:
        return points
    return np.concatenate([points[: i + 1], _between(points[i], points[i + 1], z)])


def _between(a: Points, b: Points, z: float) -> Points:
    share = (a[2] - z) / (a[2] - b[2]) if a[2] != b[2] else 1.0
    return (a + share * (b - a))[None]
