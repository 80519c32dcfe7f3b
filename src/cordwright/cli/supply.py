"""``cordwright supply``."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, cast

from cordwright.cli import options, supplykit
from cordwright.cli.shelf_access import read_plan_with_shelf
from cordwright.cli.show import show_json
from cordwright.cli.supplymake import make
from cordwright.cli.supplywork import worked

if TYPE_CHECKING:
    from cordwright.supply.asked import Asked
    from cordwright.supply.run import Run
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
    supplykit.check_suffix(asked.papers)

    from cordwright.cli.supplyview import show_supply
    from cordwright.supply.run import prepare, run

    plan = read_plan_with_shelf(path, asked.file)
    prepared = prepare(plan, asked)
    piece, cuts = worked(
        plan, asked, options.sizes(asked.sizes), options.diameters(asked.diameters)
    )
    made = run(prepared, piece, cuts)
    if asked.papers:
        supplykit.print_papers(asked.papers, made.sheets)
    report = made.report(_take(made) if asked.take else None)
    if asked.as_json:
        show_json(report)
    else:
        show_supply(report, cast("System", asked.units))


def _take(made: Run) -> int | None:
    """Carry the cutting plans out on the shelf; the entry of its log, None if nothing is of it."""
    from cordwright.supply.shelf import open_shelf
    from cordwright.supply.shelflog import carry_out

    changes = made.changes()
    if not changes:
        return None
    with open_shelf(made.prepared.asked.file) as db:
        return carry_out(db, made.said(), datetime.now(), changes)
