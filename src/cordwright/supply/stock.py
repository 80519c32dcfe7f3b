"""What cord there is: spools and left-overs at hand, and what can be bought.

Plain values, whoever gives them: the shelf, the command line, a program. Every price in one
stock is in one currency, which is named beside the stock (`cordwright.supply.money`).
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from cordwright.errors import SupplyError

LONGEST_MM = 10_000_000.0
"""The longest spool that is planned with, 10 km: far above what is sold, so that a slip in the
unit is told instead of being cut from."""


@dataclass(frozen=True, slots=True)
class Spool:
    """One spool, part-spool or left-over at hand: cord in one piece, without a join.

    Args:
        id: what it is called, unique in a stock.
        cord: which cord it is, by the name that the plan has for it.
        length_mm: cord on it, mm; above 0 and at most `LONGEST_MM`.
        price: what the cord on it is worth, all of it together; None if not known.
    """

    id: str
    cord: str
    length_mm: float
    price: Decimal | None = None

    def __post_init__(self) -> None:
        _check(f"spool {self.id}", self.length_mm, self.price)


@dataclass(frozen=True, slots=True)
class PutUp:
    """What a supplier sells: so much cord in one piece, for so much.

    Args:
        id: what it is called, unique in a stock.
        cord: which cord it is, by the name that the plan has for it.
        length_mm: cord in one piece, mm; above 0 and at most `LONGEST_MM`.
        price: of one; None if not known.
        most: how many can be had; None if any number.
    """

    id: str
    cord: str
    length_mm: float
    price: Decimal | None = None
    most: int | None = None

    def __post_init__(self) -> None:
        _check(f"put-up {self.id}", self.length_mm, self.price)
        if self.most is not None and self.most < 0:
            raise SupplyError(
                f"Of put-up {self.id} {self.most} can be had.", remedy="give 0 or more"
            )


@dataclass(frozen=True, slots=True)
class Stock:
    """All cord that a cutting plan may draw on.

    Args:
        spools: at hand.
        put_ups: to buy.
    """

    spools: tuple[Spool, ...] = ()
    put_ups: tuple[PutUp, ...] = ()

    def __post_init__(self) -> None:
        _unique(s.id for s in self.spools)
        _unique(p.id for p in self.put_ups)

    def of(self, cord: str) -> Stock:
        """The part of the stock that is this cord."""
        return Stock(
            tuple(s for s in self.spools if s.cord == cord),
            tuple(p for p in self.put_ups if p.cord == cord),
        )


def _check(what: str, length_mm: float, price: Decimal | None) -> None:
    if not (math.isfinite(length_mm) and 0.0 < length_mm <= LONGEST_MM):
        raise SupplyError(
            f"The {what} has {length_mm:g} mm of cord.",
            remedy=f"give a length above 0 and up to {LONGEST_MM / 1e6:g} km; check the unit",
        )
    if price is not None and not (price.is_finite() and price >= 0):
        raise SupplyError(f"The {what} costs {price}.", remedy="give a price of 0 or more")


def _unique(ids: Iterable[str]) -> None:
    seen: set[str] = set()
    for name in ids:
        if name in seen:
            raise SupplyError(
                f"Two of the stock are called '{name}'.", remedy="give each its own name"
            )
        seen.add(name)
