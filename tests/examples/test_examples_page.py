"""docs/examples.md names every example, with the figures that the program gives."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from cordwright.hang.counted import as_worked, counted
from cordwright.piece.cutlist import cut_list
from cordwright.piece.report import cut_json
from tests.examples.conftest import NAMES, piece_of, plan_of

PAGE = (Path(__file__).parents[2] / "docs" / "examples.md").read_text(encoding="utf-8")
ROW = re.compile(r"^\| `([a-z-]+)` \| (\d+) cm \| ([\d.]+) m \| (\d+) \| (\d+) g \|$", re.MULTILINE)


def test_every_example_has_its_row_and_its_paragraph() -> None:
    assert sorted(name for name, *_ in ROW.findall(PAGE)) == list(NAMES)
    for name in NAMES:
        assert f"**{plan_of(name).title}.**" in PAGE


@pytest.mark.parametrize(("name", "finished", "cord", "knots", "weight"), ROW.findall(PAGE))
def test_the_figures_are_the_program_s(
    name: str, finished: str, cord: str, knots: str, weight: str
) -> None:
    piece = counted(as_worked(piece_of(name)))
    answer = cut_json(piece, cut_list(piece))
    # Half of the last digit that the page shows, and a little for a renewed atlas.
    assert answer["finished_length_mm"] / 10 == pytest.approx(int(finished), abs=0.6)
    assert answer["total_mm"] / 1000 == pytest.approx(float(cord), rel=0.005, abs=0.06)
    assert answer["knots"] == int(knots)
    grams = sum(kind["weight_g"] for kind in answer["kinds"])
    assert grams == pytest.approx(int(weight), rel=0.005, abs=0.6)
