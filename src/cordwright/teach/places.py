"""Places, groups and cords as they are told."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from cordwright.teach.told import Line

if TYPE_CHECKING:
    from cordwright.teach.amounts import Length
    from cordwright.teach.steps import Group
    from cordwright.teach.words import Words

MOST_GROUPS = 6
"""More groups than these are told by the first and the last of them."""


def run_of(places: Sequence[int]) -> str:
    r"""Places with runs drawn together, rising or falling, in the order given.

    >>> run_of((15, 16, 1, 2, 5, 9, 8)).replace("\N{EN DASH}", "-")
    '15-16, 1-2, 5, 9-8'
    """
    parts: list[str] = []
    i = 0
    while i < len(places):
        j = i
        step = 0
        while j + 1 < len(places):
            way = places[j + 1] - places[j]
            if abs(way) != 1 or (step and way != step):
                break
            step = way
            j += 1
        if j > i:
            parts.append(f"{places[i]}–{places[j]}")  # noqa: RUF001 - a dash stands between numbers
        else:
            parts.append(str(places[i]))
        i = j + 1
    return ", ".join(parts)


def across_seam(words: Words, places: Sequence[int]) -> Line:
    """A group's places; one that lies across the seam is told as its two sides."""
    seam = next((i for i in range(1, len(places)) if places[i] - places[i - 1] < -1), None)
    if seam is None or any(b - a != 1 for a, b in pairwise(places[seam:])):
        return Line((run_of(places),))
    return words.line("wrap-round", first=run_of(places[:seam]), last=run_of(places[seam:]))


def strands(words: Words, places: Sequence[int]) -> Line:
    """Strands 1-4."""
    return words.line("strand-places", n=len(places), places=run_of(places))


def groups(words: Words, found: Sequence[Group]) -> Line:
    """Strands of groups: all of them, or the first few and the last where there are many."""
    runs: list[str | Line] = [across_seam(words, g.places) for g in found]
    if len(runs) > MOST_GROUPS:
        first = words.listed(runs[:2])
        shown = words.line("groups-many", first=first, last=runs[-1])
    else:
        shown = words.listed(runs)
    n = sum(len(g.places) for g in found)
    return words.line("strand-places", n=n, places=shown)


def span(words: Words, low: Length, high: Length, *, about: bool = False) -> Line:
    """One length, or from the least to the most where they are told differently."""
    a, b = words.quantity(low, about=about), words.quantity(high, about=about)
    if a.text == b.text:
        return Line((a,))
    return words.line("range", low=a, high=b)
