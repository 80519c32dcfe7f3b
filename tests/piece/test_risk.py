from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.cords.handling import Handling
from cordwright.cords.swatch import Ideal, Swatch, factor, handling, hands, measured
from cordwright.cords.swatch_model import Work, predict
from cordwright.cords.swatch_prior import published_prior
from cordwright.errors import CordwrightError
from cordwright.piece.cutlist import cut_list
from cordwright.piece.lengths import measure
from cordwright.piece.model import Piece
from cordwright.piece.risk import DEFAULT_RISK, Known, needs, unknown
from cordwright.piece.spare import square_knot_ratio
from cordwright.piece.work import work
from cordwright.plan.model import Plan

if TYPE_CHECKING:
    from cordwright.piece.figures import FiguresSource

Given = dict[str, Any]
Worked = Callable[..., Piece]
PlanOf = Callable[..., Plan]
Mount = Callable[..., Given]

SINNET = [{"tie": "square-knot", "each": 4, "times": 10}, {"fringe": "20 cm"}]
SOFT = Swatch("Ada", "sand", "square-knot", 10, 170.0, 0.9 * 10 * 64.0)
IDEAL = Ideal(16.0, 20.0, 64.0)  # the made-up square knot, in 4 mm cord


def swatched(plan_of: PlanOf, figures: FiguresSource, count: int = 3) -> tuple[Piece, Known]:
    known = hands([measured(SOFT, IDEAL)] * count)
    hand = handling(known, "Ada", "sand")
    piece = work(plan_of(SINNET), figures, handling={"main": hand})
    return piece, Known(known.take_up, {"main": "sand"}, "Ada")


def test_a_chosen_risk_is_kept_by_every_strand(worked: Worked) -> None:
    piece = worked(SINNET)
    for risk in (0.2, 0.05, 0.01):
        cuts = cut_list(piece, risk=risk, extra_cord=0.0)
        assert all(1.0 - risk - 1e-6 <= c for c in cuts.chances)
        assert min(cuts.chances) < 1.0 - 0.7 * risk  # and not by far more than was asked
    assert cut_list(piece, risk=0.01).total_mm > cut_list(piece, risk=0.05).total_mm


def test_the_spare_of_a_sinnet_by_hand(worked: Worked) -> None:
    piece = worked([{"tie": "square-knot", "each": 4, "times": 10}, {"fringe": "0 cm"}])
    cuts = cut_list(piece, risk=0.05)
    prior = published_prior(square_knot_ratio(piece))
    new = predict(unknown(piece).take_up, Work("", "?", {"square-knot": 1.0}, 10))
    assert new.location == prior.middle
    worker = cuts.cords[0].spare[0]
    assert worker.free == pytest.approx(0.0)
    assert worker.knots == pytest.approx(640.0 * math.expm1(new.quantile(0.95)), abs=1e-3)


def test_95_in_100_are_enough_unless_a_risk_is_chosen(worked: Worked) -> None:
    piece = worked(SINNET)
    cuts = cut_list(piece)
    assert cuts == cut_list(piece, risk=0.05)
    assert 0.95 - 1e-6 <= min(cuts.chances) < 0.965
    assert not cuts.swatches


def test_swatches_are_used_without_being_asked(plan_of: PlanOf, figures: FiguresSource) -> None:
    piece, known = swatched(plan_of, figures)
    cuts = cut_list(piece, known=known, extra_cord=0.0)
    assert cuts.swatches == {"main"}
    assert 1.0 - DEFAULT_RISK - 1e-6 <= min(cuts.chances) < 1.0 - 0.5 * DEFAULT_RISK
    blind = cut_list(work(plan_of(SINNET), figures))
    assert cuts.total_mm < 0.9 * blind.total_mm
    spare = [sum(s.all for c in found.cords for s in c.spare) for found in (cuts, blind)]
    assert spare[0] < 0.4 * spare[1]


def test_a_strand_of_the_swatches_own_knot_is_put_right(
    plan_of: PlanOf, figures: FiguresSource
) -> None:
    # The piece is worked with the factor of knots at large, which lies nearer to ideal cord than
    # that of the square knots which were tried; the strand's own factor makes up for it.
    piece, known = swatched(plan_of, figures)
    found = needs(piece, measure(piece), known)
    own = factor(known.take_up, "Ada", "sand", "square-knot").location
    at_large = factor(known.take_up, "Ada", "sand").location
    assert own < at_large < 0.0
    assert found.factors[0].location == pytest.approx(own - at_large)


def test_a_cord_that_was_never_tried_learns_from_its_maker_only_by_name(
    plan_of: PlanOf, figures: FiguresSource
) -> None:
    _piece, known = swatched(plan_of, figures)
    other = known._replace(cords={"main": "rust"})
    assert other.has("main")
    assert not known._replace(cords={}).has("main")
    assert not other._replace(maker="Bo").has("main")


def test_cords_already_cut_say_their_chance(worked: Worked, mount_of: Mount) -> None:
    chances = []
    for cut in ("1.5 m", "2 m", "3 m"):
        piece = worked([SINNET[0], {"fringe": "5 cm"}], mount=mount_of(2, cut=cut))
        chances.append(min(cut_list(piece).chances))
    assert 0.4 < chances[0] < chances[1] < chances[2]
    assert chances[2] > 0.99


def test_a_longer_cord_never_has_a_lower_chance(worked: Worked) -> None:
    piece = worked(SINNET)
    chances = [min(cut_list(piece, risk=r).chances) for r in (0.4, 0.3, 0.2, 0.1, 0.05, 0.01)]
    assert chances == sorted(chances)


@given(data=st.data(), risk=st.sampled_from([0.3, 0.05, 0.01]))
def test_any_work_keeps_to_its_risk(
    data: st.DataObject, risk: float, worked: Worked, steps: st.SearchStrategy[list[Given]]
) -> None:
    piece = worked(data.draw(steps))
    cuts = cut_list(piece, risk=risk)
    assert all(1.0 - risk - 1e-4 <= c <= 1.0 for c in cuts.chances)
    for cut in cuts.cords:
        assert cut.used_mm + cut.spare_mm + cut.rounding_mm == pytest.approx(cut.length_mm)


@pytest.mark.parametrize("risk", [0.0, 0.5, 1.0, -1.0])
def test_risks_that_are_none_are_refused(worked: Worked, risk: float) -> None:
    with pytest.raises(CordwrightError, match="cannot be planned"):
        cut_list(worked(SINNET), risk=risk)


def test_handling_without_swatches_counts_as_a_length_that_was_worked_with(
    plan_of: PlanOf, figures: FiguresSource
) -> None:
    plan = plan_of(SINNET)
    loose = work(plan, figures, handling={"main": Handling(1.0, 1.1)})
    found = needs(loose, measure(loose), unknown(loose))
    ideal = work(plan, figures)
    plain = needs(ideal, measure(ideal), unknown(ideal))
    assert found.factors[0].location == pytest.approx(plain.factors[0].location - math.log(1.1))
