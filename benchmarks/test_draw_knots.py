"""How long the figures of knots take, with the atlas's data read already.

Run with ``python -m pytest benchmarks/test_draw_knots.py``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from cordwright.draw.knotfigure import knot_figure
from cordwright.draw.tying import tying
from cordwright.knots.atlas import Atlas
from cordwright.knots.canonical import key
from cordwright.knots.spec import KnotName, KnotSpec

if TYPE_CHECKING:
    from pytest_benchmark.fixture import BenchmarkFixture

ATLAS = Atlas()
KNOTS = (
    KnotSpec(KnotName.SQUARE_KNOT, 4),
    KnotSpec(KnotName.DOUBLE_HALF_HITCH, 2),
    KnotSpec(KnotName.LARKS_HEAD, 2, over="ring", over_d=1.5),
    KnotSpec(KnotName.OVERHAND, 6),
    KnotSpec(KnotName.GATHERING, 25, turns=8),
)


@pytest.mark.parametrize("spec", KNOTS, ids=key)
def test_drawing_a_knot(benchmark: BenchmarkFixture, spec: KnotSpec) -> None:
    knot_figure(ATLAS, spec)
    assert benchmark(lambda: knot_figure(ATLAS, spec)).svg


@pytest.mark.parametrize("spec", KNOTS[:3], ids=key)
def test_drawing_a_tying(benchmark: BenchmarkFixture, spec: KnotSpec) -> None:
    tying(ATLAS, spec)
    assert len(benchmark(lambda: tying(ATLAS, spec))) >= 3


@pytest.mark.parametrize("cells", [2, 8, 32])
def test_growth_with_the_sinnet(benchmark: BenchmarkFixture, cells: int) -> None:
    spec = KNOTS[0]
    assert benchmark(lambda: knot_figure(ATLAS, spec, cells=cells)).svg
