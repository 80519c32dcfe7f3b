"""What strokes look like: every colour and width of a figure is said once, as a class of its own.

Classes hold within their figure only, and ids begin with a name that other figures do not have, so
that many figures can stand in one page.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from string import ascii_lowercase, ascii_uppercase
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.strokes import dashed, joined_numbers

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from cordwright.draw.strokes import Page, Stroke

    Floats = NDArray[np.float64]

PART = 0.6
"""A run that goes on as the one it covers parts itself from it only so far from their joint, in
diameters."""

LETTERS = (ascii_lowercase + ascii_uppercase).translate(dict.fromkeys(map(ord, "oqr")))

ROUND, BUTT = "r", "q"
"""The classes of what ends round, and of what does not where round ends are handed down to it."""

Look = tuple[str, int, str]
"""Colour, width in units of the path, and dashes."""


def class_name(number: int) -> str:
    """A short name for a class; those of masks and of ends are left out.

    >>> class_name(0), class_name(23), class_name(48), class_name(49)
    ('a', 'A', 'Z', 'aa')
    """
    more, place = divmod(number, len(LETTERS))
    return (class_name(more - 1) if more else "") + LETTERS[place]


@dataclass(frozen=True, slots=True)
class Brush:
    """How runs are stroked.

    Args:
        name: that ids begin with.
        line: thickness of outlines, units of the path.
        page: where things come on paper.
        known: classes by what they look like; those that are asked for are added.
    """

    name: str
    line: float
    page: Page
    known: dict[Look, str]

    def path(self, i: int, data: str) -> str:
        """A run's path itself; how it looks is said round it, so that others may use it."""
        return f'<path id="{self.name}{i}" d="{data}"/>'

    def again(self, i: int, look: str, more: str = "") -> str:
        """A run's path once more."""
        return f'<use href="#{self.name}{i}" class={look}{more}/>'

    def drawn(self, data: str, look: str, more: str = "") -> str:
        """A path that is used nowhere else."""
        return f'<path d="{data}" class={look}{more}/>'

    def ball(self, centre: Floats, colour: str, width: float) -> str:
        """A disc: a stroke of no length with round ends."""
        x, y = np.round(centre).astype(int).tolist()
        return self.drawn(f"M{joined_numbers([x, y])}h0", self.look(colour, width, rounded=True))

    def look(
        self, colour: str, width: float, *, rounded: bool = False, dashes: str = "", cap: str = ""
    ) -> str:
        """The classes of a stroke, in quotation marks.

        Args:
            colour: written ``#rrggbb``.
            width: units of the path.
            rounded: whether it ends round.
            dashes: lengths drawn and left out in turn.
            cap: class of ends that do not, where what is round it has round ones.
        """
        key = colour, round(width), dashes
        name = self.known.setdefault(key, class_name(len(self.known)))
        return f'"{" ".join(filter(None, [name, ROUND if rounded else cap]))}"'

    def css(self, gap: int) -> str:
        """What the classes stand for; ``gap`` is the width of what makes gaps."""
        rules = [
            f"#{self.name} .{cls}{{stroke:{colour};stroke-width:{width}"
            + (f";stroke-dasharray:{dashes}" if dashes else "")
            + "}"
            for (colour, width, dashes), cls in self.known.items()
        ]
        rules.append(f"#{self.name} .{ROUND}{{stroke-linecap:round}}")
        rules.append(f"#{self.name} .{BUTT}{{stroke-linecap:butt}}")
        rules.append(f"#{self.name} .o{{stroke:#000;stroke-width:{gap}}}")
        return f"<style>{''.join(rules)}</style>"


@dataclass(frozen=True, slots=True)
class Masks:
    """Masks that end runs at gaps.

    Args:
        name: that ids begin with.
        strokes: of all runs.
        gap: units of the path.
        size: of the picture, units of the path.
        touch: (n, n) bool, which runs come near each other's gaps.
        made: what each mask takes away: runs, with the dashes of each.
    """

    name: str
    strokes: Sequence[Stroke]
    gap: float
    size: tuple[int, int]
    touch: NDArray[np.bool_]
    made: list[dict[int, str]]

    @property
    def most(self) -> int:
        """Width of most gaps with the run that makes them."""
        widths = [round(s.width + 2 * self.gap) for s in self.strokes]
        return max(set(widths), key=widths.count)

    def ground(self) -> str:
        """All of the picture."""
        w, h = self.size
        return f'<path id="{self.name}w" d="M0 0H{w}V{h}H0z" fill="#fff" stroke="none"/>'

    def shared(self, gaps: Mapping[int, Sequence[int]]) -> dict[int, int]:
        """The number of each run's mask; runs that nothing of each other's comes near share one.

        Args:
            gaps: for each run that ends at gaps, the runs that make them.
        """
        found: dict[int, int] = {}
        users: list[list[int]] = []
        for lower, uppers in gaps.items():
            dashes = {upper: self._dashes(lower, upper) for upper in uppers}
            mine = {upper: d for upper, d in dashes.items() if d is not None}
            if not mine:
                continue
            for number, taken in enumerate(self.made):
                if self._fit(mine, [lower], taken, users[number]):
                    taken.update(mine)
                    break
            else:
                number = len(self.made)
                self.made.append(dict(mine))
                users.append([])
            users[number].append(lower)
            found[lower] = number
        return found

    def _fit(
        self, mine: dict[int, str], lower: list[int], taken: dict[int, str], users: list[int]
    ) -> bool:
        """Whether two masks can be one: nothing that only one takes away touches the other's."""
        if any(taken.get(upper, dashes) != dashes for upper, dashes in mine.items()):
            return False
        new, old = [u for u in mine if u not in taken], [u for u in taken if u not in mine]
        return not (self._touch(new, users) or self._touch(old, lower))

    def _touch(self, ones: list[int], others: list[int]) -> bool:
        return bool(self.touch[np.ix_(ones, others)].any())

    def svg(self) -> list[str]:
        """The masks, each leaving all of the picture but what it takes away."""
        w, h = self.size
        return [
            f'<mask id="{self.name}m{n}" class="o" maskUnits="userSpaceOnUse" width="{w}" '
            f'height="{h}"><use href="#{self.name}w"/>'
            + "".join(self._use(upper, dashes) for upper, dashes in sorted(taken.items()))
            + "</mask>"
            for n, taken in enumerate(self.made)
        ]

    def _dashes(self, lower: int, upper: int) -> str | None:
        stroke = self.strokes[upper]
        away = PART * stroke.width
        kept = tuple(away if end.other == lower else 0.0 for end in stroke.ends)
        return dashed(stroke, (kept[0], kept[1])) if any(kept) else ""

    def _use(self, upper: int, dashes: str) -> str:
        width = round(self.strokes[upper].width + 2 * self.gap)
        wide = "" if width == self.most else f' style="stroke-width:{width}"'
        return f'<use href="#{self.name}{upper}"{wide}{dashes}/>'
