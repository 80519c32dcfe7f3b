"""What the cord of a piece costs, at the shelf's prices."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

from cordwright.supply.cordcost import cord_cost
from cordwright.supply.price import parse_price
from cordwright.supply.records import Length, Offer, ShelfCord
from cordwright.supply.shelf import Shelf, add, open_shelf


def offer(name: str, cord: str, metres: float, price: str | None) -> Offer:
    return Offer(name, cord, 1000.0 * metres, "", parse_price(price) if price else None)


def stocked(db: Shelf) -> None:
    for cord in ("rope", "twine", "yarn"):
        add(db, ShelfCord(cord, "cotton", 4.0))
    add(db, offer("small", "rope", 50, "10 EUR"))
    add(db, offer("large", "rope", 200, "30 EUR"))
    add(db, offer("unknown", "twine", 200, None))
    add(db, Length("rest", "twine", 20_000.0, price=parse_price("800 JPY")))


def test_the_least_price_a_metre_counts_and_money_is_not_changed(tmp_path: Path) -> None:
    with open_shelf(tmp_path / "shelf.db") as db:
        stocked(db)
        cost = cord_cost(
            db, {"main": 33_330.0, "thin": 10_000.0}, {"main": "rope", "thin": "twine"}
        )
    assert cost.amounts == {"EUR": Decimal("5.00"), "JPY": Decimal(400)}  # 33.33 m at 0.15 EUR
    assert not cost.unpriced


def test_what_has_no_price_is_said(tmp_path: Path) -> None:
    with open_shelf(tmp_path / "shelf.db") as db:
        stocked(db)
        cost = cord_cost(db, {"main": 1000.0, "other": 1000.0}, {"main": "yarn"})
    assert cost.amounts == {}
    assert cost.unpriced == {"main": "no price", "other": "not from the shelf"}


def test_a_plan_that_takes_nothing_from_the_shelf_needs_none() -> None:
    assert cord_cost(None, {"main": 1.0}, {}).unpriced == {"main": "not from the shelf"}
