"""The shelf's log: changes that belong together, kept so that they can be undone.

One entry is one transaction: all of its changes and the entry itself, or nothing. It holds every
thing as it was before and as it is after, written as people write it. Undoing puts what was before
in its place, in one transaction too, and only if everything still is as the entry left it.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from cordwright.errors import SupplyError
from cordwright.supply.shelf import find, names, save, transaction
from cordwright.supply.writing import KINDS, kind_of, read_item, write_item

if TYPE_CHECKING:
    from cordwright.supply.records import Item
    from cordwright.supply.shelf import Shelf


@dataclass(frozen=True, slots=True)
class Change:
    """One thing of the shelf, as it was and as it is; None where it is not there.

    Raises:
        ValueError: neither is there, or they are two things.
    """

    before: Item | None
    after: Item | None

    def __post_init__(self) -> None:
        there = [x for x in (self.before, self.after) if x is not None]
        if len({(type(x), x.name) for x in there}) != 1:
            raise ValueError("a change is of one thing")

    @property
    def thing(self) -> Item:
        """What it is of, as it is, or was."""
        found = self.after if self.after is not None else self.before
        assert found is not None  # noqa: S101 - one of the two is there
        return found


@dataclass(frozen=True, slots=True)
class Entry:
    """An entry of the log.

    Args:
        number: from 1, in the order in which they were made.
        at: when, to the second, in the maker's own time.
        what: in words.
        undone: whether it was undone.
        changes: of things.
    """

    number: int
    at: str
    what: str
    undone: bool
    changes: tuple[Change, ...]


def carry_out(db: Shelf, what: str, at: datetime, changes: Sequence[Change]) -> int:
    """Make changes to the shelf and write them into its log; the number of the entry.

    Args:
        db: the shelf.
        what: in words, for the log.
        at: when.
        changes: of different things.

    Raises:
        SupplyError: something is not as the changes say that it was, because it was changed
            meanwhile; then nothing is changed.
    """
    with transaction(db):
        _check(db, [(c.before, c.thing) for c in changes], "plan it again")
        for change in changes:
            _put(db, change.thing, change.after)
        when = at.isoformat(sep=" ", timespec="seconds")
        number = db.execute("INSERT INTO log (at, what) VALUES (?, ?)", (when, what)).lastrowid
        db.executemany(
            "INSERT INTO log_changes VALUES (?, ?, ?, ?, ?)",
            [
                (number, kind_of(type(c.thing)).word, c.thing.name, _text(c.before), _text(c.after))
                for c in changes
            ],
        )
    return int(number or 0)


def undo(db: Shelf, number: int | None = None) -> Entry:
    """Put back what an entry of the log changed.

    Args:
        db: the shelf.
        number: of the entry; None for the latest that is not undone.

    Returns:
        The entry that is undone now.

    Raises:
        SupplyError: there is no such entry, it is undone already, or what it changed was changed
            again since.
    """
    with transaction(db):
        entry = _entry(db, number)
        _check(db, [(c.after, c.thing) for c in entry.changes], "undo what was done since first")
        for change in entry.changes:
            _put(db, change.thing, change.before)
        db.execute("UPDATE log SET undone = 1 WHERE id = ?", (entry.number,))
    return entry


def entries(db: Shelf) -> list[Entry]:
    """The whole log, in the order in which it was made."""
    changes: dict[int, list[Change]] = {}
    for number, kind, before, after in db.execute(
        "SELECT entry, kind, before, after FROM log_changes ORDER BY entry, rowid"
    ):
        changes.setdefault(number, []).append(Change(_read(kind, before), _read(kind, after)))
    return [
        Entry(number, at, what, bool(undone), tuple(changes.get(number, ())))
        for number, at, what, undone in db.execute("SELECT id, at, what, undone FROM log")
    ]


def _entry(db: Shelf, number: int | None) -> Entry:
    found = entries(db)
    if number is None:
        open_ = [e for e in found if not e.undone]
        if not open_:
            raise SupplyError(
                "There is nothing to undo on the shelf.",
                remedy="only what supply --take took is kept in its log",
            )
        return open_[-1]
    for entry in found:
        if entry.number == number:
            if entry.undone:
                raise SupplyError(f"Entry {number} is undone already.", remedy="see shelf log")
            return entry
    raise SupplyError(f"The log has no entry {number}.", remedy="see cordwright shelf log")


def _check(db: Shelf, wanted: Sequence[tuple[Item | None, Item]], remedy: str) -> None:
    """That every thing is as it should be."""
    for item, thing in wanted:
        kind = kind_of(type(thing))
        now = _now(db, thing)
        if now != (None if item is None else write_item(item)):
            raise SupplyError(
                f"The {kind.word} '{thing.name}' was changed meanwhile; the shelf stays as it is.",
                remedy=remedy,
            )


def _now(db: Shelf, thing: Item) -> dict[str, str] | None:
    kind = kind_of(type(thing))
    if thing.name not in names(db, kind):
        return None
    return write_item(find(db, type(thing), thing.name))


def _put(db: Shelf, thing: Item, item: Item | None) -> None:
    if item is not None:
        save(db, item)
    else:
        table = kind_of(type(thing)).table
        db.execute(f"DELETE FROM {table} WHERE name = ?", (thing.name,))  # noqa: S608


def _text(item: Item | None) -> str | None:
    return None if item is None else json.dumps(write_item(item), ensure_ascii=False)


def _read(kind: str, text: str | None) -> Item | None:
    return None if text is None else read_item(KINDS[kind], json.loads(text))
