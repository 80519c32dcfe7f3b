"""A cut list, shown to a maker."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cordwright.cli.check import show_remarks
from cordwright.cli.show import Column, Screen
from cordwright.units.length import format_length

if TYPE_CHECKING:
    from cordwright.piece.cutlist import CutEntry, CutList
    from cordwright.piece.model import Piece

CUT = (
    Column(""),
    Column("pieces", "right"),
    Column("cord"),
    Column("cut to", "right"),
    Column("fold"),
    Column("of which spare", "right"),
)


def show_cuts(piece: Piece, cuts: CutList) -> None:
    """Everything that a maker needs before the scissors come out."""
    screen = Screen()
    screen.line(piece.plan.title, style="bold")
    if piece.plan.about:
        screen.line(piece.plan.about)
    screen.heading("Cut")
    screen.table(CUT, [_entry(piece, cuts, entry) for entry in cuts.entries])
    show_remarks(screen, (*piece.warnings, *cuts.warnings))


def _entry(piece: Piece, cuts: CutList, entry: CutEntry) -> list[str]:
    return [
        entry.id,
        str(entry.count),
        cord_words(piece, entry.cord),
        format_length(entry.length_mm, cuts.system),
        fold_words(entry, cuts),
        format_length(entry.spare_mm, cuts.system),
    ]


def cord_words(piece: Piece, name: str) -> str:
    """The plan's name of a cord, with what it is made of."""
    cord = piece.plan.cords[name]
    diameter = f"{piece.values[f'd:{name}']:g} mm"
    return ", ".join(t for t in (name, diameter, cord.build, cord.fibre, cord.colour) if t)


def fold_words(entry: CutEntry, cuts: CutList) -> str:
    """How to fold the cords of an entry."""
    if entry.fold_mm is not None:
        left, right = (format_length(mm, cuts.system) for mm in entry.fold_mm)
        return f"{left} left, {right} right"
    return {"middle": "in the middle", "none": "not folded", "uneven": ""}[entry.fold]
