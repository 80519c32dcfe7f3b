"""What a figure shows, in words for those who cannot see it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from cordwright.knots.spec import KnotName, KnotSpec

if TYPE_CHECKING:
    from cordwright.draw.ink import Ink


def title(spec: KnotSpec) -> str:
    """The knot's name and what tells it from its like.

    >>> title(KnotSpec(KnotName.SQUARE_KNOT, 4))
    'Square knot round 2 fillers, left hand'
    >>> title(KnotSpec(KnotName.BRAID, 3))
    'Braid of 3 strands'
    """
    name = NAMES[spec.name]
    hand = f", {spec.hand} hand"
    match spec.name:
        case KnotName.SQUARE_KNOT | KnotName.HALF_KNOT | KnotName.HALF_HITCH:
            return f"{name} round {_many(spec.fillers, 'filler')}{_thick(spec)}{hand}"
        case KnotName.DOUBLE_HALF_HITCH:
            slant = f", slanted by {spec.slant_deg:g} degrees" if spec.slant_deg else ""
            return f"{name}{_thick(spec)}{slant}, to the {spec.hand}"
        case KnotName.LARKS_HEAD:
            face = " in reverse" if spec.face == "reverse" else ""
            return f"{name}{face} on a {spec.over} {spec.over_d:g} cords thick"
        case KnotName.GATHERING:
            return f"{name} of {_many(spec.turns, 'turn')} round {spec.fillers} strands"
        case KnotName.OVERHAND:
            return f"{name} of {_many(spec.strands, 'strand')}{hand}"
        case _:
            return f"{name} of {_many(spec.strands, 'strand')}"


NAMES = {
    KnotName.LARKS_HEAD: "Lark's head",
    KnotName.HALF_KNOT: "Half knots",
    KnotName.SQUARE_KNOT: "Square knot",
    KnotName.DOUBLE_HALF_HITCH: "Double half hitch",
    KnotName.HALF_HITCH: "Half hitch",
    KnotName.OVERHAND: "Overhand knot",
    KnotName.GATHERING: "Gathering knot",
    KnotName.BRAID: "Braid",
}
"""What makers call the knots."""


def colours(inks: Sequence[Ink]) -> str:
    """Which cords there are to be seen.

    >>> from cordwright.draw.ink import FLAX, TEAL
    >>> colours([TEAL, FLAX, FLAX])
    'Cords: teal, line; flax, plain.'
    """
    seen = dict.fromkeys(f"{ink.name}, {ink.mark.name}" for ink in inks)
    return "Cords: " + "; ".join(seen) + "."


def _many(count: int, what: str) -> str:
    return f"{count} {what}" if count == 1 else f"{count} {what}s"


def _thick(spec: KnotSpec) -> str:
    if spec.filler_d == 1.0:
        return ""
    return f" {spec.filler_d:g} times as thick as the working cord"
