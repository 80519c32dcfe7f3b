"""Dimension lines and names beside the piece, none over another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from cordwright.draw.piece_text import Text, stacked

if TYPE_CHECKING:
    from cordwright.draw.wording import Wording

SIZE = 3.2
"""Of lettering, page mm: about 9 points."""

GAP = 0.8
"""Between lines of lettering, page mm."""

TICK = 1.1
"""Half the length of the ticks at the ends of dimension lines, page mm."""


@dataclass(frozen=True, slots=True)
class Notes:
    """Lettering and thin lines.

    Args:
        texts: the lettering.
        lines: x1, y1, x2, y2 in page mm.
    """

    texts: tuple[Text, ...]
    lines: tuple[tuple[float, float, float, float], ...]

    def svg(self) -> str:
        """Lines as one path, then lettering."""
        d = "".join(f"M{a:.2f} {b:.2f}L{c:.2f} {e:.2f}" for a, b, c, e in self.lines)
        path = f'<path class="n" d="{d}"/>' if d else ""
        return path + "".join(t.svg() for t in self.texts)


def joined(parts: Sequence[Notes]) -> Notes:
    """All notes in one."""
    return Notes(
        tuple(t for p in parts for t in p.texts), tuple(line for p in parts for line in p.lines)
    )


def overall(x: float, top: float, bottom: float, mm: float, wording: Wording) -> Notes:
    """One tall dimension line with its length written along it, or beside it if it is short."""
    words = wording.length(mm)
    text = Text(words, x - 1.2, 0.5 * (top + bottom), SIZE, "bold", "middle", "d", upwards=True)
    if text.width > bottom - top:
        text = Text(words, x - 1.6, 0.5 * (top + bottom) + 0.35 * SIZE, SIZE, "bold", "end", "d")
    return Notes((text,), _dimension(x, top, bottom))


def across(y: float, left: float, right: float, mm: float, wording: Wording) -> Notes:
    """A level dimension line with its length below."""
    text = Text(wording.length(mm), 0.5 * (left + right), y + SIZE, SIZE, "bold", "middle", "d")
    lines = (
        (left, y, right, y),
        (left, y - TICK, left, y + TICK),
        (right, y - TICK, right, y + TICK),
    )
    return Notes((text,), lines)


def chain(
    x: float,
    reaches: Sequence[tuple[float, float, float]],
    page: tuple[float, float],
    wording: Wording,
) -> Notes:
    """Dimension lines one below the other, their lengths to the left of them.

    Args:
        x: of the lines, page mm.
        reaches: top, bottom (page mm) and length (mm) of each.
        page: top and bottom that lettering keeps to.
        wording: how lengths are written.
    """
    wanted = [
        Text(wording.length(mm), x - 3.4, 0.5 * (t + b) + 0.25 * SIZE, SIZE, anchor="end",
             kind="d")
        for t, b, mm in reaches
    ]  # fmt: skip
    texts = stacked(wanted, *page, GAP)
    lines: list[tuple[float, float, float, float]] = []
    for text, (t, b, _) in zip(texts, reaches, strict=True):
        lines += _dimension(x, t, b)
        lines.append((x - 2.8, text.y - 0.25 * SIZE, x, 0.5 * (t + b)))
    return Notes(tuple(texts), tuple(lines))


def names(
    x: float, reaches: Sequence[tuple[str, float, float, float]], page: tuple[float, float]
) -> Notes:
    """Names in a column to the right, each with a thin line to its place.

    Args:
        x: where the column begins, page mm.
        reaches: name, top, bottom and right side of each, page mm.
        page: top and bottom that lettering keeps to.
    """
    wanted = [
        Text(name, x, 0.5 * (t + b) + 0.25 * SIZE, SIZE, "bold", kind="d")
        for name, t, b, _ in reaches
    ]
    texts = stacked(wanted, *page, GAP)
    lines = []
    for text, (_, t, b, side) in zip(texts, reaches, strict=True):
        middle = 0.5 * (t + b)
        knee = x - 4.0
        lines += [
            (side + 0.8, middle, knee, middle),
            (knee, middle, x - 0.8, text.y - 0.25 * SIZE),
        ]
    return Notes(tuple(texts), tuple(lines))


def _dimension(
    x: float, top: float, bottom: float
) -> tuple[tuple[float, float, float, float], ...]:
    return (
        (x, top, x, bottom),
        (x - TICK, top, x + TICK, top),
        (x - TICK, bottom, x + TICK, bottom),
    )


def moved(notes: Notes, dx: float, dy: float) -> Notes:
    """The same notes elsewhere."""
    return Notes(
        tuple(replace(t, x=t.x + dx, y=t.y + dy) for t in notes.texts),
        tuple((a + dx, b + dy, c + dx, e + dy) for a, b, c, e in notes.lines),
    )
