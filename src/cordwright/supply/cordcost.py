"""What the cord of one piece costs, by the metre, at the prices on the maker's shelf.

Each cord goes at the least price a metre that a supplier's put-up of it has; where none has a
price, at the least of the lengths at hand (common practice: cord used is replaced at what it costs
to buy). Rests of spools that are bought whole are not in it: that is what a cutting plan is for.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING, Literal

from cordwright.supply.money import rounded
from cordwright.supply.records import Length, Offer
from cordwright.supply.shelf import items

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from cordwright.supply.shelf import Shelf

Why = Literal["not from the shelf", "no price"]
"""Why a cord has no price: the plan names none on the shelf; or that one has no price there."""


@dataclass(frozen=True, slots=True)
class CordCost:
    """What the cord of a piece costs.

    Args:
        amounts: by currency, rounded to its minor unit; empty if nothing has a price.
        unpriced: the plan's names of cords that are not in it, with the reason.
    """

    amounts: Mapping[str, Decimal]
    unpriced: Mapping[str, Why]


def cord_cost(
    db: Shelf | None, cut_mm: Mapping[str, float], shelved: Mapping[str, str]
) -> CordCost:
    """The cost of all cord that is cut.

    Args:
        db: the maker's shelf; None if the plan takes nothing from it.
        cut_mm: mm of each cord, by the plan's name of it.
        shelved: names on the shelf by the plan's names, for cords that are there.
    """
    sums: defaultdict[str, Decimal] = defaultdict(Decimal)
    unpriced: dict[str, Why] = {}
    for cord, mm in cut_mm.items():
        if cord not in shelved or db is None:
            unpriced[cord] = "not from the shelf"
            continue
        found = _per_mm(db, shelved[cord])
        if found is None:
            unpriced[cord] = "no price"
        else:
            sums[found[1]] += found[0] * Decimal(str(mm))
    return CordCost({code: rounded(x, code) for code, x in sorted(sums.items())}, unpriced)


def _per_mm(db: Shelf, cord: str) -> tuple[Decimal, str] | None:
    """The least price of a millimetre, and its currency."""
    return _least(o for o in items(db, Offer) if o.cord == cord) or _least(
        x for x in items(db, Length) if x.cord == cord
    )


def _least(put_ups: Iterable[Offer | Length]) -> tuple[Decimal, str] | None:
    """Of several currencies the one that comes first by its code: nobody changes money here."""
    prices = [
        (p.price.currency, p.price.amount / Decimal(str(p.length_mm)))
        for p in put_ups
        if p.price is not None
    ]
    if not prices:
        return None
    code, amount = min(prices)
    return amount, code
