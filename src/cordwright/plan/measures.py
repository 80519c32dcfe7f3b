"""Kinds of value that weights, volumes, forces and plain numbers take in a plan.

Each is kept as the maker wrote it; the readers in `cordwright.units` say what it is worth.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Annotated, Any

from pydantic import PlainValidator, WithJsonSchema

from cordwright.errors import UnitsError
from cordwright.plan.fields import problem
from cordwright.plan.marks import MarkedFloat, place_of
from cordwright.units import force, mass, volume

MOST_G = 1_000_000.0
"""The heaviest thing a plan may hang: 1 t, in g (docs/hanging.md)."""
MOST_ML = 1_000_000.0
"""The largest volume a plan may name: 1 cubic metre, in ml (docs/hanging.md)."""
MOST_N = 1_000_000.0
"""The strongest cord a plan may name, in N (docs/hanging.md)."""


def _measure(
    read: Callable[[str], float], what: str, examples: str, most: float, most_text: str
) -> Callable[[object], str]:
    """A validator: a text with a unit, above zero and at most so much."""

    def checked(value: object) -> str:
        if isinstance(value, bool) or not isinstance(value, (str, int, float)):
            raise problem(f"{what} is needed here.", f"write it like {examples}")
        text = value.text if isinstance(value, MarkedFloat) else str(value)
        try:
            size = read(text)
        except UnitsError as error:
            raise problem(error.what, error.remedy, place_of(value)) from None
        if size == 0.0:
            raise problem(
                f"'{text}' is nothing at all.", f"write it like {examples}", place_of(value)
            )
        if size > most:
            raise problem(
                f"'{text}' is too much; {most_text} is the most.",
                "check its unit",
                place_of(value),
            )
        return " ".join(text.split())

    return checked


def _schema(description: str, *examples: str) -> WithJsonSchema:
    pattern = r"^\s*(\d|\.\d).*[A-Za-z3]\s*$"
    schema: dict[str, Any] = {"type": "string", "pattern": pattern, "maxLength": 60}
    return WithJsonSchema({**schema, "description": description, "examples": list(examples)})


WeightText = Annotated[
    str,
    PlainValidator(_measure(mass.parse_mass, "A weight", mass.EXAMPLES, MOST_G, "1000 kg")),
    _schema("A weight with its unit (g, kg, lb, oz).", "900 g", "2 lb 3 oz"),
]
VolumeText = Annotated[
    str,
    PlainValidator(_measure(volume.parse_volume, "A volume", volume.EXAMPLES, MOST_ML, "1000 L")),
    _schema("A volume with its unit (ml, cl, L, qt, gal).", "2 L", "500 ml"),
]
ForceText = Annotated[
    str,
    PlainValidator(_measure(force.parse_force, "A force", force.EXAMPLES, MOST_N, "1000 kN")),
    _schema("A force with its unit (N, kN, kg, lb).", "800 N", "80 kg"),
]


def number(least: float, most: float, example: str) -> tuple[PlainValidator, WithJsonSchema]:
    """What makes a field a plain number from ``least`` to ``most``; ``example`` is a whole key."""

    def checked(value: object) -> float:
        plain = isinstance(value, (int, float)) and not isinstance(value, bool)
        if (
            not plain
            or not isinstance(value, (int, float))
            or not (math.isfinite(value) and least <= value <= most)
        ):
            shown = value.text if isinstance(value, MarkedFloat) else str(value)
            raise problem(
                f"'{shown[:40]}' is not a number from {least:g} to {most:g}.",
                f"write it like {example}",
                place_of(value),
            )
        return float(value)

    return (
        PlainValidator(checked),
        WithJsonSchema({"type": "number", "minimum": least, "maximum": most}),
    )
