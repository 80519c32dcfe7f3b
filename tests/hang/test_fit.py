"""Fits of small planters and of the shipped ones; shapes take a second each, so they are shared."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from jsonschema import Draft202012Validator

from cordwright.errors import WorkError
from cordwright.hang.fit import fit_json, fit_report, fit_schema
from cordwright.piece.work import work
from cordwright.plan.hung import hung
from cordwright.plan.read import parse_plan
from cordwright.plan.sizes import resolve_sizes
from tests.examples.conftest import piece_of, plan_of
from tests.hang.cradles import net, net_text
from tests.piece.conftest import MadeUpFigures

if TYPE_CHECKING:
    from cordwright.hang.fitanswer import FitReport

SCHEMA = Path(__file__).parents[2] / "docs" / "fit.schema.json"


@cache
def shipped(name: str) -> FitReport:
    plan = plan_of(name)
    assert plan.hang is not None
    sizes = resolve_sizes(plan)
    return fit_report(piece_of(name), hung(plan.hang, sizes), sizes)


@cache
def small(scale: float = 1.0) -> FitReport:
    return net(scale)[2]


def kinds(report: FitReport) -> list[str]:
    return [t.kind for t in report.troubles]


@pytest.mark.parametrize("name", ["oxbow-planter", "pellow-planter"])
def test_the_shipped_planters_hold_their_pots(name: str) -> None:
    found = shipped(name)
    assert (found.fits, found.troubles) == (True, [])
    assert found.strain < 3.0
    assert found.push is not None
    assert found.push.support_mm > found.push.middle_of_mass_mm
    assert found.gap.across_mm < found.gap.passes_mm
    # Round the pot cord goes to the side: it hangs shorter than the cords' lengths.
    assert found.base.below_hook_mm < found.lowest.below_hook_mm
    assert found.length_mm < found.added_up_mm + 30.0


def test_heights_belong_together() -> None:
    found = small()
    assert found.fits
    assert found.base.below_hook_mm - found.rim.below_hook_mm == pytest.approx(115.0)
    for height in (found.base, found.rim, found.lowest):
        assert height.above_floor_mm is not None
        assert height.above_floor_mm + height.below_hook_mm == pytest.approx(2000.0)
    assert found.lowest.below_hook_mm == found.length_mm
    # Every strand ends its tail below the knot that gathers them, and that is under the base.
    assert found.length_mm > found.base.below_hook_mm + 100.0


def test_all_lengths_grow_alike() -> None:
    one, larger = small(), small(1.5)
    for height in ("base", "rim", "lowest"):
        before, after = (getattr(r, height).below_hook_mm for r in (one, larger))
        assert after == pytest.approx(1.5 * before, rel=0.01)
    assert larger.added_up_mm == pytest.approx(1.5 * one.added_up_mm, rel=1e-6)
    assert larger.gap.across_mm == pytest.approx(1.5 * one.gap.across_mm, rel=0.05)
    assert one.way is not None
    assert larger.way is not None
    assert larger.way.mouth_mm == pytest.approx(1.5 * one.way.mouth_mm, rel=1e-3)


def test_it_moves_towards_the_push() -> None:
    push = small().push
    assert push is not None
    assert push.held
    # As a pendulum of its own height it would move by a tenth of its depth, and no more
    # than twice that where it also slides in its net.
    assert 0.0 < push.shift_mm < 0.2 * small().base.below_hook_mm
    assert 0.0 < push.tilt_deg < 12.0


def test_a_pot_that_is_too_large_cannot_go_in() -> None:
    found = net(rim=330.0, base=300.0, high=250.0)[2]
    assert kinds(found)[0] == "cannot go in"
    assert "round" in found.troubles[0].what
    assert not found.fits


def test_a_pot_that_is_too_small_comes_out() -> None:
    found = net(rim=30.0, base=26.0, high=70.0, mesh=120.0)[2]
    assert set(kinds(found)) & {"comes out", "falls through", "gap", "tips"}
    assert not found.fits


def test_a_net_that_is_too_short_says_so() -> None:
    plan = parse_plan(plan_text_of_tight())
    sizes = resolve_sizes(plan)
    assert plan.hang is not None
    found = fit_report(work(plan, MadeUpFigures()), hung(plan.hang, sizes), sizes)
    assert "cannot go in" in kinds(found)
    assert found.way is not None
    assert found.way.mouth_mm < found.way.round_mm
    missing = found.way.round_mm - found.way.mouth_mm
    assert f"{missing:.0f} mm more" in found.troubles[0].remedy


def plan_text_of_tight() -> str:
    return net_text(mesh=35.0, mesh_least=20.0)


def test_a_hook_that_is_too_low_is_told() -> None:
    plan, piece, _ = net()
    low = parse_plan(net_text(hook=600.0))
    sizes = resolve_sizes(low)
    assert low.hang is not None
    found = fit_report(piece, hung(low.hang, sizes), sizes)
    assert kinds(found) == ["too low"]
    assert "below the floor" in found.troubles[0].what
    assert plan.title == low.title


def test_json_keeps_to_its_published_schema() -> None:
    # To write the page anew: json.dumps(fit_schema(), indent=2) and a line end.
    published = json.loads(SCHEMA.read_text(encoding="utf-8"))
    assert published == fit_schema()
    Draft202012Validator(published).validate(small().model_dump(mode="json"))


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("  holds:\n    pot:", "  # pot:", "does not say what the piece holds"),
        ("  - {join: round}\n", "", "flat"),
    ],
)
def test_what_cannot_hold_anything_is_told(old: str, new: str, told: str) -> None:
    text = net_text()
    if "join" in old:  # flat rows: what is left over at the sides is no error
        text = text.replace(", skip: 2", "")
    plan = parse_plan(text.replace(old, new))
    sizes = resolve_sizes(plan)
    assert plan.hang is not None
    with pytest.raises(WorkError, match=told):
        fit_json(work(plan, MadeUpFigures()), hung(plan.hang, sizes), sizes)
