"""Pieces: plan files with their history. Every accepted change is a file written and a state kept.

Plain and blocking; the bench calls it in a thread, one call at a time.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from cordwright.bench.folder import Folder, FolderError, NoSuchPieceError, Read
from cordwright.bench.history import Entry, History, Row, StaleError
from cordwright.bench.names import checked

DATABASE: Final = "history.sqlite3"


class OutsideError(StaleError):
    """Another program has written the file since the state that a change was meant for."""


class NothingThereError(FolderError):
    """There is nothing to undo, to redo, or to go back to."""


@dataclass(frozen=True, slots=True)
class Standing:
    """A piece as it stands.

    Args:
        text: what its file holds.
        row: its newest state; None if it was never opened here.
        known: whether that state has this text; if not, another program wrote the file.
    """

    text: str
    row: Row | None
    known: bool


class Pieces:
    """The pieces in a folder.

    Args:
        folder: where they are; made if it is not there.

    Raises:
        FolderError: the folder or its history cannot be used.
    """

    def __init__(self, folder: Folder) -> None:
        folder.prepare()
        self.folder = folder
        self.history = History(folder.own / DATABASE)

    def close(self) -> None:
        """Close the history."""
        self.history.close()

    def standing(self, name: str) -> Standing:
        """A piece as its file has it now.

        Raises:
            NoSuchPieceError: there is no such file.
            FolderError: it cannot be read.
        """
        read, row = self.folder.read(name), self.history.last(checked(name))
        return Standing(read.text, row, _is(row, read))

    def notice(self, name: str, text: str, good: bool) -> Row:
        """Keep a state that another program has written.

        Args:
            name: of the piece.
            text: as `standing` read it.
            good: whether it can be worked.

        Raises:
            StaleError: it has moved on again.
        """
        name, row = checked(name), self.history.last(checked(name))
        gone = row is None or row.gone
        what = "Opened for the first time" if gone else "Changed in another program"
        undo_to = None if row is None or row.gone else row.revision
        entry = Entry(what, what, text, good, undo_to)
        return self.history.add(name, row.revision if row else None, entry, lambda: None)

    def begin(self, name: str, text: str, good: bool, what: str) -> Row:
        """Make a new piece.

        Raises:
            ExistsError: there is one of that name.
            FolderError: it cannot be written.
        """
        name, row = checked(name), self.history.last(checked(name))
        entry = Entry(what, what, text, good, None)
        return self.history.add(
            name,
            row.revision if row else None,
            entry,
            lambda: self.folder.write(name, text, new=True),
        )

    def accept(self, name: str, revision: int, text: str, good: bool, what: str) -> Row:
        """Keep a change.

        Args:
            name: of the piece.
            revision: the state that was changed.
            text: the changed text.
            good: whether it can be worked.
            what: what was done, in words.

        Raises:
            StaleError: the piece has moved on from that state.
            FolderError: it cannot be written, and stands as it was.
        """
        entry = Entry(what, what, text, good, revision)
        return self._kept(checked(name), revision, entry)

    def undo(self, name: str, revision: int) -> Row:
        """Go back to before the last change that is not undone.

        Raises:
            NothingThereError: there is none.
            StaleError, FolderError: as in `accept`.
        """
        now = self._present(name, revision)
        back = self._state(name, now.undo_to, "There is nothing left to undo.")
        text = self._text(back)
        entry = Entry(f"Undone: {now.made}", back.made, text, back.good, back.undo_to, now.revision)
        return self._kept(back.piece, revision, entry)

    def redo(self, name: str, revision: int) -> Row:
        """Do again what was undone last.

        Raises:
            NothingThereError: nothing was undone.
            StaleError, FolderError: as in `accept`.
        """
        now = self._present(name, revision)
        on = self._state(name, now.redo_to, "There is nothing to do again.")
        text = self._text(on)
        entry = Entry(f"Done again: {on.made}", on.made, text, on.good, on.undo_to, on.redo_to)
        return self._kept(on.piece, revision, entry)

    def restore(self, name: str, revision: int | None, to: int) -> Row:
        """Go back to a state, or bring a deleted piece back as it was then.

        Args:
            name: of the piece.
            revision: the present state; None for a piece that was deleted.
            to: the state to go back to.

        Raises:
            NothingThereError: there is no such state.
            ExistsError: it should have been deleted, and there is such a file.
            StaleError, FolderError: as in `accept`.
        """
        name = checked(name)
        back = self._state(name, to, f"There is no state {to} of '{name}'.")
        text, last = self._text(back), self.history.last(name)
        what = f"Restored from state {to}"
        if revision is not None:
            return self._kept(name, revision, Entry(what, what, text, back.good, revision))
        entry = Entry(what, what, text, back.good, None)
        return self.history.add(
            name,
            last.revision if last else None,
            entry,
            lambda: self.folder.write(name, text, new=True),
        )

    def delete(self, name: str) -> None:
        """Take a piece's file away; its history stays.

        Raises:
            NoSuchPieceError: there is no such piece.
            FolderError: it cannot be deleted.
        """
        name = checked(name)
        read, row = self.folder.read(name), self.history.last(name)
        known = row is not None and _is(row, read)
        last = row if row is not None and known else self.notice(name, read.text, good=False)
        entry = Entry("Deleted", "Deleted", read.text, last.good, None, gone=True)
        self.history.add(name, last.revision, entry, lambda: self.folder.remove(name))

    def _kept(self, name: str, revision: int, entry: Entry) -> Row:
        def write() -> None:
            # Read at the last moment, so that an editor's work is hardly ever written over.
            if not _is(before, self.folder.read(name)):
                raise OutsideError
            self.folder.write(name, entry.text)

        before = self.history.last(name)
        return self.history.add(name, revision, entry, write)

    def _present(self, name: str, revision: int) -> Row:
        now = self.history.last(checked(name))
        if now is None or now.gone:
            raise NoSuchPieceError(f"There is no piece called '{checked(name)}'.")
        if now.revision != revision:
            raise StaleError
        return now

    def _state(self, name: str, revision: int | None, without: str) -> Row:
        found = None if revision is None else self.history.at(checked(name), revision)
        if found is None:
            raise NothingThereError(without, remedy="look at the history")
        return found

    def _text(self, row: Row) -> str:
        text = self.history.text(row.piece, row.revision)
        assert text is not None  # noqa: S101 - a row has its text
        return text


def _is(row: Row | None, read: Read) -> bool:
    return row is not None and not row.gone and row.digest == read.digest
