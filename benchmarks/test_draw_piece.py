"""How long pieces take to draw, apart from their shape: it should grow in proportion to knots.

Run with ``python -m pytest benchmarks/test_draw_piece.py``. Wanted: a planter's whole picture in
less than 300 ms, a thousand knots in less than 3 s.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

import pytest

from cordwright.draw.chart_sheet import chart_sheet
from cordwright.draw.piece_sheet import piece_sheet
from cordwright.draw.placed import Placed, placed
from cordwright.draw.scene import scene
from cordwright.hang.framing import frame_of
from cordwright.hang.worked import worked
from cordwright.piece.work import work
from cordwright.plan.model import Plan
from tests.draw.pieces import planter
from tests.examples.conftest import ATLAS

if TYPE_CHECKING:
    from pytest_benchmark.fixture import BenchmarkFixture

    from cordwright.piece.model import Piece

KNOTS = [100, 1_000, 10_000]
CORDS = 20


@cache
def net(knots: int) -> Piece:
    """Alternating square knots, ten and nine in a row."""
    rows = round(knots / 9.5)
    return work(
        Plan.model_validate(
            {
                "cordwright": 1,
                "title": "Net",
                "cords": {"main": {"fibre": "cotton", "diameter": "4 mm"}},
                "mount": {
                    "nothing": {},
                    "cords": [{"cord": "main", "count": 2 * CORDS, "fold": "none"}],
                },
                "work": [
                    {"rows": rows, "tie": "square-knot", "each": 4, "shift": 2, "gap": "1 cm"}
                ],
            }
        ),
        ATLAS,
    )


@cache
def lying(knots: int) -> Placed:
    """The net as it is worked."""
    frame = frame_of(net(knots))
    return placed(net(knots), frame, worked(frame), ATLAS)


def test_planter(benchmark: BenchmarkFixture) -> None:
    what = planter()
    sheet = benchmark(lambda: piece_sheet(what))
    assert sheet.svg.count("<use") == len(what.knots)


@pytest.mark.parametrize("knots", KNOTS)
def test_whole_piece(benchmark: BenchmarkFixture, knots: int) -> None:
    what = lying(knots)
    sheet = benchmark(lambda: piece_sheet(what))
    assert sheet.svg.count("<use") == len(what.knots)


@pytest.mark.parametrize("knots", KNOTS)
def test_chart(benchmark: BenchmarkFixture, knots: int) -> None:
    piece = net(knots)
    chart = benchmark(lambda: chart_sheet(piece, ATLAS))
    assert chart.uses < 100  # two rows and as many repeats


@pytest.mark.parametrize("knots", KNOTS[:2])
def test_scene(benchmark: BenchmarkFixture, knots: int) -> None:
    what = lying(knots)
    data = benchmark(lambda: scene(what))
    assert len(data) < 5_000_000
