"""How a cord and a pair of hands differ from ideal hard cord.

The tight knots are those of round cord that neither flattens nor stretches. Real cord does both,
and hands pull differently. A swatch measures that for one cord and one pair of hands; without a
swatch the published figures say how far off the ideal a maker can be.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
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


def take_up_spread(ideal_ratio: float = IDEAL_RATIO) -> float:
    """Spare that knotted cord needs while no swatch is known, as a fraction of its take-up.

    The cut must be long enough for the makers who need most. The hungriest published sinnet
    needs 5.0 of working strand per length (``PUBLISHED``), ideal cord 16.7 / 4.0 = 4.175, so the
    spare is 5.0 / 4.175 - 1 = 0.198: one fifth of the cord that goes into knots. A maker at the
    other end (3.3) has that fifth left over, and as much again. The figures are for square-knot
    sinnets; for other knots the same fraction is assumed, unchecked. Free cord and tails need none.

    Args:
        ideal_ratio: take-up of a working strand over height, of the tight square knot.

    Raises:
        CordwrightError: the ratio is not above 1 (a knot uses more cord than its height).

    >>> round(take_up_spread(), 3)
    0.198
    """
    if not (math.isfinite(ideal_ratio) and ideal_ratio > 1.0):
        raise CordwrightError(f"A sinnet cannot use {ideal_ratio} of cord per length.")
    return max(0.0, max(f.ratio for f in PUBLISHED) / ideal_ratio - 1.0)


@dataclass(frozen=True, slots=True)
class Handling:
    """What a cord and hands make of the tight knots.

    Args:
        height_factor: real height of a knot over the tight one's.
        take_up_factor: real take-up of a knot over the tight one's.
        spread: spare for knotted cord, as a fraction of its take-up.

    Raises:
        CordwrightError: a factor is not above 0, the spread below 0, or either not finite.
    """

    height_factor: float = 1.0
    take_up_factor: float = 1.0
    spread: float = field(default_factory=take_up_spread)

    def __post_init__(self) -> None:
        for value in (self.height_factor, self.take_up_factor):
            if not (math.isfinite(value) and value > 0.0):
                raise CordwrightError(
                    f"A handling factor of {value} is not possible.", remedy="measure it again"
                )
        if not (math.isfinite(self.spread) and self.spread >= 0.0):
            raise CordwrightError(
                f"A spare of {self.spread} is not possible.", remedy="give 0 or more"
            )
