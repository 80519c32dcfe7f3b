from __future__ import annotations

from decimal import Decimal

import pytest

from cordwright.errors import SupplyError
from cordwright.supply.stock import LONGEST_MM, PutUp, Spool, Stock


def test_stock_of_one_cord() -> None:
    thick, thin = Spool("1", "main", 5000.0), Spool("2", "fine", 900.0)
    new = PutUp("3", "fine", 50_000.0, Decimal("12.50"))
    assert Stock((thick, thin), (new,)).of("fine") == Stock((thin,), (new,))


@pytest.mark.parametrize("mm", [0.0, -1.0, float("nan"), float("inf"), 2 * LONGEST_MM])
def test_impossible_lengths(mm: float) -> None:
    with pytest.raises(SupplyError, match="spool rest"):
        Spool("rest", "main", mm)
    with pytest.raises(SupplyError, match="put-up new"):
        PutUp("new", "main", mm)


@pytest.mark.parametrize("price", ["-0.01", "NaN", "Infinity"])
def test_impossible_prices(price: str) -> None:
    with pytest.raises(SupplyError, match="price of 0 or more"):
        Spool("rest", "main", 10.0, Decimal(price))


def test_impossible_numbers() -> None:
    with pytest.raises(SupplyError, match="-1 can be had"):
        PutUp("new", "main", 10.0, most=-1)


def test_two_of_one_name() -> None:
    with pytest.raises(SupplyError, match="called 'a'"):
        Stock((Spool("a", "main", 1.0), Spool("a", "fine", 1.0)))
