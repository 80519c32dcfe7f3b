"""What every form of ``cordwright supply`` begins with: the piece, its cut list and the stock."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, cast

from cordwright.cli import atlas_access
from cordwright.cli.shelf_access import hands_of
from cordwright.errors import SupplyError

if TYPE_CHECKING:
    from cordwright.cli.supplyoptions import Asked
    from cordwright.piece.cutlist import CutList
    from cordwright.piece.model import Piece
    from cordwright.plan.model import Plan
    from cordwright.supply.records import Length
    from cordwright.supply.stock import Stock
    from cordwright.units.length import System


def worked(
    plan: Plan, asked: Asked, sizes: Mapping[str, str], diameters: Mapping[str, float]
) -> tuple[Piece, CutList]:
    """A plan's piece and its cut list, for the maker's hands and risk.

    Raises:
        CordwrightError: it cannot be worked.
    """
    from cordwright.hang.counted import as_worked, counted
    from cordwright.piece.cutlist import cut_list
    from cordwright.piece.risk import DEFAULT_RISK
    from cordwright.piece.work import work

    risk = DEFAULT_RISK if asked.risk is None else asked.risk / 100.0
    with atlas_access.figures_source() as source:
        handling, known = hands_of(plan, asked.file, asked.maker, source)
        piece = work(plan, source, sizes=sizes, diameters=diameters, handling=handling)
    piece = counted(as_worked(piece))
    return piece, cut_list(piece, system=cast("System", asked.units), known=known, risk=risk)


def same_cords(plan: Plan) -> dict[str, str]:
    """Names of cords that stand on the shelf under another of the plan's names too, with that."""
    from cordwright.supply.shelved import names_on_shelf

    named = _shelved(plan)
    names = names_on_shelf(named)
    return {plan_name: names[cord] for plan_name, cord in named.items()}


def with_shelf(
    plan: Plan, stock: Stock, asked: Asked, currency: str | None
) -> tuple[Stock, dict[str, Length]]:
    """The stock with what the shelf holds of the cords that the plan names there; its spools.

    Raises:
        CordwrightError: the shelf cannot be read, or a spool has the name of another.
    """
    named = _shelved(plan)
    if not named:
        return stock, {}
    from cordwright.supply.records import Length, Offer
    from cordwright.supply.shelf import items, open_shelf
    from cordwright.supply.shelved import names_on_shelf, stock_of
    from cordwright.supply.stock import Stock

    with open_shelf(asked.file) as db:
        lengths, offers = items(db, Length), items(db, Offer)
    held = stock_of(lengths, offers, names_on_shelf(named), currency)
    whole = Stock((*stock.spools, *held.spools), (*stock.put_ups, *held.put_ups))
    ids = {s.id for s in held.spools}
    return whole, {x.name: x for x in lengths if x.name in ids}


def check_cords(plan: Plan, stock: Stock) -> None:
    """That every spool is of a cord of the plan.

    Raises:
        SupplyError: one is not.
    """
    for cord in (*(s.cord for s in stock.spools), *(p.cord for p in stock.put_ups)):
        if cord not in plan.cords:
            raise SupplyError(
                f"The plan has no cord called '{cord}'.",
                remedy=f"it has {', '.join(plan.cords)}",
            )


def _shelved(plan: Plan) -> dict[str, str]:
    return {name: spec.shelf for name, spec in plan.cords.items() if spec.shelf is not None}
