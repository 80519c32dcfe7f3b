"""``cordwright shelf``."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from cordwright.cli.asking import JSON
from cordwright.cli.shelf_access import SHELF

if TYPE_CHECKING:
    from cordwright.supply.records import Item
    from cordwright.supply.writing import Kind

KINDS = ("cord", "put-up", "ring", "rod", "pot")
ALL_KINDS = ("cord", "put-up", "length", "ring", "rod", "pot", "swatch", "finished")
FILE = click.argument("target", metavar="FILE", type=click.Path(path_type=Path))
WORDS = {
    "fibre": "Of a cord: what it is made of.",
    "diameter": "Of a cord: its diameter, as in 4mm.",
    "build": "Of a cord: how it is made.",
    "colour": "Of a cord: in any words.",
    "weight": "Of a cord: of a metre, as in 9.5g/m. Of a ring, rod or pot: of one, as in 15g.",
    "strength": "Of a cord: the force that breaks it, as in 800N.",
    "cord": "Of a put-up: which cord of the shelf it is.",
    "supplier": "Of a put-up: who sells it.",
    "length": "Of a put-up: cord in one piece. Of a rod: its length.",
    "most": "Of a put-up: how many can be had.",
    "inside": "Of a ring: across its inside.",
    "wire": "Of a ring: thickness of its wire.",
    "thick": "Of a rod: its thickness.",
    "across": "Of a pot: across its rim.",
    "height": "Of a pot: its height.",
    "count": "Of rings, rods and pots: how many there are.",
    "price": "Of one of them, with its currency, as in '12.50 EUR'.",
    "note": "Anything else.",
}


@click.group()
def shelf() -> None:
    """Keep the cord, rings, rods and pots that you have, and what suppliers sell."""


def _fields(command: Any) -> Any:
    for word, text in reversed(WORDS.items()):
        command = click.option(f"--{word}", metavar="TEXT", help=text)(command)
    return command


@shelf.command()
@click.argument("kind", type=click.Choice(KINDS))
@click.argument("name")
@_fields
@SHELF
def add(kind: str, name: str, file: Path | None, **fields: str | None) -> None:
    """Put a new kind of cord, ring, rod or pot on the shelf, or a supplier's put-up."""
    from cordwright.supply import shelf as store
    from cordwright.supply.writing import kind_named

    texts = {"name": name, **{word: text for word, text in fields.items() if text}}
    item = item_from(kind_named(kind), texts)
    with store.open_shelf(file) as db:
        store.add(db, item)
    say(f"The {kind} '{item.name}' is on the shelf.")


def item_from(kind: Kind, texts: dict[str, str]) -> Item:
    """A thing from the texts of options.

    Raises:
        SupplyError: one of them is wrong, with the option as its place.
    """
    from cordwright.errors import Place, SupplyError
    from cordwright.supply.writing import FieldError, read_item

    try:
        return read_item(kind, texts)
    except FieldError as error:
        place = Place(f"--{error.word}" if error.word != "name" else "NAME")
        raise SupplyError(error.what, remedy=error.remedy, place=place) from None


@shelf.command()
@click.argument("name")
@click.argument("amount")
@click.option("--as", "label", metavar="NAME", help="What to call this spool; else it is numbered.")
@click.option(
    "--sort",
    type=click.Choice(["spool", "part-spool", "left-over"]),
    default="spool",
    show_default=True,
    help="What a length of cord is.",
)
@click.option("--price", metavar="TEXT", help="Of all of the length, as in '12.50 EUR'.")
@click.option("--note", metavar="TEXT", help="Anything else.")
@SHELF
def put(
    name: str,
    amount: str,
    label: str | None,
    sort: str,
    price: str | None,
    note: str | None,
    file: Path | None,
) -> None:
    """Put a length of the cord NAME on the shelf (AMOUNT 50m), or more rings, rods or pots (3)."""
    from cordwright.supply import shelf as store
    from cordwright.supply.writing import KINDS as TABLE

    with store.open_shelf(file) as db:
        if _counts(amount):
            after = store.count(db, _counted(db, name), name, int(amount))
            say(f"There are {after.count} of '{name}' now.")
            return
        kind = TABLE["length"]
        called = label or store.free_name(db, kind, name)
        given = {"price": price, "note": note}
        texts = {"name": called, "cord": name, "length": amount, "sort": sort}
        store.add(db, item_from(kind, texts | {w: t for w, t in given.items() if t}))
    say(f"'{called}' is on the shelf.")


@shelf.command()
@click.argument("name")
@click.argument("amount")
@SHELF
def take(name: str, amount: str, file: Path | None) -> None:
    """Cut AMOUNT (as in 4.35m) off the spool NAME, or take so many rings, rods or pots (2)."""
    from cordwright.supply import shelf as store
    from cordwright.units.length import format_length, parse_length

    with store.open_shelf(file) as db:
        if _counts(amount):
            after = store.count(db, _counted(db, name), name, -int(amount))
            say(f"There are {after.count} of '{name}' left.")
            return
        left = store.take_length(db, name, parse_length(amount))
    rest = "is used up" if left is None else f"has {format_length(left.length_mm, 'metric')} left"
    say(f"'{name}' {rest}.")


