"""What a run of kits costs, and what to ask for them.

Cord is charged by what is cut and what is lost, at the price of the spool that it comes from;
left-overs that go back on the shelf are not charged. Every line is rounded to the currency's minor
unit for the whole run, so that lines add up to the total. What a kit costs and what is asked for
it are rounded up, so that the run is covered.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from decimal import ROUND_CEILING, Decimal, localcontext
from typing import TYPE_CHECKING

from cordwright.errors import SupplyError
from cordwright.supply.money import LARGEST, rounded, rounded_up

if TYPE_CHECKING:
    from cordwright.supply.cutting import CuttingPlan


@dataclass(frozen=True, slots=True)
class Item:
    """A fitting, or something to pack with.

    Args:
        name: in the maker's words.
        price: of one; None if not known.
        count: how many in a kit.
        weight_g: of one, g; None if not known.
        size: in words, if it is known.
    """

    name: str
    price: Decimal | None
    count: int = 1
    weight_g: float | None = None
    size: str = ""


@dataclass(frozen=True, slots=True)
class Rates:
    """What goes into a price besides cord.

    Args:
        currency: code of ISO 4217, in capitals.
        fittings: in each kit.
        packing: of each kit.
        minutes: of work for each kit.
        hourly: for an hour of work.
        overhead: percent on cord, fittings, packing and work.
        fixed: once for the whole run or class: room, travel, samples, the time to design.
        wholesale: times what a kit costs.
        retail: times the wholesale price.
        asked: price asked for a kit or a place in the class; None for the retail price.
    """

    currency: str
    fittings: tuple[Item, ...] = ()
    packing: tuple[Item, ...] = ()
    minutes: Decimal = Decimal(0)
    hourly: Decimal = Decimal(0)
    overhead: Decimal = Decimal(0)
    fixed: Decimal = Decimal(0)
    wholesale: Decimal = Decimal(2)
    retail: Decimal = Decimal(2)
    asked: Decimal | None = None

    def having(self, fittings: tuple[Item, ...]) -> Rates:
        """The same with other fittings."""
        return replace(self, fittings=fittings)


@dataclass(frozen=True, slots=True)
class Costing:
    """What a run costs and what to ask.

    Args:
        kits: in the run.
        lines: what each part costs for the whole run.
        total: of the lines.
        per_kit: the total over the kits, rounded up.
        wholesale: price of a kit.
        retail: price of a kit.
        asked: the price that the break-even is for.
        break_even: kits to sell, or places to fill, before ``fixed`` is earned back; None if every
            kit sold loses money, or earns none while something is to be earned back.
        unpriced: what has no price and is not in it.
    """

    kits: int
    lines: Mapping[str, Decimal]
    total: Decimal
    per_kit: Decimal
    wholesale: Decimal
    retail: Decimal
    asked: Decimal
    break_even: int | None
    unpriced: tuple[str, ...]


def costing(plans: Mapping[str, CuttingPlan], kits: int, rates: Rates) -> Costing:
    """Adds up a run of kits.

    Args:
        plans: the cutting plan of each cord, for all kits together.
        kits: how many, 1 or more.
        rates: everything else.

    Raises:
        SupplyError: no kits, or amounts beyond reason.
    """
    if kits < 1:
        raise SupplyError(f"{kits} kits cannot be priced.", remedy="plan 1 or more")
    code = rates.currency
    with localcontext() as context:
        context.prec = 40
        one = Decimal(1)
        cords = {f"cord {name}": cord_cost(plan) for name, plan in plans.items()}
        items = {i.name: i.price and i.price * i.count * kits for i in _items(rates)}
        lines = {n: rounded(c, code) for n, c in (*cords.items(), *items.items()) if c is not None}
        lines["work"] = rounded(rates.minutes / 60 * rates.hourly * kits, code)
        lines["overhead"] = rounded(sum(lines.values(), Decimal(0)) * rates.overhead / 100, code)
        each = sum(lines.values(), Decimal(0)) / kits
        lines["once for the run"] = rounded(rates.fixed, code)
        total = sum(lines.values(), Decimal(0))
        if total * max(one, rates.wholesale) * max(one, rates.retail) >= LARGEST:
            raise SupplyError("The run costs too much to be added up.", remedy="check the prices")
        per_kit = rounded_up(total / kits, code)
        wholesale = rounded_up(per_kit * rates.wholesale, code)
        retail = rounded_up(wholesale * rates.retail, code)
        asked = retail if rates.asked is None else rates.asked
        even = break_even(lines["once for the run"], asked, each)
    missing = [n for n, c in (*cords.items(), *items.items()) if c is None]
    return Costing(
        kits, lines, total, per_kit, wholesale, retail, asked, even, tuple(dict.fromkeys(missing))
    )


def _items(rates: Rates) -> Iterable[Item]:
    """Fittings and packing, those of one name together."""
    found: dict[str, Item] = {}
    for item in (*rates.fittings, *rates.packing):
        if item.name in found:
            raise SupplyError(f"'{item.name}' is given twice.", remedy="give it once, with a count")
        found[item.name] = item
    return found.values()


def cord_cost(plan: CuttingPlan) -> Decimal | None:
    """Price of the cord that is cut or lost; None if any of it has no price, or is missing."""
    cost = Decimal(0)
    for spool in plan.spools:
        if spool.price_per_mm is None:
            return None
        cost += Decimal(repr(spool.cut_mm + spool.lost_mm)) * spool.price_per_mm
    return None if plan.missing else cost


def break_even(fixed: Decimal, price: Decimal, each: Decimal) -> int | None:
    """The fewest sales with ``sales * (price - each) >= fixed``.

    Args:
        fixed: spent once.
        price: of one.
        each: what one costs.

    Returns:
        That number; None if no number is enough.

    >>> break_even(Decimal(120), Decimal(45), Decimal(15))
    4
    >>> break_even(Decimal(120), Decimal(15), Decimal(15)) is None
    True
    """
    earns = price - each
    if earns <= 0:
        return 0 if earns == 0 and fixed == 0 else None
    return int((fixed / earns).to_integral_value(rounding=ROUND_CEILING))
