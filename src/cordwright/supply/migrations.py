"""The shelf's tables, as numbered migrations: each is run once, in order, and never changed.

The number of the last one that was run stands in the database's ``user_version``; everything that
one opening runs is one transaction, so that a crash leaves the shelf as it was.
"""

from __future__ import annotations

import sqlite3
from typing import Final

from cordwright.errors import SupplyError

APPLICATION_ID: Final = 0x436F7264
"""Marks a file as a shelf ('Cord' in ASCII), so that no other database is written to."""

_CORD: Final = "cord TEXT NOT NULL REFERENCES cords(name) ON UPDATE CASCADE"
_FITTING: Final = "count INTEGER NOT NULL CHECK (count >= 0), price TEXT, note TEXT NOT NULL"

MIGRATIONS: Final[tuple[tuple[str, ...], ...]] = (
    (
        "CREATE TABLE cords (name TEXT PRIMARY KEY, fibre TEXT NOT NULL,"
        " diameter_mm REAL NOT NULL CHECK (diameter_mm > 0), build TEXT NOT NULL,"
        " colour TEXT NOT NULL, weighed_g_per_m REAL, breaking_n REAL, note TEXT NOT NULL)",
        f"CREATE TABLE offers (name TEXT PRIMARY KEY, {_CORD},"
        " length_mm REAL NOT NULL CHECK (length_mm > 0), supplier TEXT NOT NULL, price TEXT,"
        " most INTEGER CHECK (most >= 0), note TEXT NOT NULL)",
        f"CREATE TABLE lengths (name TEXT PRIMARY KEY, {_CORD},"
        " length_mm REAL NOT NULL CHECK (length_mm > 0), sort TEXT NOT NULL, price TEXT,"
        " note TEXT NOT NULL)",
        "CREATE TABLE rings (name TEXT PRIMARY KEY, inside_mm REAL NOT NULL,"
        f" wire_mm REAL NOT NULL, {_FITTING})",
        "CREATE TABLE rods (name TEXT PRIMARY KEY, length_mm REAL NOT NULL,"
        f" thick_mm REAL NOT NULL, {_FITTING})",
        "CREATE TABLE pots (name TEXT PRIMARY KEY, across_mm REAL NOT NULL,"
        f" height_mm REAL NOT NULL, weight_g REAL, {_FITTING})",
        "CREATE INDEX lengths_by_cord ON lengths (cord)",
        "CREATE INDEX offers_by_cord ON offers (cord)",
    ),
    (
        f"CREATE TABLE swatches (name TEXT PRIMARY KEY, {_CORD}, knot TEXT NOT NULL,"
        " knots INTEGER NOT NULL CHECK (knots > 0), height_mm REAL NOT NULL,"
        " used_mm REAL NOT NULL, width_mm REAL, fillers INTEGER NOT NULL, maker TEXT NOT NULL,"
        " note TEXT NOT NULL)",
        f"CREATE TABLE finished (name TEXT PRIMARY KEY, {_CORD}, mix TEXT NOT NULL,"
        " knots INTEGER NOT NULL CHECK (knots > 0), knotted_mm REAL NOT NULL,"
        " free_mm REAL NOT NULL, used_mm REAL NOT NULL, maker TEXT NOT NULL, note TEXT NOT NULL)",
    ),
    (
        "ALTER TABLE rings ADD COLUMN weight_g REAL",
        "ALTER TABLE rods ADD COLUMN weight_g REAL",
        "ALTER TABLE swatches ADD COLUMN strands INTEGER",
        "ALTER TABLE swatches ADD COLUMN turns INTEGER",
        "ALTER TABLE swatches ADD COLUMN slant_deg REAL",
        "ALTER TABLE swatches ADD COLUMN across INTEGER",
        "ALTER TABLE swatches ADD COLUMN mount TEXT NOT NULL DEFAULT ''",
        "ALTER TABLE swatches ADD COLUMN thick_mm REAL",
        "CREATE TABLE log (id INTEGER PRIMARY KEY AUTOINCREMENT, at TEXT NOT NULL,"
        " what TEXT NOT NULL, undone INTEGER NOT NULL DEFAULT 0)",
        "CREATE TABLE log_changes (entry INTEGER NOT NULL REFERENCES log(id), kind TEXT NOT NULL,"
        " name TEXT NOT NULL, before TEXT, after TEXT, PRIMARY KEY (entry, kind, name))",
    ),
)
"""Statements of each migration; the first makes version 1."""


def version(db: sqlite3.Connection) -> int:
    """How many migrations a database has had."""
    return int(db.execute("PRAGMA user_version").fetchone()[0])


def is_shelf(db: sqlite3.Connection) -> bool:
    """Whether a database is a shelf, or empty."""
    mark = int(db.execute("PRAGMA application_id").fetchone()[0])
    tables = int(db.execute("SELECT count(*) FROM sqlite_master").fetchone()[0])
    return mark == APPLICATION_ID or (mark == 0 and tables == 0)


def migrate(db: sqlite3.Connection) -> None:
    """Bring a database up to date; the caller has a transaction open that may write.

    Raises:
        SupplyError: the database is of a newer program.
    """
    done = version(db)
    if done > len(MIGRATIONS):
        raise SupplyError(
            f"The shelf is of version {done}; this program knows versions up to {len(MIGRATIONS)}.",
            remedy="use the newer program that wrote it",
        )
    for statements in MIGRATIONS[done:]:
        for statement in statements:
            db.execute(statement)
    if done < len(MIGRATIONS):
        db.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        db.execute(f"PRAGMA user_version = {len(MIGRATIONS)}")
