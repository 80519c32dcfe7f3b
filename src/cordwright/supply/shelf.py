"""The shelf: the maker's own cord and fittings, in a SQLite database that survives a crash.

Every change is one transaction that takes its lock at once, so that two programs may have the shelf
open and neither sees or spoils half of the other's change. The journal is SQLite's write-ahead log,
synchronised at every commit: what was said to be done is on the disk.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import replace
from decimal import Decimal
from difflib import get_close_matches
from pathlib import Path
from typing import Any, TypeVar, cast

from cordwright.errors import CordwrightError, SupplyError
from cordwright.supply import migrations
from cordwright.supply.codecs import MIX, PRICE
from cordwright.supply.money import rounded
from cordwright.supply.price import Price
from cordwright.supply.records import Counted, Item, Length, ShelfCord
from cordwright.supply.writing import KINDS, Kind, kind_of

WAIT_S = 10.0
"""How long another program's change is waited for."""
CUT_UP_MM = 0.5
"""A spool with less than this on it is used up."""
Shelf = sqlite3.Connection
_Item = TypeVar("_Item", bound=Item)
_Counted = TypeVar("_Counted", bound=Counted)


def default_path() -> Path:
    """Where the maker's shelf is kept, unless another file is named."""
    from platformdirs import user_data_path

    return user_data_path("cordwright", appauthor=False) / "shelf.db"


@contextmanager
def open_shelf(path: Path | None = None) -> Iterator[Shelf]:
    """An open shelf, brought up to date; closed at the end.

    Args:
        path: its file, made if it is not there; the maker's own shelf if None.

    Raises:
        SupplyError: the file cannot be opened, is no shelf, is damaged or locked too long.
    """
    file = path if path is not None else default_path()
    with told(file):
        file.parent.mkdir(parents=True, exist_ok=True)
        with closing(sqlite3.connect(file, timeout=WAIT_S, isolation_level=None)) as db:
            if not migrations.is_shelf(db):
                raise SupplyError(
                    f"{file} is a database, but no shelf.", remedy="name another file with --shelf"
                )
            db.execute("PRAGMA journal_mode = WAL")
            db.execute("PRAGMA synchronous = FULL")
            db.execute("PRAGMA foreign_keys = ON")
            if migrations.version(db) != len(migrations.MIGRATIONS):
                with transaction(db):
                    migrations.migrate(db)
            yield db


@contextmanager
def told(file: Path) -> Iterator[None]:
    """Turns what goes wrong with a database's file into a maker's error."""
    try:
        yield
    except sqlite3.OperationalError as error:
        busy = "locked" in str(error)
        raise SupplyError(
            f"The shelf {file} cannot be used: {error}.",
            remedy="close the other program that uses it, and try again"
            if busy
            else "check the file, its directory and the disk",
        ) from None
    except sqlite3.DatabaseError as error:
        raise SupplyError(
            f"{file} is damaged, or no shelf: {error}.",
            remedy="put your latest backup in its place, or name another file with --shelf",
        ) from None
    except OSError as error:
        raise SupplyError(
            f"The shelf {file} cannot be opened: {error.strerror}.",
            remedy="check the name and the directory",
        ) from None


@contextmanager
def transaction(db: Shelf) -> Iterator[None]:
    """One change: all of it, or nothing."""
    db.execute("BEGIN IMMEDIATE")
    try:
        yield
    except BaseException:
        if db.in_transaction:
            db.execute("ROLLBACK")
        raise
    db.execute("COMMIT")


def items(db: Shelf, made: type[_Item]) -> list[_Item]:
    """Everything of one kind, by name."""
    kind = kind_of(made)
    rows = db.execute(f"SELECT {_columns(kind)} FROM {kind.table} ORDER BY name")  # noqa: S608
    return [cast("_Item", _item(kind, row)) for row in rows]


def find(db: Shelf, made: type[_Item], name: str) -> _Item:
    """The thing of a kind that has the name.

    Raises:
        SupplyError: there is none; the remedy names the nearest.
    """
    kind = kind_of(made)
    row = db.execute(
        f"SELECT {_columns(kind)} FROM {kind.table} WHERE name = ?",  # noqa: S608
        (name,),
    ).fetchone()
    if row is None:
        names = [n for (n,) in db.execute(f"SELECT name FROM {kind.table}")]  # noqa: S608
        near = get_close_matches(name[:60], names, 1)
        raise SupplyError(
            f"There is no {kind.word} called '{name[:60]}' on the shelf.",
            remedy=f"did you mean '{near[0]}'?" if near else f"it has {_listed(names)}",
        )
    return cast("_Item", _item(kind, row))


def add(db: Shelf, item: Item) -> None:
    """Put something new on the shelf.

    Raises:
        SupplyError: its name is taken, or its cord is not on the shelf.
    """
    with transaction(db):
        kind = kind_of(type(item))
        if names(db, kind) & {item.name}:
            raise SupplyError(
                f"A {kind.word} called '{item.name}' is on the shelf already.",
                remedy="give it another name, or remove that one first",
            )
        save(db, item)


def save(db: Shelf, item: Item) -> None:
    """Write something, new or instead of what had its name; inside a transaction.

    Raises:
        SupplyError: its cord is not on the shelf.
    """
    cord = getattr(item, "cord", None)
    if cord is not None:
        find(db, ShelfCord, cord)
    kind = kind_of(type(item))
    columns = [f.name for f in kind.fields.values()]
    marks = ", ".join("?" * len(columns))
    changes = ", ".join(f"{c} = excluded.{c}" for c in columns[1:])
    db.execute(
        f"INSERT INTO {kind.table} ({', '.join(columns)}) VALUES ({marks}) "  # noqa: S608
        f"ON CONFLICT (name) DO UPDATE SET {changes}",
        [_cell(getattr(item, c)) for c in columns],
    )


