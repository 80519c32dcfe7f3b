import math

import pytest

from cordwright.cords.cord import Cord, mass_per_metre
from cordwright.errors import CordwrightError


def test_a_weighed_cord_overrules_the_estimate() -> None:
    got = mass_per_metre(Cord("cotton", 4.0, weighed_g_per_m=7.5))
    assert got is not None
    assert (got.low, got.value, got.high) == (7.5, 7.5, 7.5)


def test_an_unknown_build_widens_the_range() -> None:
    known = mass_per_metre(Cord("Cotton ", 4.0, build="braided"))
    unknown = mass_per_metre(Cord("cotton", 4.0))
    assert known is not None
    assert unknown is not None
    assert unknown.low < known.low
    assert unknown.high > known.high


def test_an_unknown_fibre_has_no_estimate() -> None:
    assert mass_per_metre(Cord("moonbeam", 4.0)) is None


@pytest.mark.parametrize("diameter", [0.0, -1.0, 0.05, 101.0, math.nan, math.inf])
def test_refuses_impossible_diameters(diameter: float) -> None:
    with pytest.raises(CordwrightError):
        Cord("cotton", diameter)


@pytest.mark.parametrize("value", [-1.0, math.nan, math.inf])
def test_refuses_impossible_weights_and_prices(value: float) -> None:
    with pytest.raises(CordwrightError):
        Cord("cotton", 4.0, weighed_g_per_m=value)
    with pytest.raises(CordwrightError):
        Cord("cotton", 4.0, price_per_m=value)
