from __future__ import annotations

import os
import re
import signal
import sqlite3
import subprocess
import sys
import threading
import time
from contextlib import closing
from dataclasses import fields
from decimal import Decimal
from pathlib import Path

import pytest

from cordwright.errors import CordwrightError, SupplyError
from cordwright.supply import migrations, shelf
from cordwright.supply.price import Price, parse_price
from cordwright.supply.records import Length, Offer, Ring, Rod, ShelfCord, SwatchEntry
from cordwright.supply.shelf import (
    add,
    backup,
    count,
    find,
    free_name,
    items,
    open_shelf,
    problems,
    remove,
    take_length,
    transaction,
)
from cordwright.supply.writing import KINDS

SAND = ShelfCord("sand 4mm", "cotton", 4.0, "single twist", "sand", 9.5, 300.0)
SPOOL = Length("S 1", "sand 4mm", 50_000.0, price=Price(Decimal("20.00"), "EUR"))


def test_what_is_put_is_found(tmp_path: Path) -> None:
    ring = Ring("brass", 50.0, 6.0, 15.0, 3, Price(Decimal("1.20"), "EUR"))
    with open_shelf(tmp_path / "deep" / "shelf.db") as db:
        for item in (SAND, SPOOL, ring, Offer("cone", "sand 4mm", 1e5, "Mill", most=4)):
            add(db, item)
    with open_shelf(tmp_path / "deep" / "shelf.db") as db:
        assert items(db, ShelfCord) == [SAND]
        assert find(db, Length, "S 1") == SPOOL
        assert find(db, Ring, "brass") == ring
        assert items(db, Offer)[0].most == 4
        assert problems(db) == []


def test_cutting_from_a_spool(tmp_path: Path) -> None:
    with open_shelf(tmp_path / "s.db") as db:
        add(db, SAND)
        add(db, SPOOL)
        left = take_length(db, "S 1", 12_500.0)
        assert left is not None
        assert (left.length_mm, left.sort, str(left.price)) == (37_500.0, "part-spool", "15.00 EUR")
        with pytest.raises(SupplyError, match=r"has 37\.500 m, not 40\.000 m"):
            take_length(db, "S 1", 40_000.0)
        assert find(db, Length, "S 1") == left
        assert take_length(db, "S 1", 37_500.0) is None
        assert items(db, Length) == []


def test_fittings_are_counted(tmp_path: Path) -> None:
    with open_shelf(tmp_path / "s.db") as db:
        add(db, Ring("brass", 50.0, 6.0, count=3))
        assert count(db, Ring, "brass", -2).count == 1
        with pytest.raises(SupplyError, match="There are 1"):
            count(db, Ring, "brass", -2)
        assert count(db, Ring, "brass", 5).count == 6


def test_mistakes_are_told_with_what_to_try(tmp_path: Path) -> None:
    with open_shelf(tmp_path / "s.db") as db:
        add(db, SAND)
        with pytest.raises(SupplyError, match="on the shelf already"):
            add(db, SAND)
        with pytest.raises(SupplyError) as error:
            add(db, Length("x", "sand 4 mm", 5.0))
        assert error.value.remedy == "did you mean 'sand 4mm'?"
        add(db, SPOOL)
        with pytest.raises(SupplyError, match="are on the shelf"):
            remove(db, ShelfCord, "sand 4mm")
        remove(db, Length, "S 1")
        remove(db, ShelfCord, "sand 4mm")
        assert free_name(db, KINDS["length"], "S") == "S 1"


def save_and_fail(db: shelf.Shelf) -> None:
    shelf.save(db, SAND)
    find(db, Length, "nothing")


def test_a_change_that_fails_leaves_nothing(tmp_path: Path) -> None:
    with open_shelf(tmp_path / "s.db") as db:
        with pytest.raises(SupplyError), transaction(db):
            save_and_fail(db)
        assert items(db, ShelfCord) == []


