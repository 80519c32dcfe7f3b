"""What every strand uses, and on what: exact linear forms, added up.

Cord is used in three kinds of knot place (working, filler, holding), as free cord between knots,
and as tails (above the first knot and below the last). Every total is one pass over the same
strands' courses, so all of them agree.

A form gives the length for other diameters and sizes without working the plan again. It is exact
as long as (a) the same strand leads wherever several meet, (b) no count changes with the sizes, and
(c) the ratios of diameters within each knot (cord to filler, to ring or rod) stay as they are.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from cordwright.knots.spec import Role
from cordwright.units.form import Form

if TYPE_CHECKING:
    from cordwright.piece.model import Piece, Strand

Section = tuple[str, ...]


class Use(StrEnum):
    """What cord is used for."""

    WORKING = "working"
    FILLER = "filler"
    HOLDING = "holding"
    FREE = "free"
    TAIL = "tail"


KNOTTED = (Use.WORKING, Use.FILLER, Use.HOLDING)
_USE_OF = {Role.WORKING: Use.WORKING, Role.FILLER: Use.FILLER, Role.HOLDING: Use.HOLDING}


class Tally:
    """Adds forms up in place: the same sum as ``+``, without a new form each time."""

    __slots__ = ("mm", "terms")

    def __init__(self) -> None:
        self.mm = 0.0
        self.terms: dict[str, float] = {}

    def add(self, form: Form) -> None:
        """Adds one form."""
        self.mm += form.mm
        terms = self.terms
        for symbol, k in form.terms.items():
            terms[symbol] = terms.get(symbol, 0.0) + k

    def form(self) -> Form:
        """The sum so far."""
        return Form(self.mm, dict(self.terms))


def total(forms: Iterable[Form]) -> Form:
    """The sum of forms.

    >>> total([Form(1.0), Form(2.0, {"d:main": 3.0})])
    Form(mm=3.0, terms={'d:main': 3.0})
    """
    tally = Tally()
    for form in forms:
        tally.add(form)
    return tally.form()


@dataclass(frozen=True, slots=True)
class Lengths:
    """Lengths of a piece, each a form in mm.

    Args:
        strands: by strand, what it uses for what; only uses that occur.
        used: by strand, all of that.
        uses: for the whole piece, by use.
        sections: by section (its names, outermost first; ``()`` outside all), with the tails
            that begin or end there.
        all: cord used in the whole piece.
        finished: from the top to the deepest end.
    """

    strands: tuple[Mapping[Use, Form], ...]
    used: tuple[Form, ...]
    uses: Mapping[Use, Form]
    sections: Mapping[Section, Form]
    all: Form
    finished: Form


def measure(piece: Piece) -> Lengths:
    """Adds up all lengths of a piece, in time proportional to its knots."""
    strands = tuple(_strand(piece, s) for s in piece.strands)
    sections: defaultdict[Section, Tally] = defaultdict(Tally)
    for strand in piece.strands:
        for section, _, form in spent(piece, strand):
            sections[section].add(form)
    used = tuple(total(uses.values()) for uses in strands)
    return Lengths(
        strands,
        used,
        {use: total(s[use] for s in strands if use in s) for use in Use},
        {section: tally.form() for section, tally in sections.items()},
        total(used),
        finished_length(piece),
    )


def spent(piece: Piece, strand: Strand) -> Iterator[tuple[Section, Use, Form]]:
    """Every bit of a strand's cord from top to bottom: in which section, for what, how long."""
    knots = piece.knots
    first = knots[strand.course[0].knot].section if strand.course else strand.end.section
    yield first, Use.TAIL, strand.start
    for stop in strand.course:
        section = knots[stop.knot].section
        yield section, Use.FREE, stop.free
        yield section, _USE_OF[stop.role], stop.take_up
    yield strand.end.section, Use.TAIL, strand.end.length


def _strand(piece: Piece, strand: Strand) -> Mapping[Use, Form]:
    tallies: defaultdict[Use, Tally] = defaultdict(Tally)
    for _, use, form in spent(piece, strand):
        if form.mm or form.terms:
            tallies[use].add(form)
    return {use: tallies[use].form() for use in Use if use in tallies}


def finished_length(piece: Piece) -> Form:
    """From the top to the deepest end.

    The top is what the piece hangs on; if it hangs on nothing, the longest tail above it. Tails of
    cords that were laid in across the work do not count: they stand out at the side.
    """
    hanging = [s for s in piece.strands if s.end.kind != "laid in"]
    if not hanging:
        return Form()
    ends = [s.end.depth + s.end.length for s in hanging]
    lowest = max(ends, key=piece.mm)
    if piece.plan.mount.nothing is None:
        return lowest
    tops = [s.start - s.begins for s in hanging if s.start.mm or s.start.terms]
    return lowest + max(tops, key=piece.mm) if tops else lowest
