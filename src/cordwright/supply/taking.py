"""Carries a cutting plan out on the shelf: what is cut is taken, what is worth keeping stays.

A rest that the plan keeps is a part-spool (or a left-over still); a rest that is shorter than what
is worth keeping is off the shelf, like what was cut. Rings, rods and pots are taken where there are
enough of them, and else left alone.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from cordwright.errors import SupplyError
from cordwright.supply.shelf import shortened
from cordwright.supply.shelflog import Change
from cordwright.units.length import format_length

if TYPE_CHECKING:
    from cordwright.supply.cutting import CutSpool, CuttingPlan
    from cordwright.supply.fittings import Fitted
    from cordwright.supply.records import Length


def taking(
    plans: Mapping[str, CuttingPlan], lengths: Mapping[str, Length], found: Iterable[Fitted]
) -> tuple[Change, ...]:
    """The changes to the shelf that cutting plans make.

    Spools that are not on the shelf were named on the command line, and are no matter of it.

    Args:
        plans: by the plan's name of the cord.
        lengths: the shelf's spools that the plans were made with, by name.
        found: fittings that the shelf has.

    Raises:
        SupplyError: not everything can be cut, or something has to be bought first.
    """
    spools = [s for plan in plans.values() for s in plan.spools]
    if not all(plan.enough for plan in plans.values()):
        raise SupplyError(
            "Not everything can be cut, so nothing is taken off the shelf.",
            remedy="put more cord on the shelf, or plan fewer kits",
        )
    bought = [s for s in spools if s.bought]
    if bought:
        raise SupplyError(
            f"{len(bought)} of what is cut {'is' if len(bought) == 1 else 'are'} not on the shelf "
            f"yet: {_listed(bought)}. Nothing is taken.",
            remedy="buy it and put it on the shelf: cordwright shelf put CORD LENGTH --price PRICE",
        )
    cut = [_cut(lengths[s.source.id], s) for s in spools if s.source.id in lengths]
    return (*cut, *(_counted(f) for f in found if f.on_shelf is not None and not f.short))


def _cut(before: Length, spool: CutSpool) -> Change:
    return Change(before, shortened(before, spool.rest_mm) if spool.kept else None)


def _counted(found: Fitted) -> Change:
    thing = found.on_shelf
    assert thing is not None  # noqa: S101 - only what is on the shelf is taken
    return Change(thing, replace(thing, count=thing.count - found.needed))


def _listed(bought: Iterable[CutSpool]) -> str:
    each = [f"{s.source.id} ({format_length(s.source.length_mm, 'metric')})" for s in bought]
    times = {name: each.count(name) for name in each}
    return ", ".join(name if n == 1 else f"{n} of {name}" for name, n in times.items())
