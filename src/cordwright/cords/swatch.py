"""Swatches: a trial sinnet that shows how one's own cord and hands differ from ideal cord.

A swatch is some knots of one kind, tied one below the other with a measured cord. Its height, its
width and the cord that one working strand used, each over what the ideal tight knots have, are
three factors. A finished piece gives a factor too: the cord that was really used over what was
planned for ideal cord.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from cordwright.cords.handling import Handling
from cordwright.cords.swatch_model import Knowledge, Student, Trial, Work, learn, predict
from cordwright.cords.swatch_prior import published_prior, shape_prior
from cordwright.errors import CordwrightError

RULE_MM = 2.0
"""Standard deviation of a length measured with a tape (from memory, unchecked)."""
FREE_SD = 0.02 / 1.6449
"""Standard deviation of free cord measured while working, as a part of it: 2 % is enough 95 times
in 100 (common practice for the 2 %; 1.6449 is the normal quantile)."""
MOST_FACTOR = 3.0
"""A factor beyond this, or below one over this, is a slip of the pen and not a maker's hand: the
published figures lie within a factor of 1.3."""
UNLIMITED = 1e9
"""Knots in a piece so large that single knots no longer matter."""


@dataclass(frozen=True, slots=True)
class Ideal:
    """One tight knot of ideal cord of the swatch's diameter, mm.

    Args:
        height_mm: in a sinnet.
        width_mm: across.
        take_up_mm: of one working strand.
    """

    height_mm: float
    width_mm: float
    take_up_mm: float


@dataclass(frozen=True, slots=True)
class Swatch:
    """A swatch as measured.

    Args:
        maker: who tied it.
        cord: in which cord.
        knot: which kind of knot, in words that are the same for the same knot.
        knots: how many.
        height_mm: of all of them, mm.
        used_mm: cord that one working strand used in them, mm.
        width_mm: of the sinnet, mm; None if not measured.
    """

    maker: str
    cord: str
    knot: str
    knots: int
    height_mm: float
    used_mm: float
    width_mm: float | None = None

    def __post_init__(self) -> None:
        lengths = (
            self.height_mm,
            self.used_mm,
            *([] if self.width_mm is None else [self.width_mm]),
        )
        if self.knots < 1 or not all(math.isfinite(v) and v > 0.0 for v in lengths):
            raise CordwrightError(
                "A swatch needs at least one knot, and lengths above 0.", remedy="measure it again"
            )


@dataclass(frozen=True, slots=True)
class Finished:
    """The cord of one kind in a finished piece, as planned for ideal cord and as used.

    Args:
        maker: who tied it.
        cord: which cord.
        mix: share of each kind of knot in the knotted cord; they sum to 1.
        knots: how many knots took part, each counted once for every strand in it.
        knotted_mm: cord planned for knots, as ideal cord uses it, mm.
        free_mm: cord planned outside of knots, mm.
        used_mm: cord really used, mm: cut, less left over and trimmed off.
    """

    maker: str
    cord: str
    mix: Mapping[str, float]
    knots: int
    knotted_mm: float
    free_mm: float
    used_mm: float


@dataclass(frozen=True, slots=True)
class Measured:
    """The factors of one swatch as trials: height, width (None if not measured) and take-up."""

    height: Trial
    width: Trial | None
    take_up: Trial


def measured(swatch: Swatch, ideal: Ideal) -> Measured:
    """The factors of a swatch against the ideal tight knots.

    Raises:
        CordwrightError: a factor that no cord has.
    """
    n = swatch.knots
    of = Work(swatch.maker, swatch.cord, {swatch.knot: 1.0}, n)
    wide = swatch.width_mm
    return Measured(
        _trial(of, "height", swatch.height_mm, n * ideal.height_mm),
        None if wide is None else _trial(of, "width", wide, ideal.width_mm),
        _trial(of, "cord used", swatch.used_mm, n * ideal.take_up_mm),
    )


def _trial(of: Work, what: str, mm: float, ideal_mm: float) -> Trial:
    factor = mm / ideal_mm
    if not 1.0 / MOST_FACTOR <= factor <= MOST_FACTOR:
        raise CordwrightError(
            f"The swatch's {what}, {mm:.0f} mm, is {factor:.2g} times that of the tight knot, "
            f"{ideal_mm:.0f} mm; between {1 / MOST_FACTOR:.2g} and {MOST_FACTOR:g} is possible.",
            remedy="check the number of knots, the unit, the cord's diameter and which knot it is",
        )
    return Trial(of, math.log(factor), RULE_MM / mm)


def used_trial(piece: Finished) -> Trial:
    """The take-up factor that a finished piece shows.

    Free cord comes out as planned but for measuring, whose error is part of the trial's.

    Raises:
        CordwrightError: no cord was planned for knots, or a factor that no cord has.
    """
    knotted = piece.used_mm - piece.free_mm
    if not (piece.knotted_mm > 0.0 and knotted > 0.0):
        raise CordwrightError(
            f"Of {piece.used_mm:.0f} mm used, {piece.free_mm:.0f} mm are planned outside of knots: "
            "nothing is left for knots.",
            remedy="check what was left over",
        )
    factor = knotted / piece.knotted_mm
    if not 1.0 / MOST_FACTOR <= factor <= MOST_FACTOR:
        raise CordwrightError(
            f"The piece's knots would have used {factor:.2g} times the ideal cord.",
            remedy="check what was left over, and its unit",
        )
    error = math.hypot(FREE_SD * piece.free_mm, RULE_MM) / knotted
    return Trial(Work(piece.maker, piece.cord, piece.mix, piece.knots), math.log(factor), error)


@dataclass(frozen=True, slots=True)
class Hands:
    """What is known of makers and cords: of height, of width and of take-up."""

    height: Knowledge
    width: Knowledge
    take_up: Knowledge


def hands(
    swatches: Sequence[Measured] = (),
    pieces: Sequence[Trial] = (),
    *,
    ideal_ratio: float | None = None,
) -> Hands:
    """What swatches and finished pieces teach.

    Args:
        swatches: as `measured` gives them.
        pieces: as `used_trial` gives them; they teach about take-up only.
        ideal_ratio: take-up over height of the tight square knot, where it is at hand.
    """
    shape = shape_prior()
    prior = published_prior() if ideal_ratio is None else published_prior(ideal_ratio)
    return Hands(
        learn(shape, [s.height for s in swatches]),
        learn(shape, [s.width for s in swatches if s.width is not None]),
        learn(prior, [*(s.take_up for s in swatches), *pieces]),
    )


def factor(known: Knowledge, maker: str, cord: str, knot: str | None = None) -> Student:
    """The log factor of a cord in a maker's hands, of one kind of knot or of knots at large."""
    mix = {} if knot is None else {knot: 1.0}
    return predict(known, Work(maker, cord, mix, UNLIMITED), new=False)


def handling(known: Hands, maker: str, cord: str) -> Handling:
    """How knots of a cord come out in a maker's hands, most likely.

    Args:
        known: what swatches taught.
        maker: whose hands.
        cord: which cord.
    """
    higher = factor(known.height, maker, cord).location
    longer = factor(known.take_up, maker, cord).location
    return Handling(math.exp(higher), math.exp(longer))


def spare_part(known: Hands, maker: str, cord: str, chance: float) -> float:
    """Spare that is enough with the given chance, as a part of the knotted cord.

    Args:
        known: what swatches taught.
        maker: whose hands.
        cord: which cord.
        chance: that it is enough, 0 to 1, for a large piece in knots at large.
    """
    longer = factor(known.take_up, maker, cord).location
    new = predict(known.take_up, Work(maker, cord, {"": 1.0}, UNLIMITED))
    return max(0.0, math.expm1(new.quantile(chance) - longer))
