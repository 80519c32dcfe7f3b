"""The palette, and the marks that tell cords apart where colours do not.

Every mark is one stroke along the cord's centre line, so that a cord is drawn with three strokes
of one path: its outline, its colour, its mark. Colours differ in lightness too; how far they stay
apart for colour-blind readers is computed in tests/draw/test_ink.py.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

PAPER = "#fffdf8"
"""What pictures are drawn on where they have a ground of their own."""

TEXT = "#33292b"
"""Lettering, arrows and dimension lines."""

SOFT = "#a79a8c"
"""Lines that should be seen after everything else."""

WOOD = "#b98b5e"
"""Rods."""

METAL = "#8e9298"
"""Rings."""

CLAY = "#c88f72"
"""Pots."""

FONT = "sans-serif"
"""No font is named: pictures are to look alike wherever they are opened."""


@dataclass(frozen=True, slots=True)
class Mark:
    """A stroke along the centre line of a cord; lengths in diameters d of that cord.

    Args:
        name: what it looks like.
        width: of the stroke.
        dashes: lengths drawn and left out in turn; none for an unbroken line.
        round_ends: whether dashes end round (a dash of length 0 is then a dot).
    """

    name: str
    width: float = 0.0
    dashes: tuple[float, ...] = ()
    round_ends: bool = False


PLAIN = Mark("plain")
LINE = Mark("line", 0.2)
TICKS = Mark("ticks", 0.66, (0.16, 0.5))
DOTS = Mark("dots", 0.36, (0.0, 0.8), round_ends=True)
BANDS = Mark("bands", 0.72, (0.8, 0.8))
DASHES = Mark("dashes", 0.22, (0.9, 0.5))

MARKS = (PLAIN, LINE, TICKS, DOTS, BANDS, DASHES)
"""All marks; no two look alike without colour."""


@dataclass(frozen=True, slots=True)
class Ink:
    """How one cord is drawn; colours are written ``#rrggbb``.

    Args:
        name: of the colour, as a maker would say it.
        fill: colour of the cord.
        edge: colour of its outline.
        mark: the stroke that tells it apart without colour.
        mark_colour: colour of that stroke.
    """

    name: str
    fill: str
    edge: str
    mark: Mark = PLAIN
    mark_colour: str = PAPER

    def marked(self, mark: Mark) -> Ink:
        """The same colour with another mark."""
        return replace(self, mark=mark)


TERRACOTTA = Ink("terracotta", "#cb5f38", "#4d1d0d", PLAIN, "#fbe3d6")
TEAL = Ink("teal", "#1a7480", "#06272c", LINE, "#d4eeee")
OCHRE = Ink("ochre", "#e2ad45", "#54390a", TICKS, "#6d4a0d")
PLUM = Ink("plum", "#4a2346", "#1d0a1b", DOTS, "#f0d9ec")
MIST = Ink("mist", "#a6bfd6", "#2c3f50", BANDS, "#6f8ca6")
LEAF = Ink("leaf", "#b4bd74", "#3f441a", DASHES, "#4a5120")

INKS = (TERRACOTTA, TEAL, OCHRE, PLUM, MIST, LEAF)
"""Strands that are to be told apart take these in turn."""

FLAX = Ink("flax", "#efe6d4", "#9c8f7c", PLAIN, "#d8cbb3")
"""Cord that should stay quiet: fillers, holding cords, cord of no stated colour."""

RIGID = Ink("wood", WOOD, "#5d4128", PLAIN, "#d3ae86")
"""Rods, rings and what else is no cord."""


def ink(number: int) -> Ink:
    """The ink of the strand with this number; after six, the colours come round with new marks.

    >>> ink(0).name, ink(6).name, ink(6).mark.name
    ('terracotta', 'terracotta', 'line')
    """
    turn, place = divmod(number, len(INKS))
    return INKS[place].marked(MARKS[(place + turn) % len(MARKS)])


def mixed(one: str, other: str, share: float) -> str:
    """A colour between two: ``share`` (0 to 1) of the other.

    >>> mixed("#000000", "#ffffff", 0.5)
    '#808080'
    """
    pairs = zip(_channels(one), _channels(other), strict=True)
    return "#" + "".join(f"{round(a + (b - a) * share):02x}" for a, b in pairs)


def coloured(fill: str, mark: Mark = PLAIN) -> Ink:
    """An ink for a cord of a given colour.

    Its outline is darker, or lighter where the cord is nearly black; its mark darker or lighter.
    """
    brightness = sum(_channels(fill))
    edge = mixed(fill, "#ffffff", 0.45) if brightness < 3 * 65 else mixed(fill, "#1a0f0a", 0.72)
    against = mixed(fill, "#ffffff" if brightness < 3 * 110 else "#000000", 0.6)
    return Ink(fill, fill, edge, mark, against)


def _channels(colour: str) -> tuple[int, int, int]:
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)