def test_files_that_are_no_shelf_are_left_alone(tmp_path: Path) -> None:
    text = tmp_path / "notes.txt"
    text.write_text("not a database, but long enough to be looked at\n" * 50, encoding="utf-8")
    with pytest.raises(SupplyError, match="no shelf"), open_shelf(text):
        pass
    other = tmp_path / "other.db"
    with sqlite3.connect(other) as db:
        db.execute("CREATE TABLE mine (x)")
    db.close()
    with pytest.raises(SupplyError, match="but no shelf"), open_shelf(other):
        pass
    with pytest.raises(SupplyError, match="cannot be"), open_shelf(tmp_path):
        pass


def test_a_newer_shelf_is_refused(tmp_path: Path) -> None:
    with open_shelf(tmp_path / "s.db") as db:
        db.execute("PRAGMA user_version = 99")
    with pytest.raises(SupplyError, match="of version 99"), open_shelf(tmp_path / "s.db"):
        pass


OLD_ROWS = (  # by the version that first has the table, as that version wrote them
    (1, "INSERT INTO rings VALUES ('brass', 50.0, 6.0, 3, '1.20 EUR', '')"),
    (1, "INSERT INTO rods VALUES ('beech', 600.0, 12.0, 1, NULL, '')"),
    (
        2,
        "INSERT INTO swatches VALUES"
        " ('w', 'sand 4mm', 'square-knot', 10, 170.0, 580.0, NULL, 2, 'Ada', '')",
    ),
)


@pytest.mark.parametrize("version", range(1, len(migrations.MIGRATIONS) + 1))
def test_every_older_shelf_is_brought_up_to_date(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, version: int
) -> None:
    with monkeypatch.context() as old:
        old.setattr(migrations, "MIGRATIONS", migrations.MIGRATIONS[:version])
        with open_shelf(tmp_path / "s.db") as db:
            add(db, SAND)
            add(db, SPOOL)
            if version < 3:
                for first, row in OLD_ROWS:
                    if first <= version:
                        db.execute(row)
    with open_shelf(tmp_path / "s.db") as db:
        assert migrations.version(db) == len(migrations.MIGRATIONS)
        assert (items(db, ShelfCord), items(db, Length)) == ([SAND], [SPOOL])
        if version < 3:
            assert items(db, Ring) == [
                Ring("brass", 50.0, 6.0, None, 3, Price(Decimal("1.20"), "EUR"))
            ]
            assert items(db, Rod) == [Rod("beech", 600.0, 12.0, None, 1)]
        if version == 2:
            assert items(db, SwatchEntry) == [
                SwatchEntry("w", "sand 4mm", "square-knot", 10, 170.0, 580.0, maker="Ada")
            ]
        assert problems(db) == []


