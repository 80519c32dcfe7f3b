from __future__ import annotations

import math
from pathlib import Path

import pytest

from cordwright.cords.swatch import factor
from cordwright.errors import SupplyError
from cordwright.piece.lengths import measure
from cordwright.piece.work import work
from cordwright.plan.read import parse_plan
from cordwright.supply.hands import finished_entry, known_hands, plan_cords, swatch_of
from cordwright.supply.records import ShelfCord, SwatchEntry
from cordwright.supply.shelf import add, open_shelf
from tests.piece.conftest import MadeUpFigures

SAND = ShelfCord("sand", "cotton", 4.0, "single twist", "", 9.5)
# The made-up square knot is 4 d high; a working strand takes 15 d and half a d for each filler.
TIED = SwatchEntry("w 1", "sand", "square-knot", 10, 176.0, 0.9 * 10 * 16 * 4.0, 24.0)
PLAN = """\
cordwright: 1
title: Trial
cords: {main: {shelf: sand}, other: {fibre: jute, diameter: 4 mm}}
mount: {nothing: {}, cords: [{cord: main, count: 2}]}
work: [{tie: square-knot, times: 10}, {fringe: 20 cm}]
"""


def test_swatches_on_the_shelf_teach(tmp_path: Path) -> None:
    figures = MadeUpFigures()
    with open_shelf(tmp_path / "s.db") as db:
        add(db, SAND)
        before = known_hands(db, figures)
        add(db, TIED)
        after = known_hands(db, figures)
        found = swatch_of(db, TIED, figures)
    assert math.exp(found.take_up.log_factor) == pytest.approx(0.9)
    assert math.exp(found.height.log_factor) == pytest.approx(1.1)
    assert found.width is not None
    assert math.exp(found.width.log_factor) == pytest.approx(24.0 / 20.0)
    here = [factor(h.take_up, "", "sand").location for h in (before, after)]
    assert here[0] == pytest.approx(before.take_up.prior.middle)
    assert math.log(0.9) < here[1] < here[0]


def test_a_finished_piece_teaches(tmp_path: Path) -> None:
    figures = MadeUpFigures()
    with open_shelf(tmp_path / "s.db") as db:
        add(db, SAND)
        plan = parse_plan(PLAN, "p.yaml", lambda: plan_cords(db))
        piece = work(plan, figures)
        lengths = measure(piece)
        used = sum(piece.mm(form) for form in lengths.used)
        entry = finished_entry(piece, "main", "trial 1", used + 300.0)
        assert entry.mix == {"square-knot": 1.0}
        assert entry.knots == 4 * 10
        assert entry.knotted_mm == pytest.approx(10 * 4.0 * (2 * 16 + 2 * 4))
        assert entry.knotted_mm + entry.free_mm == pytest.approx(used)
        add(db, entry)
        found = factor(known_hands(db, figures).take_up, "", "sand", "square-knot").location
    assert 0.02 < found < math.log(1.0 + 300.0 / entry.knotted_mm)
    with pytest.raises(SupplyError, match="no cord 'other' that is on the shelf"):
        finished_entry(piece, "other", "x", 1.0)
