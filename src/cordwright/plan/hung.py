"""What a plan's ``hang:`` comes to in mm and g, with the plan's sizes worked out."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from cordwright.errors import PlanError
from cordwright.plan.hanging import Bowl, Box, Pot, ScrewHook, Sphere
from cordwright.plan.sums import length
from cordwright.units.mass import parse_mass
from cordwright.units.volume import parse_volume

if TYPE_CHECKING:
    from cordwright.plan.hanging import Content, Hang, Keeps, PotMaterial, Wood
    from cordwright.plan.sizes import Sizes
    from cordwright.plan.spot import Spot
    from cordwright.plan.sums import Sum


@dataclass(frozen=True, slots=True)
class PotBody:
    """A pot; lengths in mm over the outside, ``weight_g`` of the empty pot if it was weighed."""

    rim_mm: float
    base_mm: float
    height_mm: float
    weight_g: float | None
    material: PotMaterial | None
    wall_mm: float
    filled_ml: float | None
    content: Content


@dataclass(frozen=True, slots=True)
class BowlBody:
    """A bowl; lengths in mm, ``weight_g`` empty; ``content`` is None where nothing is in it."""

    across_mm: float
    high_mm: float
    weight_g: float
    filled_ml: float | None
    content: Content | None


@dataclass(frozen=True, slots=True)
class SphereBody:
    """A ball; mm and g."""

    across_mm: float
    weight_g: float


@dataclass(frozen=True, slots=True)
class BoxBody:
    """A box; mm and g."""

    wide_mm: float
    deep_mm: float
    high_mm: float
    weight_g: float


Body = PotBody | BowlBody | SphereBody | BoxBody


@dataclass(frozen=True, slots=True)
class Screw:
    """A screw hook; mm."""

    thick_mm: float
    thread_mm: float
    wood: Wood


@dataclass(frozen=True, slots=True)
class Hung:
    """Everything that a plan says of hanging.

    Args:
        hook_mm: height of the hook's lowest point above the floor, if it is given.
        clear_mm: least height of the piece's lowest end above the floor.
        outdoors: whether it hangs outdoors.
        bump: load while somebody knocks it, against rest.
        factor: strength asked for, against the load with bump.
        keeps: shares of strength that the maker sets, if any.
        screw: the screw hook, if it is one.
        holds: what the piece holds, if anything.
    """

    hook_mm: float | None
    clear_mm: float
    outdoors: bool
    bump: float
    factor: float
    keeps: Keeps | None
    screw: Screw | None
    holds: Body | None


def hung(hang: Hang, sizes: Sizes) -> Hung:
    """Work out what a plan says of hanging.

    Args:
        hang: the plan's ``hang:``.
        sizes: the plan's sizes, as `cordwright.plan.sizes.resolve_sizes` gives them.

    Raises:
        PlanError: a length that cannot be worked out, or something that no pot, hook or screw is;
            with its place.
    """
    problem = next(problems(hang, sizes), None)
    if problem is not None:
        raise problem
    return Hung(
        _mm(hang.hook, sizes) if hang.hook is not None else None,
        _mm(hang.clear, sizes),
        hang.place == "outdoors",
        hang.bump,
        hang.factor,
        hang.keeps,
        _screw(hang.screw, sizes) if hang.screw is not None else None,
        _body(hang.holds.thing, sizes) if hang.holds is not None else None,
    )


def _mm(asked: Sum, sizes: Sizes) -> float:
    return length(asked, sizes.env, sizes.values).at(sizes.values)


def _screw(screw: ScrewHook, sizes: Sizes) -> Screw:
    return Screw(_mm(screw.thick, sizes), _mm(screw.thread, sizes), screw.wood)


def _body(thing: Pot | Bowl | Sphere | Box, sizes: Sizes) -> Body:
    weight = parse_mass(thing.weight) if thing.weight is not None else None
    match thing:
        case Pot():
            wall = _mm(thing.wall, sizes) if thing.wall is not None else 0.0
            filled = parse_volume(thing.filled) if thing.filled is not None else None
            rim, base, height = (_mm(s, sizes) for s in (thing.rim, thing.base, thing.height))
            return PotBody(rim, base, height, weight, thing.material, wall, filled, thing.with_)
        case Bowl():
            filled = parse_volume(thing.filled) if thing.filled is not None else None
            across, high = _mm(thing.across, sizes), _mm(thing.high, sizes)
            content = thing.with_ or ("water" if filled is not None else None)
            return BowlBody(across, high, weight or 0.0, filled, content)
        case Sphere():
            return SphereBody(_mm(thing.across, sizes), weight or 0.0)
        case Box():
            wide, deep, high = (_mm(s, sizes) for s in (thing.wide, thing.deep, thing.high))
            return BoxBody(wide, deep, high, weight or 0.0)


def problems(hang: Hang, sizes: Sizes) -> Iterator[PlanError]:
    """Everything about hanging that no piece, pot or hook can be, each with its place."""
    try:
        yield from _hook(hang, sizes)
        if hang.screw is not None:
            yield from _above_zero(hang.screw, "screw hook", ("thick", "thread"), sizes)
        if hang.holds is not None:
            yield from _held(hang.holds.thing, sizes)
    except PlanError as error:  # a sum that cannot be worked out
        yield error


def _hook(hang: Hang, sizes: Sizes) -> Iterator[PlanError]:
    clear = _mm(hang.clear, sizes)
    if hang.hook is None:
        if clear > 0.0:
            yield PlanError(
                "'clear' needs the height of the hook.",
                remedy="add hook: 2.2 m, its height above the floor, or take clear out",
                place=hang.clear.place,
            )
        return
    hook = _mm(hang.hook, sizes)
    if hook == 0.0:
        yield PlanError(
            "The hook lies on the floor.",
            remedy="write its height above the floor, as in hook: 2.2 m",
            place=hang.hook.place,
        )
    elif clear >= hook:
        yield PlanError(
            f"Nothing can hang {clear:.0f} mm above the floor from a hook at {hook:.0f} mm.",
            remedy="make clear smaller, or the hook higher",
            place=hang.clear.place,
        )


def _above_zero(part: Spot, name: str, keys: tuple[str, ...], sizes: Sizes) -> Iterator[PlanError]:
    for key in keys:
        asked: Sum | None = getattr(part, key)
        if asked is not None and _mm(asked, sizes) == 0.0:
            yield PlanError(
                f"The {name}'s '{key}' is zero.",
                remedy=f"measure it: {key}: 12 cm",
                place=asked.place or part.where,
            )


def _held(thing: Pot | Bowl | Sphere | Box, sizes: Sizes) -> Iterator[PlanError]:
    match thing:
        case Pot():
            found = list(_above_zero(thing, "pot", ("rim", "base", "height", "wall"), sizes))
            yield from found or _pot(thing, sizes)
        case Bowl():
            found = list(_above_zero(thing, "bowl", ("across", "high"), sizes))
            yield from found or _bowl(thing, sizes)
        case Sphere():
            yield from _above_zero(thing, "sphere", ("across",), sizes)
        case Box():
            yield from _above_zero(thing, "box", ("wide", "deep", "high"), sizes)


def frustum_ml(top_mm: float, bottom_mm: float, height_mm: float) -> float:
    """Volume in ml of a frustum: diameters at both ends and height, mm.

    >>> round(frustum_ml(20.0, 20.0, 10.0), 3)
    3.142
    """
    squares = top_mm**2 + top_mm * bottom_mm + bottom_mm**2
    return math.pi / 12.0 * height_mm * squares / 1000.0


def cap_ml(across_mm: float, high_mm: float) -> float:
    """Volume in ml of a spherical cap: diameter of its rim and height, mm.

    >>> round(cap_ml(200.0, 100.0)) == round(2 / 3 * 3.14159265 * 10**3)
    True
    """
    return math.pi / 6.0 * high_mm * (0.75 * across_mm**2 + high_mm**2) / 1000.0


def pot_ml(rim_mm: float, base_mm: float, height_mm: float, wall_mm: float) -> float:
    """Volume in ml inside a pot whose wall and floor are equally thick; all in mm.

    The wall's thickness is measured level, from the outside to the inside.
    """
    floor = base_mm + (rim_mm - base_mm) * wall_mm / height_mm
    return frustum_ml(rim_mm - 2 * wall_mm, floor - 2 * wall_mm, height_mm - wall_mm)


_HEAPED = 1.1  # a heap on top, and pots that are not quite frustums (common practice)


def _pot(pot: Pot, sizes: Sizes) -> Iterator[PlanError]:
    rim, base, height = (_mm(s, sizes) for s in (pot.rim, pot.base, pot.height))
    wall = _mm(pot.wall, sizes) if pot.wall is not None else 0.0
    if pot.wall is not None and 2.0 * wall >= min(rim, base, 2.0 * height):
        yield PlanError(
            f"A wall of {wall:.3g} mm leaves no room in the pot.",
            remedy="check the unit: wall: 8 mm",
            place=pot.wall.place,
        )
    elif pot.filled is not None:
        yield from _overfull("pot", pot, pot.filled, pot_ml(rim, base, height, wall))


def _bowl(bowl: Bowl, sizes: Sizes) -> Iterator[PlanError]:
    if bowl.filled is not None:
        room = cap_ml(_mm(bowl.across, sizes), _mm(bowl.high, sizes))
        yield from _overfull("bowl", bowl, bowl.filled, room)


def _overfull(name: str, part: Spot, filled: str, room_ml: float) -> Iterator[PlanError]:
    if parse_volume(filled) > _HEAPED * room_ml:
        yield PlanError(
            f"{filled} does not go into this {name}: it holds {room_ml / 1000.0:.3g} L.",
            remedy="check its measures, or fill it with less",
            place=part.where,
        )
