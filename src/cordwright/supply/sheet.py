"""The shelf as a table for spreadsheets: CSV (RFC 4180) in UTF-8, one thing a line.

The column ``what`` says the kind; the other columns are the fields of all kinds, empty where a kind
has no such field. What is exported is imported as the same shelf. An import is one transaction: all
lines, or none; a line whose name is on the shelf already takes its place.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator
from typing import NamedTuple

from cordwright.errors import Place, SupplyError
from cordwright.supply.records import Item, ShelfCord
from cordwright.supply.shelf import Shelf, items, names, save, transaction
from cordwright.supply.writing import (
    KINDS,
    FieldError,
    kind_named,
    kind_of,
    read_item,
    write_item,
)

WHAT = "what"
COLUMNS = (WHAT, *dict.fromkeys(word for kind in KINDS.values() for word in kind.fields))
FORMULA = re.compile("'*[=+@-]")
"""How a cell begins that a spreadsheet may take for a formula, or that stands for such a one."""
MOST_TOLD = 20
MOST_CHARACTERS = 20_000_000


class SheetErrors(SupplyError):  # noqa: N818 - it is several errors
    """Everything found wrong in a table; the first error is also the error's own."""

    def __init__(self, errors: list[SupplyError]) -> None:
        self.errors = tuple(errors)
        first = errors[0]
        super().__init__(first.what, remedy=first.remedy, place=first.place)

    def __str__(self) -> str:
        shown = [str(e) for e in self.errors[:MOST_TOLD]]
        rest = len(self.errors) - MOST_TOLD
        return "\n".join([*shown, f"… and {rest} more."] if rest > 0 else shown)


class Line(NamedTuple):
    """One record: where it begins, its raw first line, and its cells."""

    number: int
    raw: str
    cells: list[str]


def export_csv(db: Shelf) -> str:
    """Everything on the shelf as CSV, cords first, then by kind and name."""
    out = io.StringIO()
    writer = csv.DictWriter(out, COLUMNS, lineterminator="\r\n", restval="")
    writer.writeheader()
    db.execute("BEGIN")  # one moment of the shelf, whatever others write meanwhile
    try:
        for kind in KINDS.values():
            for item in items(db, kind.type):
                cells = {word: _guarded(text) for word, text in write_item(item).items()}
                writer.writerow({WHAT: kind.word, **cells})
    finally:
        db.execute("ROLLBACK")
    return out.getvalue()


def import_csv(db: Shelf, text: str, file: str) -> int:
    """Bring a table onto the shelf; how many things it had.

    Args:
        db: the shelf.
        text: the table.
        file: its name, for errors.

    Raises:
        SupplyError: something in it is wrong, with line and column; `SheetErrors` where several
            things are. The shelf stays as it was.
    """
    found = read_csv(text, file)
    with transaction(db):
        known = names(db, KINDS["cord"]) | {i.name for i, _ in found if isinstance(i, ShelfCord)}
        missing = [
            SupplyError(
                f"There is no cord called '{cord}' on the shelf or in this table.",
                remedy="add a line for the cord, or correct its name",
                place=places["cord"],
            )
            for item, places in found
            if (cord := getattr(item, "cord", None)) is not None and cord not in known
        ]
        if missing:
            raise SheetErrors(missing)
        for item, _ in sorted(found, key=lambda f: not isinstance(f[0], ShelfCord)):
            save(db, item)
    return len(found)


def read_csv(text: str, file: str) -> list[tuple[Item, dict[str, Place]]]:
    """The things of a table, each with the places of its fields.

    Raises:
        SupplyError: something in it is wrong; `SheetErrors` where several things are.
    """
    lines = _lines(text, file)
    header = next(lines, None)
    if header is None:
        raise SupplyError(
            "The table is empty.", remedy="begin with a line of headings", place=Place(file, 1, 1)
        )
    _check_header(header, file)
    found: list[tuple[Item, dict[str, Place]]] = []
    errors: list[SupplyError] = []
    seen: set[tuple[type[Item], str]] = set()
    for line in lines:
        if not any(cell.strip() for cell in line.cells):
            continue
        places = _places(header.cells, line, file)
        try:
            item = _item(header.cells, line, file)
            if (type(item), item.name) in seen:
                raise FieldError("name", f"'{item.name}' stands here twice.", "give it once")
            seen.add((type(item), item.name))
            found.append((item, places))
        except FieldError as error:
            place = places.get(error.word, places[WHAT])
            errors.append(SupplyError(error.what, remedy=error.remedy, place=place))
        except SupplyError as error:
            where = error.place or places[WHAT]
            errors.append(SupplyError(error.what, remedy=error.remedy, place=where))
    if errors:
        raise SheetErrors(errors) if len(errors) > 1 else errors[0]
    return found


