"""One cell of a tight knot: what each of its curves is, and how the next cell lies to it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import radians
from typing import Any

from cordwright.knots.spec import KnotName, KnotSpec, Role


@dataclass(frozen=True, slots=True)
class CourseOf:
    """What one curve of a tight knot is; curves stand in the order of ``Atlas.curves``.

    Args:
        role: what the cord does.
        diameter_d: in d.
        place: which strand of the line-up it is; None for rings, rods and legs of a wrap.
        fixed: a ring or rod.
        goes_on_as: the curve of the next cell that continues this one; None if it ends.
    """

    role: Role
    diameter_d: float
    place: int | None
    fixed: bool
    goes_on_as: int | None


@dataclass(frozen=True, slots=True)
class Cell:
    """How a tight knot's curves belong together.

    Args:
        courses: one for each curve.
        direction: (3,) unit vector towards the next cell; None if the knot does not repeat.
        period_d: distance to the next cell in d.
        twist: turn of the next cell about the z axis, in radians, before it is moved.
    """

    courses: tuple[CourseOf, ...]
    direction: tuple[float, float, float] | None
    period_d: float
    twist: float


_PLACES_ARE_PARTS = frozenset({KnotName.DOUBLE_HALF_HITCH, KnotName.GATHERING})
"""Knots whose places name parts (holding, wrapping) and not an order from left to right."""


def cell_of(data: Mapping[str, Any], spec: KnotSpec) -> Cell:
    """The cell of a knot from its record (``store.record``), for the hand that was asked for."""
    right = spec.hand == "right"
    flips = right and spec.name not in _PLACES_ARE_PARTS
    last = max((c["place"] for c in data["courses"] if c["place"] is not None), default=0)

    def place(at: int | None) -> int | None:
        return last - at if flips and at is not None else at

    courses = tuple(
        CourseOf(Role(c["role"]), c["diameter_d"], place(c["place"]), c["fixed"], c["goes_on_as"])
        for c in data["courses"]
    )
    direction = data["direction"]
    if direction is not None:
        x, y, z = direction
        direction = (-x if right else x, y, z)
    twist = radians(data["twist_deg"])
    return Cell(courses, direction, data["period_d"], -twist if right else twist)
