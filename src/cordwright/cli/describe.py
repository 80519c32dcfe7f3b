"""Knots in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from cordwright.knots.spec import KnotSpec


def describe(spec: KnotSpec) -> str:
    """A knot in words: its name and whatever of its parameters says something.

    >>> from cordwright.knots.spec import KnotName, KnotSpec
    >>> describe(KnotSpec(KnotName.SQUARE_KNOT, strands=4, hand="right"))
    'square-knot, right, 2 fillers'
    """
    from cordwright.knots.atlas import HANDED

    words = [spec.name.value]
    if spec.name in HANDED:
        words.append(spec.hand)
    if spec.fillers:
        words.append(f"{spec.fillers} filler" + ("s" if spec.fillers > 1 else ""))
    else:
        words.append(f"{spec.strands} strand" + ("s" if spec.strands > 1 else ""))
    if spec.turns > 1:
        words.append(f"{spec.turns} turns")
    if spec.over != "none":
        words.append(f"{spec.face} over a {spec.over} of {spec.over_d:g} d")
    if spec.slant_deg:
        words.append(f"slant {spec.slant_deg:g}°")
    if spec.filler_d != 1.0:
        words.append(f"fillers of {spec.filler_d:g} d")
    return ", ".join(words)
