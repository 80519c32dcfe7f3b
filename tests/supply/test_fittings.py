from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Any

import pytest

from cordwright.piece.work import work
from cordwright.supply.fittings import Fitted, Wanted, fitted, priced, wanted
from cordwright.supply.price import Price
from cordwright.supply.records import Counted, Pot, Ring, Rod
from tests.piece.conftest import MadeUpFigures, mount, plan

if TYPE_CHECKING:
    from cordwright.plan.model import Plan

EUR = Price(Decimal("1.20"), "EUR")
RING = Wanted("ring", (50.0, 6.0))
ROD = Wanted("rod", (300.0, 12.0))


def planned(holder: dict[str, Any], **other: Any) -> Plan:
    given: Plan = plan([], mount=mount(2, holder), **other)
    return given


def test_what_a_plan_asks_for() -> None:
    figures = MadeUpFigures()
    ring = planned(
        {"ring": {"inside": "wide", "wire": "6 mm"}},
        sizes={"wide": "5 cm"},
        hang={
            "holds": {
                "pot": {"rim": "14 cm", "base": "10 cm", "height": "13 cm", "weight": "600 g"}
            }
        },
    )
    assert wanted(work(ring, figures)) == (RING, Wanted("pot", (140.0, 130.0)))
    wider = work(ring, figures, sizes={"wide": "7 cm"})
    assert wanted(wider)[0] == Wanted("ring", (70.0, 6.0))
    rod = planned({"rod": {"length": "30 cm", "thick": "12 mm"}})
    assert wanted(work(rod, figures)) == (ROD,)
    assert wanted(work(planned({"nothing": {}}), figures)) == ()


@pytest.mark.parametrize(
    ("asked", "thing", "fits"),
    [
        (RING, Ring("a", 50.0, 6.0), True),
        (RING, Ring("a", 51.0, 5.0), True),
        (RING, Ring("a", 51.1, 6.0), False),
        (RING, Ring("a", 50.0, 7.1), False),
        (ROD, Rod("a", 299.0, 12.0), True),
        (ROD, Rod("a", 900.0, 12.5), True),  # to be sawn
        (ROD, Rod("a", 298.0, 12.0), False),
        (ROD, Rod("a", 300.0, 14.0), False),
        (RING, Rod("a", 50.0, 6.0), False),
        (Wanted("pot", (140.0, 130.0)), Pot("a", 140.0, 130.0), True),
        (Wanted("pot", (140.0, 130.0)), Pot("a", 140.0, 120.0), False),
    ],
)
def test_what_fits(asked: Wanted, thing: Counted, fits: bool) -> None:
    found = fitted(asked, [thing], 1)
    assert found.on_shelf == (thing if fits else None)


def test_the_shortest_rod_and_the_cheapest_ring_that_are_enough() -> None:
    rods = [Rod("long", 900.0, 12.0, count=9), Rod("right", 310.0, 12.0, count=9)]
    assert fitted(ROD, rods, 2).on_shelf == rods[1]
    assert fitted(ROD, [rods[0], Rod("few", 310.0, 12.0, count=1)], 2).on_shelf == rods[0]
    rings = [
        Ring("dear", 50.0, 6.0, None, 9, Price(Decimal(3), "EUR")),
        Ring("cheap", 50.0, 6.0, None, 9, EUR),
        Ring("free", 50.0, 6.0, None, 9),
    ]
    assert fitted(RING, rings, 1).on_shelf == rings[1]


def test_how_many_are_short() -> None:
    assert fitted(RING, [Ring("a", 50.0, 6.0, count=3)], 5).short == 2
    assert fitted(RING, [Ring("a", 50.0, 6.0, count=5)], 5).short == 0
    assert fitted(RING, [], 5).short == 5


def test_things_of_a_kit_have_the_shelf_s_price_and_weight() -> None:
    there = Fitted(RING, Ring("brass", 50.0, 6.0, 15.0, 3, EUR), 3)
    (item,) = priced([there], "EUR", "metric")
    assert (item.name, item.price, item.count, item.weight_g) == ("brass", EUR.amount, 1, 15.0)
    assert item.size == "5 cm inside, wire of 6 mm"
    assert priced([there], "GBP", "inch")[0].price is None
    (unknown,) = priced([Fitted(ROD, None, 3)], "EUR", "metric")
    assert (unknown.name, unknown.price, unknown.weight_g) == ("rod", None, None)
