"""``cordwright supply``."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, cast

from cordwright.cli import atlas_access, options, supplyoptions
from cordwright.cli.shelf_access import hands_of, read_plan_with_shelf
from cordwright.cli.show import show_json
from cordwright.errors import CordwrightError, Place, SupplyError

if TYPE_CHECKING:
    from cordwright.cli.supplyoptions import Asked
    from cordwright.piece.cutlist import CutList
    from cordwright.piece.model import Piece
    from cordwright.plan.model import Plan
    from cordwright.supply.demand import Demand
    from cordwright.supply.kits import Parcel
    from cordwright.supply.makeable import Makeable
    from cordwright.supply.report import Tried
    from cordwright.supply.stock import Stock
    from cordwright.units.length import System

MOST_PLANS = 500


def supply(path: Path, asked: Asked) -> None:
    """Show the cutting plan, the weight and the price of a run of kits, or what can be made.

    Args:
        path: a plan; a folder for what can be made of the plans in it.
        asked: the options.

    Raises:
        CordwrightError: the plan cannot be read or worked, or an option is wrong.
    """
    if path.is_dir():
        _make(path, asked)
    else:
        _cut(path, asked)


def _cut(path: Path, asked: Asked) -> None:
    stock = supplyoptions.stock(asked.spools, asked.buys)
    rates = supplyoptions.rates(asked)
    keep = supplyoptions.length("--keep", asked.keep)
    setup = supplyoptions.length("--setup", asked.setup)
    _suffix(asked.papers)

    from cordwright.cli.supplyview import show_supply
    from cordwright.supply.cutting import Rules, cutting_plan
    from cordwright.supply.demand import demand
    from cordwright.supply.pricing import costing
    from cordwright.supply.report import supply_json

    plan = read_plan_with_shelf(path, asked.file)
    _known(plan, stock)
    stock = _with_shelf(plan, stock, asked, rates.currency if rates else None)
    piece, cuts = _worked(
        plan, asked, options.sizes(asked.sizes), options.diameters(asked.diameters)
    )
    wanted = demand(cuts, asked.kits, _same(plan))
    rules = Rules(keep or None, setup, asked.seconds)
    plans = {cord: cutting_plan(needs, stock.of(cord), rules) for cord, needs in wanted.items()}
    parcel = _parcel(piece, wanted, asked)
    price = (rates.currency, costing(plans, asked.kits, rates)) if rates else None
    report = supply_json(plan.title, asked.kits, keep, wanted, plans, parcel, price)
    if asked.papers:
        _print(asked.papers, piece, cuts, parcel, asked)
    if asked.as_json:
        show_json(report)
    else:
        show_supply(report, cast("System", asked.units))


def _worked(
    plan: Plan, asked: Asked, sizes: Mapping[str, str], diameters: Mapping[str, float]
) -> tuple[Piece, CutList]:
    from cordwright.hang.counted import as_worked, counted
    from cordwright.piece.cutlist import cut_list
    from cordwright.piece.work import work

    with atlas_access.figures_source() as source:
        handling, known = hands_of(plan, asked.file, asked.maker, source)
        piece = work(plan, source, sizes=sizes, diameters=diameters, handling=handling)
    piece = counted(as_worked(piece))
    return piece, cut_list(piece, system=cast("System", asked.units), known=known)


def _shelved(plan: Plan) -> dict[str, str]:
    return {name: spec.shelf for name, spec in plan.cords.items() if spec.shelf is not None}


def _same(plan: Plan) -> dict[str, str]:
    """Names of cords that stand on the shelf under another of the plan's names too, with that."""
    from cordwright.supply.shelved import names_on_shelf

    shelved = _shelved(plan)
    names = names_on_shelf(shelved)
    return {plan_name: names[cord] for plan_name, cord in shelved.items()}


