from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from cordwright.errors import CordwrightError
from cordwright.plan.read import read_plan
from cordwright.plan.sizes import resolve_sizes
from cordwright.supply.cutting import Need
from cordwright.supply.makeable import fits, makeable
from cordwright.supply.stock import PutUp, Spool, Stock

if TYPE_CHECKING:
    from cordwright.plan.model import Plan
    from cordwright.supply.demand import Demand

TEXT = """\
cordwright: 1
title: Trial
cords: {main: {fibre: cotton, diameter: 4 mm}}
sizes:
  arm: {value: 40 cm, at_least: 20 cm, at_most: 60 cm}
  rows: {value: 10, at_least: 4}
  fixed: 3 cm
mount: {rod: {length: 20 cm, thick: 12 mm}, cords: [{cord: main, count: 4}]}
work:
  - {free: arm}
  - {tie: square-knot, each: 4, times: rows}
"""


@pytest.fixture
def plan(tmp_path: Path) -> Plan:
    path = tmp_path / "trial.yaml"
    path.write_text(TEXT, encoding="utf-8")
    return read_plan(path)


def at(plan: Plan, sizes: Mapping[str, str]) -> Demand:
    """Two lengths of an arm and 5 cm a row."""
    known = resolve_sizes(plan, sizes)
    return {"main": (Need("A", known.mm("arm") + 50.0 * known.mm("rows"), 2),)}


def spool(mm: float) -> Stock:
    return Stock((Spool("1", "main", mm),))


def test_fits_as_planned_and_how_much_larger(plan: Plan) -> None:
    found = makeable(plan, lambda sizes: at(plan, sizes), spool(1900.0))  # an arm of 45 cm
    assert found.fits == "yes"
    assert found.together is not None
    arm = resolve_sizes(plan, found.together.sizes).mm("arm")
    assert 446.0 < arm <= 450.0


def test_fits_when_sized_down_no_more_than_need_be(plan: Plan) -> None:
    found = makeable(plan, lambda sizes: at(plan, sizes), spool(1500.0))  # 750 instead of 900
    assert found.fits == "no"
    assert found.together is not None
    assert 0 < found.together.share < 1
    known = resolve_sizes(plan, found.together.sizes)
    assert 690.0 < known.mm("arm") + 50.0 * known.mm("rows") <= 750.0
    alone = {n: resolve_sizes(plan, r.sizes).mm(n) for n, r in found.alone.items()}
    assert 245.0 <= alone["arm"] <= 250.0
    assert alone["rows"] == 7


def test_does_not_fit_even_at_its_least(plan: Plan) -> None:
    found = makeable(plan, lambda sizes: at(plan, sizes), spool(700.0))
    assert (found.fits, found.together, found.alone) == ("no", None, {})


def test_sizes_that_do_not_go_together_do_not_count(plan: Plan) -> None:
    def demand(sizes: Mapping[str, str]) -> Demand:
        if sizes:
            raise CordwrightError("No.")
        return at(plan, sizes)

    assert makeable(plan, demand, spool(700.0)).together is None


def test_a_puzzle_that_filling_alone_does_not_solve_is_settled() -> None:
    needs = {"main": (Need("A", 60.0, 2), Need("B", 50.0, 2), Need("C", 40.0, 2))}
    two = Stock((Spool("1", "main", 150.0), Spool("2", "main", 150.0)))
    assert fits(needs, two, 20.0) == "yes"
    assert fits({"main": (Need("A", 60.0, 4),)}, Stock((two.spools[0],)), 20.0) == "no"
    assert fits({"main": (Need("A", 80.0, 3),)}, two, 20.0) == "no"
    assert fits(needs, Stock((), (PutUp("new", "main", 60.0),)), 20.0) == "yes"


def test_a_cord_of_which_there_is_none_is_named(plan: Plan) -> None:
    other = Stock((Spool("1", "fine", 9000.0),))
    found = makeable(plan, lambda sizes: at(plan, sizes), other)
    assert (found.fits, found.together, found.lacking) == ("no", None, ("main",))
