from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.errors import SupplyError
from cordwright.supply.cutting import Need, Rules, cutting_plan
from cordwright.supply.pricing import Item, Rates, break_even, cord_cost, costing
from cordwright.supply.stock import Spool, Stock

# Two lengths of 4 m from 10 m for 5.00: 8 m cut, 2 m kept or lost.
NEEDS = [Need("A", 4000.0, 2)]
STOCK = Stock((Spool("1", "main", 10_000.0, Decimal("5.00")),))
KEPT = cutting_plan(NEEDS, STOCK)
LOST = cutting_plan(NEEDS, STOCK, Rules(keep_mm=None))


def test_what_is_lost_is_charged_and_what_is_kept_is_not() -> None:
    assert cord_cost(KEPT) == Decimal(4)
    assert cord_cost(LOST) == Decimal(5)


def test_cord_without_a_price_or_that_is_missing_has_no_cost() -> None:
    free = Stock((Spool("1", "main", 10_000.0),))
    assert cord_cost(cutting_plan(NEEDS, free)) is None
    assert cord_cost(cutting_plan([Need("A", 4000.0, 3)], STOCK)) is None


def test_a_run_by_hand() -> None:
    rates = Rates(
        "EUR",
        fittings=(Item("ring", Decimal("1.20"), 2),),
        packing=(Item("box", Decimal("0.555")),),
        minutes=Decimal(20),
        hourly=Decimal(18),
        overhead=Decimal(10),
        fixed=Decimal(30),
        wholesale=Decimal(2),
        retail=Decimal("2.2"),
    )
    found = costing({"main": KEPT}, 2, rates)
    # cord 4.00; rings 2 x 2 x 1.20; boxes 2 x 0.555; work 2 x 6.00; overhead a tenth of 21.91
    lines = ["4.00", "4.80", "1.11", "12.00", "2.19", "30.00"]
    assert [str(a) for a in found.lines.values()] == lines
    assert str(found.total) == "54.10"
    assert (str(found.per_kit), str(found.wholesale)) == ("27.05", "54.10")
    assert str(found.retail) == "119.02"
    assert found.break_even == 1  # 119.02 - 12.05 is more than 30
    assert found.unpriced == ()


def test_what_has_no_price_is_named() -> None:
    free = cutting_plan(NEEDS, Stock((Spool("1", "main", 10_000.0),)))
    found = costing({"main": free}, 1, Rates("EUR", fittings=(Item("ring", None),)))
    assert found.unpriced == ("cord main", "ring")
    assert found.total == 0


@given(
    st.decimals(0, 10_000, places=2), st.decimals(0, 500, places=2), st.decimals(0, 500, places=2)
)
def test_break_even_is_the_first_number_that_is_enough(
    fixed: Decimal, price: Decimal, each: Decimal
) -> None:
    n = break_even(fixed, price, each)
    if n is None:
        assert price <= each
    else:
        assert n * (price - each) >= fixed
        assert n == 0 or (n - 1) * (price - each) < fixed


@given(st.integers(1, 50), st.decimals(0, 40, places=3), st.sampled_from(["EUR", "JPY", "KWD"]))
def test_lines_add_up_and_kits_cover_the_run(kits: int, price: Decimal, code: str) -> None:
    rates = Rates(code, (Item("bead", price, 3),), minutes=Decimal(7), hourly=Decimal("11.11"))
    found = costing({"main": LOST}, kits, rates)
    assert sum(found.lines.values()) == found.total <= found.per_kit * kits


def test_what_cannot_be_priced() -> None:
    with pytest.raises(SupplyError, match="0 kits"):
        costing({}, 0, Rates("EUR"))
    with pytest.raises(SupplyError, match="too much"):
        costing({}, 1000, Rates("EUR", (Item("gold", Decimal(10) ** 11),)))
    twice = (Item("ring", Decimal(1)), Item("ring", Decimal(2)))
    with pytest.raises(SupplyError, match="twice"):
        costing({}, 1, Rates("EUR", twice))
