"""What strokes look like: every colour and width of a figure is said once, as a class of its own.

Classes hold within their figure only, and ids begin with a name that other figures do not have, so
that many figures can stand in one page.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
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

Look = tuple[str, int, bool, str]
"""Colour, width in units of the path, whether ends are round, and dashes."""


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

    def used(
        self,
        i: int,
        colour: str,
        width: float,
        more: str = "",
        *,
        rounded: bool = False,
        dashes: str = "",
    ) -> str:
        """A run's path in a colour."""
        look = self._class(colour, width, rounded, dashes)
        return f'<use href="#{self.name}{i}" class="{look}"{more}/>'

    def drawn(
        self,
        data: str,
        colour: str,
        width: float,
        more: str = "",
        *,
        rounded: bool = False,
        dashes: str = "",
    ) -> str:
        """A path that is used nowhere else."""
        return f'<path d="{data}" class="{self._class(colour, width, rounded, dashes)}"{more}/>'

    def ball(self, centre: Floats, colour: str, width: float) -> str:
        """A disc: a stroke of no length with round ends."""
        x, y = np.round(centre).astype(int).tolist()
        return self.drawn(f"M{joined_numbers([x, y])}h0", colour, width, rounded=True)

    def _class(self, colour: str, width: float, rounded: bool, dashes: str) -> str:
        look = colour, round(width), rounded, dashes
        return self.known.setdefault(look, f"s{len(self.known)}")

    def css(self, gap: int) -> str:
        """What the classes stand for; ``gap`` is the width of what makes gaps."""
        rules = [
            f"#{self.name} .{cls}{{stroke:{colour};stroke-width:{width}"
            + (";stroke-linecap:round" if rounded else "")
            + (f";stroke-dasharray:{dashes}" if dashes else "")
            + "}"
            for (colour, width, rounded, dashes), cls in self.known.items()
        ]
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
        made: masks, by what they take away.
    """

    name: str
    strokes: Sequence[Stroke]
    gap: float
    size: tuple[int, int]
    made: dict[str, str]

    @property
    def most(self) -> int:
        """Width of most gaps with the run that makes them."""
        widths = [round(s.width + 2 * self.gap) for s in self.strokes]
        return max(set(widths), key=widths.count)

    def ground(self) -> str:
        """All of the picture."""
        w, h = self.size
        return f'<path id="{self.name}w" d="M0 0H{w}V{h}H0z" fill="#fff"/>'

    def mask(self, uppers: Sequence[int], lower: int) -> str:
        """The end of the id of a mask that leaves all of the picture but what lies over a run."""
        taken = "".join(self._use(lower, upper) for upper in uppers)
        if taken and taken not in self.made:
            w, h = self.size
            self.made[taken] = (
                f'<mask id="{self.name}m{len(self.made)}" maskUnits="userSpaceOnUse" '
                f'width="{w}" height="{h}"><use href="#{self.name}w"/>'
                f'<g class="o">{taken}</g></mask>'
            )
        return f"m{list(self.made).index(taken)}" if taken else ""

    def _use(self, lower: int, upper: int) -> str:
        stroke = self.strokes[upper]
        away = PART * stroke.width
        kept = tuple(away if end.other == lower else 0.0 for end in stroke.ends)
        dashes = dashed(stroke, (kept[0], kept[1])) if any(kept) else ""
        width = round(stroke.width + 2 * self.gap)
        wide = "" if width == self.most else f' style="stroke-width:{width}"'
        return f'<use href="#{self.name}{upper}"{wide}{dashes}/>'
