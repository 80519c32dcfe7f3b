"""A run of kits, from the piece and what is asked: cutting plans, weight, price, papers.

Command line and workbench call the same function, and tell the same answer.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, cast

from cordwright.errors import SupplyError
from cordwright.supply import asked as words
from cordwright.supply.cutting import CuttingPlan, Rules, cutting_plan
from cordwright.supply.demand import Demand, demand
from cordwright.supply.fittings import Fitted, priced
from cordwright.supply.kitting import fittings, parcel, sheets
from cordwright.supply.pricing import Costing, costing
from cordwright.supply.records import Length, Offer
from cordwright.supply.report import supply_json
from cordwright.supply.shelf import items, open_shelf
from cordwright.supply.shelved import names_on_shelf, stock_of
from cordwright.supply.stock import Stock
from cordwright.supply.taking import taking

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

    from cordwright.piece.cutlist import CutList
    from cordwright.piece.model import Piece
    from cordwright.plan.model import Plan
    from cordwright.supply.asked import Asked
    from cordwright.supply.kits import Parcel, Sheet
    from cordwright.supply.pricing import Rates
    from cordwright.supply.shelflog import Change
    from cordwright.units.length import System


@dataclass(frozen=True, slots=True)
class Prepared:
    """What is asked, read: a slip of the pen is told before anything is worked.

    Args:
        asked: as written.
        stock: of the maker's, with what the shelf holds.
        spools: of the shelf, by name.
        rates: of a price, if one is asked for.
        rules: how to cut.
        keep_mm: the least rest that is worth keeping.
    """

    asked: Asked
    stock: Stock
    spools: Mapping[str, Length]
    rates: Rates | None
    rules: Rules
    keep_mm: float


@dataclass(frozen=True, slots=True)
class Run:
    """A run of kits.

    Args:
        title: of the piece.
        prepared: what was asked.
        needs: cord of all kits.
        plans: the cutting plan of each cord.
        found: fittings, as the shelf has them.
        parcel: what a kit weighs.
        price: currency and costs, if asked for.
        sheets: parts list, packing sheet and labels.
    """

    title: str
    prepared: Prepared
    needs: Demand
    plans: Mapping[str, CuttingPlan]
    found: tuple[Fitted, ...]
    parcel: Parcel
    price: tuple[str, Costing] | None
    sheets: tuple[Sheet, ...]

    def changes(self) -> tuple[Change, ...]:
        """What carrying it out changes on the shelf.

        Raises:
            SupplyError: not everything can be cut, or something has to be bought first.
        """
        return taking(self.plans, self.prepared.spools, self.found)

    def said(self) -> str:
        """What the shelf's log says of it."""
        kits = self.prepared.asked.kits
        return f"cut for {self.title}{f', {kits} kits' if kits > 1 else ''}"

    def report(self, entry: int | None = None) -> dict[str, Any]:
        """The answer as JSON values.

        Args:
            entry: of the shelf's log, where it was carried out.
        """
        kits = self.prepared.asked.kits
        return supply_json(
            self.title, kits, self.prepared.keep_mm, self.needs, self.plans, self.parcel,
            self.price, self.found, entry,
        )  # fmt: skip


def prepare(plan: Plan, asked: Asked) -> Prepared:
    """Read what is asked, and take in what the shelf holds.

    Raises:
        CordwrightError: an option is wrong, or the shelf cannot be read.
    """
    stock = words.stock(asked.spools, asked.buys)
    rates = words.rates(asked)
    keep = words.length("--keep", asked.keep)
    setup = words.length("--setup", asked.setup)
    words.items("--packing", asked.packing)
    check_cords(plan, stock)
    stock, spools = with_shelf(plan, stock, asked, rates.currency if rates else None)
    return Prepared(asked, stock, spools, rates, Rules(keep or None, setup, asked.seconds), keep)


def run(
    prepared: Prepared,
    piece: Piece,
    cuts: CutList,
    tell: Callable[[str, float], None] = lambda _cord, _share: None,
) -> Run:
    """Plan a run of kits.

    Args:
        prepared: what is asked.
        piece: as worked.
        cuts: its cut list.
        tell: is told which cord is planned, and which share of them is done.

    Raises:
        CordwrightError: the shelf cannot be read, or no plan can be made.
    """
    asked, rates = prepared.asked, prepared.rates
    found = fittings(piece, asked)
    system = cast("System", asked.units)
    currency = rates.currency if rates else None
    things = (*words.items("--fitting", asked.fittings), *priced(found, currency, system))
    packing = words.items("--packing", asked.packing)
    wanted = demand(cuts, asked.kits, same_cords(piece.plan))
    plans: dict[str, CuttingPlan] = {}
    for number, (cord, needs) in enumerate(wanted.items()):
        tell(cord, number / len(wanted))
        plans[cord] = cutting_plan(needs, prepared.stock.of(cord), prepared.rules)
    weighed = parcel(piece, wanted, (*things, *packing), asked)
    price = (rates.currency, costing(plans, asked.kits, rates.having(things))) if rates else None
    printed = sheets(piece, cuts, (things, packing), weighed.gross_g, asked)
    return Run(piece.plan.title, prepared, wanted, plans, found, weighed, price, printed)


def same_cords(plan: Plan) -> dict[str, str]:
    """Names of cords that stand on the shelf under another of the plan's names too, with that."""
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
