import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.hang.screw import withdrawal
from cordwright.hang.tables import table
from cordwright.plan.hung import Screw

POUND_N, INCH = 4.4482216152605, 25.4


def test_allowed_load_against_a_published_worked_value() -> None:
    """109 lb per inch for a no. 10 screw (0.190 in) in Canadian spruce, G 0.45.

    engineeringtoolbox.com, Wood Screws - Withdrawal Force.
    """
    per_inch = table("screws")["allowable"].value * 0.45**2 * (0.190 * INCH) * INCH / POUND_N
    assert per_inch == pytest.approx(109.0, rel=0.01)


def test_metric_constants_are_the_inch_ones() -> None:
    # 15,700 lb/in2 ultimate (USDA Wood Handbook), 2850 lb/in2 allowed (NDS)
    rows = table("screws")
    assert rows["ultimate"].value == pytest.approx(15_700 * POUND_N / INCH**2, rel=1e-3)
    assert rows["allowable"].value == pytest.approx(2_850 * POUND_N / INCH**2, rel=1e-3)


def test_a_hook_in_pine() -> None:
    held = withdrawal(Screw(4.0, 30.0, "pine"))
    assert held.gravity == 0.35
    assert held.ultimate_n == pytest.approx(108.25 * 0.35**2 * 120.0)
    # 'a fifth or so' of what draws it out, and less for good
    assert 0.15 < held.allowed_n / held.ultimate_n < 0.2
    assert len(held.sources) == 4


@given(st.sampled_from(sorted(table("woods"))), st.floats(1.0, 12.0), st.floats(5.0, 100.0))
def test_longer_and_thicker_hold_in_proportion(wood: str, thick: float, thread: float) -> None:
    one = withdrawal(Screw(thick, thread, wood))  # type: ignore[arg-type]
    for more in (Screw(2 * thick, thread, wood), Screw(thick, 2 * thread, wood)):  # type: ignore[arg-type]
        assert withdrawal(more).allowed_n == pytest.approx(2.0 * one.allowed_n)
        assert withdrawal(more).ultimate_n == pytest.approx(2.0 * one.ultimate_n)


def test_denser_wood_holds_more() -> None:
    allowed = [
        withdrawal(Screw(4.0, 30.0, wood)).allowed_n  # type: ignore[arg-type]
        for wood in sorted(table("woods"), key=lambda w: table("woods")[w].low)
    ]
    assert allowed == sorted(allowed)
