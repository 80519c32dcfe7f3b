"""The maker's shelf, for the doors: each function opens it, does one thing, and closes it."""

from __future__ import annotations

import tempfile
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, cast

from cordwright.bench.supplymodels import Shelf, ShelfField, ShelfKind
from cordwright.knots.spec import KnotName
from cordwright.supply import shelf as store
from cordwright.supply import shelflog
from cordwright.supply.sheet import export_csv, import_csv
from cordwright.supply.shelfanswer import MEANING, LogReport, log_json
from cordwright.supply.writing import KINDS, kind_named, read_item, write_item

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from cordwright.bench.supplymodels import Kind
    from cordwright.supply.shelflog import Change, Entry

TABLE = "the table"
"""What a table's errors call it."""


def shelf(file: Path | None) -> Shelf:
    """All that is on the shelf.

    Raises:
        SupplyError: it cannot be read.
    """
    with store.open_shelf(file) as db:
        kinds = [
            ShelfKind(
                kind=cast("Kind", kind.word),
                fields=[
                    ShelfField(
                        word=word,
                        about=MEANING[word],
                        example=field.codec.example,
                        required=word in kind.required(),
                    )
                    for word, field in kind.fields.items()
                ],
                things=[write_item(item) for item in store.items(db, kind.type)],
            )
            for kind in KINDS.values()
        ]
        entries = LogReport.model_validate(log_json(shelflog.entries(db))).entries
    return Shelf(kinds=kinds, entries=entries, knots=[k.value for k in KnotName])


def put(file: Path | None, kind: str, fields: Mapping[str, str], *, change: bool) -> None:
    """Put a new thing on the shelf, or change one that is there.

    Raises:
        SupplyError: a field is wrong, its name is taken, or there is no such thing to change.
    """
    item = read_item(kind_named(kind), fields)
    with store.open_shelf(file) as db:
        if not change:
            store.add(db, item)
            return
        with store.transaction(db):
            store.find(db, type(item), item.name)
            store.save(db, item)


def remove(file: Path | None, kind: str, name: str) -> None:
    """Take a thing off the shelf for good.

    Raises:
        SupplyError: there is none, or others name it.
    """
    with store.open_shelf(file) as db:
        store.remove(db, kind_named(kind).type, name)


def table(file: Path | None) -> str:
    """The shelf as a table (CSV)."""
    with store.open_shelf(file) as db:
        return export_csv(db)


def bring(file: Path | None, text: str) -> int:
    """Bring a table onto the shelf: all of it or nothing; how many things it has.

    Raises:
        SupplyError: something in it is wrong.
    """
    with store.open_shelf(file) as db:
        return import_csv(db, text, TABLE)


def copied(file: Path | None) -> bytes:
    """A backup of the shelf, whole, also while it is in use."""
    with tempfile.TemporaryDirectory() as folder, store.open_shelf(file) as db:
        to = Path(folder) / "shelf.db"
        store.backup(db, to)
        return to.read_bytes()


def carry_out(file: Path | None, said: str, changes: Sequence[Change]) -> int:
    """Make changes to the shelf; the entry of its log.

    Raises:
        SupplyError: something was changed meanwhile.
    """
    with store.open_shelf(file) as db:
        return shelflog.carry_out(db, said, datetime.now(), changes)


def undo(file: Path | None, entry: int) -> Entry:
    """Undo an entry of the log.

    Raises:
        SupplyError: there is none, or what it changed was changed again.
    """
    with store.open_shelf(file) as db:
        return shelflog.undo(db, entry)