def _counts(amount: str) -> bool:
    return amount.isascii() and amount.isdigit() and len(amount) < 7


def _counted(db: Any, name: str) -> Any:
    """The kind of counted thing that has the name.

    Raises:
        SupplyError: none has.
    """
    from cordwright.errors import SupplyError
    from cordwright.supply.shelf import names
    from cordwright.supply.writing import KINDS as TABLE

    for word in ("ring", "rod", "pot"):
        if name in names(db, TABLE[word]):
            return TABLE[word].type
    raise SupplyError(
        f"There is no ring, rod or pot called '{name[:60]}' on the shelf.",
        remedy="add it first, or give a length with its unit for cord",
    )


@shelf.command("list")
@click.option("--what", type=click.Choice(ALL_KINDS), help="Only this kind of thing.")
@SHELF
@JSON
def list_(what: str | None, file: Path | None, as_json: bool) -> None:
    """List what is on the shelf."""
    from cordwright.cli.shelfview import show_all
    from cordwright.supply.shelf import open_shelf

    with open_shelf(file) as db:
        show_all(db, [what] if what else ALL_KINDS, None, as_json)


@shelf.command()
@click.argument("name")
@SHELF
@JSON
def show(name: str, file: Path | None, as_json: bool) -> None:
    """Show everything of that name, and of that cord."""
    from cordwright.cli.shelfview import show_all
    from cordwright.supply.shelf import open_shelf

    with open_shelf(file) as db:
        show_all(db, ALL_KINDS, name, as_json)


@shelf.command()
@click.argument("what", type=click.Choice(ALL_KINDS))
@click.argument("name")
@SHELF
def remove(what: str, name: str, file: Path | None) -> None:
    """Take a thing off the shelf for good."""
    from cordwright.supply import shelf as store
    from cordwright.supply.writing import kind_named

    with store.open_shelf(file) as db:
        store.remove(db, kind_named(what).type, name)
    say(f"The {what} '{name}' is off the shelf.")


@shelf.command()
@SHELF
@JSON
def log(file: Path | None, as_json: bool) -> None:
    """List what supply --take took off the shelf, with what can be undone."""
    from cordwright.cli.shelfview import show_log
    from cordwright.supply.shelf import open_shelf
    from cordwright.supply.shelflog import entries

    with open_shelf(file) as db:
        found = entries(db)
    show_log(found, as_json)


@shelf.command()
@click.argument("entry", type=click.IntRange(min=1), required=False)
@SHELF
def undo(entry: int | None, file: Path | None) -> None:
    """Put back what an ENTRY of the log took off the shelf; the latest if none is named."""
    from cordwright.supply import shelflog
    from cordwright.supply.shelf import open_shelf

    with open_shelf(file) as db:
        found = shelflog.undo(db, entry)
    say(f"Entry {found.number}, {found.what}, is undone.")


@shelf.command("import")
@FILE
@SHELF
def import_(target: Path, file: Path | None) -> None:
    """Bring a table (CSV) onto the shelf: all of it, or nothing if something in it is wrong."""
    from cordwright.cli.shelfview import read_text
    from cordwright.supply.sheet import import_csv
    from cordwright.supply.shelf import open_shelf

    text = read_text(target)
    with open_shelf(file) as db:
        count = import_csv(db, text, str(target))
    say(f"{count} things of {target} are on the shelf.")


@shelf.command()
@FILE
@SHELF
def export(target: Path, file: Path | None) -> None:
    """Write the shelf as a table (CSV) that spreadsheets read, to a FILE that is not there yet."""
    from cordwright.cli.shelfview import write_text
    from cordwright.supply.sheet import export_csv
    from cordwright.supply.shelf import open_shelf

    with open_shelf(file) as db:
        write_text(target, export_csv(db))
    say(f"The shelf stands in {target}.")


@shelf.command()
@FILE
@SHELF
def backup(target: Path, file: Path | None) -> None:
    """Copy the shelf to a FILE that is not there yet, also while it is in use."""
    from cordwright.supply import shelf as store

    with store.open_shelf(file) as db:
        store.backup(db, target)
    say(f"The shelf is copied to {target}.")


@shelf.command()
@SHELF
@JSON
def check(file: Path | None, as_json: bool) -> None:
    """Say whether the shelf is whole."""
    from cordwright.cli.show import show_json
    from cordwright.errors import SupplyError
    from cordwright.supply import shelf as store

    with store.open_shelf(file) as db:
        found = store.problems(db)
    if as_json:
        show_json({"ok": not found, "problems": found})
    if found:
        raise SupplyError(
            f"The shelf is damaged: {' '.join(found[:5])}",
            remedy="put your latest backup in its place",
        )
    if not as_json:
        say("The shelf is whole.")


def say(text: str) -> None:
    """One line for the maker."""
    from cordwright.cli.show import Screen

    Screen().line(text)
