"""How much spare a cut cord carries, and why.

Two things make a real piece differ from the sum: one's own cord and hands knot tighter or looser
than the ideal cord, and free cord is measured by eye. Tails carry no spare: they are trimmed last.
`cordwright.piece.risk` says how much every strand needs so that it is enough with a given chance;
`Parts` is the plain way, a part of the knotted and of the free cord.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from cordwright.cords.handling import IDEAL_RATIO
from cordwright.knots.spec import KnotName
from cordwright.piece.lengths import KNOTTED, Lengths, Use
from cordwright.units.form import Form

if TYPE_CHECKING:
    from cordwright.piece.model import Piece

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


class Parts(NamedTuple):
    """Spare as a part of the cord that it is added for, whatever the chance.

    Args:
        knots: part of the knotted cord.
        free: part of the free cord.
    """

    knots: float
    free: float


def square_knot_ratio(piece: Piece) -> float:
    """Take-up over height of the piece's own tight square knot; the trial one's if it has none."""
    for spec, figures in piece.figures.items():
        plain = spec.strands == SQUARE_STRANDS and spec.filler_d == 1.0
        if spec.name is KnotName.SQUARE_KNOT and plain:
            return figures.take_up_d[0] / figures.height_d
    return IDEAL_RATIO


def spare_by_parts(piece: Piece, lengths: Lengths, strand: int, parts: Parts) -> Spare:
    """The spare that one strand gets as parts of its cord."""
    uses = lengths.strands[strand]
    knotted = sum(piece.mm(uses[use]) for use in KNOTTED if use in uses)
    return Spare(parts.knots * knotted, parts.free * piece.mm(uses.get(Use.FREE, Form())))
