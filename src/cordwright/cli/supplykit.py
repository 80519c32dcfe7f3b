"""What goes into a kit beside its cord, and what is printed of it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, cast

from cordwright.cli import supplyoptions
from cordwright.errors import Place, SupplyError

if TYPE_CHECKING:
    from cordwright.cli.supplyoptions import Asked
    from cordwright.piece.cutlist import CutList
    from cordwright.piece.model import Piece
    from cordwright.supply.demand import Demand
    from cordwright.supply.fittings import Fitted
    from cordwright.supply.kits import Parcel
    from cordwright.supply.pricing import Item
    from cordwright.units.length import System


def fittings(piece: Piece, asked: Asked) -> tuple[Fitted, ...]:
    """The ring, rod and pot of the plan that go into a kit, as the shelf has them.

    What a ``--fitting`` of the same name says is not looked for. Where no shelf is named and there
    is none yet, nothing is on it.

    Raises:
        CordwrightError: the shelf cannot be read, or something else goes into no kit.
    """
    from cordwright.supply.fittings import MADE, Fitted, fitted, wanted

    named = {i.name for i in supplyoptions.items("--fitting", asked.fittings)}
    sorts = supplyoptions.in_kit(asked.in_kit)
    asks = [w for w in wanted(piece) if w.sort in sorts and w.sort not in named]
    from cordwright.supply.shelf import default_path, items, open_shelf

    if not asks or (asked.file is None and not default_path().exists()):
        return tuple(Fitted(w, None, asked.kits) for w in asks)
    with open_shelf(asked.file) as db:
        return tuple(fitted(w, items(db, MADE[w.sort]), asked.kits) for w in asks)


def parcel(piece: Piece, wanted: Demand, things: tuple[Item, ...], asked: Asked) -> Parcel:
    """What a kit weighs.

    Args:
        piece: as worked.
        wanted: cord of all kits.
        things: fittings and packing of one.
        asked: the options.
    """
    from cordwright.piece.weight import weight
    from cordwright.supply.kits import Parcel

    heavy = [
        weight(piece, cord, sum(n.length_mm * n.count for n in needs) / asked.kits)
        for cord, needs in wanted.items()
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
        None if asked.box is None else supplyoptions.box(asked.box),
    )


def check_suffix(path: Path | None) -> None:
    """That papers can be written as a file's name asks.

    Raises:
        SupplyError: they cannot.
    """
    from cordwright.supply.papers import FORMATS

    if path is not None and path.suffix.lower() not in FORMATS:
        raise SupplyError(
            f"Papers cannot be written as '{path.name}'.",
            remedy=f"end the file's name with one of {', '.join(FORMATS)}",
        )


def print_papers(
    path: Path,
    piece: Piece,
    cuts: CutList,
    things: tuple[tuple[Item, ...], tuple[Item, ...]],
    gross_g: float | None,
    asked: Asked,
) -> None:
    """Write parts list, packing sheet and labels.

    Args:
        path: a file that is not there yet.
        piece: as worked.
        cuts: its cut list.
        things: fittings, and packing, of one kit.
        gross_g: what a kit weighs, if that is known.
        asked: the options.

    Raises:
        SupplyError: it is there, or cannot be written.
    """
    from cordwright.supply.kits import CordPart, Kit, papers
    from cordwright.supply.papers import FORMATS

    cords = tuple(CordPart(e.id, _words(piece, e.cord), e.length_mm, e.count) for e in cuts.entries)
    kit = Kit(piece.plan.title, asked.studio, cords, *things, gross_g)
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
