"""How long it takes until a piece hangs at rest, and how that grows with its knots.

Run with ``python -m pytest benchmarks/test_hang.py --benchmark-only``, and with one thread for the
linear algebra (``OMP_NUM_THREADS=1``). Meant for two cores: a planter in less than 0.2 s, 1,000
knots in less than 2 s, 10,000 in less than 30 s; after a small change of one size a planter in less
than 0.05 s.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

import pytest

from cordwright.hang.counted import as_worked
from cordwright.hang.holding import held_of
from cordwright.hang.shape import hang
from cordwright.knots.atlas import Atlas
from cordwright.piece.work import work
from cordwright.plan.hung import hung
from cordwright.plan.model import Plan
from cordwright.plan.sizes import resolve_sizes
from tests.examples.conftest import piece_of, plan_of

if TYPE_CHECKING:
    from pytest_benchmark.fixture import BenchmarkFixture

    from cordwright.hang.shape import Held
    from cordwright.piece.model import Piece

ATLAS = Atlas()
PLANTER = "oxbow-planter"
KNOTS = [100, 1_000, 10_000]
WIDE = {100: 20, 1_000: 64, 10_000: 200}  # cords, so that panels are about as wide as long


@cache
def panel(knots: int) -> Piece:
    """Alternating square knots on a rod, without free cord."""
    cords = WIDE[knots]
    plan = Plan.model_validate(
        {
            "cordwright": 1,
            "title": "Panel",
            "cords": {"main": {"fibre": "cotton", "diameter": "3 mm"}},
            "mount": {
                "rod": {"length": f"{13 * cords} mm", "thick": "15 mm"},
                "cords": [{"cord": "main", "count": cords}],
            },
            "work": [
                {
                    "rows": round(knots / (cords / 2 - 0.5)),
                    "tie": "square-knot",
                    "each": 4,
                    "shift": 2,
                }
            ],
        }
    )
    return work(plan, ATLAS)


def pot() -> Held:
    """What the planter holds."""
    plan = plan_of(PLANTER)
    assert plan.hang is not None
    body = hung(plan.hang, resolve_sizes(plan)).holds
    assert body is not None
    return held_of(body)


@pytest.mark.parametrize("holds", [False, True], ids=["empty", "with its pot"])
def test_a_planter(benchmark: BenchmarkFixture, *, holds: bool) -> None:
    piece, held = piece_of(PLANTER), pot() if holds else None
    shape = benchmark(lambda: hang(piece, held))
    benchmark.extra_info["steps"] = shape.settled.steps
    assert shape.settled.balanced


@pytest.mark.parametrize("holds", [False, True], ids=["empty", "with its pot"])
def test_a_planter_after_a_small_change(benchmark: BenchmarkFixture, *, holds: bool) -> None:
    held = pot() if holds else None
    before = hang(piece_of(PLANTER), held)
    longer = work(plan_of(PLANTER), ATLAS, sizes={"arm": "18.5 cm"})
    shape = benchmark(lambda: hang(longer, held, after=before))
    benchmark.extra_info["steps"] = shape.settled.steps
    assert shape.settled.balanced


@pytest.mark.parametrize("knots", KNOTS)
def test_a_panel_as_worked(benchmark: BenchmarkFixture, knots: int) -> None:
    piece = panel(knots)
    shape = benchmark(lambda: as_worked(piece))
    assert shape.width_mm is not None


@pytest.mark.parametrize("knots", KNOTS)
def test_a_panel(benchmark: BenchmarkFixture, knots: int) -> None:
    """Growth with size: the three lines together."""
    piece = panel(knots)
    rounds = 1 if knots == max(KNOTS) else 3
    shape = benchmark.pedantic(hang, args=(piece,), rounds=rounds)  # type: ignore[no-untyped-call]
    benchmark.extra_info["knots"] = len(piece.knots)
    benchmark.extra_info["residual"] = shape.settled.residual
    benchmark.extra_info["steps"] = shape.settled.steps
    assert shape.settled.balanced
