import math

import pytest

from cordwright.cords.handling import PUBLISHED, Handling
from cordwright.errors import CordwrightError


def test_the_makers_log_gives_4_86() -> None:
    # devilchasnme.blogspot.com, 2008
    assert any(figure.ratio == pytest.approx(4.86, abs=0.005) for figure in PUBLISHED)


@pytest.mark.parametrize("bad", [0.0, -1.0, math.nan, math.inf])
def test_refuses_impossible_factors(bad: float) -> None:
    for values in ({"height_factor": bad}, {"take_up_factor": bad}):
        with pytest.raises(CordwrightError):
            Handling(**values)


def test_ideal_hands_change_nothing() -> None:
    ideal = Handling()
    assert (ideal.height_factor, ideal.take_up_factor) == (1.0, 1.0)
