"""How long working a plan takes: it should grow in proportion to its knots.

Run with ``python -m pytest benchmarks/test_piece.py``. The figures of the knots are looked up, not
tightened, so that what is measured is the working alone; the numbers themselves do not matter.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from cordwright.knots.spec import KnotFigures, KnotName, KnotSpec, Role
from cordwright.piece.cutlist import cut_list
from cordwright.piece.work import work
from cordwright.plan.model import Plan

if TYPE_CHECKING:
    from pytest_benchmark.fixture import BenchmarkFixture

CORDS = 20  # ten groups of four strands in even rows, nine in odd ones
KNOTS = [100, 1_000, 10_000]


class Even:
    """Square knots with round numbers."""

    def figures(self, spec: KnotSpec) -> KnotFigures:
        if spec.name is KnotName.SQUARE_KNOT:
            roles = (Role.WORKING, Role.FILLER, Role.FILLER, Role.WORKING)
            return KnotFigures(spec, 4.0, 6.0, 3.0, roles, (17.0, 4.0, 4.0, 17.0), (0, 1, 2, 3))
        raise AssertionError(f"the benchmark ties no {spec.name}")


def net(knots: int) -> Plan:
    """Alternating square knots in ever longer work."""
    return Plan.model_validate(
        {
            "cordwright": 1,
            "title": "Net",
            "cords": {"main": {"fibre": "cotton", "diameter": "4 mm"}},
            "sizes": {"gap": "1 cm"},
            "mount": {"nothing": {}, "cords": [{"cord": "main", "count": CORDS}]},
            "work": [
                {"rows": 1, "tie": "square-knot", "each": 4},
                {
                    "rows": round((knots - 10) / 9.5),
                    "tie": "square-knot",
                    "each": 4,
                    "shift": 2,
                    "gap": "gap",
                },
            ],
        }
    )


@pytest.mark.parametrize("knots", KNOTS)
def test_working(benchmark: BenchmarkFixture, knots: int) -> None:
    plan = net(knots)
    piece = benchmark(lambda: work(plan, Even()))
    assert abs(len(piece.knots) - knots) < 12


@pytest.mark.parametrize("knots", KNOTS)
def test_cut_list(benchmark: BenchmarkFixture, knots: int) -> None:
    piece = work(net(knots), Even())
    cuts = benchmark(lambda: cut_list(piece))
    assert cuts.total_mm > 0.0
