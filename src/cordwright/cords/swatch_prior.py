"""What is known of makers and cords before any swatch: the published spread.

The published lengths of cord per length of sinnet (`handling.PUBLISHED`) are taken as makers drawn
at random: the mean and standard deviation of their logs, against the tight knot's, are those of a
maker and cord about whom nothing is known. That is all that published figures give. How the spread
divides into hands, cord, kind of knot and chance is a choice of ours, unchecked; swatches overrule
it soon. The published figures are for cord per length; that take-up, height and width each spread
as much is assumed.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean, stdev

from cordwright.cords.handling import IDEAL_RATIO, PUBLISHED, SinnetFigure
from cordwright.errors import CordwrightError

REPEAT = 0.04
"""How far one maker's sessions in one cord lie apart, as a part of the factor (from memory,
unchecked: a few parts in a hundred)."""
KNOT = 0.08
"""How far single knots of one sinnet lie apart (a choice of ours)."""
KIND = 0.05
"""How far a kind of knot lies from the others in the same cord (a choice of ours)."""
MAKER_SHARE = 0.5
"""Share of the maker in the rest of the published variance; the other share is the cord's."""
DOF = 8.0
"""How much `REPEAT` is trusted: as if it came from so many sessions (a choice of ours)."""


@dataclass(frozen=True, slots=True)
class Prior:
    """What is known of log factors before any swatch. All but `dof` are in logs.

    Args:
        middle: of all makers and cords.
        maker: standard deviation between makers.
        cord: between cords.
        kind: between kinds of knot in one cord.
        repeat: between sessions of very many knots; the best guess.
        knot: between single knots.
        dof: degrees of freedom of that best guess.

    Raises:
        CordwrightError: a spread is not above 0.
    """

    middle: float
    maker: float
    cord: float
    kind: float = KIND
    repeat: float = REPEAT
    knot: float = KNOT
    dof: float = DOF

    def __post_init__(self) -> None:
        spreads = (self.maker, self.cord, self.kind, self.repeat, self.knot, self.dof)
        if not all(math.isfinite(s) and s > 0.0 for s in spreads):
            raise CordwrightError("A spread between makers is not above 0.")


def published_prior(
    ideal_ratio: float = IDEAL_RATIO, published: Sequence[SinnetFigure] = PUBLISHED
) -> Prior:
    """The prior of take-up factors that published figures give.

    Args:
        ideal_ratio: take-up of a working strand over height, of the tight square knot.
        published: at least two figures.

    >>> prior = published_prior()
    >>> round(prior.middle, 3), round(prior.maker, 3), round(prior.cord, 3)
    (0.013, 0.129, 0.129)
    """
    logs = [math.log(figure.ratio / ideal_ratio) for figure in published]
    return _divided(fmean(logs), stdev(logs))


def shape_prior() -> Prior:
    """The prior of height and width factors: about the tight knot's own, and as wide."""
    return _divided(0.0, stdev(math.log(figure.ratio) for figure in PUBLISHED))


def _divided(middle: float, spread: float) -> Prior:
    rest = spread**2 - REPEAT**2 - KIND**2
    return Prior(middle, math.sqrt(MAKER_SHARE * rest), math.sqrt((1.0 - MAKER_SHARE) * rest))
