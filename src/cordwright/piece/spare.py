"""How much spare a cut cord carries, and why.

Two things make a real piece differ from the sum: one's own cord and hands knot tighter or looser
than the ideal cord, and free cord is measured by eye. The first is a part of the cord that goes
into knots, as wide as published figures and one's own swatches spread; the second a part of the
free cord between them. Tails carry none: they are trimmed last. Where the maker chooses a risk, or
has swatches, `cordwright.piece.risk` says what every strand needs instead.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple

from cordwright.cords.handling import IDEAL_RATIO, take_up_spread
from cordwright.knots.spec import KnotName
from cordwright.piece.lengths import KNOTTED, Lengths, Use
from cordwright.units.form import Form

if TYPE_CHECKING:
    from cordwright.piece.model import Piece

MEASURING = 0.02
"""Allowance for measuring free cord, as a part of it: common practice, no published figure."""

SQUARE_STRANDS = 4  # the published sinnets run round two fillers

WHY_KNOTS = "cord and hands differ: knots may use more than the tight ideal cord"
WHY_FREE = "free cord is measured by hand (common practice)"


class Spare(NamedTuple):
    """Spare of one strand, mm.

    Args:
        knots: for the knots.
        free: for the free cord.
    """

    knots: float
    free: float

    @property
    def all(self) -> float:
        """Both together."""
        return self.knots + self.free


class Policy(NamedTuple):
    """What spare is added.

    Args:
        knots: part of the knotted cord, by the plan's name of the cord.
        free: part of the free cord.
        strands: by strand, spare that stands instead of these parts.
    """

    knots: Mapping[str, float]
    free: float = MEASURING
    strands: Mapping[int, Spare] = MappingProxyType({})


def default_policy(piece: Piece) -> Policy:
    """The spare that is wise with what is known of the piece's cords.

    A cord whose handling is known takes the spread of its swatches; for the others it is that of
    the published sinnets, against the tight square knot of the piece itself if it has one.
    """
    unknown = take_up_spread(square_knot_ratio(piece))
    return Policy(
        {
            name: piece.handling[name].spread if name in piece.handling else unknown
            for name in piece.plan.cords
        }
    )


def square_knot_ratio(piece: Piece) -> float:
    """Take-up over height of the piece's own tight square knot; the trial one's if it has none."""
    for spec, figures in piece.figures.items():
        plain = spec.strands == SQUARE_STRANDS and spec.filler_d == 1.0
        if spec.name is KnotName.SQUARE_KNOT and plain:
            return figures.take_up_d[0] / figures.height_d
    return IDEAL_RATIO


def spare_of(piece: Piece, lengths: Lengths, strand: int, policy: Policy) -> Spare:
    """The spare that one strand gets."""
    if strand in policy.strands:
        return policy.strands[strand]
    uses = lengths.strands[strand]
    cord = piece.cords[piece.strands[strand].cord].cord
    knotted = sum(piece.mm(uses[use]) for use in KNOTTED if use in uses)
    part = policy.knots[cord]
    return Spare(part * knotted, policy.free * piece.mm(uses.get(Use.FREE, Form())))
