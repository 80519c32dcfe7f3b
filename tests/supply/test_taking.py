from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from dataclasses import replace
from datetime import datetime
from decimal import Decimal
from pathlib import Path

import pytest

from cordwright.errors import SupplyError
from cordwright.supply.cutting import CuttingPlan, Need, Rules, cutting_plan
from cordwright.supply.fittings import Fitted, Wanted
from cordwright.supply.price import Price
from cordwright.supply.records import Item, Length, Ring, ShelfCord
from cordwright.supply.sheet import export_csv
from cordwright.supply.shelf import Shelf, add, items, open_shelf, problems
from cordwright.supply.shelflog import carry_out, entries, undo
from cordwright.supply.stock import PutUp, Spool, Stock
from cordwright.supply.taking import taking

LENGTHS = {
    x.name: x
    for x in (
        Length("S 1", "sand", 20_000.0, price=Price(Decimal(10), "EUR")),
        Length("S 2", "sand", 4_300.0, "left-over"),
        Length("S 3", "sand", 9_000.0),
    )
}
RINGS = Ring("brass", 50.0, 6.0, 15.0, 3)


def stock(*put_ups: PutUp) -> Stock:
    spools = (Spool(x.name, "main", x.length_mm) for x in LENGTHS.values())
    return Stock(tuple(spools), put_ups)


def cut(count: int, *put_ups: PutUp, keep: float = 500.0) -> dict[str, CuttingPlan]:
    rules = Rules(keep, seconds=1.0)
    return {"main": cutting_plan([Need("A", 4_000.0, count)], stock(*put_ups), rules)}


def test_a_plan_by_hand() -> None:
    # Five of 4 m: the 20 m spool is cut up, and nothing is lost.
    ring = Fitted(Wanted("ring", (50.0, 6.0)), RINGS, 2)
    changes = taking(cut(5), LENGTHS, [ring])
    found = {c.thing.name: c.after for c in changes}
    assert found == {"S 1": None, "brass": replace(RINGS, count=1)}
    # Four of 4 m from the long spool leave 4 m, worth half of its price less.
    only = {"S 1": LENGTHS["S 1"]}
    plan = cutting_plan([Need("A", 4_000.0, 4)], Stock((Spool("S 1", "main", 20_000.0),)))
    (change,) = taking({"main": plan}, only, [])
    assert change.after == Length(
        "S 1", "sand", 4_000.0, "part-spool", Price(Decimal("2.00"), "EUR")
    )


@pytest.mark.parametrize("keep", [250.0, 350.0])
def test_only_rests_that_are_worth_keeping_stay(keep: float) -> None:
    plan = cutting_plan(
        [Need("A", 4_000.0)], Stock((Spool("S 2", "main", 4_300.0),)), Rules(keep, seconds=0.0)
    )
    (change,) = taking({"main": plan}, LENGTHS, [])
    kept = replace(LENGTHS["S 2"], length_mm=300.0)
    assert change.after == (kept if keep <= 300.0 else None)


def test_cord_adds_up() -> None:
    changes = taking(cut(5), LENGTHS, [])
    before = sum(c.before.length_mm for c in changes if isinstance(c.before, Length))
    after = sum(c.after.length_mm for c in changes if isinstance(c.after, Length))
    plan = cut(5)["main"]
    assert before - after == pytest.approx(plan.cut_mm + plan.lost_mm)
    assert after == pytest.approx(plan.kept_mm)


def test_nothing_is_taken_that_is_not_all_there() -> None:
    with pytest.raises(SupplyError, match="Not everything can be cut"):
        taking(cut(12), LENGTHS, [])
    with pytest.raises(SupplyError, match="not on the shelf yet: new"):
        taking(cut(12, PutUp("new", "main", 50_000.0)), LENGTHS, [])
    few = Fitted(Wanted("ring", (50.0, 6.0)), RINGS, 4)
    assert all(c.thing is not RINGS for c in taking(cut(1), LENGTHS, [few]))
    named = cutting_plan([Need("A", 100.0)], Stock((Spool("main 1", "main", 5_000.0),)))
    assert taking({"main": named}, LENGTHS, []) == ()


def filled(db: Shelf) -> str:
    things: tuple[Item, ...] = (ShelfCord("sand", "cotton", 4.0), *LENGTHS.values(), RINGS)
    for item in things:
        add(db, item)
    return export_csv(db)


TAKER = """
import sys
from datetime import datetime
from pathlib import Path
from cordwright.supply.shelf import open_shelf
from cordwright.supply.shelflog import carry_out, undo
from tests.supply.test_taking import LENGTHS, RINGS, Fitted, Wanted, cut, taking
changes = taking(cut(6), LENGTHS, [Fitted(Wanted("ring", (50.0, 6.0)), RINGS, 2)])
with open_shelf(Path(sys.argv[1])) as db:
    n = 0
    while True:  # taken and put back, over and over
        carry_out(db, "trial", datetime(2026, 3, 1), changes)
        undo(db)
        n += 1
        print(n, flush=True)
"""


@pytest.mark.skipif(os.name == "nt", reason="Windows has no SIGKILL")
@pytest.mark.parametrize("after", [1, 5, 40])
def test_a_killed_program_has_taken_all_or_nothing(tmp_path: Path, after: int) -> None:
    path = tmp_path / "s.db"
    with open_shelf(path) as db:
        whole = filled(db)
        ring = Fitted(Wanted("ring", (50.0, 6.0)), RINGS, 2)
        carry_out(db, "trial", datetime(2026, 3, 1), taking(cut(6), LENGTHS, [ring]))
        without = export_csv(db)
        undo(db)
    with subprocess.Popen(
        [sys.executable, "-c", TAKER, str(path)],
        stdout=subprocess.PIPE,
        text=True,
        cwd=Path(__file__).parents[2],
    ) as taker:
        assert taker.stdout is not None
        said = 0
        while said < after:
            said = int(taker.stdout.readline())
        time.sleep(0.0017 * after % 0.007)  # somewhere within a change
        taker.send_signal(signal.SIGKILL)
    with open_shelf(path) as db:
        assert problems(db) == []
        log = entries(db)
        if log[-1].undone:
            assert export_csv(db) == whole
        else:  # killed between taking and putting back: all three things are taken
            assert export_csv(db) == without
            undo(db)
        assert export_csv(db) == whole
        assert items(db, Ring) == [RINGS]
