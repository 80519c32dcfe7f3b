from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.errors import SupplyError
from cordwright.supply.money import currency, digits, parse_amount, rounded, rounded_up, shown


@pytest.mark.parametrize(
    ("code", "decimals"),
    # ISO 4217, list one of current currencies: minor units.
    [
        ("EUR", 2),
        ("USD", 2),
        ("GBP", 2),
        ("JPY", 0),
        ("ISK", 0),
        ("KWD", 3),
        ("TND", 3),
        ("CLF", 4),
    ],
)
def test_minor_units(code: str, decimals: int) -> None:
    assert digits(currency(code.lower())) == decimals
    assert shown(Decimal(1), code) == f"{code} {Decimal(1):.{decimals}f}"


@pytest.mark.parametrize("text", ["EURO", "€", "", "XAU", "E U"])
def test_what_is_no_currency(text: str) -> None:
    with pytest.raises(SupplyError, match="not the code"):
        currency(text)


@pytest.mark.parametrize("text", ["", "1,50", "-1", "nan", "inf", "1e3", "1_000", "ten", "9" * 30])
def test_what_is_no_amount(text: str) -> None:
    with pytest.raises(SupplyError):
        parse_amount(text)


@given(st.decimals(0, 10**6, allow_nan=False, places=5), st.sampled_from(["EUR", "JPY", "KWD"]))
def test_rounding_stays_within_the_minor_unit(amount: Decimal, code: str) -> None:
    unit = Decimal(1).scaleb(-digits(code))
    assert abs(rounded(amount, code) - amount) <= unit / 2
    assert 0 <= rounded_up(amount, code) - amount < unit
