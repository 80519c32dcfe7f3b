"""The shape in which a piece is drawn: as it hangs, or as it lies."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cordwright.draw.placed import placed
from cordwright.plan.model import NothingMount

if TYPE_CHECKING:
    from cordwright.draw.placed import Placed
    from cordwright.draw.placed_cell import CurvesSource
    from cordwright.hang.shape import Held
    from cordwright.piece.model import Piece


def as_it_looks(piece: Piece, source: CurvesSource, held: Held | None = None) -> Placed:
    """A piece in space: hanging, with what it holds; flat work on no mount lies as it was worked.

    Args:
        piece: as worked.
        source: of tight curves.
        held: what it holds; what its plan says if None.
    """
    from cordwright.hang.framing import frame_of
    from cordwright.hang.shape import hang
    from cordwright.hang.worked import worked

    held = held or planned(piece)
    flat = all(k.shape == "flat" for k in piece.knots)
    if flat and held is None and isinstance(piece.plan.mount.on, NothingMount):
        frame = frame_of(piece)
        return placed(piece, frame, worked(frame), source)
    shape = hang(piece, held)
    return placed(piece, shape.frame, shape.x, source, held=held, vessel_node=shape.vessel_node)


def planned(piece: Piece) -> Held | None:
    """What the plan says that the piece holds."""
    from cordwright.hang.holding import held_of
    from cordwright.plan.hung import hung
    from cordwright.plan.sizes import resolve_sizes

    plan = piece.plan
    if plan.hang is None:
        return None
    body = hung(plan.hang, resolve_sizes(plan)).holds
    return held_of(body) if body is not None else None
