from __future__ import annotations

import math
from dataclasses import replace

import pytest

from cordwright.cords.swatch import (
    MOST_FACTOR,
    Finished,
    Ideal,
    Swatch,
    factor,
    handling,
    hands,
    measured,
    spare_part,
    used_trial,
)
from cordwright.errors import CordwrightError

IDEAL = Ideal(height_mm=16.0, width_mm=20.0, take_up_mm=67.0)  # of one knot
SOFT = Swatch("Ada", "sand", "square knot", 10, 176.0, 610.0, 22.0)


def test_a_swatch_against_the_tight_knot_by_hand() -> None:
    found = measured(SOFT, IDEAL)
    assert math.exp(found.height.log_factor) == pytest.approx(176.0 / 160.0)
    assert math.exp(found.take_up.log_factor) == pytest.approx(610.0 / 670.0)
    assert found.width is not None
    assert math.exp(found.width.log_factor) == pytest.approx(22.0 / 20.0)
    assert found.take_up.error == pytest.approx(2.0 / 610.0)
    assert measured(replace(SOFT, width_mm=None), IDEAL).width is None


def test_swatches_pull_the_factors_towards_themselves() -> None:
    once, thrice = (hands([measured(SOFT, IDEAL)] * n) for n in (1, 3))
    wanted = math.log(610.0 / 670.0)
    before = factor(hands().take_up, "Ada", "sand")
    first = factor(once.take_up, "Ada", "sand")
    third = factor(thrice.take_up, "Ada", "sand")
    assert before.location > first.location > third.location > wanted
    assert before.scale > first.scale > third.scale
    one_kind = factor(thrice.take_up, "Ada", "sand", "square knot")
    assert abs(one_kind.location - wanted) < abs(third.location - wanted)


def test_handling_says_what_is_most_likely_and_how_much_more_to_cut() -> None:
    known = hands([measured(SOFT, IDEAL)] * 3)
    found = handling(known, "Ada", "sand")
    assert 610.0 / 670.0 < found.take_up_factor < 0.93
    assert 1.08 < found.height_factor < 1.1
    spare = spare_part(known, "Ada", "sand", 0.95)
    assert 0.05 < spare < spare_part(hands(), "Ada", "sand", 0.95)
    assert spare_part(known, "Ada", "sand", 0.99) > spare


def test_the_ideal_ratio_moves_the_middle_of_all_makers() -> None:
    at = [factor(hands(ideal_ratio=r).take_up, "Ada", "sand").location for r in (4.0, 4.4)]
    assert at[0] - at[1] == pytest.approx(math.log(4.4 / 4.0))


def test_a_finished_piece_by_hand() -> None:
    piece = Finished("Ada", "sand", {"square knot": 1.0}, 80, 2000.0, 1000.0, 3200.0)
    found = used_trial(piece)
    assert math.exp(found.log_factor) == pytest.approx(2200.0 / 2000.0)
    assert found.error == pytest.approx(math.hypot(0.02 / 1.6449 * 1000.0, 2.0) / 2200.0)
    known = hands(pieces=[found])
    assert 0.0 < factor(known.take_up, "Ada", "sand", "square knot").location < math.log(1.1)
    assert factor(known.height, "Ada", "sand") == factor(hands().height, "Ada", "sand")


@pytest.mark.parametrize("used", [900.0, 1100.0, 1000.0 + 2000.0 * MOST_FACTOR * 1.01])
def test_left_overs_that_cannot_be_are_refused(used: float) -> None:
    with pytest.raises(CordwrightError) as error:
        used_trial(Finished("Ada", "sand", {"square knot": 1.0}, 80, 2000.0, 1000.0, used))
    assert "left over" in error.value.remedy


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"used_mm": 61.0}, "0.091 times"),
        ({"height_mm": 1760.0}, "height"),
        ({"width_mm": 2.0}, "width"),
        ({"knots": 1}, "times"),
    ],
)
def test_slips_of_the_pen_are_told(change: dict[str, float], message: str) -> None:
    with pytest.raises(CordwrightError, match=message) as error:
        measured(replace(SOFT, **change), IDEAL)  # type: ignore[arg-type]
    assert "number of knots" in error.value.remedy


@pytest.mark.parametrize("change", [{"knots": 0}, {"used_mm": 0.0}, {"height_mm": math.nan}])
def test_swatches_that_are_none_are_refused(change: dict[str, float]) -> None:
    with pytest.raises(CordwrightError):
        replace(SOFT, **change)  # type: ignore[arg-type]
