"""Words in pictures: said by whoever asks for the picture, in English unless they bring others.

Pictures know which thing is to be said, by its key, and its values; how it is said, and how lengths
and numbers are written, comes with the `Wording`. So a picture can be had in any language that has
words for `KEYS`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from string import Formatter
from typing import Protocol

from cordwright.units.length import System, format_length

ENGLISH: Mapping[str, str] = {
    "chart-title": "{title}: chart",
    "chart-about": "Chart, worked from the top down.",
    "leave": "leave {lengths}",
    "repeat": "{times} times, rows {first} to {last}",
    "strand": "{title}: strand {name}",
    "cord": "{title}: cord {name}",
    "thick": "{mm} mm",
    "knot-square-knot": "Square knot round {n} fillers, {hand} hand",
    "knot-square-knot-one": "Square knot round 1 filler, {hand} hand",
    "knot-half-knot": "Half knots round {n} fillers, {hand} hand",
    "knot-half-knot-one": "Half knots round 1 filler, {hand} hand",
    "knot-half-hitch": "Half hitch round {n} fillers, {hand} hand",
    "knot-half-hitch-one": "Half hitch round 1 filler, {hand} hand",
    "knot-double-half-hitch": "Double half hitch, to the {hand}",
    "knot-double-half-hitch-slanted": "Double half hitch, slanted by {degrees}°, to the {hand}",
    "knot-larks-head": "Lark's head",
    "knot-larks-head-reverse": "Lark's head in reverse",
    "knot-gathering": "Gathering knot of {turns} turns round {n} strands",
    "knot-gathering-one": "Gathering knot of {turns} turns round 1 strand",
    "knot-overhand": "Overhand knot of {n} strands, {hand} hand",
    "knot-overhand-one": "Overhand knot of 1 strand, {hand} hand",
    "knot-braid": "Braid of {n} strands",
    "knot-on-ring": "{knot}, on a ring {times} times as thick as the cord",
    "knot-on-rod": "{knot}, on a rod {times} times as thick as the cord",
    "knot-filler": "{knot}, fillers {times} times as thick as the working cord",
    "knot-holding": "{knot}, holding cord {times} times as thick as the working cord",
    "step": "{knot}: step {number} of {of}",
    "step-last": "{knot}: step {number} of {of}, drawn up",
    "cords": "Cords: {inks}.",
    "ink": "{colour}, {mark}",
    "colour-terracotta": "terracotta",
    "colour-teal": "teal",
    "colour-ochre": "ochre",
    "colour-plum": "plum",
    "colour-mist": "mist",
    "colour-leaf": "leaf",
    "colour-flax": "flax",
    "colour-wood": "wood",
    "mark-plain": "plain",
    "mark-line": "line",
    "mark-ticks": "ticks",
    "mark-dots": "dots",
    "mark-bands": "bands",
    "mark-dashes": "dashes",
}
"""What pictures say, by key; values stand in braces. A key that ends in ``-one`` is the singular of
the key without it, for a value ``n`` of 1."""


class Say(Protocol):
    """How a thing is said."""

    def __call__(self, key: str, /, **values: str | int) -> str:
        """The words of a key with its values filled in.

        Args:
            key: one of `KEYS`.
            values: those that it names; ``hand`` is ``left`` or ``right``, counts are whole
                numbers, all else is written already.
        """
        ...


@dataclass(frozen=True, slots=True)
class Wording:
    """How the words, lengths and numbers of a picture are written.

    Args:
        say: gives the words of a key.
        length: writes a length, given in mm.
        number: writes a number that has no unit, or is followed by one.
    """

    say: Say
    length: Callable[[float], str]
    number: Callable[[float], str]


def _values(template: str) -> tuple[str, ...]:
    return tuple(name for _, name, _, _ in Formatter().parse(template) if name)


KEYS: Mapping[str, frozenset[str]] = {
    key: frozenset(_values(words))
    for key, words in ENGLISH.items()
    if not (key.endswith("-one") and key.removesuffix("-one") in ENGLISH)
}
"""Every key that is asked for, with the names of its values."""


def said_in_english(key: str, /, **values: str | int) -> str:
    """English words.

    >>> said_in_english("knot-square-knot", n=1, hand="left")
    'Square knot round 1 filler, left hand'
    """
    one = f"{key}-one"
    template = ENGLISH[one] if values.get("n") == 1 and one in ENGLISH else ENGLISH[key]
    return template.format(**values)


@cache
def english(system: System = "metric") -> Wording:
    """English words, with lengths in a system of units."""
    return Wording(said_in_english, lambda mm: format_length(mm, system), lambda x: f"{x:g}")
