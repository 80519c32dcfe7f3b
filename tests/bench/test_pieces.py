"""Pieces with their history, held to a plain model of what a maker expects of undo and redo."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from cordwright.bench.folder import ExistsError, Folder, NoSuchPieceError
from cordwright.bench.history import StaleError
from cordwright.bench.pieces import NothingThereError, Pieces


@pytest.fixture
def pieces(tmp_path: Path) -> Iterator[Pieces]:
    found = Pieces(Folder(tmp_path))
    yield found
    found.close()


def test_a_change_is_a_file_and_a_state(pieces: Pieces) -> None:
    first = pieces.begin("a", "one", True, "Begun")
    second = pieces.accept("a", first.revision, "two", False, "Changed")
    assert (first.revision, second.revision) == (1, 2)
    assert pieces.folder.read("a").text == "two"
    assert pieces.standing("a").known
    found = pieces.history.last_good("a", 2)
    assert found is not None
    assert (found.revision, pieces.history.text("a", 1)) == (1, "one")


def test_a_stale_change_changes_nothing(pieces: Pieces) -> None:
    pieces.begin("a", "one", True, "Begun")
    pieces.accept("a", 1, "two", True, "Changed")
    late: tuple[Callable[[], object], ...] = (
        lambda: pieces.accept("a", 1, "three", True, "Late"),
        lambda: pieces.undo("a", 1),
        lambda: pieces.redo("a", 1),
        lambda: pieces.restore("a", 1, 1),
    )
    for stale in late:
        with pytest.raises(StaleError):
            stale()
    assert pieces.folder.read("a").text == "two"
    assert len(pieces.history.states("a", None, 10)) == 2


def test_what_an_editor_wrote_is_never_written_over(pieces: Pieces) -> None:
    pieces.begin("a", "one", True, "Begun")
    (pieces.folder.path / "a.yaml").write_text("by hand")
    with pytest.raises(StaleError):
        pieces.accept("a", 1, "two", True, "Changed")
    assert pieces.folder.read("a").text == "by hand"
    standing = pieces.standing("a")
    assert not standing.known
    row = pieces.notice("a", standing.text, good=False)
    assert row.revision == 2
    back = pieces.undo("a", 2)
    assert pieces.folder.read("a").text == "one"
    assert back.what == "Undone: Changed in another program"


def test_undo_says_what_it_undid_however_often(pieces: Pieces) -> None:
    pieces.begin("a", "0", True, "Begun")
    for i in (1, 2):
        pieces.accept("a", i, str(i), True, f"Set to {i}")
    said = [pieces.undo("a", 3).what, pieces.undo("a", 4).what, pieces.redo("a", 5).what]
    assert said == ["Undone: Set to 2", "Undone: Set to 1", "Done again: Set to 1"]
    assert pieces.undo("a", 6).what == "Undone: Set to 1"


def test_a_deleted_piece_can_be_brought_back(pieces: Pieces) -> None:
    pieces.begin("a", "one", True, "Begun")
    pieces.delete("a")
    with pytest.raises(NoSuchPieceError):
        pieces.standing("a")
    with pytest.raises(NoSuchPieceError):
        pieces.undo("a", 2)
    row = pieces.restore("a", None, 1)
    assert (row.revision, pieces.folder.read("a").text) == (3, "one")
    with pytest.raises(ExistsError):
        pieces.begin("a", "other", True, "Begun")


def test_a_deleted_file_that_was_never_opened_is_remembered(pieces: Pieces) -> None:
    (pieces.folder.path / "a.yaml").write_text("mine")
    pieces.delete("a")
    assert not (pieces.folder.path / "a.yaml").exists()
    pieces.restore("a", None, 1)
    assert pieces.folder.read("a").text == "mine"


def test_all_of_it_is_there_after_a_restart(tmp_path: Path) -> None:
    first = Pieces(Folder(tmp_path))
    first.begin("a", "0", True, "Begun")
    for i in range(1, 30):
        first.accept("a", i, str(i), True, f"Set to {i}")
    first.close()
    second = Pieces(Folder(tmp_path))
    for i in range(30, 59):
        second.undo("a", i)
    assert second.folder.read("a").text == "0"
    with pytest.raises(NothingThereError):
        second.undo("a", 59)
    second.close()


def test_two_workbenches_on_one_folder_do_not_lose_each_others_changes(tmp_path: Path) -> None:
    one, two = Pieces(Folder(tmp_path)), Pieces(Folder(tmp_path))
    one.begin("a", "0", True, "Begun")
    two.accept("a", 1, "1", True, "By the other")
    with pytest.raises(StaleError):
        one.accept("a", 1, "2", True, "Late")
    assert one.standing("a").known
    one.accept("a", 2, "2", True, "In time")
    assert two.folder.read("a").text == "2"
    one.close()
    two.close()


class Desk(RuleBasedStateMachine):
    """What a maker does to one piece, beside lists of what they would expect."""

    def __init__(self) -> None:
        super().__init__()
        self.path = Path(tempfile.mkdtemp())
        self.pieces = Pieces(Folder(self.path))
        self.past: list[str] = []
        self.future: list[str] = []
        self.revision = 0

    @initialize(text=st.text(max_size=5))
    def begin(self, text: str) -> None:
        self.past = [text]
        self.revision = self.pieces.begin("a", text, True, "Begun").revision

    @rule(text=st.text(max_size=5))
    def change(self, text: str) -> None:
        self.keep(lambda: self.pieces.accept("a", self.revision, text, True, "Changed").revision)
        self.past.append(text)
        self.future.clear()

    @rule(text=st.text("xyz", min_size=1, max_size=5))
    def edit_outside(self, text: str) -> None:
        self.pieces.folder.write("a", text)
        standing = self.pieces.standing("a")
        if not standing.known:
            self.keep(lambda: self.pieces.notice("a", text, True).revision)
            self.past.append(text)
            self.future.clear()

    @precondition(lambda self: len(self.past) > 1)
    @rule()
    def undo(self) -> None:
        self.keep(lambda: self.pieces.undo("a", self.revision).revision)
        self.future.append(self.past.pop())

    @precondition(lambda self: bool(self.future))
    @rule()
    def redo(self) -> None:
        self.keep(lambda: self.pieces.redo("a", self.revision).revision)
        self.past.append(self.future.pop())

    @rule()
    def restart(self) -> None:
        self.pieces.close()
        self.pieces = Pieces(Folder(self.path))

    def keep(self, change: Callable[[], int]) -> None:
        before, self.revision = self.revision, change()
        assert self.revision == before + 1

    @invariant()
    def stands(self) -> None:
        if not self.past:
            return
        assert self.pieces.folder.read("a").text == self.past[-1]
        row = self.pieces.history.last("a")
        assert row is not None
        assert (row.undo_to is not None) == (len(self.past) > 1)
        assert (row.redo_to is not None) == bool(self.future)

    def teardown(self) -> None:
        self.pieces.close()
        shutil.rmtree(self.path)


TestDesk = Desk.TestCase
TestDesk.settings = settings(max_examples=15, stateful_step_count=15, deadline=None)
