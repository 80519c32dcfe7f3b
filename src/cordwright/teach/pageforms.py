"""A worked piece's lengths as sums over what a reader may change: cord diameters and sizes.

Free cord that the shape decides (`cordwright.hang.counted`) is a quantity of its own in the piece's
sums. For the page it becomes a sum over diameters and sizes too: its value here, and how it changes
with each of them, measured by working the piece again with each a little larger. That is exact for
cord within a sinnet, and close by for a shape that is solved for.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from cordwright.errors import CordwrightError
from cordwright.hang.counted import as_worked, symbol
from cordwright.piece.work import work
from cordwright.units.form import Form

if TYPE_CHECKING:
    from cordwright.knots.spec import KnotFigures, KnotSpec
    from cordwright.piece.model import Piece, Strand
    from cordwright.teach.editions import Edition

STEP = 0.02
"""How much larger a diameter or size is tried, as a part of it."""

CORD, SIZE, SHAPE = "d:", "s:", "h:"
"""What symbols begin with: a cord's diameter, a size of the plan, cord that the shape decides."""


class OtherKnotsError(CordwrightError):
    """With these sizes the plan asks for knots that the piece does not have."""


class Alike:
    """Figures of the piece's own knots, whatever the ratio of their cords' diameters.

    So that a piece can be worked with other cord without tightening a knot anew, and its sums
    stay those of the piece.
    """

    def __init__(self, piece: Piece) -> None:
        self._exact = piece.figures
        self._alike = {_bare(spec): figures for spec, figures in piece.figures.items()}

    def figures(self, spec: KnotSpec) -> KnotFigures:
        """Figures of a knot of the piece.

        Raises:
            OtherKnotsError: the piece has no such knot.
        """
        found = self._exact.get(spec) or self._alike.get(_bare(spec))
        if found is None:
            raise OtherKnotsError("The piece has no such knot.")
        return found


def _bare(spec: KnotSpec) -> KnotSpec:
    return replace(spec, over_d=0.0, filler_d=1.0)


@dataclass(frozen=True, slots=True)
class Source:
    """What a piece was worked from, to work it again with one thing changed.

    Args:
        piece: as worked, with the free cord that its shape makes.
        edition: its sizes and diameters.
    """

    piece: Piece
    edition: Edition

    def symbols(self) -> tuple[str, ...]:
        """Diameters of the cords that the piece has, and sizes that lengths are made of."""
        used = dict.fromkeys(c.cord for c in self.piece.cords)
        cords = [f"{CORD}{name}" for name in self.piece.plan.cords if name in used]
        return (*cords, *(s for s in self.piece.values if s.startswith(SIZE)))

    def again(self, changed: Mapping[str, float]) -> Piece | None:
        """The piece with other values, lengths as they add up; None if it cannot be worked so.

        Args:
            changed: value in mm by symbol.
        """
        sizes = dict(self.edition.sizes)
        diameters = dict(self.edition.diameters)
        for name, mm in changed.items():
            if name.startswith(CORD):
                diameters[name.removeprefix(CORD)] = mm
            else:
                sizes[name.removeprefix(SIZE)] = f"{mm:.9f} mm"
        try:
            return work(
                self.piece.plan,
                Alike(self.piece),
                sizes=sizes,
                diameters=diameters,
                handling=self.piece.handling,
            )
        except CordwrightError:
            return None


def same_knots(one: Piece, other: Piece) -> bool:
    """Whether two pieces have the same cords, strands, knots and places."""
    return len(one.knots) == len(other.knots) and _courses(one) == _courses(other)


def _courses(piece: Piece) -> list[object]:
    return [
        (s.cord, [(stop.knot, stop.place) for stop in s.course], s.end.kind) for s in piece.strands
    ]


def open_forms(source: Source) -> dict[str, Form]:
    """Every length that the shape decides, by its symbol, as a sum over diameters and sizes."""
    piece = source.piece
    found = {name: Form(mm) for name, mm in piece.values.items() if name.startswith(SHAPE)}
    here = source.again({}) if found else None
    if here is None:
        return found
    base = _open(here)
    for name in source.symbols():
        step = STEP * piece.values[name]
        other = source.again({name: piece.values[name] + step})
        if other is None or not same_knots(here, other):
            continue
        for key, mm in _open(other).items():
            if key in found and key in base:
                k = (mm - base[key]) / step
                found[key] = found[key] + Form(-k * piece.values[name], {name: k})
    return found


def _open(piece: Piece) -> dict[str, float]:
    return {symbol(piece, *at): mm for at, mm in as_worked(piece).open_mm.items()}


def plain_piece(piece: Piece, opens: Mapping[str, Form]) -> Piece:
    """The piece with sums over diameters and sizes alone."""
    if not opens:
        return piece
    strands = tuple(_plain_strand(s, opens) for s in piece.strands)
    values = {k: v for k, v in piece.values.items() if k not in opens}
    return replace(piece, strands=strands, values=values)


def _plain_strand(strand: Strand, opens: Mapping[str, Form]) -> Strand:
    course = tuple(stop._replace(free=plain_form(stop.free, opens)) for stop in strand.course)
    return strand._replace(course=course)


def plain_form(form: Form, opens: Mapping[str, Form]) -> Form:
    """A sum with every symbol of the shape replaced by its own sum."""
    if not any(name in opens for name in form.terms):
        return form
    whole = Form(form.mm)
    for name, k in form.terms.items():
        whole = whole + (opens[name] * k if name in opens else Form(0.0, {name: k}))
    return whole
