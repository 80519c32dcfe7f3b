"""How a cord and a pair of hands differ from ideal hard cord.

The tight knots are those of round cord that neither flattens nor stretches. Real cord does both,
and hands pull differently. A swatch measures that for one cord and one pair of hands; without a
swatch the published figures say how far off the ideal a maker can be.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from cordwright.errors import CordwrightError

IDEAL_RATIO: Final = 16.7 / 4.0
"""Working cord per length of a square-knot sinnet over two fillers, of ideal cord: 16.7 d of each
working strand in a knot 4.0 d high (a trial tightening; pass the tight knot's own figures where
they are at hand)."""


@dataclass(frozen=True, slots=True)
class SinnetFigure:
    """A published length of one working strand per length of square-knot sinnet."""

    ratio: float
    cord: str
    source: str


PUBLISHED: Final = (
    SinnetFigure(3.3, "soft wool, loose", "published, but the source was not kept: unchecked"),
    SinnetFigure(4.0, "any", "common practice: four times the length"),
    SinnetFigure(
        34.0 / 7.0,
        "braided nylon, tight",
        "a maker's log, devilchasnme.blogspot.com, 2008: 37 in cut, 3 in left, 7 in of bar",
    ),
    SinnetFigure(
        (12.0 - 2.0) / 2.0,
        "any",
        "common practice: 12 in of cord in all for an inch of bar, 2 in of them the two fillers",
    ),
)
"""Published figures, from the least cord to the most."""


@dataclass(frozen=True, slots=True)
class Handling:
    """What a cord and hands make of the tight knots.

    Args:
        height_factor: real height of a knot over the tight one's.
        take_up_factor: real take-up of a knot over the tight one's.

    Raises:
        CordwrightError: a factor is not above 0, or not finite.
    """

    height_factor: float = 1.0
    take_up_factor: float = 1.0

    def __post_init__(self) -> None:
        for value in (self.height_factor, self.take_up_factor):
            if not (math.isfinite(value) and value > 0.0):
                raise CordwrightError(
                    f"A handling factor of {value} is not possible.", remedy="measure it again"
                )
