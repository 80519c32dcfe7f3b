"""How likely the cut lengths are to be enough, and what to cut for a risk that the maker chooses.

What one's cord and hands make of knots is known as well as swatches and published figures tell
(`cordwright.cords.swatch_model`); free cord is measured by eye; tails are trimmed last and need
nothing. Strands of one cord share hands and cord, so they run short together: the chance of a cord
is given as that of its worse strand.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from cordwright.cords.swatch import FREE_SD
from cordwright.cords.swatch_length import Doubts, chance, length_for
from cordwright.cords.swatch_model import Knowledge, Student, Work, learn, predict
from cordwright.cords.swatch_prior import published_prior
from cordwright.piece.lengths import KNOTTED, Lengths, Use
from cordwright.piece.spare import Spare, square_knot_ratio
from cordwright.units.form import Form

if TYPE_CHECKING:
    from cordwright.piece.model import Piece, Strand

DEFAULT_RISK = 0.05
"""Risk where the maker chooses none: 95 in 100 is enough."""
SHARE_DIGITS = 3  # of the share of a kind of knot: strands that differ by less are alike
NOBODY = ""


class Known(NamedTuple):
    """What is known of the piece's cords in its maker's hands.

    Args:
        take_up: what swatches and finished pieces taught of take-up.
        cords: by the plan's name of a cord, its name there; cords without one are new.
        maker: whose hands.
    """

    take_up: Knowledge
    cords: Mapping[str, str]
    maker: str = NOBODY

    def has(self, cord: str) -> bool:
        """Whether anything but published figures is known of one of the plan's cords."""
        name = self.cords.get(cord)
        return name is not None and self.take_up.knows(self.maker, name)


def unknown(piece: Piece) -> Known:
    """What is known without swatches: the published spread."""
    return Known(learn(published_prior(square_knot_ratio(piece)), ()), {})


class Needs(NamedTuple):
    """What the strands need at factor 1, mm, and how far that is from certain.

    Args:
        sure: tails, by strand.
        free: free cord.
        knotted: cord in knots.
        factors: log factor of each strand's knotted cord.
    """

    sure: Sequence[float]
    free: Sequence[float]
    knotted: Sequence[float]
    factors: Sequence[Student]

    def of(self, strands: Sequence[int]) -> Doubts:
        """The doubts of some strands, in this order."""
        factors = [self.factors[s] for s in strands]
        return Doubts(
            np.array([self.sure[s] for s in strands]),
            np.array([self.free[s] for s in strands]),
            np.array([self.knotted[s] for s in strands]),
            np.array([f.location for f in factors]),
            np.array([f.scale for f in factors]),
            np.array([f.dof for f in factors]),
        )


def needs(piece: Piece, lengths: Lengths, known: Known) -> Needs:
    """What every strand of a piece needs, by strand.

    Args:
        piece: as worked; its handling is what the lengths were worked with.
        lengths: its lengths.
        known: what is known of its cords.
    """
    nothing = Form()

    def mm(uses: Mapping[Use, Form], *which: Use) -> float:
        return sum(piece.mm(uses.get(use, nothing)) for use in which)

    cache: dict[tuple[object, ...], Student] = {}
    values: dict[int, float] = {}
    factors = []
    for strand in piece.strands:
        cord = piece.cords[strand.cord].cord
        shares = mix_of(piece, strand, values)
        key = (cord, len(strand.course), *sorted(shares.items()))
        if key not in cache:
            cache[key] = _factor(piece, known, cord, shares, max(1, len(strand.course)))
        factors.append(cache[key])
    each = lengths.strands
    return Needs(
        [mm(uses, Use.TAIL) for uses in each],
        [mm(uses, Use.FREE) for uses in each],
        [mm(uses, *KNOTTED) for uses in each],
        factors,
    )


def mix_of(piece: Piece, strand: Strand, values: dict[int, float]) -> dict[str, float]:
    """Share of each kind of knot in a strand's knotted cord; empty if it has none.

    Args:
        piece: as worked.
        strand: one of its strands.
        values: lengths in mm by the identity of their form, which knots alike share; filled here.
    """
    by_kind: defaultdict[str, float] = defaultdict(float)
    for stop in strand.course:
        mm = values.get(id(stop.take_up))
        if mm is None:
            mm = values[id(stop.take_up)] = piece.mm(stop.take_up)
        by_kind[str(piece.knots[stop.knot].spec.name)] += mm
    return rounded_shares(by_kind)


def rounded_shares(by_kind: Mapping[str, float]) -> dict[str, float]:
    """Parts of a whole, to three decimals; empty if there is nothing.

    >>> rounded_shares({"square-knot": 30.0, "half-knot": 10.0})
    {'square-knot': 0.75, 'half-knot': 0.25}
    """
    whole = sum(by_kind.values())
    if whole <= 0.0:
        return {}
    return {kind: round(mm / whole, SHARE_DIGITS) for kind, mm in by_kind.items()}


def _factor(
    piece: Piece, known: Known, cord: str, shares: Mapping[str, float], knots: int
) -> Student:
    """The log factor of a strand against the length that it was worked with."""
    name = known.cords.get(cord, f"plan:{cord}")
    found = predict(known.take_up, Work(known.maker, name, shares, knots))
    handling = piece.handling.get(cord)
    done = math.log(handling.take_up_factor) if handling is not None else 0.0
    return Student(found.location - done, found.scale, found.dof)


def spares(of: Needs, risk: float) -> list[Spare]:
    """The spare of every strand of a piece for a risk; never below 0.

    It is divided between knots and free cord by how much each of them is in doubt.

    Args:
        of: needs of its strands.
        risk: chance, above 0 and below 0.5, that a strand is not long enough.

    Raises:
        CordwrightError: the risk is out of range.
    """
    found = []
    for strand, mm in enumerate(length_for(of.of(range(len(of.sure))), risk)):
        free, knotted = of.free[strand], of.knotted[strand]
        spare = max(0.0, float(mm) - of.sure[strand] - free - knotted)
        doubt = (knotted * of.factors[strand].scale) ** 2, (free * FREE_SD) ** 2
        share = doubt[0] / sum(doubt) if sum(doubt) else 0.0
        found.append(Spare(share * spare, (1.0 - share) * spare))
    return found


def chances(of: Needs, lengths_mm: Sequence[float]) -> list[float]:
    """The chance, 0 to 1, that each strand of a piece is long enough.

    Args:
        of: needs of its strands.
        lengths_mm: by strand, what it has, mm.
    """
    every = range(len(lengths_mm))
    return [float(c) for c in chance(of.of(every), np.array(lengths_mm))] if lengths_mm else []
