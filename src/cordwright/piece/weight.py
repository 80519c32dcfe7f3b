"""What the cut cord weighs."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from cordwright.cords.cord import Cord, mass_per_metre

if TYPE_CHECKING:
    from cordwright.piece.model import Piece


class Weight(NamedTuple):
    """A weight in g with the range that it may lie in."""

    g: float
    low_g: float
    high_g: float
    source: str


def weight(piece: Piece, cord: str, length_mm: float) -> Weight | None:
    """Weight of a length of one of the plan's cords; None if its fibre is not known.

    Args:
        piece: the piece, for the cord's diameter as worked.
        cord: the plan's name of it.
        length_mm: how much of it, mm.
    """
    spec = piece.plan.cords[cord]
    made = Cord(spec.fibre, piece.values[f"d:{cord}"], spec.build or "")
    mass = mass_per_metre(made)
    if mass is None:
        return None
    metres = length_mm / 1000.0
    return Weight(mass.value * metres, mass.low * metres, mass.high * metres, mass.source)
