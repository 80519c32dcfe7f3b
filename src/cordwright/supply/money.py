"""Decimal money in the currencies of ISO 4217, each with its own minor units."""

from __future__ import annotations

from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal, InvalidOperation, localcontext
from difflib import get_close_matches

from cordwright.errors import SupplyError

LARGEST = Decimal(10) ** 12
"""Amounts are below this: more than any kit costs in any currency."""


def currency(text: str) -> str:
    """The code of a currency that has minor units (0 of them counts), in capitals.

    Raises:
        SupplyError: no such code.

    >>> currency(" eur ")
    'EUR'
    """
    from iso4217 import Currency

    code = text.strip().upper()
    known = {c.code for c in Currency if c.exponent is not None}
    if code not in known:
        near = get_close_matches(code, sorted(known), 1)
        hint = f"did you mean {near[0]}? " if near else ""
        raise SupplyError(
            f"'{text.strip()[:20]}' is not the code of a currency.",
            remedy=f"{hint}use a code of ISO 4217, such as EUR, GBP or JPY",
        )
    return code


def digits(code: str) -> int:
    """Decimals of a currency, by ISO 4217.

    >>> digits("EUR"), digits("JPY"), digits("KWD")
    (2, 0, 3)
    """
    from iso4217 import Currency

    return int(Currency(code).exponent or 0)


def rounded(amount: Decimal, code: str) -> Decimal:
    """To the currency's minor unit, halves away from zero (common practice in bills).

    >>> rounded(Decimal("2.345"), "EUR"), rounded(Decimal("2.5"), "JPY")
    (Decimal('2.35'), Decimal('3'))
    """
    return _to(amount, code, ROUND_HALF_UP)


def rounded_up(amount: Decimal, code: str) -> Decimal:
    """To the next minor unit that is not below the amount: prices that cover what they stand for.

    >>> rounded_up(Decimal("2.341"), "EUR")
    Decimal('2.35')
    """
    return _to(amount, code, ROUND_CEILING)


def _to(amount: Decimal, code: str, rounding: str) -> Decimal:
    with localcontext() as context:
        context.prec = 40
        return amount.quantize(Decimal(1).scaleb(-digits(code)), rounding=rounding)


def shown(amount: Decimal, code: str) -> str:
    """An amount for a person, code first.

    >>> shown(Decimal("1234.5"), "EUR")
    'EUR 1234.50'
    """
    return f"{code} {rounded(amount, code)}"


def parse_amount(text: str, what: str = "amount") -> Decimal:
    """Reads a plain decimal number of 0 or more.

    Raises:
        SupplyError: something else, or too large.

    >>> parse_amount("12.50")
    Decimal('12.50')
    """
    trimmed = text.strip()
    try:
        amount = Decimal(trimmed) if trimmed.isascii() and "_" not in trimmed else Decimal("NaN")
    except InvalidOperation:
        amount = Decimal("NaN")
    if not amount.is_finite() or "e" in trimmed.lower():
        remedy = "write a number with a point, such as 12.50"
        raise SupplyError(f"'{trimmed[:40]}' is no {what}.", remedy=remedy)
    if not 0 <= amount < LARGEST:
        raise SupplyError(
            f"The {what} '{trimmed[:40]}' is not possible.",
            remedy="give 0 or more, and less than a million millions",
        )
    return amount
