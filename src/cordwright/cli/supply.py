"""``cordwright supply``."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, cast

from cordwright.cli import options, supplykit, supplyoptions
from cordwright.cli.shelf_access import read_plan_with_shelf
from cordwright.cli.show import show_json
from cordwright.cli.supplymake import make
from cordwright.cli.supplywork import check_cords, same_cords, with_shelf, worked

if TYPE_CHECKING:
    from cordwright.cli.supplyoptions import Asked
    from cordwright.supply.cutting import CuttingPlan
    from cordwright.supply.fittings import Fitted
    from cordwright.supply.records import Length
    from cordwright.units.length import System


def supply(path: Path, asked: Asked) -> None:
    """Show the cutting plan, the weight and the price of a run of kits, or what can be made.

    Args:
        path: a plan; a folder for what can be made of the plans in it.
        asked: the options.

    Raises:
        CordwrightError: the plan cannot be read or worked, an option is wrong, or what is to be
            taken off the shelf is not all there.
    """
    if path.is_dir():
        make(path, asked)
    else:
        _cut(path, asked)


def _cut(path: Path, asked: Asked) -> None:
    stock = supplyoptions.stock(asked.spools, asked.buys)
    rates = supplyoptions.rates(asked)
    keep = supplyoptions.length("--keep", asked.keep)
    setup = supplyoptions.length("--setup", asked.setup)
    supplykit.check_suffix(asked.papers)

    from cordwright.cli.supplyview import show_supply
    from cordwright.supply.cutting import Rules, cutting_plan
    from cordwright.supply.demand import demand
    from cordwright.supply.fittings import priced
    from cordwright.supply.pricing import costing
    from cordwright.supply.report import supply_json

    plan = read_plan_with_shelf(path, asked.file)
    check_cords(plan, stock)
    currency = rates.currency if rates else None
    stock, spools = with_shelf(plan, stock, asked, currency)
    piece, cuts = worked(
        plan, asked, options.sizes(asked.sizes), options.diameters(asked.diameters)
    )
    found = supplykit.fittings(piece, asked)
    things = (*supplyoptions.items("--fitting", asked.fittings), *priced(found, currency))
    packing = supplyoptions.items("--packing", asked.packing)
    wanted = demand(cuts, asked.kits, same_cords(plan))
    rules = Rules(keep or None, setup, asked.seconds)
    plans = {cord: cutting_plan(needs, stock.of(cord), rules) for cord, needs in wanted.items()}
    parcel = supplykit.parcel(piece, wanted, (*things, *packing), asked)
    price = (rates.currency, costing(plans, asked.kits, rates.having(things))) if rates else None
    if asked.papers:
        supplykit.print_papers(asked.papers, piece, cuts, (things, packing), parcel.gross_g, asked)
    entry = _take(plans, spools, found, plan.title, asked) if asked.take else None
    report = supply_json(plan.title, asked.kits, keep, wanted, plans, parcel, price, found, entry)
    if asked.as_json:
        show_json(report)
    else:
        show_supply(report, cast("System", asked.units))


def _take(
    plans: Mapping[str, CuttingPlan],
    spools: Mapping[str, Length],
    found: Iterable[Fitted],
    title: str,
    asked: Asked,
) -> int | None:
    """Carry the cutting plans out on the shelf; the entry of its log, None if nothing is of it."""
    from cordwright.supply.shelf import open_shelf
    from cordwright.supply.shelflog import carry_out
    from cordwright.supply.taking import taking

    changes = taking(plans, spools, found)
    if not changes:
        return None
    kits = f", {asked.kits} kits" if asked.kits > 1 else ""
    with open_shelf(asked.file) as db:
        return carry_out(db, f"cut for {title}{kits}", datetime.now(), changes)
