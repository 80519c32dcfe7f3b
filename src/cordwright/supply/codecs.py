"""How single values of things on the shelf are read from people's text, and written as it."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from cordwright.errors import SupplyError
from cordwright.knots.spec import KnotName
from cordwright.supply.price import EXAMPLES, parse_price
from cordwright.units import force, length, mass

MOST_TEXT = 200
MOST_LENGTH_MM = 10_000_000.0  # 10 km: no spool and no rod is longer
MOST_COUNT = 1_000_000
LEAST_MM = 0.001  # lengths are kept to the thousandth of a millimetre


@dataclass(frozen=True, slots=True)
class Codec:
    """A way to write one kind of value.

    Args:
        read: the value from its text; raises `CordwrightError`.
        write: its text.
        example: what it looks like.
    """

    read: Callable[[str], Any]
    write: Callable[[Any], str]
    example: str


def _number(value: float, digits: int = 3) -> str:
    text = f"{value:.{digits}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _text(text: str) -> str:
    kept = text.strip()
    if len(kept) > MOST_TEXT or not all(c.isprintable() for c in kept):
        raise SupplyError(
            f"'{kept[:30]}…' cannot be kept.",
            remedy=f"write at most {MOST_TEXT} letters on one line",
        )
    return kept


def _words(text: str) -> str:
    kept = _text(text)
    if not kept:
        raise SupplyError("Something has to be written here.", remedy="give it a name")
    return kept


def _mm(text: str) -> float:
    mm = round(length.parse_length(text), 3)
    if not LEAST_MM <= mm <= MOST_LENGTH_MM:
        raise SupplyError(
            f"A length of '{text.strip()}' is not possible here.",
            remedy=f"give more than 0 and at most {MOST_LENGTH_MM / 1e6:g} km",
        )
    return mm


def _mm_or_none(text: str) -> float:
    return 0.0 if length.parse_length(text) == 0.0 else _mm(text)


def _diameter(text: str) -> float:
    mm = _mm(text)
    if not 0.1 <= mm <= 100.0:
        raise SupplyError(
            f"A cord of {mm:g} mm cannot be planned; 0.1 mm to 100 mm can.",
            remedy="check the unit",
        )
    return mm


def _g_per_m(text: str) -> float:
    given = text.replace(" ", "")
    if not given.endswith("g/m") or given.endswith("kg/m"):
        raise SupplyError(
            f"'{text[:40]}' is not the weight of a metre.", remedy="write it like 9.5 g/m"
        )
    return round(mass.parse_mass(given.removesuffix("/m")), 6)


def _count(text: str) -> int:
    kept = text.strip()
    if not (kept.isascii() and kept.isdigit() and len(kept) < 9 and int(kept) <= MOST_COUNT):
        raise SupplyError(
            f"'{kept[:40]}' is not a number of things.",
            remedy=f"write a whole number from 0 to {MOST_COUNT}",
        )
    return int(kept)


def _some(text: str) -> int:
    found = _count(text)
    if found < 1:
        raise SupplyError("There must be at least one.", remedy="write 1 or more")
    return found


def _slant(text: str) -> float:
    kept = text.strip().removesuffix("°").strip()
    try:
        found = float(kept) if len(kept) < 9 and kept.isascii() else math.nan
    except ValueError:
        found = math.nan
    if not 0.0 <= found <= 60.0:
        raise SupplyError(f"A slant of '{text[:20]}' is not possible.", remedy="write 0 to 60")
    return found


def _mix(text: str) -> Mapping[str, float]:
    shares: dict[str, float] = {}
    for part in text.split(","):
        name, _, share = part.strip().rpartition(" ")
        try:
            shares[name.strip()] = float(share)
        except ValueError:
            name = ""
        if not name or not 0.0 <= shares[name.strip()] <= 1.0:
            raise SupplyError(
                f"'{text[:40]}' is not a mix of knots.",
                remedy="write it like square-knot 0.75, half-knot 0.25",
            )
    return MappingProxyType(shares)


def _choice(*words: str) -> Callable[[str], str]:
    def read(text: str) -> str:
        kept = text.strip().lower()
        if kept not in words:
            listed = ", ".join(words)
            raise SupplyError(f"'{text[:40]}' is none of {listed}.", remedy=f"use {words[0]}")
        return kept

    return read


TEXT = Codec(_text, str, "words")
NAME = Codec(_words, str, "a name")
LENGTH = Codec(_mm, lambda v: f"{_number(v)} mm", length.EXAMPLES)
LENGTH_OR_NONE = Codec(_mm_or_none, LENGTH.write, length.EXAMPLES)
DIAMETER = Codec(_diameter, lambda v: f"{_number(v)} mm", "4 mm")
G_PER_M = Codec(_g_per_m, lambda v: f"{_number(v, 6)} g/m", "9.5 g/m")
FORCE = Codec(lambda t: round(force.parse_force(t), 3), lambda v: f"{_number(v)} N", force.EXAMPLES)
MASS = Codec(lambda t: round(mass.parse_mass(t), 3), lambda v: f"{_number(v)} g", mass.EXAMPLES)
COUNT = Codec(_count, str, "3")
SOME = Codec(_some, str, "10")
PRICE = Codec(parse_price, str, EXAMPLES)
MIX = Codec(
    _mix,
    lambda v: ", ".join(f"{k} {_number(s)}" for k, s in v.items()),
    "square-knot 0.75, half-knot 0.25",
)
SORT = Codec(_choice("spool", "part-spool", "left-over"), str, "left-over")
KNOT = Codec(_choice(*KnotName), str, "square-knot")
MOUNT = Codec(_choice("ring", "rod"), str, "ring")
SLANT = Codec(_slant, _number, "45")
