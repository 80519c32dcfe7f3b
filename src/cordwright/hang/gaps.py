"""The largest opening that a net leaves round the lower part of what it holds.

Places on the body's surface are sampled; at each, the distance to the nearest cord or knot, less
half of its thickness, is the radius of a round opening about that place. Openings end where the
cord's support ends: above the highest touch nothing has to be held back.

Simplified: cord is a round tube between its solved points, a knot a round bar of its width; the
opening is measured straight through the body's surface; cords do not give way.

Places ``STEP`` of the body's widest radius apart are tried first. From one place to another the
distance to the nearest cord changes by no more than they are apart; so wherever an opening could be
larger than the largest that is known, places half as far apart are tried, and so on down to
``FINE``: the largest opening is found to that, and none is overlooked (a branch and bound over a
function of known slope; B. O. Shubert 1972, from memory).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from cordwright.hang.shape import clearance

if TYPE_CHECKING:
    from cordwright.hang.frame import Floats, Points
    from cordwright.hang.shape import Shape
    from cordwright.hang.vessel import Vessel

STEP = 0.12

FINE = 0.2
"""Mm between places in the end."""

COVER = 0.75
"""Distance of any place from the nearest that is tried, over how far these are apart: half of a
square's diagonal is 0.71."""

OUTLINE = 400
"""Places along the outline of a body between which it is taken to be straight."""

TOUCH = 1.0
"""Mm from the body's surface within which cord counts as touching it."""


@dataclass(frozen=True, slots=True)
class Gap:
    """The largest opening.

    Args:
        across_mm: diameter of the largest ball that passes.
        up_mm: height of its middle above the base.
    """

    across_mm: float
    up_mm: float


def support_height(shape: Shape) -> float:
    """Height above the base, mm, of the highest cord or knot that touches the body; 0 if none."""
    if shape.held is None:
        return 0.0
    nodes = shape.outside
    where = shape.x[nodes] - shape.x[shape.vessel_node]
    distance, _ = shape.held.vessel.distance(where)
    reached = distance < clearance(shape.frame)[nodes] + TOUCH
    within = (where[:, 2] >= 0.0) & (where[:, 2] <= shape.held.vessel.height)
    return float(where[reached & within, 2].max(initial=0.0))


def under_base(shape: Shape) -> float:
    """Mm from the body's base straight down to the nearest cord or knot under it; 0 if it touches.

    Infinite if there is none.
    """
    if shape.held is None:
        return math.inf
    nodes = shape.outside
    where = shape.x[nodes] - shape.x[shape.vessel_node]
    clear = clearance(shape.frame)[nodes]
    side = float(shape.held.vessel.radius(np.array([1e-6 * shape.held.vessel.height]))[0])
    below = (where[:, 2] <= 0.0) & (np.hypot(where[:, 0], where[:, 1]) <= side + clear)
    down = -where[below, 2] - clear[below]
    return max(0.0, float(down.min(initial=math.inf)))


def largest_gap(shape: Shape) -> Gap:
    """The largest opening below the highest cord that touches the body."""
    if shape.held is None:
        return Gap(0.0, 0.0)
    vessel = shape.held.vessel
    top = support_height(shape)
    if top <= 0.0:
        return Gap(2.0 * vessel.widest, 0.0)
    outline, cords = _outline(vessel, top), _cords(shape)
    step = STEP * vessel.widest
    along, angle, wide = _spread(outline, step)
    best, height = -np.inf, 0.0
    while True:
        places = _places(vessel, outline, along, angle)
        # Nothing keeps the ball back above the support, so it has to fit below it.
        room = np.minimum(_room(places, *cords), top - places[:, 2])
        k = int(room.argmax())
        if room[k] > best:
            best, height = float(room[k]), float(places[k, 2])
        if step <= FINE:
            return Gap(2.0 * max(best, 0.0), height)
        rows = np.flatnonzero(room + COVER * step > best)
        step *= 0.5
        along, angle, wide = _parted(along[rows], angle[rows], 0.5 * wide[rows], 0.5 * step)


