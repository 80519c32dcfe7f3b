"""How long tightening takes, and the guard on its own.

Run with ``python -m pytest benchmarks/test_knots.py``. NumPy's threads only slow work of this size
down: set ``OPENBLAS_NUM_THREADS=1``.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from cordwright.knots.canonical import key
from cordwright.knots.compute import SCOUT, compute
from cordwright.knots.contact import near_pairs
from cordwright.knots.drawn import draw
from cordwright.knots.guard import passes
from cordwright.knots.spec import KnotName, KnotSpec
from cordwright.knots.tighten import tighten
from tests.knots.literature import CHECKS

if TYPE_CHECKING:
    from pytest_benchmark.fixture import BenchmarkFixture

KNOTS = (
    KnotSpec(KnotName.SQUARE_KNOT, 4),
    KnotSpec(KnotName.HALF_KNOT, 4),
    KnotSpec(KnotName.HALF_HITCH, 3),
    KnotSpec(KnotName.DOUBLE_HALF_HITCH, 2),
    KnotSpec(KnotName.LARKS_HEAD, 2, over="ring", over_d=1.5),
    KnotSpec(KnotName.OVERHAND, 1),
    KnotSpec(KnotName.OVERHAND, 4),
    KnotSpec(KnotName.GATHERING, 9, turns=6),
    KnotSpec(KnotName.BRAID, 3),
)


@pytest.mark.parametrize("spec", KNOTS, ids=key)
def test_tightening_a_knot(benchmark: BenchmarkFixture, spec: KnotSpec) -> None:
    knot = benchmark.pedantic(compute, args=(spec,), rounds=1)  # type: ignore[no-untyped-call]
    assert knot.figures.height_d > 0


def test_tightening_a_trefoil(benchmark: BenchmarkFixture) -> None:
    trefoil = CHECKS[0].start()
    assert benchmark.pedantic(tighten, args=(trefoil,), rounds=3)  # type: ignore[no-untyped-call]


def test_guarding_a_step(benchmark: BenchmarkFixture) -> None:
    fine = tighten(draw(KNOTS[0]), stages=SCOUT)[-1]
    pairs = near_pairs(fine.mesh, fine.state, 0.35)
    after = replace(fine.state, x=fine.state.x * 0.995)
    assert benchmark(lambda: passes(fine.mesh, fine.state, after, pairs)) == 0
