"""How much cord stretches under its load.

Taken as a straight line from nothing to the break: a cord at its breaking force is longer by the
elongation at which its fibre breaks (data/stretch.csv). Twist and braid give besides, so real cord
stretches more than this; what is computed stays on the stiff side, where strands share a load less
evenly. Without any stretch the pulls of strands that lie round one thing would not be determined at
all: as many as there are could be told to share one load in many ways.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from cordwright.hang.strength import breaking
from cordwright.hang.tables import table

if TYPE_CHECKING:
    from cordwright.plan.model import CordSpec


def give(cord: CordSpec, diameter_mm: float) -> float:
    """Share of its length that a cord stretches for every newton, 1/N.

    Args:
        cord: the plan's cord; its own strength counts if it has one.
        diameter_mm: the diameter it is worked in, mm.
    """
    rows = table("stretch")
    row = rows.get(cord.fibre.strip().lower(), rows["any"])
    if cord.breaking_n is not None:
        newtons = cord.breaking_n * (diameter_mm / cord.diameter_mm) ** 2
    else:
        newtons = breaking(cord.fibre, cord.build or "")[0].value * diameter_mm**2
    return row.value / 100.0 / newtons
