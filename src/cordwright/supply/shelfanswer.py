"""Every field of the answers of ``cordwright shelf`` and ``swatch`` for programs, with its meaning.

What stands on the shelf is given as people write it, with units: the same texts as in a table
(`cordwright.supply.sheet`), so that what one program reads another can write.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any, Final

from pydantic import BaseModel, ConfigDict, Field, TypeAdapter

from cordwright.supply.writing import KINDS, write_item

if TYPE_CHECKING:
    from cordwright.supply.shelflog import Entry

MEANING: Final = {
    "name": "What it is called; unique among things of its kind.",
    "fibre": "What the cord is made of.",
    "diameter": "Of the cord.",
    "build": "How the cord is made.",
    "colour": "In any words.",
    "weight": "Of a metre of a cord; of one ring, rod or pot.",
    "strength": "The force that breaks the cord, new, dry and without knots.",
    "note": "Anything else.",
    "cord": "Which cord of the shelf it is, or is tied in.",
    "length": "Cord in one piece; of a rod, its length.",
    "supplier": "Who sells it.",
    "price": "Of one; of a length, for all of it.",
    "most": "How many can be had.",
    "sort": "spool, part-spool or left-over.",
    "inside": "Across the inside of a ring.",
    "wire": "Thickness of a ring's wire.",
    "thick": "Of a rod; of a swatch, what it is tied round or mounted on, if not of its own cord.",
    "across": "Across a pot's rim; of a swatch, how many are side by side.",
    "height": "Of a pot; of all knots of a swatch together.",
    "count": "How many there are.",
    "knot": "Which knot.",
    "knots": "How many.",
    "used": "Cord that one working strand, or the whole piece, used.",
    "width": "Of a swatch.",
    "fillers": "Strands that the knot runs round.",
    "strands": "Strands of a braid or overhand knot.",
    "turns": "Of a gathering knot.",
    "slant": "Of rows of double half hitches, degrees.",
    "mount": "What lark's heads are mounted on: ring or rod.",
    "maker": "Whose hands.",
    "mix": "Share of each knot in the knotted cord.",
    "knotted": "Cord that was planned for knots, of ideal cord.",
    "free": "All other cord that was planned.",
}


class _Report(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class ChangeReport(_Report):
    """One thing that an entry of the log changed, in its fields as they are written."""

    kind: str = Field(description="cord, put-up, length, ring, rod, pot, swatch or finished.")
    name: str = Field(description="Of the thing.")
    before: dict[str, str] | None = Field(description="As it was; null if it was not there.")
    after: dict[str, str] | None = Field(description="As it is then; null if it is not there.")


class EntryReport(_Report):
    """An entry of the shelf's log."""

    number: int = Field(ge=1, description="From 1, in the order in which they were made.")
    at: str = Field(description="When, in the maker's own time.")
    what: str = Field(description="In words.")
    undone: bool = Field(description="Whether it was undone.")
    changes: list[ChangeReport] = Field(description="Everything that it changed.")


class LogReport(_Report):
    """What was carried out on the shelf."""

    entries: list[EntryReport] = Field(description="In the order in which they were made.")


class CheckReport(_Report):
    """Whether the shelf is whole."""

    ok: bool = Field(description="Whether it is.")
    problems: list[str] = Field(description="What is wrong, in words.")


class FactorReport(_Report):
    """A factor against the tight knot of ideal cord."""

    factor: float = Field(gt=0, description="Most likely.")
    low: float = Field(gt=0, description="90 in 100 lie above this and below `high`.")
    high: float = Field(gt=0, description="90 in 100 lie below this and above `low`.")
    trials: int = Field(ge=0, description="Swatches and finished pieces of all makers and cords.")
    known: bool = Field(description="Whether any of them is of this maker or cord.")


class FactorsReport(_Report):
    """The three factors."""

    height: FactorReport = Field(description="Of a knot's height.")
    width: FactorReport = Field(description="Of a knot's width.")
    take_up: FactorReport = Field(description="Of the cord that a working strand takes up.")


class SwatchReport(_Report):
    """What swatches and finished pieces say of a cord in a maker's hands."""

    cord: str = Field(description="As asked.")
    maker: str = Field(description="As asked; empty if none was named.")
    factors: FactorsReport = Field(description="Against the tight knots.")
    spare: float = Field(
        ge=0, description="Part of the knotted cord that is enough 95 times in 100 as spare."
    )


def log_json(entries: Iterable[Entry]) -> dict[str, Any]:
    """The shelf's log as JSON values."""
    return LogReport(
        entries=[
            EntryReport(
                number=e.number,
                at=e.at,
                what=e.what,
                undone=e.undone,
                changes=[
                    ChangeReport(
                        kind=next(k.word for k in KINDS.values() if k.type is type(c.thing)),
                        name=c.thing.name,
                        before=None if c.before is None else write_item(c.before),
                        after=None if c.after is None else write_item(c.after),
                    )
                    for c in e.changes
                ],
            )
            for e in entries
        ]
    ).model_dump(mode="json")


def things_schema(words: Iterable[str] = tuple(KINDS)) -> dict[str, Any]:
    """JSON Schema of things by kind, as ``list`` and ``show`` say them."""
    return {
        "type": "object",
        "description": "Things by kind: what list and show say. Empty texts are not known.",
        "additionalProperties": False,
        "properties": {
            word: {
                "type": "array",
                "items": {
                    "type": "object",
                    "title": word,
                    "additionalProperties": False,
                    "required": list(KINDS[word].fields),
                    "properties": {
                        name: {
                            "type": "string",
                            "description": MEANING[name],
                            "examples": [field.codec.example],
                        }
                        for name, field in KINDS[word].fields.items()
                    },
                },
            }
            for word in words
        },
    }


def shelf_schema() -> dict[str, Any]:
    """JSON Schema of every answer of ``cordwright shelf``."""
    return _schema("Cordwright shelf", things_schema(), TypeAdapter(LogReport | CheckReport))


def swatch_schema() -> dict[str, Any]:
    """JSON Schema of every answer of ``cordwright swatch``."""
    listed = things_schema(("swatch", "finished"))
    return _schema("Cordwright swatches", listed, TypeAdapter(SwatchReport))


def _schema(title: str, things: dict[str, Any], others: TypeAdapter[Any]) -> dict[str, Any]:
    schema = others.json_schema(mode="serialization")
    defs = schema.pop("$defs", {})
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": title,
        "$defs": defs,
        "anyOf": [things, *schema.get("anyOf", [schema])],
    }
