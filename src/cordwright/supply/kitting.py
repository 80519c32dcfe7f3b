"""What goes into a kit beside its cord, what a kit weighs, and what is printed of it."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from cordwright.piece.weight import weight
from cordwright.supply.asked import box, in_kit
from cordwright.supply.asked import items as asked_items
from cordwright.supply.fittings import MADE, Fitted, fitted, wanted
from cordwright.supply.kits import CordPart, Kit, Parcel, papers
from cordwright.supply.shelf import default_path, items, open_shelf

if TYPE_CHECKING:
    from cordwright.piece.cutlist import CutList
    from cordwright.piece.model import Piece
    from cordwright.supply.asked import Asked
    from cordwright.supply.demand import Demand
    from cordwright.supply.kits import Sheet
    from cordwright.supply.pricing import Item
    from cordwright.units.length import System


def fittings(piece: Piece, asked: Asked) -> tuple[Fitted, ...]:
    """The ring, rod and pot of the plan that go into a kit, as the shelf has them.

    What a ``--fitting`` of the same name says is not looked for. Where no shelf is named and there
    is none yet, nothing is on it.

    Raises:
        CordwrightError: the shelf cannot be read, or something else goes into no kit.
    """
    named = {i.name for i in asked_items("--fitting", asked.fittings)}
    sorts = in_kit(asked.in_kit)
    asks = [w for w in wanted(piece) if w.sort in sorts and w.sort not in named]
    if not asks or (asked.file is None and not default_path().exists()):
        return tuple(Fitted(w, None, asked.kits) for w in asks)
    with open_shelf(asked.file) as db:
        return tuple(fitted(w, items(db, MADE[w.sort]), asked.kits) for w in asks)


def parcel(piece: Piece, cord: Demand, things: tuple[Item, ...], asked: Asked) -> Parcel:
    """What a kit weighs.

    Args:
        piece: as worked.
        cord: what all kits need.
        things: fittings and packing of one.
        asked: the options.
    """
    heavy = [
        weight(piece, name, sum(n.length_mm * n.count for n in needs) / asked.kits)
        for name, needs in cord.items()
    ]
    known = [w for w in heavy if w is not None]
    whole = len(known) == len(heavy)
    grams = [None if i.weight_g is None else i.weight_g * i.count for i in things]
    weighed = [g for g in grams if g is not None]
    return Parcel(
        sum(w.g for w in known) if whole else None,
        sum(w.low_g for w in known) if whole else None,
        sum(w.high_g for w in known) if whole else None,
        sum(weighed) if len(weighed) == len(grams) else None,
        None if asked.box is None else box(asked.box),
    )


def sheets(
    piece: Piece,
    cuts: CutList,
    things: tuple[tuple[Item, ...], tuple[Item, ...]],
    gross_g: float | None,
    asked: Asked,
) -> tuple[Sheet, ...]:
    """Parts list, packing sheet and labels.

    Args:
        piece: as worked.
        cuts: its cut list.
        things: fittings, and packing, of one kit.
        gross_g: what a kit weighs, if that is known.
        asked: the options.
    """
    cords = tuple(CordPart(e.id, _words(piece, e.cord), e.length_mm, e.count) for e in cuts.entries)
    kit = Kit(piece.plan.title, asked.studio, cords, *things, gross_g)
    return papers(kit, asked.kits, cast("System", asked.units))


def _words(piece: Piece, cord: str) -> str:
    spec = piece.plan.cords[cord]
    diameter = f"{piece.values[f'd:{cord}']:g} mm"
    return ", ".join(t for t in (cord, diameter, spec.build, spec.fibre, spec.colour) if t)