def _with_shelf(plan: Plan, stock: Stock, asked: Asked, currency: str | None) -> Stock:
    """The stock with what the shelf holds of the cords that the plan names there."""
    shelved = _shelved(plan)
    if not shelved:
        return stock
    from cordwright.supply.records import Length, Offer
    from cordwright.supply.shelf import items, open_shelf
    from cordwright.supply.shelved import names_on_shelf, stock_of
    from cordwright.supply.stock import Stock

    with open_shelf(asked.file) as db:
        held = stock_of(items(db, Length), items(db, Offer), names_on_shelf(shelved), currency)
    return Stock((*stock.spools, *held.spools), (*stock.put_ups, *held.put_ups))


def _known(plan: Plan, stock: Stock) -> None:
    for cord in (*(s.cord for s in stock.spools), *(p.cord for p in stock.put_ups)):
        if cord not in plan.cords:
            raise SupplyError(
                f"The plan has no cord called '{cord}'.",
                remedy=f"it has {', '.join(plan.cords)}",
            )


def _parcel(piece: Piece, wanted: Demand, asked: Asked) -> Parcel:
    from cordwright.piece.weight import weight
    from cordwright.supply.kits import Parcel

    heavy = [
        weight(piece, cord, sum(n.length_mm * n.count for n in needs) / asked.kits)
        for cord, needs in wanted.items()
    ]
    known = [w for w in heavy if w is not None]
    whole = len(known) == len(heavy)
    things = (
        *supplyoptions.items("--fitting", asked.fittings),
        *supplyoptions.items("--packing", asked.packing),
    )
    grams = [None if i.weight_g is None else i.weight_g * i.count for i in things]
    weighed = [g for g in grams if g is not None]
    return Parcel(
        sum(w.g for w in known) if whole else None,
        sum(w.low_g for w in known) if whole else None,
        sum(w.high_g for w in known) if whole else None,
        sum(weighed) if len(weighed) == len(grams) else None,
        None if asked.box is None else supplyoptions.box(asked.box),
    )


def _suffix(path: Path | None) -> None:
    from cordwright.supply.papers import FORMATS

    if path is not None and path.suffix.lower() not in FORMATS:
        raise SupplyError(
            f"Papers cannot be written as '{path.name}'.",
            remedy=f"end the file's name with one of {', '.join(FORMATS)}",
        )


def _print(path: Path, piece: Piece, cuts: CutList, parcel: Parcel, asked: Asked) -> None:
    from cordwright.supply.kits import CordPart, Kit, papers
    from cordwright.supply.papers import FORMATS

    cords = tuple(CordPart(e.id, _words(piece, e.cord), e.length_mm, e.count) for e in cuts.entries)
    kit = Kit(
        piece.plan.title,
        asked.studio,
        cords,
        supplyoptions.items("--fitting", asked.fittings),
        supplyoptions.items("--packing", asked.packing),
        parcel.gross_g,
    )
    sheets = papers(kit, asked.kits, cast("System", asked.units))
    try:
        with path.open("x", encoding="utf-8", newline="") as file:
            file.write(FORMATS[path.suffix.lower()](sheets))
    except FileExistsError:
        raise SupplyError(
            "There is a file of that name already; it stays as it is.",
            remedy="choose another name",
            place=Place(str(path)),
        ) from None
    except OSError as error:
        raise SupplyError(
            f"The papers could not be written: {error.strerror or error}.",
            remedy="choose another place",
            place=Place(str(path)),
        ) from None


def _words(piece: Piece, cord: str) -> str:
    spec = piece.plan.cords[cord]
    diameter = f"{piece.values[f'd:{cord}']:g} mm"
    return ", ".join(t for t in (cord, diameter, spec.build, spec.fibre, spec.colour) if t)


def _make(folder: Path, asked: Asked) -> None:
    stock = supplyoptions.stock(asked.spools, asked.buys)
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

    title: str | None = None
    found: Makeable | None = None
    try:
        plan = read_plan_with_shelf(file, asked.file)
        title = plan.title

        def at(sizes: Mapping[str, str]) -> Demand:
            return demand(_worked(plan, asked, sizes, {})[1], asked.kits, _same(plan))

        held = _with_shelf(plan, stock, asked, None)
        found = makeable(plan, at, held, asked.seconds)
    except CordwrightError as error:
        return file.name, title, None, error.what
    return file.name, title, found, None