def test_a_crash_while_it_is_brought_up_to_date_leaves_it_old(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as old:
        old.setattr(migrations, "MIGRATIONS", migrations.MIGRATIONS[:1])
        with open_shelf(tmp_path / "s.db") as db:
            add(db, SAND)
    with monkeypatch.context() as broken:
        wrong = (*migrations.MIGRATIONS, ("CREATE TABLE late (x)", "CREATE nonsense"))
        broken.setattr(migrations, "MIGRATIONS", wrong)
        with pytest.raises(SupplyError), open_shelf(tmp_path / "s.db"):
            pass
    with closing(sqlite3.connect(tmp_path / "s.db")) as db:
        assert migrations.version(db) == 1
    with open_shelf(tmp_path / "s.db") as db:
        assert items(db, ShelfCord) == [SAND]


def test_tables_and_values_have_the_same_columns(tmp_path: Path) -> None:
    with open_shelf(tmp_path / "s.db") as db:
        for kind in KINDS.values():
            columns = {row[1] for row in db.execute(f"PRAGMA table_info({kind.table})")}
            assert columns == {f.name for f in fields(kind.type)}, kind.word


def test_a_backup_is_whole_while_another_writes(tmp_path: Path) -> None:
    with open_shelf(tmp_path / "s.db") as db, open_shelf(tmp_path / "s.db") as other:
        add(db, SAND)
        add(db, SPOOL)
        other.execute("BEGIN IMMEDIATE")
        other.execute("DELETE FROM lengths")
        backup(db, tmp_path / "b.db")
        other.execute("ROLLBACK")
        with pytest.raises(SupplyError, match="there already"):
            backup(db, tmp_path / "b.db")
    assert sorted(p.name for p in tmp_path.glob("b.db*")) == ["b.db"]
    with open_shelf(tmp_path / "b.db") as copy:
        assert items(copy, Length) == [SPOOL]


def test_two_programs_take_from_one_spool(tmp_path: Path) -> None:
    with open_shelf(tmp_path / "s.db") as db:
        add(db, SAND)
        add(db, SPOOL)

    def cut() -> None:
        with open_shelf(tmp_path / "s.db") as mine:
            for _ in range(40):
                take_length(mine, "S 1", 100.0)

    threads = [threading.Thread(target=cut) for _ in range(3)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    with open_shelf(tmp_path / "s.db") as db:
        assert find(db, Length, "S 1").length_mm == 50_000.0 - 3 * 40 * 100.0


def test_a_shelf_that_is_locked_too_long(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(shelf, "WAIT_S", 0.05)
    with open_shelf(tmp_path / "s.db") as db:
        db.execute("BEGIN IMMEDIATE")
        with pytest.raises(SupplyError) as error, open_shelf(tmp_path / "s.db") as other:
            add(other, SAND)
        assert "close the other program" in error.value.remedy
        db.execute("ROLLBACK")


WRITER = """
import sys
from pathlib import Path
from cordwright.supply.records import Length
from cordwright.supply.shelf import open_shelf, save, transaction
with open_shelf(Path(sys.argv[1])) as db:
    n = 0
    while True:
        with transaction(db):
            for half in "AB":  # always two together
                save(db, Length(f"{half} {n}", "sand 4mm", 1000.0 + n))
        n += 1
        print(n, flush=True)
"""


@pytest.mark.skipif(os.name == "nt", reason="Windows has no SIGKILL")
@pytest.mark.parametrize("after", [1, 7, 60])
def test_a_killed_program_leaves_the_shelf_whole(tmp_path: Path, after: int) -> None:
    path = tmp_path / "s.db"
    with open_shelf(path) as db:
        add(db, SAND)
    with subprocess.Popen(
        [sys.executable, "-c", WRITER, str(path)], stdout=subprocess.PIPE, text=True
    ) as writer:
        assert writer.stdout is not None
        said = 0
        while said < after:
            said = int(writer.stdout.readline())
        time.sleep(0.003 * after % 0.01)  # somewhere within a change
        writer.send_signal(signal.SIGKILL)
        said = int(([str(said), *writer.stdout.read().split()])[-1])
    with open_shelf(path) as db:
        assert problems(db) == []
        found = items(db, Length)
        halves = [{x.name[2:] for x in found if x.name[0] == half} for half in "AB"]
        assert halves[0] == halves[1]
        assert len(halves[0]) in (said, said + 1)  # what was said to be done is there
        add(db, SPOOL)


def test_damage_is_found(tmp_path: Path) -> None:
    with open_shelf(tmp_path / "s.db") as db:
        add(db, SAND)
        db.execute("PRAGMA foreign_keys = OFF")
        db.execute("INSERT INTO lengths VALUES ('x', 'gone', 5.0, 'spool', '3 XQQ', '')")
        found = "\n".join(problems(db))
    assert re.search("names something that cords does not have", found)
    assert "XQQ" in found


@pytest.mark.parametrize("text", ["", "12", "EUR", "12,50 EUR", "-3 EUR", "1e9 EUR", "5 XQQ"])
def test_prices_that_are_none(text: str) -> None:
    with pytest.raises(CordwrightError):
        parse_price(text)
