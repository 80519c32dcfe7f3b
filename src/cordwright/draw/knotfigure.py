"""Figures of tight knots: any knot of the atlas, from the front, as an SVG picture."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape

import numpy as np

from cordwright.draw.caption import colours, title
from cordwright.draw.ink import FLAX, RIGID, Ink, ink
from cordwright.draw.layers import Run, Tube, View, layers
from cordwright.draw.outline import painted
from cordwright.draw.poses import tight_pose
from cordwright.draw.strokes import Page
from cordwright.draw.wording import Wording, english
from cordwright.knots.spec import KnotSpec, Role

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from cordwright.draw.cords import Cord
    from cordwright.knots.atlas import Atlas

    Floats = NDArray[np.float64]

CORD_MM = 4.0
"""Thickness of the working cord in a figure, in mm."""

MARGIN = 0.6
"""Room round what is drawn, in diameters of the working cord."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A picture, and what it was painted from.

    Args:
        svg: the picture; its viewBox is in mm.
        width_mm, height_mm: size of the picture.
        tubes: the cords as they are seen, in d.
        inks: how each run was painted.
        runs: parts of the cords from back to front.
        page: where things in d come on paper.
    """

    svg: str
    width_mm: float
    height_mm: float
    tubes: tuple[Tube, ...]
    inks: tuple[Ink, ...]
    runs: tuple[Run, ...]
    page: Page


@dataclass(frozen=True, slots=True)
class Frame:
    """What a picture holds, in d: to the right and up."""

    left: float
    right: float
    bottom: float
    top: float


def knot_figure(
    atlas: Atlas,
    spec: KnotSpec,
    *,
    cells: int | None = None,
    view: View | None = None,
    wording: Wording | None = None,
) -> Figure:
    """A tight knot as it looks.

    Args:
        atlas: where tight curves come from.
        spec: which knot.
        cells: how many knots one after the other; as many as show it well if None.
        view: from where it is seen; from where it shows best if None.
        wording: how its title and description are written; English if None.

    Raises:
        KnotError: if the knot cannot be tied as specified.
    """
    cords, best = tight_pose(atlas, spec, cells)
    seen = view or best
    tubes = tuple(Tube(seen.seen(c.points), c.diameter) for c in cords)
    inks = inks_of(cords)
    runs = layers(tubes)
    said = wording or english()
    words = title(spec, said), colours(inks, said)
    return composed(tubes, runs, [inks[r.cord] for r in runs], around(tubes), *words)


def inks_of(cords: Sequence[Cord]) -> tuple[Ink, ...]:
    """Working strands in colours of their own, all else quiet."""
    # Parts of one strand share its place; hitches of a row are told apart by their cell.
    strands = [(c.cell, c.place) for c in cords if c.role is Role.WORKING and not c.fixed]
    number = {strand: i for i, strand in enumerate(dict.fromkeys(strands))}
    return tuple(
        RIGID if c.fixed else ink(number[c.cell, c.place]) if c.role is Role.WORKING else FLAX
        for c in cords
    )


def around(tubes: Sequence[Tube]) -> Frame:
    """The frame that holds whole tubes, with a margin."""
    low = np.min([t.points.min(axis=0) - t.diameter / 2 for t in tubes], axis=0) - MARGIN
    high = np.max([t.points.max(axis=0) + t.diameter / 2 for t in tubes], axis=0) + MARGIN
    return Frame(float(low[0]), float(high[0]), float(low[1]), float(high[1]))


def composed(
    tubes: Sequence[Tube],
    runs: Sequence[Run],
    inks: Sequence[Ink],
    frame: Frame,
    name: str,
    description: str,
    extra: Sequence[str] = (),
) -> Figure:
    """A picture of runs in their inks, with further elements on top.

    Args:
        tubes: the cords as they are seen, in d.
        runs: parts of them from back to front.
        inks: one for each run.
        frame: what the picture holds.
        name: what it shows, for those who cannot see it.
        description: more of the same.
        extra: SVG elements, in mm on the page.
    """
    page = page_of(frame)
    width = (frame.right - frame.left) * CORD_MM
    height = (frame.top - frame.bottom) * CORD_MM
    body = "\n".join([*painted(tubes, inks, runs, page, (width, height)), *extra])
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:.2f} {height:.2f}"'
        f' width="{width:.2f}mm" height="{height:.2f}mm" role="img" fill="none"'
        f' stroke-linejoin="round">\n<title>{escape(name)}</title>\n'
        f"<desc>{escape(description)}</desc>\n{body}\n</svg>\n"
    )
    return Figure(svg, width, height, tuple(tubes), tuple(inks), tuple(runs), page)


def page_of(frame: Frame) -> Page:
    """Where a frame comes on paper."""
    return Page(CORD_MM, frame.left, frame.top)
