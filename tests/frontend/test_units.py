"""Lengths read the same on the page as everywhere else."""

from __future__ import annotations

import random
from typing import TYPE_CHECKING

import pytest

from cordwright.units.length import System, format_diameter, format_length, parse_length

if TYPE_CHECKING:
    from tests.frontend.conftest import Run

SCRIPT = """
import { diameter, length, stepped, written } from "SRC/units";
declare const given: { mm: number[]; system: "metric" | "inch" };
const { mm, system } = given;
tell({
  thick: mm.map((v) => diameter(v, system)),
  shown: mm.map((v) => length(v, system)),
  written: mm.map((v) => written(v, system)),
  up: mm.map((v) => stepped(v, 1, 1, system)),
  down: mm.map((v) => stepped(v, -1, 1, system)),
});
"""


def lengths() -> list[float]:
    chance = random.Random(7)  # noqa: S311 -- cases for a test
    edges = [0, 0.4, 0.5, 1.5, 9.4, 9.5, 9.6, 10, 99.5, 999, 999.5, 1000, 914.4, 25.4, 6.35, 31560]
    return [*edges, *(chance.uniform(0, 10**k) for k in (1, 2, 3, 4, 5) for _ in range(60))]


@pytest.mark.parametrize("system", ["metric", "inch"])
def test_lengths_read_as_in_the_cut_list(system: System, run: Run) -> None:
    mm = lengths()
    told = run(SCRIPT, {"mm": mm, "system": system})
    assert told["shown"] == [format_length(v, system) for v in mm]
    assert told["thick"] == [format_diameter(v, system) for v in mm]


@pytest.mark.parametrize("system", ["metric", "inch"])
def test_what_is_written_into_a_plan_is_read_again(system: System, run: Run) -> None:
    mm = lengths()
    told = run(SCRIPT, {"mm": mm, "system": system})
    near = 0.051 if system == "metric" else 25.4 / 8
    for given, text in zip(mm, told["written"], strict=True):
        assert parse_length(text) == pytest.approx(given, abs=near)


@pytest.mark.parametrize("system", ["metric", "inch"])
def test_steps_go_up_and_down(system: System, run: Run) -> None:
    mm = lengths()
    told = run(SCRIPT, {"mm": mm, "system": system})
    for given, up, down in zip(mm, told["up"], told["down"], strict=True):
        assert up > given
        assert down < given or given == down == 0.0
        assert down >= 0
