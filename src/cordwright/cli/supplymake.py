"""``cordwright supply FOLDER``: what can be made of the plans in a folder."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from cordwright.cli.shelf_access import read_plan_with_shelf
from cordwright.cli.show import show_json
from cordwright.cli.supplywork import worked
from cordwright.errors import CordwrightError, Place, SupplyError

if TYPE_CHECKING:
    from cordwright.supply.asked import Asked
    from cordwright.supply.demand import Demand
    from cordwright.supply.makeable import Makeable
    from cordwright.supply.report import Tried
    from cordwright.supply.stock import Stock

MOST_PLANS = 500


def make(folder: Path, asked: Asked) -> None:
    """Show what can be made of the plans in a folder.

    Raises:
        CordwrightError: there are no plans, or an option is wrong.
    """
    from cordwright.supply import asked as words

    stock = words.stock(asked.spools, asked.buys)
    if asked.take:
        raise SupplyError(
            "Only one plan's cord can be taken off the shelf.",
            remedy="name that plan, or leave --take out",
            place=Place("--take"),
        )
    from cordwright.cli.supplyview import show_made
    from cordwright.supply.report import make_json

    files = sorted(p for p in folder.iterdir() if p.suffix in (".yaml", ".yml"))
    if not files or len(files) > MOST_PLANS:
        raise SupplyError(
            f"The folder has {len(files)} plans.",
            remedy=f"give one with 1 to {MOST_PLANS} files that end in .yaml or .yml",
            place=Place(str(folder)),
        )
    report = make_json(str(folder), [_tried(file, stock, asked) for file in files])
    if asked.as_json:
        show_json(report)
    else:
        show_made(report)


def _tried(file: Path, stock: Stock, asked: Asked) -> Tried:
    from cordwright.supply.demand import demand
    from cordwright.supply.makeable import makeable
    from cordwright.supply.run import same_cords, with_shelf

    title: str | None = None
    found: Makeable | None = None
    try:
        plan = read_plan_with_shelf(file, asked.file)
        title = plan.title

        def at(sizes: Mapping[str, str]) -> Demand:
            return demand(worked(plan, asked, sizes, {})[1], asked.kits, same_cords(plan))

        held, _ = with_shelf(plan, stock, asked, None)
        found = makeable(plan, at, held, asked.seconds)
    except CordwrightError as error:
        return file.name, title, None, error.what
    return file.name, title, found, None
