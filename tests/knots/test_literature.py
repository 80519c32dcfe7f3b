"""The solver against lengths that others published or proved; the sources are in the list."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from cordwright.knots.mesh import State, resampled
from tests.knots.literature import CHECKS, Check, computed, tightened
from tests.topology.kinds import kind_by_topoly, signs_mirrored, summands

if TYPE_CHECKING:
    from cordwright.knots.tangle import Points

KINDS = {
    "trefoil": "3_1",
    "figure-eight": "4_1",
    "5_1": "5_1",
    "4^2_1": "L4a1",
    "Hopf link": "L2a1",
    "chain of 3 rings": "L2a1#L2a1",
}
"""The kinds that topoly's table of names holds. 4^2_1 is L4a1 in Thistlethwaite's table."""


def named(check: Check) -> str:
    return check.what.split(",")[0]


@pytest.mark.parametrize("check", CHECKS, ids=named)
def test_published_figure(check: Check) -> None:
    assert computed(check) == pytest.approx(check.published, abs=check.tolerance)


@pytest.mark.parametrize("check", CHECKS, ids=named)
def test_the_table_in_the_docs_says_so(check: Check) -> None:
    text = (Path(__file__).parents[2] / "docs" / "solver.md").read_text(encoding="utf-8")
    (row,) = (line for line in text.splitlines() if line.startswith(f"| {check.what} |"))
    _, _, published, found, _, _, source, _ = (cell.strip() for cell in row.split("|"))
    assert float(published) == pytest.approx(check.published, rel=1e-5)
    assert float(found) == pytest.approx(computed(check), rel=3e-4)
    assert source == check.source


@pytest.mark.parametrize("check", CHECKS, ids=named)
def test_residuals(check: Check) -> None:
    fine = tightened(check)[-1]
    assert fine.overlap < 0.001
    assert fine.sharpest < 1.005
    assert fine.fall < check.stages[-1].settled


def drawn(check: Check) -> list[Points]:
    tangle = check.start()
    curves = [c.points for c in tangle.courses]
    mesh, state = resampled(tangle, curves, State(curves[0], 0.0, 0.0), 5)
    return [state.x[a:b] for a, b in zip(mesh.start, mesh.start[1:], strict=False)]


@pytest.mark.parametrize("check", [c for c in CHECKS if named(c) in KINDS], ids=named)
def test_start_and_result_are_the_knot_they_should_be(check: Check) -> None:
    pytest.importorskip("topoly")
    fine = tightened(check)[-1]
    before = drawn(check)
    after = [fine.curve(i) for i in range(len(before))]
    kind = KINDS[named(check)]
    assert kind_by_topoly(before).lstrip("+-") == kind
    assert kind_by_topoly(after) == kind_by_topoly(before)
    assert summands(after) == summands(before)


def test_a_chain_is_a_sum_of_hopf_links() -> None:
    check = next(c for c in CHECKS if named(c) == "chain of 4 rings")
    fine = tightened(check)[-1]
    rings = [fine.curve(i) for i in range(4)]
    assert [k.determinant for k in summands(rings)] == [2, 2, 2]
    assert summands(rings) == summands(drawn(check))


def test_the_wrong_knot_would_be_seen() -> None:
    pytest.importorskip("topoly")
    trefoil = drawn(CHECKS[0])
    assert kind_by_topoly(trefoil) != kind_by_topoly(drawn(CHECKS[1]))
    mirror = [c * [1.0, 1.0, -1.0] for c in trefoil]
    assert kind_by_topoly(mirror) == signs_mirrored(kind_by_topoly(trefoil))
    assert kind_by_topoly(mirror) != kind_by_topoly(trefoil)
