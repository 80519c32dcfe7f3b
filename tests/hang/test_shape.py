"""Whole pieces as they hang."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest

from cordwright.hang import forces
from cordwright.hang.holding import held_of
from cordwright.hang.settle import BALANCED
from cordwright.hang.shape import Shape, hang, tensions
from cordwright.hang.touching import abreast
from cordwright.hang.worked import worked
from cordwright.piece.work import work
from cordwright.plan.hung import hung
from cordwright.plan.model import Plan
from cordwright.plan.sizes import resolve_sizes
from tests.examples.conftest import ATLAS, piece_of, plan_of
from tests.piece.conftest import MadeUpFigures

if TYPE_CHECKING:
    from cordwright.piece.model import Piece

SETTLED = ["oxbow-planter", "cobble-belt", "tally-fob", "hollin-tieback", "weir-meadow-hanging"]


@pytest.fixture(scope="module", params=SETTLED)
def shape(request: pytest.FixtureRequest) -> Shape:
    return hang(piece_of(request.param))


def pull_of(shape: Shape) -> forces.Pull:
    return shape.settled.pull


def lengths(shape: Shape) -> np.ndarray:
    spans = shape.frame.spans
    return np.asarray(np.linalg.norm(spans.a.at(shape.x) - spans.b.at(shape.x), axis=1))


def test_a_hung_piece_is_at_rest(shape: Shape) -> None:
    """The residual is computed again here, with the contacts of the piece as worked."""
    assert shape.settled.balanced
    touching = abreast(shape.frame, worked(shape.frame))
    left = forces.expand(shape.frame, shape.x, pull_of(shape), touching).gradient
    load = shape.frame.weight.sum()
    assert np.abs(left).max() / load == pytest.approx(shape.settled.residual, rel=1e-6)
    assert np.abs(left).max() / load < BALANCED


def test_what_holds_it_carries_all_of_it(shape: Shape) -> None:
    unheld = replace(shape.frame, free=np.ones_like(shape.frame.free))
    touching = abreast(shape.frame, worked(shape.frame))
    left = forces.expand(unheld, shape.x, pull_of(shape), touching).gradient.reshape(-1, 3)
    load = float(shape.frame.weight.sum())
    held = ~shape.frame.free[:, 2]
    # All nodes together: every inner force has its counterpart.
    assert left.sum(axis=0) == pytest.approx([0.0, 0.0, load], abs=1e-9 * load)
    assert left[held, 2].sum() == pytest.approx(load, rel=0.01)


def test_slack_cord_carries_nothing_and_taut_cord_is_no_longer_than_it_is(shape: Shape) -> None:
    pulls = forces.tensions(shape.frame, shape.x, pull_of(shape))
    length, rest = lengths(shape), shape.settled.rest
    assert (pulls[length <= rest] == 0.0).all()
    assert (pulls >= 0.0).all()
    # Beside what its fibre gives, cord that carries the whole load is 0.02 mm too long.
    own = pulls * rest * shape.frame.spans.give
    over = (length - rest - own)[rest > 10 * forces.ROUNDED]
    assert over.max() < 0.02 * max(1.0, float(pulls.max() / shape.frame.weight.sum())) + 1e-6
    assert own.max() > 0.0


def test_tensions_are_told_by_strand_and_stop(shape: Shape) -> None:
    found = tensions(shape)
    spans = shape.frame.spans
    assert found.keys() == set(zip(spans.strand.tolist(), spans.stop.tolist(), strict=True))
    for strand, stop in found:
        assert stop < len(shape.piece.strands[strand].course)


def test_a_symmetric_planter_hangs_symmetrically() -> None:
    """Its arms on the left and right are mirror images, half knots and all."""
    shape = hang(piece_of("oxbow-planter"))
    start = shape.frame.start
    mirror = np.array([-1.0, 1.0, 1.0])
    far = np.linalg.norm((start * mirror)[:, None] - start[None], axis=2)
    partner = far.argmin(axis=1)
    assert far.min(axis=1).max() < 1e-9
    apart = np.linalg.norm(shape.x * mirror - shape.x[partner], axis=1)
    assert apart.max() < 0.01


def lopsided(*, mirrored: bool) -> Piece:
    """Twelve strands on a rod; made-up knots, whose hands are exact mirror images."""

    def on(first: int, last: int) -> str:
        return f"{13 - last} to {13 - first}" if mirrored else f"{first} to {last}"

    plan = Plan.model_validate(
        {
            "cordwright": 1,
            "title": "Lopsided",
            "cords": {"main": {"fibre": "cotton", "diameter": "4 mm"}},
            "mount": {
                "rod": {"length": "30 cm", "thick": "12 mm"},
                "cords": [{"cord": "main", "count": 6}],
            },
            "work": [
                {"tie": "square-knot", "on": on(1, 4), "times": 3, "free": "2 cm"},
                {"tie": "overhand", "on": on(7, 9), "free": "5 cm"},
                {"tie": "square-knot", "on": on(3, 6), "free": "3 cm"},
                {"tie": "square-knot", "on": on(5, 8), "times": 2, "free": "25 mm"},
            ],
        }
    )
    return work(plan, MadeUpFigures())


def test_a_mirrored_plan_gives_the_mirrored_shape() -> None:
    shapes = [hang(lopsided(mirrored=m)) for m in (False, True)]
    assert all(s.settled.balanced for s in shapes)
    one, other = (s.x[s.frame.bars.top] for s in shapes)
    knotted = [k.id for k in shapes[0].piece.knots if k.id >= 6]
    assert other[knotted] * [-1.0, 1.0, 1.0] == pytest.approx(one[knotted], abs=0.05)
    # It is lopsided, so that the test shows something.
    assert np.abs(one[knotted, 0].sum()) > 5.0


def test_a_shape_that_did_not_settle_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    from cordwright.hang import settle

    monkeypatch.setattr(settle, "MOST_STEPS", 1)
    shape = hang(piece_of("weir-meadow-hanging"))
    assert not shape.settled.balanced
    assert shape.settled.residual > BALANCED


def test_after_a_small_change_it_goes_on_from_the_last_shape() -> None:
    plan = plan_of("oxbow-planter")
    before = hang(work(plan, ATLAS))
    changed = work(plan, ATLAS, sizes={"arm": "19 cm"})
    cold, warm = hang(changed), hang(changed, after=before)
    assert warm.settled.balanced
    assert warm.settled.steps < cold.settled.steps
    assert warm.x == pytest.approx(cold.x, abs=0.2)
    assert warm.open_mm == cold.open_mm


def test_a_pot_hangs_again_in_a_few_steps_from_the_forces_that_it_had() -> None:
    plan = plan_of("oxbow-planter")
    assert plan.hang is not None
    body = hung(plan.hang, resolve_sizes(plan)).holds
    assert body is not None
    held = held_of(body)
    before = hang(work(plan, ATLAS), held)
    assert hang(before.piece, held, after=before).settled.steps <= 1
    changed = work(plan, ATLAS, sizes={"arm": "18.5 cm"})
    cold, warm = hang(changed, held), hang(changed, held, after=before)
    assert warm.settled.balanced
    assert 2 * warm.settled.steps < cold.settled.steps
    assert warm.x == pytest.approx(cold.x, abs=0.2)
    # All of it comes down by as much as the arms are longer.
    lower = before.x[before.vessel_node, 2] - warm.x[warm.vessel_node, 2]
    assert lower == pytest.approx(185.0 - resolve_sizes(plan).mm("arm"), abs=1.0)


def test_a_shape_of_other_knots_is_no_start() -> None:
    other = hang(piece_of("tally-fob"))
    cold = hang(piece_of("cobble-belt"))
    warm = hang(piece_of("cobble-belt"), after=other)
    assert np.array_equal(warm.x, cold.x)


def test_free_cord_that_comes_where_there_was_none_is_no_start() -> None:
    """A joint pulls otherwise than cord: what hung with joints has no forces for cord."""

    def arm(free: str) -> Piece:
        plan = Plan.model_validate(
            {
                "cordwright": 1,
                "title": "Trial",
                "cords": {"main": {"fibre": "cotton", "diameter": "4 mm"}},
                "mount": {
                    "rod": {"length": "30 cm", "thick": "12 mm"},
                    "cords": [{"cord": "main", "count": 4}],
                },
                "work": [
                    {"tie": "square-knot", "each": 4, "times": 2},
                    {"free": free},
                    {"tie": "square-knot", "each": 4},
                ],
            }
        )
        return work(plan, MadeUpFigures())

    before, longer = hang(arm("0 mm")), arm("30 mm")
    warm, cold = hang(longer, after=before), hang(longer)
    assert warm.settled.balanced
    assert warm.x == pytest.approx(cold.x, abs=0.05)
