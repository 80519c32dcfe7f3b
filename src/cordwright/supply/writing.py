"""How each field of the things on the shelf is written by people, in options and in CSV alike.

Every kind of thing is a table of fields; a field is a name and a pair of functions that read and
write its text. What is written is read back as the same value.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import MISSING, dataclass, fields
from difflib import get_close_matches
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Final

from cordwright.errors import CordwrightError, SupplyError
from cordwright.knots.spec import KnotName
from cordwright.supply import records
from cordwright.supply.price import EXAMPLES, Price, parse_price
from cordwright.units import force, length, mass

if TYPE_CHECKING:
    from cordwright.supply.records import Item

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


@dataclass(frozen=True, slots=True)
class Field:
    """One field of a kind of thing.

    Args:
        word: as people write it.
        name: of the value's attribute, and of the column.
        codec: how it is written.
    """

    word: str
    name: str
    codec: Codec


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of thing on the shelf.

    Args:
        word: what people call it.
        table: where it is kept.
        type: what it becomes.
        fields: in the type's order, by word.
    """

    word: str
    table: str
    type: type[Item]
    fields: Mapping[str, Field]

    def required(self) -> frozenset[str]:
        """Words of the fields that cannot be left out."""
        needed = {f.name for f in fields(self.type) if f.default is MISSING}
        return frozenset(word for word, field in self.fields.items() if field.name in needed)


def _kind(word: str, table: str, made: type[Item], **codecs: Codec) -> Kind:
    names = [f.name for f in fields(made)]
    found = {w.replace("_", "-"): c for w, c in codecs.items()}
    table_of = {w: Field(w, n, c) for (w, c), n in zip(found.items(), names, strict=True)}
    return Kind(word, table, made, MappingProxyType(table_of))


KINDS: Final[Mapping[str, Kind]] = MappingProxyType(
    {
        k.word: k
        for k in (
            _kind(
                "cord", "cords", records.ShelfCord,
                name=NAME, fibre=NAME, diameter=DIAMETER, build=TEXT, colour=TEXT,
                weight=G_PER_M, strength=FORCE, note=TEXT,
            ),
            _kind(
                "put-up", "offers", records.Offer,
                name=NAME, cord=NAME, length=LENGTH, supplier=TEXT, price=PRICE, most=COUNT,
                note=TEXT,
            ),
            _kind(
                "length", "lengths", records.Length,
                name=NAME, cord=NAME, length=LENGTH, sort=SORT, price=PRICE, note=TEXT,
            ),
            _kind(
                "ring", "rings", records.Ring,
                name=NAME, inside=LENGTH, wire=LENGTH, weight=MASS, count=COUNT, price=PRICE,
                note=TEXT,
            ),
            _kind(
                "rod", "rods", records.Rod,
                name=NAME, length=LENGTH, thick=LENGTH, weight=MASS, count=COUNT, price=PRICE,
                note=TEXT,
            ),
            _kind(
                "pot", "pots", records.Pot,
                name=NAME, across=LENGTH, height=LENGTH, weight=MASS, count=COUNT, price=PRICE,
                note=TEXT,
            ),
            _kind(
                "swatch", "swatches", records.SwatchEntry,
                name=NAME, cord=NAME, knot=KNOT, knots=SOME, height=LENGTH, used=LENGTH,
                width=LENGTH, fillers=COUNT, strands=SOME, turns=SOME, slant=SLANT, across=SOME,
                mount=MOUNT, thick=LENGTH, maker=TEXT, note=TEXT,
            ),
            _kind(
                "finished", "finished", records.FinishedEntry,
                name=NAME, cord=NAME, mix=MIX, knots=SOME, knotted=LENGTH, free=LENGTH_OR_NONE,
                used=LENGTH, maker=TEXT, note=TEXT,
            ),
        )
    }
)  # fmt: skip
"""Every kind of thing by its word; cords first, because the others name them."""


class FieldError(SupplyError):
    """One field is wrong; `word` says which."""

    def __init__(self, word: str, what: str, remedy: str) -> None:
        super().__init__(what, remedy=remedy)
        self.word = word


def read_item(kind: Kind, texts: Mapping[str, str]) -> Item:
    """A thing from its fields as written; empty texts count as left out.

    Raises:
        FieldError: a field is not the kind's, is missing or cannot be read.
    """
    given = {word: text for word, text in texts.items() if text.strip()}
    for word in given:
        if word not in kind.fields:
            listed = ", ".join(kind.fields)
            raise FieldError(word, f"A {kind.word} has no {word}.", f"it has {listed}")
    for word in kind.fields:
        if word in kind.required() and word not in given:
            example = kind.fields[word].codec.example
            raise FieldError(word, f"A {kind.word} needs its {word}.", f"write it like {example}")
    values: dict[str, Any] = {}
    for word, text in given.items():
        field = kind.fields[word]
        try:
            values[field.name] = field.codec.read(text)
        except CordwrightError as error:
            raise FieldError(word, f"{word}: {error.what}", error.remedy) from None
    return kind.type(**values)


def write_item(item: Item) -> dict[str, str]:
    """The fields of a thing by word, as `read_item` reads them; empty where nothing is known."""
    found = {}
    for word, field in kind_of(type(item)).fields.items():
        value = getattr(item, field.name)
        found[word] = "" if value is None or value == "" else field.codec.write(value)
    return found


def kind_of(made: type[Any]) -> Kind:
    """The kind that a type belongs to."""
    return next(k for k in KINDS.values() if k.type is made)


def kind_named(word: str) -> Kind:
    """The kind of a word.

    Raises:
        SupplyError: there is none; the remedy names the nearest.
    """
    found = KINDS.get(word.strip().lower())
    if found is None:
        near = get_close_matches(word.lower()[:40], KINDS, 1)
        raise SupplyError(
            f"The shelf does not keep '{word[:40]}'.",
            remedy=f"did you mean {near[0]}?" if near else f"use {', '.join(KINDS)}",
        )
    return found


__all__ = [
    "KINDS",
    "Field",
    "FieldError",
    "Kind",
    "Price",
    "kind_named",
    "kind_of",
    "read_item",
    "write_item",
]
