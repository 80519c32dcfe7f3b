"""What a plan's piece hangs on and holds, found on the shelf: rings, rods and pots.

A thing of the shelf fits if its measures are those of the plan to `NEAR_MM`. A rod may be longer
than planned, to be sawn; the shortest that is long enough is taken. Of several that fit, the one
with the lower price comes first, and where that is the same, by name.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType
from typing import TYPE_CHECKING, Final, Literal

from cordwright.plan.hanging import Pot as PlanPot
from cordwright.plan.model import RingMount, RodMount
from cordwright.plan.sums import length
from cordwright.supply.pricing import Item
from cordwright.supply.records import Pot, Ring, Rod
from cordwright.units.length import format_length

if TYPE_CHECKING:
    from cordwright.piece.model import Piece
    from cordwright.plan.sums import Sum
    from cordwright.supply.records import Counted
    from cordwright.units.length import System

NEAR_MM = 1.0
"""As far as a ring, rod or pot may be from what the plan says (a choice of ours: as near as it is
measured with a tape)."""

Sort = Literal["ring", "rod", "pot"]


MADE: Final[Mapping[Sort, type[Counted]]] = MappingProxyType({"ring": Ring, "rod": Rod, "pot": Pot})
"""What each sort is on the shelf."""
MEASURES: Final[Mapping[Sort, str]] = MappingProxyType(
    {"ring": "{} inside, wire of {}", "rod": "{} long, {} thick", "pot": "{} across, {} high"}
)
"""A size in words, from its two measures."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """A fitting that a plan asks for.

    Args:
        sort: what it is.
        measures: of a ring inside and wire, of a rod length and thickness, of a pot across the
            rim and height; mm.
    """

    sort: Sort
    measures: tuple[float, float]

    def size(self, system: System) -> str:
        """Its measures in words.

        >>> Wanted("ring", (50.0, 6.0)).size("metric")
        '5 cm inside, wire of 6 mm'
        """
        return MEASURES[self.sort].format(*(format_length(mm, system) for mm in self.measures))


@dataclass(frozen=True, slots=True)
class Fitted:
    """A fitting that a plan asks for, and what the shelf has of it.

    Args:
        wanted: what is asked for.
        on_shelf: the thing that fits, or None; of one that is there too seldom, what there is.
        needed: how many in all.
    """

    wanted: Wanted
    on_shelf: Counted | None
    needed: int

    @property
    def short(self) -> int:
        """How many are not there."""
        return max(0, self.needed - (self.on_shelf.count if self.on_shelf else 0))


def wanted(piece: Piece) -> tuple[Wanted, ...]:
    """The ring, rod and pot that a plan names, one of each sort at most.

    Args:
        piece: as worked, for its sizes.
    """
    on = piece.plan.mount.on
    found: list[Wanted] = []

    def mm(given: Sum) -> float:
        return length(given, piece.amounts, piece.values).at(piece.values)

    if isinstance(on, RingMount):
        found.append(Wanted("ring", (mm(on.inside), mm(on.wire))))
    elif isinstance(on, RodMount):
        found.append(Wanted("rod", (mm(on.length), mm(on.thick))))
    hang = piece.plan.hang
    thing = hang.holds.thing if hang is not None and hang.holds is not None else None
    if isinstance(thing, PlanPot):
        found.append(Wanted("pot", (mm(thing.rim), mm(thing.height))))
    return tuple(found)


def fitted(asked: Wanted, things: Iterable[Counted], needed: int) -> Fitted:
    """What fits of the things on the shelf.

    Args:
        asked: what is wanted.
        things: of the shelf, of any kind.
        needed: how many.
    """
    fits = [t for t in things if _fits(asked, t)]
    enough = [t for t in fits if t.count >= needed]
    fits.sort(key=lambda t: (t not in enough, _longer(t), t.price is None, _amount(t), t.name))
    return Fitted(asked, fits[0] if fits else None, needed)


def _fits(asked: Wanted, thing: Counted) -> bool:
    first, second = asked.measures
    match thing:
        case Ring():
            near = abs(thing.inside_mm - first), abs(thing.wire_mm - second)
        case Rod():
            near = max(0.0, first - thing.length_mm), abs(thing.thick_mm - second)
        case Pot():
            near = abs(thing.across_mm - first), abs(thing.height_mm - second)
    return type(thing) is MADE[asked.sort] and max(near) <= NEAR_MM


def _longer(thing: Counted) -> float:
    return thing.length_mm if isinstance(thing, Rod) else 0.0


def _amount(thing: Counted) -> Decimal:
    return thing.price.amount if thing.price is not None else Decimal(0)


def priced(found: Iterable[Fitted], currency: str | None, system: System) -> tuple[Item, ...]:
    """The fittings as things of a kit, with the shelf's price and weight where it has them.

    Args:
        found: what the shelf has.
        currency: prices in another are left out, as if they were not known.
        system: what their sizes are written in.
    """
    items = []
    for one in found:
        thing = one.on_shelf
        price = thing.price if thing is not None else None
        known = price.amount if price is not None and price.currency == currency else None
        name = thing.name if thing is not None else one.wanted.sort
        weight_g = thing.weight_g if thing is not None else None
        items.append(Item(name, known, 1, weight_g, one.wanted.size(system)))
    return tuple(items)
