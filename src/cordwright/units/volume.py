"""Volumes as people write them, in millilitres (cubic centimetres) inside.

``2 L``, ``500 ml``, ``20 cl``, ``1 qt`` and ``1 gal`` are read. One US gallon is exactly 231
cubic inches; quarts and fluid ounces are its parts. Imperial gallons are not read: write litres.
"""

from __future__ import annotations

from cordwright.units.scalar import parse_measure

GALLON_ML = 231.0 * 2.54**3

UNITS_ML: dict[str, float] = {
    "ml": 1.0,
    "mL": 1.0,
    "cm3": 1.0,
    "cl": 10.0,
    "dl": 100.0,
    "l": 1000.0,
    "L": 1000.0,
    "litre": 1000.0,
    "litres": 1000.0,
    "liter": 1000.0,
    "liters": 1000.0,
    "gal": GALLON_ML,
    "qt": GALLON_ML / 4.0,
    "pt": GALLON_ML / 8.0,
    "fl oz": GALLON_ML / 128.0,
}
"""Every way to write a unit, with its volume in ml; gallons and their parts are US ones."""
EXAMPLES = "2 L, 500 ml or 1 qt"


def parse_volume(text: str) -> float:
    """Read one volume; the result is in ml, finite and not below zero.

    Raises:
        UnitsError: it cannot be read; the remedy says how to write it.

    >>> parse_volume("1.5 L"), parse_volume("500 ml")
    (1500.0, 500.0)
    """
    return parse_measure(text, UNITS_ML, "a volume", EXAMPLES)
