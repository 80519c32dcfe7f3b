"""What the shelf holds of a plan's cords, as stock to cut from."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import TYPE_CHECKING

from cordwright.supply.stock import PutUp, Spool, Stock

if TYPE_CHECKING:
    from cordwright.supply.price import Price
    from cordwright.supply.records import Length, Offer


def stock_of(
    lengths: Iterable[Length],
    offers: Iterable[Offer],
    names: Mapping[str, str],
    currency: str | None,
) -> Stock:
    """The spools and put-ups of a plan's cords.

    Args:
        lengths: cord at hand.
        offers: suppliers' put-ups.
        names: the plan's name of each cord, by its name on the shelf.
        currency: prices in another currency are left out, as if they were not known; None takes
            them all, which is right while they are only compared with each other.
    """
    return Stock(
        tuple(
            Spool(x.name, names[x.cord], x.length_mm, _in(currency, x.price))
            for x in lengths
            if x.cord in names and x.length_mm > 0
        ),
        tuple(
            PutUp(x.name, names[x.cord], x.length_mm, _in(currency, x.price), x.most)
            for x in offers
            if x.cord in names
        ),
    )


def _in(currency: str | None, price: Price | None) -> Decimal | None:
    if price is None or currency not in (None, price.currency):
        return None
    return price.amount


def names_on_shelf(shelved: Mapping[str, str]) -> dict[str, str]:
    """The plan's name of each cord by its name on the shelf.

    A cord of the shelf that the plan has under several names goes by the first of them, so that its
    spools are cut once.

    >>> names_on_shelf({"main": "sand 4 mm", "edge": "sand 4 mm", "fine": "rust 2 mm"})
    {'sand 4 mm': 'main', 'rust 2 mm': 'fine'}
    """
    names: dict[str, str] = {}
    for plan_name, shelf_name in shelved.items():
        names.setdefault(shelf_name, plan_name)
    return names
