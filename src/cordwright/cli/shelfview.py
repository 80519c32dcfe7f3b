"""The shelf, shown: each kind of thing as a table, or everything for programs."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from cordwright.cli.show import Column, Screen, show_json
from cordwright.errors import Place, SupplyError

if TYPE_CHECKING:
    from cordwright.supply.shelf import Shelf
    from cordwright.supply.shelflog import Entry

HEADINGS = {
    "cord": "Cords",
    "put-up": "Suppliers' put-ups",
    "length": "Spools and left-overs",
    "ring": "Rings",
    "rod": "Rods",
    "pot": "Pots",
    "swatch": "Swatches",
    "finished": "Finished pieces",
}


def show_all(db: Shelf, words: Sequence[str], name: str | None, as_json: bool) -> None:
    """Show things of some kinds.

    Args:
        db: the shelf.
        words: which kinds.
        name: only what has this name or is of this cord; None for everything.
        as_json: for programs: by kind, a list of the fields as they are written, with units.

    Raises:
        SupplyError: nothing has the name.
    """
    from cordwright.supply.shelf import items
    from cordwright.supply.writing import kind_named, write_item

    found: dict[str, list[dict[str, str]]] = {}
    for word in words:
        rows = [write_item(item) for item in items(db, kind_named(word).type)]
        found[word] = [r for r in rows if name is None or name in (r["name"], r.get("cord"))]
    if name is not None and not any(found.values()):
        raise SupplyError(
            f"Nothing on the shelf is called '{name[:60]}'.",
            remedy="see cordwright shelf list",
        )
    if as_json:
        show_json(found)
        return
    screen = Screen()
    for word, rows in found.items():
        if rows:
            used = [c for c in rows[0] if any(row[c] for row in rows)]
            screen.heading(HEADINGS[word])
            screen.table([Column(c) for c in used], [[row[c] for c in used] for row in rows])
    if not any(found.values()):
        screen.line("The shelf is empty.")


def show_log(entries: Sequence[Entry], as_json: bool) -> None:
    """Show the shelf's log."""
    from cordwright.supply.shelfanswer import log_json

    if as_json:
        show_json(log_json(entries))
        return
    screen = Screen()
    rows = [
        [str(e.number), e.at, e.what, str(len(e.changes)), "undone" if e.undone else ""]
        for e in entries
    ]
    heads = (Column("", "right"), Column("when"), Column("what"), Column("things", "right"))
    screen.table([*heads, Column("")], rows)
    if not entries:
        screen.line("Nothing was taken with supply --take yet.")


def read_text(path: Path) -> str:
    """The text of a table.

    Raises:
        SupplyError: it cannot be read, or is not UTF-8.
    """
    place = Place(str(path))
    try:
        return path.read_bytes().decode("utf-8")
    except OSError as error:
        raise SupplyError(
            f"The table cannot be read: {error.strerror}.",
            remedy="check the name and the directory",
            place=place,
        ) from None
    except UnicodeDecodeError as error:
        begins = error.object.rfind(b"\n", 0, error.start) + 1
        column = len(error.object[begins : error.start].decode("utf-8")) + 1
        line = error.object.count(b"\n", 0, error.start) + 1
        raise SupplyError(
            "The table is not text in UTF-8.",
            remedy="save it as CSV in UTF-8",
            place=Place(str(path), line, column),
        ) from None


def write_text(path: Path, text: str) -> None:
    """Write a table to a file that is not there yet.

    Raises:
        SupplyError: it is there, or cannot be written.
    """
    try:
        with path.open("x", encoding="utf-8", newline="") as stream:
            stream.write(text)
    except FileExistsError:
        raise SupplyError(f"{path} is there already.", remedy="name a file that is not") from None
    except OSError as error:
        raise SupplyError(
            f"{path} cannot be written: {error.strerror}.", remedy="check the directory"
        ) from None
