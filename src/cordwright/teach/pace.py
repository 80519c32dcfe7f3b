"""How long a piece takes, and how hard it is, from its knots.

Seconds per knot are common practice, told from memory and not measured: they are there so that a
time is told at all, with a spread that is wide enough for beginner and practised hand. A maker who
keeps a log puts their own in place of them (`cordwright.teach.pacelog`).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from cordwright.teach.amounts import Span
from cordwright.teach.steps import Difficulty

if TYPE_CHECKING:
    from cordwright.piece.model import Piece
    from cordwright.teach.needs import KnotKind

KNOTS: Final[Mapping[str, Span]] = MappingProxyType(
    {
        "larks-head": Span(10, 20, 40),
        "half-knot": Span(4, 7, 15),
        "square-knot": Span(8, 14, 30),
        "half-hitch": Span(4, 7, 15),
        "double-half-hitch": Span(8, 15, 35),
        "overhand": Span(8, 15, 40),
        "gathering": Span(60, 120, 240),
        "braid": Span(8, 15, 30),
    }
)
"""Seconds for one knot (a gathering knot with its turns; a braid's full round): common practice,
from memory, unchecked."""

CUTTING: Final = Span(15, 30, 60)
"""Seconds to measure and cut one cord: common practice, from memory, unchecked."""

PER_METRE: Final = Span(2, 4, 8)
"""Seconds more for every metre of it: common practice, from memory, unchecked."""

ENDING: Final = Span(3, 8, 20)
"""Seconds to trim or hide one end: common practice, from memory, unchecked."""

HITCHES_HARD = 24
"""From so many hitches on a slant on, keeping their line is a skill of its own."""
MANY_STRANDS = 40
MANY_KNOTS = 300
KINDS = 5
LEVELS = (0, 2, 4)
"""So many reasons a piece may have at most at level 1, 2, 3; level 4 has more."""


@dataclass(frozen=True, slots=True)
class Pace:
    """How fast someone works.

    Args:
        knots: seconds for one knot, by its name.
        own: names whose figure comes from the maker's own log.
    """

    knots: Mapping[str, Span] = field(default_factory=lambda: KNOTS)
    own: frozenset[str] = frozenset()

    def of(self, name: str) -> Span:
        """Seconds for one knot."""
        return self.knots[name]


def times(span: Span, count: float) -> Span:
    """So many times as long: likely and range alike, as hands are slow or quick throughout."""
    return Span(span.low_s * count, span.likely_s * count, span.high_s * count)


def total(spans: Iterable[Span]) -> Span:
    """All of them, one after the other."""
    return sum(spans, Span(0.0, 0.0, 0.0))


def cutting(lengths_mm: Iterable[float]) -> Span:
    """Seconds to cut cords of these lengths."""
    return total(CUTTING + times(PER_METRE, mm / 1000.0) for mm in lengths_mm)


def difficulty(piece: Piece, knots: Iterable[KnotKind], *, uneven: bool) -> Difficulty:
    """How hard a piece is: a level from 1 to 4 by what it asks of the hands.

    A plain count of plain reasons, a choice of ours: nobody measured it.

    Args:
        piece: as worked.
        knots: its kinds of knot.
        uneven: whether cords of it are to be folded elsewhere than in the middle.
    """
    kinds = tuple(knots)
    slanted = sum(k.count for k in kinds if k.spec["slant_deg"])
    most = max((k.of for k in piece.knots), default=0)
    found = (
        ("round", any(k.shape == "round" for k in piece.knots)),
        ("slanted", slanted > 0),
        ("many-slanted", slanted >= HITCHES_HARD),
        ("passes", bool(piece.passes)),
        ("added", any(c.part == "added" for c in piece.cords)),
        ("many-strands", most >= MANY_STRANDS),
        ("many-knots", len(piece.knots) >= MANY_KNOTS),
        ("many-kinds", len({k.name for k in kinds}) >= KINDS),
        ("uneven-folds", uneven),
    )
    reasons = tuple(key for key, is_so in found if is_so)
    level = next((i + 1 for i, most in enumerate(LEVELS) if len(reasons) <= most), 4)
    return Difficulty(level, reasons)
