"""Forces as people write them, in newtons inside.

``800 N``, ``1.2 kN``, ``80 kgf`` and ``180 lbf`` are read; ``kg`` and ``lb`` on a cord's label mean
the weight of that mass, so they are read as kgf and lbf. Standard gravity is exactly
9.80665 m/s2 (3rd CGPM, 1901).
"""

from __future__ import annotations

from cordwright.units.mass import POUND_G
from cordwright.units.scalar import parse_measure

GRAVITY = 9.80665
"""Weight in N of 1 kg."""
POUND_N = POUND_G / 1000.0 * GRAVITY

UNITS_N: dict[str, float] = {
    "N": 1.0,
    "kN": 1000.0,
    "daN": 10.0,
    "kgf": GRAVITY,
    "kg": GRAVITY,
    "lbf": POUND_N,
    "lb": POUND_N,
    "lbs": POUND_N,
}
"""Every way to write a unit, with its force in N."""
EXAMPLES = "800 N, 1.2 kN, 80 kg or 180 lb"


def parse_force(text: str) -> float:
    """Read one force; the result is in N, finite and not below zero.

    Raises:
        UnitsError: it cannot be read; the remedy says how to write it.

    >>> parse_force("1.2 kN"), parse_force("80 kg")
    (1200.0, 784.532)
    """
    return parse_measure(text, UNITS_N, "a force", EXAMPLES)


def weight_n(g: float) -> float:
    """The weight in N of a mass in g.

    >>> weight_n(1000.0)
    9.80665
    """
    return g / 1000.0 * GRAVITY
