"""Lettering whose boxes are known: the font's own metrics, and its widths kept in the picture.

The font is Source Sans Pro (SIL Open Font License 1.1), from its registry package. Every text in a
picture carries its computed width, so that it keeps it where another font stands in.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Literal, cast
from xml.sax.saxutils import escape

if TYPE_CHECKING:
    from pathlib import Path

FAMILY = "Source Sans Pro"
FACES = {"regular": "SourceSansPro-Regular.ttf", "bold": "SourceSansPro-Semibold.ttf"}

ASCENT, DESCENT = 0.75, 0.25
"""Above and below the base line that lettering reaches, in its size: taller than the font's
capitals (0.66) and ascenders (0.71), deeper than its descenders (0.21), by its OS/2 table."""

Face = Literal["regular", "bold"]
Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True)
class Box:
    """A box on the page, mm, y down."""

    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: Box, slack: float = 1e-6) -> bool:
        """Whether two boxes share more than an edge."""
        return (
            self.left < other.right - slack
            and other.left < self.right - slack
            and self.top < other.bottom - slack
            and other.top < self.bottom - slack
        )


@dataclass(frozen=True, slots=True)
class Text:
    """One line of lettering.

    Args:
        words: what it says.
        x: of its anchor, page mm.
        y: of its base line, page mm, down.
        size: of the font, mm.
        face: regular or bold.
        anchor: which end x belongs to.
        kind: what it is for, as a CSS class.
        upwards: whether it runs from below to above.
    """

    words: str
    x: float
    y: float
    size: float
    face: Face = "regular"
    anchor: Anchor = "start"
    kind: str = "t"
    upwards: bool = False

    @property
    def width(self) -> float:
        """Mm along its base line."""
        return width(self.words, self.size, self.face)

    @property
    def box(self) -> Box:
        """What it covers."""
        before = {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor] * self.width
        up, down = ASCENT * self.size, DESCENT * self.size
        if self.upwards:
            low = self.y + before
            return Box(self.x - up, low - self.width, self.x + down, low)
        left = self.x - before
        return Box(left, self.y - up, left + self.width, self.y + down)

    def svg(self) -> str:
        """The text element."""
        spot = f'x="{self.x:.2f}" y="{self.y:.2f}"'
        if self.upwards:
            spot = f'transform="translate({self.x:.2f} {self.y:.2f})rotate(-90)"'
        anchor = "" if self.anchor == "start" else f' text-anchor="{self.anchor}"'
        weight = ' font-weight="600"' if self.face == "bold" else ""
        return (
            f'<text class="{self.kind}" {spot} font-size="{self.size:.2f}"{anchor}{weight} '
            f'textLength="{self.width:.2f}" lengthAdjust="spacingAndGlyphs">'
            f"{escape(printable(self.words))}</text>"
        )


def printable(words: str) -> str:
    """The words with what cannot stand in XML or on one line left out."""
    return "".join(c if c.isprintable() else " " for c in words)


def font_files() -> list[str]:
    """Paths of the font's files, for a renderer."""
    return [str(_file(name)) for name in FACES.values()]


def _file(name: str) -> Path:
    return cast("Path", files("font_source_sans_pro") / "files" / name)


@cache
def _advances(face: Face) -> tuple[dict[int, int], int, int]:
    """Advance of every character, that of a character the font lacks, and units per em."""
    from fontTools.ttLib import TTFont

    with TTFont(_file(FACES[face]), lazy=True) as font:
        widths = font["hmtx"].metrics
        known = {code: widths[name][0] for code, name in font.getBestCmap().items()}
        return known, max(widths[".notdef"][0], 1000), font["head"].unitsPerEm


@cache
def width(words: str, size: float, face: Face = "regular") -> float:
    """Width of a line in mm, without kerning, which only makes it narrower."""
    known, other, per_em = _advances(face)
    return sum(known.get(ord(c), other) for c in printable(words)) * size / per_em


def shortened(words: str, most: float, size: float, face: Face = "regular") -> str:
    """The words, cut with an ellipsis to at most so many mm."""
    if width(words, size, face) <= most:
        return words
    while words and width(words + "…", size, face) > most:
        words = words[:-1].rstrip()
    return words + "…"


def stacked(texts: Sequence[Text], top: float, bottom: float, gap: float = 0.0) -> list[Text]:
    """Texts of one column moved up or down as little as keeps them from overlapping.

    Args:
        texts: each where it would like to be; their order from top to bottom stays.
        top: where the column begins, page mm.
        bottom: where it ends, if all of them fit.
        gap: least distance between boxes.
    """
    order = sorted(range(len(texts)), key=lambda i: texts[i].box.top)
    places: list[float] = []
    floor = top
    for i in order:
        box = texts[i].box
        places.append(max(box.top, floor))
        floor = places[-1] + (box.bottom - box.top) + gap
    # From below: what runs over the end pushes its neighbours up again.
    ceiling = max(bottom, top + sum(texts[i].box.bottom - texts[i].box.top + gap for i in order))
    for n in range(len(order) - 1, -1, -1):
        height = texts[order[n]].box.bottom - texts[order[n]].box.top
        places[n] = min(places[n], ceiling - height)
        ceiling = places[n] - gap
    moved = list(texts)
    for n, i in enumerate(order):
        moved[i] = replace(texts[i], y=texts[i].y + places[n] - texts[i].box.top)
    return moved
