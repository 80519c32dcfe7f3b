"""Weights as people write them, in grams inside.

``900 g``, ``1.2 kg``, ``2 lb``, ``8 oz`` and ``2 lb 3 oz`` are read. One pound is exactly
0.45359237 kg (international yard and pound agreement of 1959), one ounce a sixteenth of it.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from cordwright.errors import UnitsError
from cordwright.units.scalar import parse_measure

if TYPE_CHECKING:
    from cordwright.units.length import System

POUND_G = 453.59237
OUNCE_G = POUND_G / 16.0

UNITS_G: dict[str, float] = {
    "g": 1.0,
    "kg": 1000.0,
    "lb": POUND_G,
    "lbs": POUND_G,
    "pound": POUND_G,
    "pounds": POUND_G,
    "oz": OUNCE_G,
    "ounce": OUNCE_G,
    "ounces": OUNCE_G,
}
"""Every way to write a unit, with its mass in g."""
EXAMPLES = "900 g, 1.2 kg, 2 lb or 8 oz"


def parse_mass(text: str) -> float:
    """Read one weight; the result is in g, finite and not below zero.

    Raises:
        UnitsError: it cannot be read; the remedy says how to write it.

    >>> parse_mass("1.2 kg"), parse_mass("2 lb")
    (1200.0, 907.18474)
    """
    return parse_measure(text, UNITS_G, "a weight", EXAMPLES)


def format_mass(g: float, system: System) -> str:
    """Write a weight for a person, to about three figures.

    >>> format_mass(1234.0, "metric"), format_mass(85.2, "metric"), format_mass(1234.0, "inch")
    ('1.23 kg', '85 g', '2.72 lb')
    """
    if not math.isfinite(g):
        raise UnitsError(f"A weight of {g} g cannot be written down.")
    if system == "metric":
        return f"{g:.0f} g" if abs(g) < 999.5 else f"{_three(g / 1000.0)} kg"
    return f"{g / OUNCE_G:.1f} oz" if abs(g) < POUND_G else f"{_three(g / POUND_G)} lb"


def _three(value: float) -> str:
    return f"{value:.2f}" if abs(value) < 10.0 else f"{value:.1f}"
