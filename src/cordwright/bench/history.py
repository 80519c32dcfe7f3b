"""Every state that a piece ever had, in a small database beside the plan files.

The files are the truth; the database remembers. A state's row is made first, then the file is
written, then the row is kept (commit): killed before the file has its name, nothing has happened;
killed after it, the file is one state ahead, which is noticed as if another program had written it.

Undo and redo are states of their own, so that nothing is ever cut off. Every state knows which one
undoing it leads back to, and which one redoing leads on to.
"""

from __future__ import annotations

import sqlite3
import zlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

from cordwright.bench.folder import FolderError, digest

MIGRATIONS: Final = (
    """
    CREATE TABLE state (
        piece TEXT NOT NULL,
        revision INTEGER NOT NULL,
        at TEXT NOT NULL,
        what TEXT NOT NULL,
        made TEXT NOT NULL,
        digest TEXT NOT NULL,
        text BLOB NOT NULL,
        good INTEGER NOT NULL,
        undo_to INTEGER,
        redo_to INTEGER,
        gone INTEGER NOT NULL DEFAULT 0,
        PRIMARY KEY (piece, revision)
    )
    """,
)
"""Numbered from 1; the database's user_version says how many have been applied."""

BUSY_S: Final = 5.0
"""Seconds to wait for another workbench on the same folder."""


class StaleError(Exception):
    """The piece has moved on from the state that a change was meant for."""


@dataclass(frozen=True, slots=True)
class Row:
    """One state.

    Args:
        piece: its name.
        revision: number of the state.
        at: when, ISO 8601 in UTC.
        what: what was done, in words.
        made: what first made this text, in words: undoing a state undoes that.
        digest: of its text.
        good: whether its text is a plan that could be worked.
        undo_to: state that undoing leads to, None if there is nothing to undo.
        redo_to: state that redoing leads to.
        gone: whether the piece was deleted in this state.
    """

    piece: str
    revision: int
    at: str
    what: str
    made: str
    digest: str
    good: bool
    undo_to: int | None
    redo_to: int | None
    gone: bool


@dataclass(frozen=True, slots=True)
class Entry:
    """A state to be written down; fields as in `Row`."""

    what: str
    made: str
    text: str
    good: bool
    undo_to: int | None
    redo_to: int | None = None
    gone: bool = False


_COLUMNS: Final = "piece, revision, at, what, made, digest, good, undo_to, redo_to, gone"