def remove(db: Shelf, made: type[Item], name: str) -> None:
    """Take something off the shelf for good.

    Raises:
        SupplyError: there is none of that name, or it is a cord that other entries name.
    """
    with transaction(db):
        find(db, made, name)
        try:
            db.execute(f"DELETE FROM {kind_of(made).table} WHERE name = ?", (name,))  # noqa: S608
        except sqlite3.IntegrityError:
            raise SupplyError(
                f"Lengths, put-ups or swatches of '{name}' are on the shelf.",
                remedy="remove these first",
            ) from None


def take_length(db: Shelf, name: str, mm: float) -> Length | None:
    """Cut cord off a spool; what is left, or None if it is used up.

    Its price falls with its length, rounded to the currency's minor unit.

    Raises:
        SupplyError: there is no such spool, or not enough on it.
    """
    with transaction(db):
        before = find(db, Length, name)
        left = round(before.length_mm - mm, 3)
        if left < 0.0:
            raise SupplyError(
                f"'{name}' has {before.length_mm / 1000:.3f} m, not {mm / 1000:.3f} m.",
                remedy="take less, or from another spool",
            )
        after = shortened(before, left)
        if after is None:
            db.execute("DELETE FROM lengths WHERE name = ?", (name,))
        else:
            save(db, after)
        return after


def shortened(before: Length, left_mm: float) -> Length | None:
    """What a spool is when so much is left of it; None if it is used up.

    Its price falls with its length, rounded to the currency's minor unit.
    """
    left = round(left_mm, 3)
    if left < CUT_UP_MM:
        return None
    price = before.price
    if price is not None:
        share = Decimal(repr(left / before.length_mm))
        price = Price(rounded(price.amount * share, price.currency), price.currency)
    sort = "part-spool" if before.sort == "spool" else before.sort
    return replace(before, length_mm=left, sort=sort, price=price)


def count(db: Shelf, made: type[_Counted], name: str, change: int) -> _Counted:
    """Take fittings off the shelf (a change below 0), or put more on it; how it stands then.

    Raises:
        SupplyError: there are none of that name, or not so many.
    """
    with transaction(db):
        before = find(db, made, name)
        if before.count + change < 0:
            raise SupplyError(
                f"There are {before.count} of '{name}', not {-change}.", remedy="take fewer"
            )
        after = replace(before, count=before.count + change)
        save(db, after)
        return after


def names(db: Shelf, kind: Kind) -> set[str]:
    """The names of everything of one kind."""
    return {n for (n,) in db.execute(f"SELECT name FROM {kind.table}")}  # noqa: S608


def free_name(db: Shelf, kind: Kind, stem: str) -> str:
    """A name that nothing of the kind has: the stem and the next number."""
    taken = names(db, kind)
    number = next(n for n in range(1, len(taken) + 2) if f"{stem} {n}" not in taken)
    return f"{stem} {number}"


def backup(db: Shelf, to: Path) -> None:
    """Copy the shelf as it stands, while others may go on using it; whole or not at all.

    Raises:
        SupplyError: there is such a file already, or it cannot be written.
    """
    if to.exists():
        raise SupplyError(f"{to} is there already.", remedy="name a file that is not")
    part = to.with_name(to.name + ".part")
    with told(to):
        try:
            with closing(sqlite3.connect(part)) as copy:
                db.backup(copy)
                found = copy.execute("PRAGMA integrity_check").fetchone()[0]
                # A lone file, without the log beside it, is easier to carry away.
                copy.execute("PRAGMA journal_mode = DELETE")
            if found != "ok":
                raise SupplyError(f"The copy came out damaged: {found}.", remedy="check the disk")
            part.replace(to)
        finally:
            part.unlink(missing_ok=True)


def problems(db: Shelf) -> list[str]:
    """What is wrong with the shelf; empty if it is whole."""
    found = [str(r[0]) for r in db.execute("PRAGMA integrity_check") if r[0] != "ok"]
    for table, row, parent, _ in db.execute("PRAGMA foreign_key_check"):
        found.append(f"Entry {row} of {table} names something that {parent} does not have.")
    for kind in KINDS.values():
        try:
            items(db, kind.type)
        except (CordwrightError, ValueError, TypeError) as error:
            found.append(f"A {kind.word} cannot be read: {error}")
    return found


def _columns(kind: Kind) -> str:
    return ", ".join(f.name for f in kind.fields.values())


def _item(kind: Kind, row: tuple[Any, ...]) -> Item:
    pairs = zip(kind.fields.values(), row, strict=True)
    values = {f.name: _value(f.codec, v) for f, v in pairs}
    return kind.type(**values)


def _value(codec: object, cell: Any) -> Any:
    if cell is not None and (codec is PRICE or codec is MIX):
        return PRICE.read(cell) if codec is PRICE else MIX.read(cell)
    return cell


def _cell(value: Any) -> Any:
    if isinstance(value, Price):
        return str(value)
    return value if value is None or isinstance(value, (str, int, float)) else MIX.write(value)


def _listed(found: list[str]) -> str:
    shown = ", ".join(f"'{n}'" for n in sorted(found)[:12])
    return shown + (" …" if len(found) > 12 else "") if found else "none yet"
