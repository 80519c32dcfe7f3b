"""What is asked of a run of kits, as people write it: spools, prices, boxes, sums of money.

The words are those of ``cordwright supply``, whoever asks; errors name its options.
"""

from __future__ import annotations

import math
import re
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING

from cordwright.errors import CordwrightError, Place, SupplyError

if TYPE_CHECKING:
    from cordwright.supply.pricing import Item, Rates
    from cordwright.supply.stock import PutUp, Spool, Stock

MOST_ALIKE = 10_000
_TIMES = re.compile(r"\s*[x×]\s*([0-9]{1,6})\s*$")  # noqa: RUF001 - the sign for times


@dataclass(frozen=True, slots=True)
class Asked:
    """What a maker asks for, as text."""

    kits: int
    spools: tuple[str, ...]
    buys: tuple[str, ...]
    keep: str
    setup: str
    seconds: float
    currency: str | None
    fittings: tuple[str, ...]
    packing: tuple[str, ...]
    minutes: str
    hourly: str
    overhead: str
    fixed: str
    wholesale: str
    retail: str
    asked: str | None
    box: str | None
    studio: str
    papers: Path | None
    diameters: tuple[str, ...]
    sizes: tuple[str, ...]
    units: str
    as_json: bool = False
    file: Path | None = None
    maker: str = ""
    risk: float | None = None
    take: bool = False
    in_kit: str = "ring,rod"


def stock(spools: Sequence[str], buys: Sequence[str]) -> Stock:
    """Stock from texts such as ``main=100m@12.50x3``: cord, length, price, number.

    Raises:
        SupplyError, UnitsError: one of them is written otherwise.
    """
    from cordwright.supply.stock import PutUp, Spool, Stock

    at_hand: list[Spool] = []
    numbers: defaultdict[str, int] = defaultdict(int)
    for text in spools:
        cord, mm, price, times = _spool("--spool", text)
        for _ in range(1 if times is None else times):
            numbers[cord] += 1
            at_hand.append(Spool(f"{cord} {numbers[cord]}", cord, mm, price))
    put_ups: dict[str, PutUp] = {}
    for text in buys:
        cord, mm, price, times = _spool("--buy", text)
        name = " ".join(text.split("@")[0].replace("=", " ").split())
        name = _TIMES.sub("", name)
        if name in put_ups:
            raise _wrong("--buy", text, f"'{name}' is given twice.", "give it once")
        put_ups[name] = PutUp(name, cord, mm, price, times)
    return Stock(tuple(at_hand), tuple(put_ups.values()))


def _spool(option: str, text: str) -> tuple[str, float, Decimal | None, int | None]:
    from cordwright.supply.money import parse_amount
    from cordwright.supply.stock import PutUp
    from cordwright.units.length import parse_length

    whole, times = _times(text)
    name, equals, rest = whole.partition("=")
    length, at, price = rest.partition("@")
    if not (name.strip() and equals and length.strip()) or (at and not price.strip()):
        raise _wrong(
            option, text, f"'{text}' is not a cord with a length.",
            f"write it like {option} main=100m, main=100m@12.50 or main=100m@12.50x3",
        )  # fmt: skip
    if times is not None and times > MOST_ALIKE:
        raise _wrong(option, text, f"{times} spools are too many.", f"give up to {MOST_ALIKE:,}")
    try:
        mm = parse_length(length)
        amount = parse_amount(price, "price") if at else None
        PutUp(name.strip(), name.strip(), mm, amount)  # says what is wrong with length and price
    except CordwrightError as error:
        raise _wrong(option, text, error.what, error.remedy) from None
    return name.strip(), mm, amount, times


def _times(text: str) -> tuple[str, int | None]:
    found = _TIMES.search(text)
    return (text[: found.start()], int(found[1])) if found else (text, None)


def items(option: str, given: Sequence[str]) -> tuple[Item, ...]:
    """Things from texts such as ``ring=1.20@15gx2``: name, price, weight, number.

    Raises:
        SupplyError, UnitsError: one of them is written otherwise.
    """
    return tuple(_item(option, text) for text in given)


