"""The kinds of value a plan's keys take: sums, places, names, dimensions.

Each is a pydantic type that reads the written form and keeps its place.
"""

from __future__ import annotations

import re
from typing import Annotated, Any, Final, Literal

from pydantic import Field, PlainSerializer, PlainValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

from cordwright.errors import Place, PlanError
from cordwright.plan.marks import MarkedFloat, place_of
from cordwright.plan.strands import ALL, Places
from cordwright.plan.sums import MOST_COUNT, Sum, Wanted, count, length
from cordwright.plan.sumtree import RESERVED
from cordwright.units.length import EXAMPLES

LEAST_DIAMETER_MM: Final = 0.1
MOST_DIAMETER_MM: Final = 100.0
NAME_PATTERN = r"^[A-Za-z][A-Za-z0-9_]{0,39}$"


def problem(what: str, remedy: str, place: Place | None = None) -> PydanticCustomError:
    """A maker's error in the shape that pydantic collects."""
    return PydanticCustomError("plan", "{what}", {"what": what, "remedy": remedy, "place": place})


def _written(value: object, wanted: str, example: str) -> str:
    """The text of a scalar; numbers as they were written."""
    if isinstance(value, MarkedFloat):
        return value.text
    if isinstance(value, bool) or not isinstance(value, (str, int, float)):
        given = _kind_of(value)
        raise problem(f"{wanted} is needed here, not {given}.", f"write it like {example}")
    if isinstance(value, int) and abs(value) >= 10**15:
        raise problem("A number has more than 15 digits.", "write a smaller one")
    return str(value)


def _kind_of(value: object) -> str:
    if value is None:
        return "nothing"
    kinds = {bool: "yes or no", dict: "a group of keys", list: "a list"}
    return next((word for kind, word in kinds.items() if isinstance(value, kind)), "this")


def _sum(value: object, wants: Wanted, wanted: str, example: str) -> Sum:
    if isinstance(value, Sum):
        return value
    text = _written(value, wanted, example)
    try:
        return Sum.parse(text, place_of(value), wants)
    except PlanError as error:
        raise problem(error.what, error.remedy, error.place) from None


def _length(value: object) -> Sum:
    asked = _sum(value, "length", "A length", EXAMPLES)
    if not asked.names:
        try:
            length(asked, {})
        except PlanError as error:
            raise problem(error.what, error.remedy, error.place) from None
    return asked


def _count(value: object) -> Sum:
    asked = _sum(value, "count", "A whole number", "6 or 2 * rows")
    if not asked.names:
        try:
            count(asked, {})
        except PlanError as error:
            raise problem(error.what, error.remedy, error.place) from None
    return asked


def _amount(value: object) -> Sum:
    return _sum(value, "amount", "A length or a number", "35 cm, 6 or arm / 2")


def _diameter(value: object) -> Sum:
    asked = _length(value)
    if asked.names:
        raise problem(
            f"'{asked.text}' uses a name; a diameter is written out.",
            "write it like 4 mm",
            asked.place,
        )
    mm = length(asked, {}).mm
    if not LEAST_DIAMETER_MM <= mm <= MOST_DIAMETER_MM:
        raise problem(
            f"A cord of {mm:.4g} mm cannot be planned; 0.1 mm to 100 mm can.",
            "check the unit: write it like 4 mm",
            asked.place,
        )
    return asked


def _places(value: object) -> Places:
    if isinstance(value, Places):
        return value
    try:
        if isinstance(value, (list, tuple)):
            return Places.join([_places_text(v) for v in value], place_of(value))
        return _places_text(value)
    except PlanError as error:
        raise problem(error.what, error.remedy, error.place) from None


def _places_text(value: object) -> Places:
    return Places.parse(_written(value, "A place", "all, 3, 1-4 or [1, 2, 7]"), place_of(value))


def _name(value: object) -> str:
    if not isinstance(value, str) or not re.match(NAME_PATTERN, value):
        raise problem(
            f"'{str(value)[:40]}' cannot be a name.",
            "use a letter, then letters, digits or _ (at most 40 in all)",
            place_of(value),
        )
    if value in RESERVED:
        raise problem(
            f"'{value}' has a meaning of its own and cannot be a name.",
            f"choose another, for example {value}_1",
            place_of(value),
        )
    return str(value)


def _as_written(value: Sum | Places) -> str | int | float:
    """As a number where a reader gets the same text back, else as text."""
    if re.fullmatch(r"0|[1-9][0-9]{0,14}", value.text):
        return int(value.text)
    if re.fullmatch(r"[0-9]{1,6}\.[0-9]{1,6}", value.text) and (
        str(float(value.text)) == value.text
    ):
        return float(value.text)
    return value.text


_WRITE = PlainSerializer(_as_written, return_type=str | int | float)
_SUM_TEXT: dict[str, Any] = {"type": "string", "minLength": 1, "maxLength": 300}
_SUM_NUMBER: dict[str, Any] = {"type": "integer", "minimum": 0, "maximum": MOST_COUNT}


