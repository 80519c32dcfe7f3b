"""What a picture shows, in words: names of knots and cords, titles and descriptions."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from cordwright.knots.spec import KnotName, KnotSpec

if TYPE_CHECKING:
    from cordwright.draw.ink import Ink
    from cordwright.draw.wording import Wording
    from cordwright.piece.model import Piece


def name(spec: KnotSpec, wording: Wording) -> str:
    """The knot's name and what its maker has to know; not how thick things are.

    >>> from cordwright.draw.wording import english
    >>> name(KnotSpec(KnotName.SQUARE_KNOT, 4, filler_d=2.0), english())
    'Square knot round 2 fillers, left hand'
    >>> name(KnotSpec(KnotName.BRAID, 3), english())
    'Braid of 3 strands'
    """
    key = f"knot-{spec.name.value}"
    match spec.name:
        case KnotName.SQUARE_KNOT | KnotName.HALF_KNOT | KnotName.HALF_HITCH:
            return wording.say(key, n=spec.fillers, hand=spec.hand)
        case KnotName.DOUBLE_HALF_HITCH if spec.slant_deg:
            degrees = wording.number(spec.slant_deg)
            return wording.say(f"{key}-slanted", hand=spec.hand, degrees=degrees)
        case KnotName.DOUBLE_HALF_HITCH:
            return wording.say(key, hand=spec.hand)
        case KnotName.LARKS_HEAD:
            return wording.say(f"{key}-reverse" if spec.face == "reverse" else key)
        case KnotName.GATHERING:
            return wording.say(key, turns=spec.turns, n=spec.fillers)
        case KnotName.OVERHAND:
            return wording.say(key, n=spec.strands, hand=spec.hand)
        case KnotName.BRAID:
            return wording.say(key, n=spec.strands)


def title(spec: KnotSpec, wording: Wording) -> str:
    """The knot's name with how thick everything is.

    >>> from cordwright.draw.wording import english
    >>> title(KnotSpec(KnotName.LARKS_HEAD, 2, over="ring", over_d=1.5), english())
    "Lark's head, on a ring 1.5 times as thick as the cord"
    """
    words = name(spec, wording)
    if spec.over != "none":
        times = wording.number(spec.over_d)
        return wording.say(f"knot-on-{spec.over}", knot=words, times=times)
    if spec.filler_d == 1.0:
        return words
    holds = spec.name is KnotName.DOUBLE_HALF_HITCH
    key = "knot-holding" if holds else "knot-filler"
    return wording.say(key, knot=words, times=wording.number(spec.filler_d))


def colours(inks: Sequence[Ink], wording: Wording) -> str:
    """Which cords there are to be seen.

    >>> from cordwright.draw.ink import FLAX, TEAL
    >>> from cordwright.draw.wording import english
    >>> colours([TEAL, FLAX, FLAX], english())
    'Cords: teal, line; flax, plain.'
    """
    seen = dict.fromkeys((i.name, i.mark.name) for i in inks)
    told = [
        wording.say("ink", colour=wording.say(f"colour-{ink}"), mark=wording.say(f"mark-{mark}"))
        for ink, mark in seen
    ]
    return wording.say("cords", inks="; ".join(told))


def cord_words(piece: Piece, cord: str, wording: Wording, *, made_of: bool = False) -> str:
    """A cord of the plan by its name there, its thickness and colour, as a legend says it.

    Args:
        piece: as worked.
        cord: its name in the plan.
        wording: how thickness is written.
        made_of: whether its build and fibre are told too, in the plan's own words.
    """
    spec = piece.plan.cords[cord]
    thick = wording.say("thick", mm=wording.number(piece.values[f"d:{cord}"]))
    parts = (cord, thick, *((spec.build, spec.fibre) if made_of else ()), spec.colour)
    return ", ".join(p for p in parts if p)
