"""The largest opening that a net leaves round the lower part of what it holds.

Places on the body's surface are sampled; at each, the distance to the nearest cord or knot, less
half of its thickness, is the radius of a round opening about that place. Openings end where the
cord's support ends: above the highest touch nothing has to be held back.

Simplified: cord is a round tube between its solved points, a knot a round bar of its width; the
opening is measured straight through the body's surface; cords do not give way. Sampled every
``STEP`` of the body's widest radius, so that the size is found to about a tenth of it.
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
    places = _surface(vessel, top)
    start, end, half = _cords(shape)
    room = _room(places, start, end, half)
    # Nothing keeps the ball back above the support, so it has to fit below it.
    room = np.minimum(room, top - places[:, 2])
    k = int(room.argmax())
    return Gap(2.0 * max(float(room[k]), 0.0), float(places[k, 2]))


def _surface(vessel: Vessel, top: float) -> Points:
    """(p, 3) float: places on the body's base and side, up to a height, about its base's middle."""
    step = STEP * vessel.widest
    rings: list[tuple[float, float]] = []
    heights = np.linspace(0.0, top, max(2, math.ceil(top / step)))
    base = float(vessel.radius(np.array([1e-6 * vessel.height]))[0])
    rings += [(float(r), 0.0) for r in np.linspace(0.0, base, max(2, math.ceil(base / step)))]
    radii = vessel.radius(np.maximum(heights, 1e-6 * vessel.height))
    rings += [(float(r), float(z)) for r, z in zip(radii, heights, strict=True)][1:]
    places = []
    for radius, z in rings:
        count = max(1, math.ceil(2 * math.pi * radius / step))
        angle = 2 * math.pi * np.arange(count) / count
        ring = [radius * np.sin(angle), -radius * np.cos(angle), np.full(count, z)]
        places.append(np.stack(ring, axis=1))
    # A box's corners are where its radius is; its faces lie further in.
    on = np.concatenate(places)
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
