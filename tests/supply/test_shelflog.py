from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime
from pathlib import Path

import pytest

from cordwright.errors import SupplyError
from cordwright.supply.records import Item, Length, Ring, ShelfCord
from cordwright.supply.sheet import export_csv
from cordwright.supply.shelf import Shelf, add, items, open_shelf, remove, take_length
from cordwright.supply.shelflog import Change, carry_out, entries, undo

SAND = ShelfCord("sand", "cotton", 4.0)
SPOOL, REST = Length("S 1", "sand", 50_000.0), Length("S 2", "sand", 900.0, "left-over")
RINGS = Ring("brass", 50.0, 6.0, 15.0, 3)
NOON = datetime(2026, 3, 1, 12, 0, 0, 5)
CUT = (
    Change(SPOOL, replace(SPOOL, length_mm=12_000.0, sort="part-spool")),
    Change(REST, None),
    Change(RINGS, replace(RINGS, count=1)),
)


@pytest.fixture
def db(tmp_path: Path) -> Iterator[Shelf]:
    with open_shelf(tmp_path / "s.db") as found:
        for item in (SAND, SPOOL, REST, RINGS):
            add(found, item)
        yield found


def test_changes_are_made_together_and_undone_together(db: Shelf) -> None:
    before = export_csv(db)
    number = carry_out(db, "cut for Trial", NOON, CUT)
    assert items(db, Length) == [CUT[0].after]
    assert items(db, Ring) == [CUT[2].after]
    (entry,) = entries(db)
    assert (entry.number, entry.at, entry.what) == (number, "2026-03-01 12:00:00", "cut for Trial")
    assert (entry.undone, entry.changes) == (False, CUT)
    assert undo(db) == entry
    assert export_csv(db) == before
    assert entries(db) == [replace(entry, undone=True)]


def test_nothing_is_done_if_anything_changed_meanwhile(db: Shelf) -> None:
    take_length(db, "S 2", 100.0)
    before = export_csv(db)
    with pytest.raises(SupplyError, match="'S 2' was changed meanwhile"):
        carry_out(db, "late", NOON, CUT)
    assert export_csv(db) == before
    assert entries(db) == []


def test_what_was_changed_since_is_not_undone(db: Shelf) -> None:
    carry_out(db, "first", NOON, CUT[:1])
    take_length(db, "S 1", 1_000.0)
    before = export_csv(db)
    with pytest.raises(SupplyError, match="'S 1' was changed meanwhile"):
        undo(db)
    assert export_csv(db) == before
    remove(db, Length, "S 1")
    with pytest.raises(SupplyError, match="changed meanwhile"):
        undo(db)


def test_entries_are_undone_from_the_latest_or_by_number(db: Shelf) -> None:
    before = export_csv(db)
    first = carry_out(db, "first", NOON, CUT[:1])
    second = carry_out(db, "second", NOON, CUT[1:])
    assert undo(db, first).number == first  # nothing of it was changed by the second
    assert undo(db).number == second
    assert export_csv(db) == before
    for number, says in ((None, "nothing to undo"), (first, "undone already"), (9, "no entry 9")):
        with pytest.raises(SupplyError, match=says):
            undo(db, number)


def test_an_entry_is_undone_if_its_cord_is_gone_only_with_an_error(db: Shelf) -> None:
    carry_out(db, "all", NOON, (Change(SPOOL, None), Change(REST, None)))
    remove(db, ShelfCord, "sand")
    with pytest.raises(SupplyError, match="no cord called 'sand'"):
        undo(db)
    assert items(db, Length) == []
    assert not entries(db)[0].undone


@pytest.mark.parametrize(("before", "after"), [(None, None), (SPOOL, REST), (SPOOL, RINGS)])
def test_changes_are_of_one_thing(before: Item | None, after: Item | None) -> None:
    with pytest.raises(ValueError, match="one thing"):
        Change(before, after)
