"""A piece whose open lengths are those of its shape, as worked, and how large it comes out.

Where the plan leaves free cord open (`Stop.asked` is False), adding up knots from top to bottom
only knows what a strand needs if it hangs straight down. In the shape as worked knots lie beside
each other at the widths that they have, and strands slant from one to the next; that is the cord
to count.

Flat pieces are solved for (`cordwright.hang.worked`); in the round, knots lie about an axis, every
round as tight as it comes from the hands (`cordwright.hang.rounds`). Cord that the plan leaves open
is worked before anything stands in the piece.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from cordwright.hang.framing import frame_of
from cordwright.hang.worked import worked
from cordwright.units.form import Form

if TYPE_CHECKING:
    from cordwright.hang.frame import Floats, Frame, Points
    from cordwright.piece.model import Piece, Strand

Open = Mapping[tuple[int, int], float]
"""Length in mm above a stop, by strand and index of the stop in its course."""

DIGITS = 2
"""Decimals of a counted length in mm: below that it is rounding of the solver's, not cord."""


SLANT = math.sqrt(2.0)
"""Least length of open cord against its way to the side. Cord leaves a knot and comes into the next
along the knots, not across: the closest S of two quarter circles has a chord at 45 degrees."""


@dataclass(frozen=True, slots=True)
class AsWorked:
    """A piece as it comes from the hands, before it hangs.

    Args:
        piece: as worked, with lengths as they add up.
        open_mm: cord above every stop for which the shape decides.
        width_mm: from its left edge to its right one; None in the round.
        height_mm: from its top to its lowest end; None in the round.
    """

    piece: Piece
    open_mm: Open
    width_mm: float | None
    height_mm: float | None


def symbol(piece: Piece, strand: int, stop: int) -> str:
    """Name of the free cord above a stop, in forms: ``h:3L.2`` is above strand 3L's second knot."""
    return f"h:{piece.name(strand)}.{stop + 1}"


def as_worked(piece: Piece) -> AsWorked:
    """A piece's open lengths and its size as it is worked."""
    if not piece.knots:
        return AsWorked(piece, {}, None, None)
    frame = frame_of(piece)
    x = worked(frame)
    open_mm = left_open(frame, lengths(frame, x))
    if any(k.shape == "round" for k in piece.knots):
        return AsWorked(piece, open_mm, None, None)
    return AsWorked(piece, open_mm, *_size(piece, frame, x))


def counted(shape: AsWorked) -> Piece:
    """The piece with the shape's lengths where the plan leaves them open.

    Each of them is a named quantity of its own (`symbol`) in the strands' forms, so that lengths
    stay exact sums. They belong to these diameters and sizes: for others the shape is solved again.
    """
    piece = shape.piece
    values = dict(piece.values)
    courses = {s.id: list(s.course) for s in piece.strands}
    for (strand, stop), mm in shape.open_mm.items():
        form = Form()
        if mm > 0.5 * 10.0**-DIGITS:
            name = symbol(piece, strand, stop)
            values[name] = round(mm, DIGITS)
            form = Form(0.0, {name: 1.0})
        courses[strand][stop] = courses[strand][stop]._replace(free=form)
    strands = tuple(s._replace(course=tuple(courses[s.id])) for s in piece.strands)
    return replace(piece, strands=strands, values=values)


def lengths(frame: Frame, x: Points) -> Floats:
    """(s,) float: mm, lengths of the spans: as asked for, or as they come out as worked.

    Cord from the mount to the first knots is at least as long as its way: the plan's length is
    for the strand that hangs straight.

    Args:
        frame: what hangs.
        x: (n, 3) float, mm, where its nodes are as worked.
    """
    spans = frame.spans
    between = spans.a.at(x) - spans.b.at(x)
    aside = np.hypot(between[:, 0], between[:, 1])
    way = np.linalg.norm(between, axis=1)
    way = np.where(spans.row, way, np.maximum(way, SLANT * aside))
    mounted = ~frame.free[spans.a.top].any(axis=1)
    longer: Floats = np.maximum(way, spans.rest * spans.given)
    return np.where(spans.given & ~mounted, spans.rest, longer)


def left_open(frame: Frame, rest: Floats) -> Open:
    """Length of every span that the plan leaves open, or that cannot be as short as it says.

    Args:
        frame: what hangs.
        rest: (s,) float, mm, as `lengths` gives it.
    """
    spans = frame.spans
    longer = rest > spans.rest + 10.0**-DIGITS
    rows = np.flatnonzero(~spans.row & (~spans.given | longer))
    return {(int(spans.strand[i]), int(spans.stop[i])): float(rest[i]) for i in rows}


def _size(piece: Piece, frame: Frame, x: Points) -> tuple[float, float]:
    """Width and height in mm of a flat piece: over its knots, and down to its ends."""
    bars = frame.bars
    half = 0.5 * bars.width
    left, right = x[bars.top, 0] - half, x[bars.top, 0] + half
    top, low = float(x[bars.top, 2].max()), float(x[bars.bottom, 2].min())
    for strand in piece.strands:
        if strand.course and strand.end.kind != "laid in":
            top = max(top, _above(piece, frame, x, strand))
            last = frame.bars.bottom[strand.course[-1].knot]
            low = min(low, float(x[last, 2]) - piece.mm(strand.end.length))
    if piece.plan.mount.nothing is None:
        top = max(top, 0.0)
    return float(right.max() - left.min()), top - low


def _above(piece: Piece, frame: Frame, x: Points, strand: Strand) -> float:
    """Height in mm at which a strand's upper tail ends, if it stands above a free end."""
    tail = piece.mm(strand.start)
    if piece.plan.mount.nothing is None or tail <= 0.0:
        return -np.inf
    first = strand.course[0]
    return float(x[frame.bars.top[first.knot], 2]) + piece.mm(first.free) + tail
