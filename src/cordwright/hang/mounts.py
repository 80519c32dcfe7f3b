"""What a piece hangs on: where its lark's heads lie, and whether its ring lies level.

A ring that one hook holds hangs upright, with the cords side by side at its lowest point. A lamp
shade's ring, or the one in the middle of a bag's base, lies level, with the cords all round it.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from cordwright.knots.spec import KnotName
from cordwright.plan.model import RingMount

if TYPE_CHECKING:
    from cordwright.piece.model import Knot, Piece

Spot = tuple[float, float, float, tuple[float, float, float]]
"""Where a knot is put at first, mm, and which way it faces."""


def ring_radius(piece: Piece) -> float:
    """Radius of the mounting ring's wire, mm; 0 if the piece hangs on none."""
    on = piece.plan.mount.on
    if not isinstance(on, RingMount):
        return 0.0
    from cordwright.plan.sizes import resolve_sizes
    from cordwright.plan.sums import length

    env = resolve_sizes(piece.plan).env
    inside = length(on.inside, env).at(piece.values)
    wire = length(on.wire, env).at(piece.values)
    return 0.5 * (inside + wire)


def lies_level(piece: Piece) -> bool:
    """Whether a piece hangs on a ring that lies level.

    If the plan does not say: it does where the work is round from the ring on, and is not drawn
    together in one knot there, from which a single hook could hold it.
    """
    on = piece.plan.mount.on
    if not isinstance(on, RingMount):
        return False
    if on.lies is not None:
        return on.lies == "level"
    first = [
        piece.knots[stop.knot]
        for strand in piece.strands
        if piece.cords[strand.cord].part == "mount"
        for stop in [s for s in strand.course if not _mounted(piece.knots[s.knot])][:1]
    ]
    return bool(first) and all(k.shape == "round" and len(k.slots) < k.of for k in first)


def _mounted(knot: Knot) -> bool:
    return knot.spec.name is KnotName.LARKS_HEAD


def mounted(piece: Piece, widths: list[float], knot: Knot, *, level: bool) -> Spot:
    """Where a lark's head lies; on a level ring they are spread all round it.

    Args:
        piece: as worked.
        widths: mm, of all lark's heads, in their order; they are the piece's first knots.
        knot: the lark's head.
        level: whether it hangs on a ring that lies level.
    """
    before = sum(widths[: knot.id])
    middle = before + 0.5 * widths[knot.id]
    radius = ring_radius(piece)
    if level:
        angle = 2 * math.pi * middle / sum(widths)
        sin, cos = math.sin(angle), math.cos(angle)
        return radius * sin, -radius * cos, 0.0, (-sin, cos, 0.0)
    along = middle - 0.5 * sum(widths)
    facing = (0.0, 1.0, 0.0)
    if not radius:
        return along, 0.0, 0.0, facing
    angle = float(np.clip(along / radius, -2.5, 2.5))
    return radius * math.sin(angle), 0.0, radius * (1 - math.cos(angle)), facing