def _item(option: str, text: str) -> Item:
    from cordwright.supply.money import parse_amount
    from cordwright.supply.pricing import Item
    from cordwright.units.mass import parse_mass

    whole, times = _times(text)
    front, at, weight = whole.partition("@")
    name, equals, price = front.partition("=")
    if not name.strip():
        example = f"write it like {option} ring=1.20, ring=1.20@15g or ring=1.20@15gx2"
        raise _wrong(option, text, f"'{text}' has no name.", example)
    try:
        amount = parse_amount(price, "price") if equals else None
        grams = parse_mass(weight) if at else None
    except CordwrightError as error:
        raise _wrong(option, text, error.what, error.remedy) from None
    return Item(name.strip(), amount, 1 if times is None else times, grams)


def in_kit(text: str) -> frozenset[str]:
    """Which of ring, rod and pot go into a kit, from a text such as ``ring,pot``, or ``none``.

    Raises:
        SupplyError: something else stands there.
    """
    words = {word.strip().lower() for word in text.split(",")}
    if words == {"none"}:
        return frozenset()
    if not words <= {"ring", "rod", "pot"}:
        raise _wrong(
            "--in-kit", text, f"'{text}' is not what goes into a kit.",
            "write some of ring,rod,pot, or none",
        )  # fmt: skip
    return frozenset(words)


def rates(given: Asked) -> Rates | None:
    """What goes into the price; None if no currency is given.

    Raises:
        SupplyError: something is no amount, or a price stands without a currency.
    """
    from cordwright.supply.money import currency, parse_amount
    from cordwright.supply.pricing import Rates

    def amount(option: str, text: str) -> Decimal:
        try:
            return parse_amount(text, option.removeprefix("--"))
        except SupplyError as error:
            raise _wrong(option, text, error.what, error.remedy) from None

    found = Rates(
        currency(given.currency) if given.currency is not None else "",
        items("--fitting", given.fittings),
        items("--packing", given.packing),
        amount("--minutes", given.minutes),
        amount("--hourly", given.hourly),
        amount("--overhead", given.overhead),
        amount("--fixed", given.fixed),
        amount("--wholesale", given.wholesale),
        amount("--retail", given.retail),
        None if given.asked is None else amount("--asked", given.asked),
    )
    if given.currency is not None:
        return found
    priced = any(i.price for i in (*found.fittings, *found.packing))
    if priced or found.hourly or found.fixed or found.asked:
        raise SupplyError("Prices stand without a currency.", remedy="add --currency EUR, or yours")
    return None


def length(option: str, text: str) -> float:
    """A length in mm.

    Raises:
        UnitsError: it is none.
    """
    from cordwright.units.length import parse_length

    try:
        return parse_length("0 mm" if text.strip() == "0" else text)
    except CordwrightError as error:
        raise _wrong(option, text, error.what, error.remedy) from None


def box(text: str) -> tuple[float, float, float]:
    """Three sides in mm from a text such as ``30x20x5cm``: one unit for all, or one each.

    Raises:
        SupplyError: not three sides, or one of nothing.
    """
    sides = re.split(r"[x×]", text)  # noqa: RUF001 - the sign for times
    unit = re.sub(r"^[\s0-9.]*", "", sides[-1]).strip()
    if len(sides) != 3:
        raise _wrong("--box", text, f"'{text}' has not three sides.", "write it like 30x20x5cm")
    found = [length("--box", s if re.search(r"[^\s0-9.]", s) else f"{s} {unit}") for s in sides]
    if not all(0 < mm <= 10_000 and math.isfinite(mm) for mm in found):
        raise _wrong("--box", text, "A side of the box is not possible.", "give up to 10 m")
    return found[0], found[1], found[2]


def _wrong(option: str, text: str, what: str, remedy: str) -> SupplyError:
    return SupplyError(what, remedy=remedy, place=Place(f"{option} {text}"))