def _lines(text: str, file: str) -> Iterator[Line]:
    if len(text) > MOST_CHARACTERS or "\0" in text:
        raise SupplyError("This is not a table of a shelf.", place=Place(file, 1, 1))
    clean = text.removeprefix("\N{ZERO WIDTH NO-BREAK SPACE}")
    raw = clean.splitlines()
    reader = csv.reader(io.StringIO(clean, newline=""), strict=True)
    begins = 1
    while True:
        try:
            cells = next(reader, None)
        except csv.Error as error:
            raise SupplyError(
                f"The line is not CSV: {error}.",
                remedy='put texts with commas or quotes in "…", and write " twice inside',
                place=Place(file, begins, 1),
            ) from None
        if cells is None:
            return
        line = raw[begins - 1] if begins <= len(raw) else ""
        yield Line(begins, line, [_bare(cell) for cell in cells])
        begins = reader.line_num + 1


def _guarded(text: str) -> str:
    """A cell that no spreadsheet takes for a formula; `_bare` reads it back."""
    return f"'{text}" if FORMULA.match(text) else text


def _bare(cell: str) -> str:
    return cell[1:] if cell.startswith("'") and FORMULA.match(cell[1:]) else cell


def _check_header(header: Line, file: str) -> None:
    for sign, words in ((";", "semicolons"), ("\t", "tabs")):
        if len(header.cells) == 1 and sign in header.raw:
            raise SupplyError(
                f"The table has {words} between its columns.",
                remedy="save it as CSV with commas",
                place=Place(file, header.number, header.raw.index(sign) + 1),
            )
    starts = _starts(header.raw)
    for i, word in enumerate(header.cells):
        wrong = (
            f"'{word[:40]}' is not a column of a shelf."
            if word not in COLUMNS
            else f"The column '{word}' stands twice."
            if word in header.cells[:i]
            else None
        )
        if wrong:
            place = Place(file, header.number, starts[i] if i < len(starts) else 1)
            raise SupplyError(wrong, remedy=f"use {', '.join(COLUMNS)}", place=place)
    if WHAT not in header.cells:
        raise SupplyError(
            "The table has no column 'what'.",
            remedy=f"add it; it says {', '.join(KINDS)}",
            place=Place(file, header.number, 1),
        )


def _item(header: list[str], line: Line, file: str) -> Item:
    if len(line.cells) > len(header):
        starts = _starts(line.raw)
        column = starts[len(header)] if len(header) < len(starts) else 1
        raise SupplyError(
            f"The line has {len(line.cells)} cells; there are {len(header)} headings.",
            remedy='put texts with commas in "…"',
            place=Place(file, line.number, column),
        )
    texts = dict(zip(header, line.cells, strict=False))
    return read_item(kind_named(texts.pop(WHAT)), texts)


def _places(header: list[str], line: Line, file: str) -> dict[str, Place]:
    starts = _starts(line.raw)
    last = starts[-1]
    return {
        word: Place(file, line.number, starts[i] if i < len(starts) else last)
        for i, word in enumerate(header)
    }


def _starts(raw: str) -> list[int]:
    """Columns, from 1, at which the cells of a raw line begin."""
    starts, quoted = [1], False
    for i, letter in enumerate(raw):
        if letter == '"':
            quoted = not quoted
        elif letter == "," and not quoted:
            starts.append(i + 2)
    return starts


__all__ = ["COLUMNS", "SheetErrors", "export_csv", "import_csv", "kind_of", "read_csv"]
