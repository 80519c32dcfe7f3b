from __future__ import annotations

import pytest

from tools.swatch_study import (
    IN_OTHERS,
    OTHERS_RISK,
    OWN,
    PAGE,
    RISKS,
    SWATCHES,
    between_published,
    study,
)
from tools.swatch_study import filled as page_of


@pytest.mark.parametrize("swatches", SWATCHES)
@pytest.mark.parametrize("risk", RISKS)
def test_the_stated_chance_holds_over_thousands_of_makers(swatches: int, risk: float) -> None:
    assert study(OWN, swatches, risk).enough == pytest.approx(1.0 - risk, abs=0.02)


@pytest.mark.parametrize("swatches", SWATCHES[1:])
@pytest.mark.parametrize("risk", RISKS)
def test_it_holds_for_knots_of_which_there_is_no_swatch(swatches: int, risk: float) -> None:
    found = study(IN_OTHERS, swatches, risk, other_knots=True)
    assert found.enough == pytest.approx(1.0 - risk, abs=0.02)
    assert found.spare < study(OWN, 0, risk).spare


def test_one_knot_taken_for_another_is_found_out() -> None:
    # A negative control: swatches of other knots, taken for swatches of the piece's own knot.
    assert study(IN_OTHERS, 6, 0.05, 2000).enough < 0.93


def test_a_wrong_model_is_found_out() -> None:
    # A negative control: makers with swatches who tie the piece a fifth tighter do not have enough.
    def changed(rng, makers, swatches):  # type: ignore[no-untyped-def]
        seen, piece = OWN(rng, makers, swatches)
        return seen, piece + 0.2

    assert study(changed, 3, 0.05, 1000).enough < 0.2


def test_makers_unlike_the_model_have_no_less_than_stated() -> None:
    for swatches in SWATCHES:
        assert study(between_published, swatches, OTHERS_RISK).enough > 1.0 - OTHERS_RISK


def test_three_swatches_cut_the_spare() -> None:
    before, after = study(OWN, 0, OTHERS_RISK), study(OWN, 3, OTHERS_RISK)
    assert after.spare < 0.3 * before.spare
    assert after.left < before.left


def test_the_page_is_up_to_date() -> None:
    page = PAGE.read_text(encoding="utf-8")
    assert page_of(page) == page
