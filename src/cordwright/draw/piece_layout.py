"""What stands round the picture of a piece: heading, measures, names, and which cord is which."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from cordwright.draw import piece_notes as notes
from cordwright.draw.ink import mixed
from cordwright.draw.piece_measures import gaps, sections
from cordwright.draw.piece_text import Text, shortened, width

if TYPE_CHECKING:
    from cordwright.draw.piece_measures import Extent, Reach
    from cordwright.draw.placed import Placed
    from cordwright.draw.wording import Wording

TITLE, SMALL = 5.0, 3.2
"""Sizes of lettering, page mm."""

LINE = 4.6
"""From line to line of the legend, page mm."""

LONGEST_NAME = 42.0
"""Names of sections are cut to this width, page mm."""


@dataclass(frozen=True, slots=True)
class Round:
    """Measures and names round a picture whose origin is at (0, 0) of the page.

    Args:
        notes: their lettering and lines.
        left: room that they take to the left of the picture, page mm.
        right: to the right.
        below: below.
    """

    notes: notes.Notes
    left: float
    right: float
    below: float


def measures(what: Placed, extent: Extent, scale: float, wording: Wording) -> Round:
    """Overall height and width, heights of the sections, longer free lengths, and names.

    Args:
        what: the piece in space.
        extent: how far it reaches.
        scale: page mm for each mm.
        wording: how lengths are written.
    """
    low, high = extent.low * scale, extent.high * scale
    cord_low, cord_high = extent.cord_low, extent.cord_high
    top, bottom = -float(high[1]), -float(low[1])
    parts, x = [], float(low[0]) - 4.0
    free = gaps(what, float(cord_high[1] - cord_low[1]))
    named = sections(what)
    for reaches in (free, named):
        rows = [(-r.top * scale, -r.bottom * scale, r.length) for r in reaches]
        if rows:
            parts.append(notes.chain(x, rows, (top, bottom), wording))
            widest = max(width(wording.length(mm), notes.SIZE) for _, _, mm in rows)
            x -= widest + 7.0
    whole_top = max(0.0, float(cord_high[1]))
    whole = whole_top - float(cord_low[1])
    parts.append(notes.overall(x, -whole_top * scale, -float(cord_low[1]) * scale, whole, wording))
    left = float(low[0]) - min(x - 1.5 * notes.SIZE, *(t.box.left for p in parts for t in p.texts))
    parts.append(
        notes.across(
            bottom + 4.0,
            float(cord_low[0]) * scale,
            float(cord_high[0]) * scale,
            float(cord_high[0] - cord_low[0]),
            wording,
        )
    )
    names = _names(named, scale, float(high[0]), (top, bottom))
    parts.append(names)
    right = max((t.box.right for p in parts for t in p.texts), default=0.0) - float(high[0])
    below = max(t.box.bottom for p in parts for t in p.texts) - bottom
    return Round(notes.joined(parts), left, max(0.0, right), below)


def _names(
    named: Sequence[Reach], scale: float, right: float, page: tuple[float, float]
) -> notes.Notes:
    if not named:
        return notes.Notes((), ())
    rows = []
    for r in named:
        words = shortened(r.name, LONGEST_NAME, notes.SIZE, "bold")
        rows.append((words, -r.top * scale, -r.bottom * scale, r.side * scale))
    return notes.names(right + 9.0, rows, page)


def heading(title: str, about: str, most: float) -> tuple[Text, ...]:
    """The title, and what it is about, wrapped to a width in page mm."""
    texts = [Text(shortened(title, most, TITLE, "bold"), 0.0, TITLE * 0.8, TITLE, "bold", kind="d")]
    y = TITLE * 0.8
    for line in wrapped(about, most, SMALL)[:3]:
        y += LINE
        texts.append(Text(line, 0.0, y, SMALL, kind="d"))
    return tuple(texts)


def wrapped(words: str, most: float, size: float) -> list[str]:
    """Words broken into lines of at most so many mm."""
    lines: list[str] = []
    for word in words.split():
        if lines and width(f"{lines[-1]} {word}", size) <= most:
            lines[-1] = f"{lines[-1]} {word}"
        else:
            lines.append(shortened(word, most, size))
    return lines


def legend(
    rows: Sequence[tuple[str, str]], x: float, y: float, most: float
) -> tuple[str, tuple[Text, ...]]:
    """A swatch of each cord and what it is, one below the other; SVG and lettering."""
    swatches, texts = [], []
    for i, (fill, words) in enumerate(rows):
        at = y + i * LINE
        edge = mixed(fill, "#000000", 0.5)
        swatches.append(
            f'<rect x="{x:.2f}" y="{at:.2f}" width="6" height="2.4" rx="1.2" fill="{fill}" '
            f'stroke="{edge}" stroke-width=".2"/>'
        )
        cut = shortened(words, most - 8.0, SMALL)
        texts.append(Text(cut, x + 8.0, at + 2.2, SMALL, kind="d"))
    return "".join(swatches), tuple(texts)
