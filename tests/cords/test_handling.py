import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.cords.handling import PUBLISHED, Handling, take_up_spread
from cordwright.errors import CordwrightError


@given(st.floats(1.01, 8.0))
def test_the_spare_covers_every_published_sinnet(ideal: float) -> None:
    enough = ideal * (1.0 + take_up_spread(ideal))
    assert all(enough >= figure.ratio - 1e-9 for figure in PUBLISHED)


def test_the_spare_is_no_more_than_the_hungriest_needs() -> None:
    ideal = 16.7 / 4.0
    assert ideal * (1.0 + take_up_spread(ideal)) == pytest.approx(5.0)


def test_the_makers_log_gives_4_86() -> None:
    # devilchasnme.blogspot.com, 2008
    assert any(figure.ratio == pytest.approx(4.86, abs=0.005) for figure in PUBLISHED)


@pytest.mark.parametrize("ratio", [0.0, 1.0, -3.0, math.nan, math.inf])
def test_refuses_a_knot_that_uses_no_cord(ratio: float) -> None:
    with pytest.raises(CordwrightError):
        take_up_spread(ratio)


@pytest.mark.parametrize("bad", [0.0, -1.0, math.nan, math.inf])
def test_refuses_impossible_factors(bad: float) -> None:
    for values in ({"height_factor": bad}, {"take_up_factor": bad}, {"spread": bad - 1.0}):
        with pytest.raises(CordwrightError):
            Handling(**values)


def test_ideal_hands_change_nothing_but_keep_a_spare() -> None:
    ideal = Handling()
    assert (ideal.height_factor, ideal.take_up_factor) == (1.0, 1.0)
    assert ideal.spread == take_up_spread()