class History:
    """The database; to be used by one thread at a time.

    Args:
        path: its file, which is made if it is not there.

    Raises:
        FolderError: it cannot be opened, or a newer program wrote it.
    """

    def __init__(self, path: Path) -> None:
        try:
            self._db = sqlite3.connect(
                path, timeout=BUSY_S, isolation_level=None, check_same_thread=False
            )
            self._db.execute("PRAGMA journal_mode=WAL")
            # Plan files are brought to the disk one by one; the history may lag behind them.
            self._db.execute("PRAGMA synchronous=NORMAL")
            self._migrate()
        except sqlite3.Error as error:
            raise FolderError(
                f"The history of the folder cannot be opened: {error}.",
                remedy=f"move {path.name} away to begin a new history; plan files stay as they are",
            ) from None

    def _migrate(self) -> None:
        with self.writing():
            (version,) = self._db.execute("PRAGMA user_version").fetchone()
            if version > len(MIGRATIONS):
                raise FolderError(
                    "A newer Cordwright wrote the history of this folder.",
                    remedy="use that one, or another folder",
                )
            for script in MIGRATIONS[version:]:
                self._db.execute(script)
            self._db.execute(f"PRAGMA user_version={len(MIGRATIONS)}")

    def close(self) -> None:
        """Close the database."""
        self._db.close()

    @contextmanager
    def writing(self) -> Iterator[None]:
        """All or nothing; other workbenches on the same folder wait."""
        self._db.execute("BEGIN IMMEDIATE")
        try:
            yield
        except BaseException:
            self._db.execute("ROLLBACK")
            raise
        self._db.execute("COMMIT")

    def last(self, piece: str) -> Row | None:
        """The newest state of a piece, None if it has no history."""
        return self._one("piece = ? ORDER BY revision DESC", piece)

    def at(self, piece: str, revision: int) -> Row | None:
        """One state of a piece."""
        return self._one("piece = ? AND revision = ?", piece, revision)

    def last_good(self, piece: str, up_to: int) -> Row | None:
        """The newest state up to one that could be worked."""
        return self._one(
            "piece = ? AND revision <= ? AND good ORDER BY revision DESC", piece, up_to
        )

    def _one(self, where: str, *values: object) -> Row | None:
        found = self._db.execute(
            f"SELECT {_COLUMNS} FROM state WHERE {where} LIMIT 1",  # noqa: S608 - our own words
            values,
        ).fetchone()
        return None if found is None else _row(found)

    def text(self, piece: str, revision: int) -> str | None:
        """The text of a state, None if there is no such state."""
        found = self._db.execute(
            "SELECT text FROM state WHERE piece = ? AND revision = ?", (piece, revision)
        ).fetchone()
        return None if found is None else zlib.decompress(found[0]).decode("utf-8")

    def states(self, piece: str, before: int | None, count: int) -> list[Row]:
        """So many states before one, the newest first."""
        found = self._db.execute(
            f"SELECT {_COLUMNS} FROM state "  # noqa: S608 - our own words
            "WHERE piece = ? AND revision < ? ORDER BY revision DESC LIMIT ?",
            (piece, 2**62 if before is None else before, count),
        )
        return [_row(r) for r in found]

    def newest(self) -> dict[str, Row]:
        """The newest state of every piece that was ever opened."""
        found = self._db.execute(
            f"SELECT {_COLUMNS}, MAX(revision) FROM state GROUP BY piece"  # noqa: S608 - as above
        )
        return {r[0]: _row(r[:-1]) for r in found}

    def add(self, piece: str, after: int | None, entry: Entry, then: Callable[[], None]) -> Row:
        """Write a state down.

        Args:
            piece: its name.
            after: the state that must be the newest; None if there must be none.
            entry: the state.
            then: what must succeed before the state is kept; it writes the file.

        Raises:
            StaleError: another state is the newest.
            FolderError: the database cannot be written, and nothing was.
        """
        try:
            with self.writing():
                newest = self.last(piece)
                if (newest.revision if newest else None) != after:
                    raise StaleError
                row = Row(
                    piece,
                    (after or 0) + 1,
                    datetime.now(UTC).isoformat(timespec="milliseconds"),
                    entry.what,
                    entry.made,
                    digest(entry.text),
                    entry.good,
                    entry.undo_to,
                    entry.redo_to,
                    entry.gone,
                )
                self._insert(row, entry.text)
                then()
            return row
        except sqlite3.Error as error:
            raise FolderError(
                f"The history of the folder cannot be written: {error}.",
                remedy="check whether the disk is full, and who may write there",
            ) from None

    def _insert(self, row: Row, text: str) -> None:
        packed = zlib.compress(text.encode("utf-8"))
        self._db.execute(
            "INSERT INTO state (piece, revision, at, what, made, digest, text, good, undo_to, "
            "redo_to, gone) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
            (row.piece, row.revision, row.at, row.what, row.made, row.digest, packed, row.good,
             row.undo_to, row.redo_to, row.gone),
        )  # fmt: skip


def _row(found: tuple[object, ...]) -> Row:
    piece, revision, at, what, made, digest_, good, undo_to, redo_to, gone = found
    return Row(
        str(piece),
        _whole(revision),
        str(at),
        str(what),
        str(made),
        str(digest_),
        bool(good),
        None if undo_to is None else _whole(undo_to),
        None if redo_to is None else _whole(redo_to),
        bool(gone),
    )


def _whole(value: object) -> int:
    if not isinstance(value, int):
        raise FolderError("The history of the folder is damaged.", remedy="move it away")
    return value