def _outline(vessel: Vessel, top: float) -> tuple[Floats, Floats, Floats]:
    """The body's outline from the middle of its base outwards and up to a height.

    Returns:
        (m,) float each, mm: way along it, distance from the axis, and height.
    """
    # Squares, because a ball's outline runs level at its lowest point.
    heights = top * np.linspace(0.0, 1.0, OUTLINE) ** 2
    radii = vessel.radius(np.maximum(heights, 1e-6 * vessel.height))
    r, z = np.append(0.0, radii), np.append(0.0, heights)
    way = np.append(0.0, np.cumsum(np.hypot(np.diff(r), np.diff(z))))
    return way, r, z


def _spread(outline: tuple[Floats, Floats, Floats], step: float) -> tuple[Floats, Floats, Floats]:
    """Places that lie no further apart than a step: ways along the outline, angles round the axis.

    Returns:
        (p,) float each, mm, radians, and how many radians apart neighbours round the axis are.
    """
    way, radii, _ = outline
    count = max(2, math.ceil(way[-1] / step) + 1)
    along, angle, wide = [], [], []
    for at in np.linspace(0.0, way[-1], count):
        radius = float(np.interp(at, way, radii)) + 0.5 * step
        around = max(4, math.ceil(2 * math.pi * radius / step))
        along.append(np.full(around, at))
        angle.append(2 * math.pi * np.arange(around) / around)
        wide.append(np.full(around, 2 * math.pi / around))
    return np.concatenate(along), np.concatenate(angle), np.concatenate(wide)


def _parted(
    along: Floats, angle: Floats, wide: Floats, half: float
) -> tuple[Floats, Floats, Floats]:
    """Four places for each, in the middles of its quarters.

    Args:
        along: (p,) float, mm.
        angle: (p,) float, radians.
        wide: (p,) float, radians, how far apart the new ones are.
        half: mm, half of how far apart they are along the outline.
    """
    both = np.array([-1.0, 1.0])
    up, aside = np.repeat(both, 2), np.tile(both, 2)
    new_along = (along[:, None] + half * up).ravel()
    new_angle = (angle[:, None] + 0.5 * wide[:, None] * aside).ravel()
    return new_along, new_angle, np.repeat(wide, 4)


def _places(
    vessel: Vessel, outline: tuple[Floats, Floats, Floats], along: Floats, angle: Floats
) -> Points:
    """(p, 3) float, mm: places on the body's base and side, about its base's middle."""
    way, radii, heights = outline
    radius, z = np.interp(along, way, radii), np.interp(along, way, heights)
    on = np.stack([radius * np.sin(angle), -radius * np.cos(angle), z], axis=1)
    # A box's corners are where its radius is; its faces lie further in, and the nearest places on
    # them are no further apart.
    distance, normal = vessel.distance(on)
    moved: Points = on - np.maximum(distance, 0.0)[:, None] * normal
    return moved


def _cords(shape: Shape) -> tuple[Points, Points, Floats]:
    """Both ends, about the body's base, and half the thickness of every cord and knot; mm."""
    frame, x = shape.frame, shape.x - shape.x[shape.vessel_node]
    spans, bars = frame.spans, frame.bars
    start = np.concatenate([spans.a.at(x), x[bars.top]])
    end = np.concatenate([spans.b.at(x), x[bars.bottom]])
    return start, end, np.concatenate([0.5 * spans.thick, 0.5 * bars.width])


def _room(places: Points, start: Points, end: Points, half: Floats) -> Floats:
    """(p,) float: distance from each place to the nearest tube, mm."""
    along = end - start
    length2 = np.maximum((along**2).sum(axis=1), 1e-12)
    found = np.full(len(places), np.inf)
    for i in range(0, len(places), 256):
        p = places[i : i + 256]
        t = np.clip(((p[:, None, :] - start) * along).sum(axis=2) / length2, 0.0, 1.0)
        away = np.linalg.norm(p[:, None, :] - start - t[:, :, None] * along, axis=2) - half
        found[i : i + 256] = away.min(axis=1)
    return found
