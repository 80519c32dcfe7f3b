"""How each field of the things on the shelf is written by people, in options and in CSV alike.

Every kind of thing is a table of fields; a field is a name and a `cordwright.supply.codecs` for its
text. What is written is read back as the same value.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import MISSING, dataclass, fields
from difflib import get_close_matches
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Final

from cordwright.errors import CordwrightError, SupplyError
from cordwright.supply import records
from cordwright.supply.codecs import (
    COUNT,
    DIAMETER,
    FORCE,
    G_PER_M,
    KNOT,
    LENGTH,
    LENGTH_OR_NONE,
    MASS,
    MIX,
    MOUNT,
    NAME,
    PRICE,
    SLANT,
    SOME,
    SORT,
    TEXT,
    Codec,
)

if TYPE_CHECKING:
    from cordwright.supply.records import Item


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
