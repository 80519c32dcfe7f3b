"""Whether cords that the plan says are already cut are long enough."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from cordwright.errors import Place, WorkError
from cordwright.piece.lengths import spent, total
from cordwright.units.length import format_length

if TYPE_CHECKING:
    from cordwright.piece.model import Piece, PieceCord
    from cordwright.units.form import Form


class Out(NamedTuple):
    """Where a strand runs out."""

    strand: int
    where: str
    step: Place | None


def check_cut_cords(piece: Piece) -> None:
    """Refuses a piece whose given cords are too short; spare is not asked for here.

    A cord folded in the middle must reach with each half; one folded where needed with both halves
    together.

    Raises:
        WorkError: names the strand, the knot and the missing length.
    """
    for cord in piece.cords:
        if cord.cut is not None:
            _check(piece, cord, piece.mm(cord.cut))


def needed_mm(piece: Piece, cord: PieceCord) -> float:
    """The least length in mm that a cord must have, folded as planned, without spare."""
    halves = [
        piece.mm(total(form for _, _, form in spent(piece, piece.strands[s]))) for s in cord.strands
    ]
    return 2.0 * max(halves) if cord.fold == "middle" else sum(halves)


def _check(piece: Piece, cord: PieceCord, given: float) -> None:
    needed = needed_mm(piece, cord)
    if needed <= given + 1e-6:  # mm: rounding of sums
        return
    out = _runs_out(piece, cord, given)
    shown = format_length(given, "metric")
    raise WorkError(
        f"Strand {piece.name(out.strand)} runs out {out.where}: the cord is cut to {shown}, "
        f"and {format_length(needed - given, 'metric')} is missing.",
        remedy=f"cut it at least {format_length(needed, 'metric')} long, and leave some spare",
        place=out.step or cord.step,
    )


def _runs_out(piece: Piece, cord: PieceCord, given: float) -> Out:
    """The first knot, in the order of working, that the cord does not reach through."""
    shared = cord.fold != "middle"
    left = dict.fromkeys(cord.strands, given if shared else given / 2.0)
    for knot, strand, form in _in_order(piece, cord):
        for s in cord.strands if shared else (strand,):
            left[s] -= piece.mm(form)
        if left[strand] < -1e-6:
            if knot is None:
                end = piece.strands[strand].end
                return Out(strand, f"at its end ({end.kind})", end.step)
            k = piece.knots[knot]
            return Out(strand, f"at knot {knot + 1}, a {k.spec.name}", k.step)
    return Out(cord.strands[0], "at its end", None)


def _in_order(piece: Piece, cord: PieceCord) -> list[tuple[int | None, int, Form]]:
    """All that the cord's strands use, in the order of working: knot, strand, form."""
    used: list[tuple[int | None, int, Form]] = []
    for s in cord.strands:
        strand = piece.strands[s]
        first = strand.course[0].knot if strand.course else None
        used.append((first, s, strand.start))
        used += [(stop.knot, s, stop.free + stop.take_up) for stop in strand.course]
        used.append((None, s, strand.end.length))
    return sorted(used, key=lambda u: len(piece.knots) if u[0] is None else u[0])
