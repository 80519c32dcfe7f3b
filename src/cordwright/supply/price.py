"""Prices as people write them: a decimal amount and the currency's code of ISO 4217.

``12.50 EUR`` and ``EUR 12.50`` are read. Money is decimal, never a float, and amounts keep the
digits that they were written with.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from cordwright.errors import SupplyError
from cordwright.supply.money import currency

_AMOUNT = r"([0-9]{1,12}(?:\.[0-9]{1,6})?)"
_CODE = r"([A-Za-z]{3})"
_EITHER = re.compile(rf"{_AMOUNT}[ \t]*{_CODE}|{_CODE}[ \t]*{_AMOUNT}")
EXAMPLES = "12.50 EUR"


@dataclass(frozen=True, slots=True)
class Price:
    """An amount of money.

    Args:
        amount: 0 or more, finite.
        currency: code of ISO 4217 in capitals.
    """

    amount: Decimal
    currency: str

    def __str__(self) -> str:
        return f"{self.amount} {self.currency}"


def parse_price(text: str) -> Price:
    """Read a price.

    Raises:
        SupplyError: no amount, no currency, or a code that ISO 4217 does not have.

    >>> str(parse_price("EUR 12.50")), str(parse_price("800 jpy"))
    ('12.50 EUR', '800 JPY')
    """
    trimmed = text.strip()
    shown = trimmed if len(trimmed) <= 40 else trimmed[:40] + "…"
    found = _EITHER.fullmatch(trimmed)
    if found is None:
        remedy = f"write an amount with a point and a currency, like {EXAMPLES}"
        raise SupplyError(f"'{shown}' is not a price.", remedy=remedy)
    return Price(Decimal(found[1] or found[4]), currency(found[2] or found[3]))
