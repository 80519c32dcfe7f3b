"""From what a plan says a piece holds to the body and the weight that the shape is solved with.

A pot is taken for a frustum that is filled alike, a bowl for a cap of a sphere; leaves and what
grows above the rim are not counted.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from cordwright.hang import vessel
from cordwright.hang.shape import Held
from cordwright.hang.weighing import held_load
from cordwright.plan.hung import BowlBody, BoxBody, PotBody, SphereBody
from cordwright.units.force import weight_n

if TYPE_CHECKING:
    from cordwright.plan.hung import Body


def held_of(body: Body) -> Held:
    """The body's shape in mm, and its likeliest weight in N, filled."""
    return Held(vessel_of(body), weight_n(held_load(body).g))


def vessel_of(body: Body) -> vessel.Vessel:
    """The body's shape, standing on its base."""
    match body:
        case PotBody():
            return vessel.pot(body.rim_mm, body.base_mm, body.height_mm)
        case BowlBody():
            return vessel.bowl(body.across_mm, body.high_mm)
        case SphereBody():
            return vessel.sphere(body.across_mm)
        case BoxBody():
            return vessel.Box(body.wide_mm, body.deep_mm, body.high_mm)


def words(body: Body) -> str:
    """What it is, in a word."""
    return {PotBody: "pot", BowlBody: "bowl", SphereBody: "ball", BoxBody: "box"}[type(body)]


def middle_of_mass(body: Body) -> float:
    """Height of its middle of mass above its base, mm: as if it were solid and alike all through.

    Frustum and spherical cap by their textbook centroids. A pot that is only partly filled is
    lower than that.
    """
    match body:
        case PotBody():
            top, low = body.rim_mm, body.base_mm
            squares = top**2 + top * low + low**2
            return body.height_mm / 4.0 * (3 * top**2 + 2 * top * low + low**2) / squares
        case BowlBody():
            high = body.high_mm
            radius = (body.across_mm**2 / 4 + high**2) / (2 * high)
            # From the sphere's middle down to the cap's centroid: 3 (2R - h)^2 / 4 (3R - h).
            return radius - 3 * (2 * radius - high) ** 2 / (4 * (3 * radius - high))
        case SphereBody():
            return body.across_mm / 2
        case BoxBody():
            return body.high_mm / 2


def slimmest(body: Body) -> float:
    """Diameter in mm of the smallest round opening that the whole body can go through."""
    match body:
        case PotBody():
            return max(body.rim_mm, body.base_mm)
        case BoxBody():
            a, b, _ = sorted((body.wide_mm, body.deep_mm, body.high_mm))
            return math.hypot(a, b)
        case _:
            return level_girth(body) / math.pi


def foot_across(body: Body) -> float:
    """Diameter in mm of the smallest round opening that an end of the body can slip into."""
    match body:
        case PotBody():
            return min(body.rim_mm, body.base_mm)
        case _:
            return slimmest(body)


def girth(body: Body) -> float:
    """The shortest loop of cord in mm that can be drawn over the whole body.

    Turned bodies go through level or on their side, a box along its longest edge.
    """
    match body:
        case PotBody():
            slope = math.hypot(body.height_mm, (body.rim_mm - body.base_mm) / 2)
            aside = body.rim_mm + body.base_mm + 2 * slope
            return min(math.pi * max(body.rim_mm, body.base_mm), aside)
        case BowlBody():
            high = body.high_mm
            radius = (body.across_mm**2 / 4 + high**2) / (2 * high)
            level = 2 * math.pi * (radius if high > radius else body.across_mm / 2)
            half = math.acos(max(-1.0, min(1.0, (radius - high) / radius)))
            return min(level, body.across_mm + 2 * radius * half)
        case SphereBody():
            return math.pi * body.across_mm
        case BoxBody():
            a, b, _ = sorted((body.wide_mm, body.deep_mm, body.high_mm))
            return 2 * (a + b)


def level_girth(body: Body) -> float:
    """How far it is in mm round its widest part, standing."""
    match body:
        case PotBody():
            return math.pi * max(body.rim_mm, body.base_mm)
        case BowlBody():
            high = body.high_mm
            radius = (body.across_mm**2 / 4 + high**2) / (2 * high)
            return 2 * math.pi * (radius if high > radius else body.across_mm / 2)
        case SphereBody():
            return math.pi * body.across_mm
        case BoxBody():
            return 2 * (body.wide_mm + body.deep_mm)