def _schema(description: str, *forms: dict[str, Any], examples: list[Any]) -> WithJsonSchema:
    return WithJsonSchema(
        {"anyOf": list(forms), "description": description, "examples": examples}
        if len(forms) > 1
        else {**forms[0], "description": description, "examples": examples}
    )


LengthSum = Annotated[
    Sum,
    PlainValidator(_length),
    _WRITE,
    _schema(
        "A length with its unit (mm, cm, m, in, ft, yd), a sum of lengths, or 0.",
        _SUM_TEXT,
        {"const": 0},
        examples=["35 cm", "3 ft 6 in", "2 * arm - 3 cm"],
    ),
]
CountSum = Annotated[
    Sum,
    PlainValidator(_count),
    _WRITE,
    _schema(
        "A whole number, or a sum that comes to one.",
        _SUM_NUMBER,
        _SUM_TEXT,
        examples=[6, "2 * rows"],
    ),
]
AmountSum = Annotated[
    Sum,
    PlainValidator(_amount),
    _WRITE,
    _schema(
        "A length with its unit, a number, or a sum of either.",
        {"type": "number"},
        _SUM_TEXT,
        examples=["35 cm", 6, "arm / 2"],
    ),
]
Diameter = Annotated[
    Sum,
    PlainValidator(_diameter),
    _WRITE,
    _schema("Diameter with its unit, 0.1 mm to 100 mm.", _SUM_TEXT, examples=["4 mm"]),
]
PlaceList = Annotated[
    Places,
    PlainValidator(_places),
    _WRITE,
    _schema(
        "Strands by their place in the line-up, from 1 at the left: all, 3, 1-4, '1-4, 9-12', "
        "n+1 to end, or a list.",
        {"type": "integer", "minimum": 1},
        {"type": "string", "minLength": 1},
        {
            "type": "array",
            "minItems": 1,
            "items": {"anyOf": [{"type": "integer", "minimum": 1}, {"type": "string"}]},
        },
        examples=["all", "1-4", "n+1 to end"],
    ),
]
WORKER_WORDS: Final = ("outer", "inner", "first", "last")


def _workers(value: object) -> str | Places:
    return str(value) if value in WORKER_WORDS else _places(value)


Workers = Annotated[
    Literal["outer", "inner", "first", "last"] | Places,
    PlainValidator(_workers),
    PlainSerializer(
        lambda v: v if isinstance(v, str) else _as_written(v), return_type=str | int | float
    ),
    _schema(
        "Working strands of a knot: a word, or places within the group.",
        {"enum": list(WORKER_WORDS)},
        {"type": "integer", "minimum": 1},
        {"type": "string", "minLength": 1},
        {
            "type": "array",
            "minItems": 1,
            "items": {"anyOf": [{"type": "integer", "minimum": 1}, {"type": "string"}]},
        },
        examples=["outer", "first", [1, 3]],
    ),
]
SLANT_DEG: Final = {"level": 0.0, "diagonal": 45.0, "steep": 60.0}
"""Degrees below level of the words that ``slant`` takes."""


def _slant(value: object) -> str | float:
    if isinstance(value, str) and value in SLANT_DEG:
        return str(value)
    number = isinstance(value, (int, float)) and not isinstance(value, bool)
    if number and isinstance(value, (int, float)) and 0.0 <= value <= 60.0:
        return float(value)
    what = f"'{value}'" if number or isinstance(value, str) else _kind_of(value)
    raise problem(
        f"A holding cord cannot slant by {what[:40]}.",
        "write level, diagonal, steep or degrees from 0 to 60",
        place_of(value),
    )


Slant = Annotated[
    Literal["level", "diagonal", "steep"] | float,
    PlainValidator(_slant),
    _schema(
        "How far the holding cord dips below level.",
        {"enum": list(SLANT_DEG)},
        {"type": "number", "minimum": 0, "maximum": 60},
        examples=["diagonal", 30],
    ),
]
NameText = Annotated[
    str,
    PlainValidator(_name),
    WithJsonSchema({"type": "string", "pattern": NAME_PATTERN}),
]
_MASS = re.compile(r"([0-9]{1,6}(?:\.[0-9]{1,6})?) ?g */ *m")


def _mass(value: object) -> str:
    found = _MASS.fullmatch(value.strip()) if isinstance(value, str) else None
    if found is None:
        raise problem(
            "A weight is needed here, in grams for a metre of cord.", "write it like 9.5 g/m"
        )
    return f"{found[1]} g/m"


MassText = Annotated[
    str,
    PlainValidator(_mass),
    WithJsonSchema({"type": "string", "pattern": f"^{_MASS.pattern}$"}),
]
FreeText = Annotated[str, Field(max_length=10_000)]
ZERO = Sum.parse("0")
ONE = Sum.parse("1")
__all__ = [
    "ALL",
    "ONE",
    "SLANT_DEG",
    "ZERO",
    "AmountSum",
    "CountSum",
    "Diameter",
    "FreeText",
    "LengthSum",
    "MassText",
    "NameText",
    "PlaceList",
    "Slant",
    "Workers",
    "problem",
]
