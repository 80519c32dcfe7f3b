"""The whole piece on one page: as it hangs, with its measures and the names of its parts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape

import numpy as np

from cordwright.draw.ink import PAPER, SOFT, TEXT
from cordwright.draw.piece_body import body
from cordwright.draw.piece_layout import heading, legend, measures
from cordwright.draw.piece_measures import reach
from cordwright.draw.piece_notes import Notes, joined, moved
from cordwright.draw.piece_styles import LOUD, Styles, piece_styles
from cordwright.draw.piece_text import FAMILY, Text, printable
from cordwright.draw.piece_turn import showing_most
from cordwright.draw.piece_view import Seen, seen_from_the_front
from cordwright.draw.placed_cords import free_cords
from cordwright.draw.strand_line import line_svg, way_of
from cordwright.draw.wording import Wording, english

if TYPE_CHECKING:
    from cordwright.draw.piece_measures import Extent
    from cordwright.draw.placed import Placed
    from cordwright.draw.placed_cell import Points

TALLEST, WIDEST = 235.0, 150.0
"""What a piece is fitted into, page mm; with its notes that is an A4 page."""

LARGEST = 3.0
"""Small pieces are drawn at most so many times as large as they are."""

NARROWEST = 80.0
"""Least width between the margins, page mm: room for the heading."""

COARSE_FROM = 1.3
"""Knots of cord thinner than this on the page, mm, are turned in double steps."""

MARGIN = 8.0
"""Round the page, mm."""

BARE_MARGIN = 2.0
"""Round a piece without notes, mm."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A picture.

    Args:
        svg: its text.
        width: of its page, mm.
        height: of its page, mm.
        texts: its lettering.
        scale: page mm for each mm.
        origin: (2,) float, where on the page the middle of the mount's top is.
        seen: the knots as drawn.
    """

    svg: str
    width: float
    height: float
    texts: tuple[Text, ...]
    scale: float
    origin: Points
    seen: Seen


@dataclass(frozen=True, slots=True)
class _Page:
    """Where everything on a page stands.

    Args:
        width, height: mm.
        origin: (2,) float, where on the page x = z = 0 is.
        notes: lettering and thin lines.
        swatches: SVG of the legend's swatches.
    """

    width: float
    height: float
    origin: Points
    notes: Notes
    swatches: str


def piece_sheet(
    what: Placed,
    *,
    wording: Wording | None = None,
    only: Sequence[int] | None = None,
    title: str = "",
    bare: bool = False,
) -> Sheet:
    """The whole piece as SVG.

    Args:
        what: the piece in space; round work is turned to where it shows most.
        wording: how words and lengths are written; English and metric if None.
        only: strands to pick out.
        title: above the picture; the plan's title if empty.
        bare: whether the piece stands alone, with an open ground and no lettering.
    """
    what = showing_most(what)
    piece, said = what.piece, wording or english()
    styles = piece_styles(piece, said, only)
    extent = reach(what)
    size = np.maximum(extent.high - extent.low, 1.0)
    scale = float(min(TALLEST / size[1], WIDEST / size[0], LARGEST))
    if bare:
        page = _bare_page(extent, scale)
    else:
        page = _page(what, styles, extent, scale, title or piece.plan.title, said)
    thick = scale * max((c.thick for c in what.cords), default=1.0)
    coarse = 1 if thick > COARSE_FROM else 2
    seen = seen_from_the_front(what, styles.strand, styles.mount, coarse)
    free = free_cords(piece, seen.knots, what.way_points)
    drawn = body(what, seen, free, styles, scale, page.origin)
    for i in only or ():
        strand = piece.strands[i]
        thick = piece.values[f"d:{piece.cords[strand.cord].cord}"]
        drawn += line_svg(way_of(strand, seen, free), thick, LOUD, scale, page.origin)
    ground = "" if bare else f'<rect width="100%" height="100%" fill="{PAPER}"/>'
    inside = ground + drawn + page.swatches + page.notes.svg()
    svg = _svg(page, title or piece.plan.title, styles.css, inside)
    return Sheet(svg, page.width, page.height, page.notes.texts, scale, page.origin, seen)


def _bare_page(extent: Extent, scale: float) -> _Page:
    """A page as large as the piece."""
    width, height = scale * (extent.high - extent.low) + 2 * BARE_MARGIN
    corner = scale * np.array([-extent.low[0], extent.high[1]])
    return _Page(float(width), float(height), corner + BARE_MARGIN, Notes((), ()), "")


def _page(
    what: Placed, styles: Styles, extent: Extent, scale: float, title: str, wording: Wording
) -> _Page:
    """A page with heading, measures, names and legend."""
    low, high = extent.low, extent.high
    size = np.maximum(high - low, 1.0)
    around = measures(what, extent, scale, wording)
    inner = max(around.left + scale * size[0] + around.right, NARROWEST)
    above = heading(title, what.piece.plan.about or "", inner)
    top = MARGIN + max(t.box.bottom for t in above) + 4.0
    spare = 0.5 * (inner - around.left - scale * size[0] - around.right)
    origin = np.array([MARGIN + spare + around.left - scale * low[0], top + scale * high[1]])
    bottom = top + scale * size[1] + around.below + 3.0
    swatches, cords = legend(styles.legend, MARGIN, bottom, inner)
    height = max([bottom, *(t.box.bottom for t in cords)]) + MARGIN
    beside = moved(around.notes, float(origin[0]), float(origin[1]))
    headed = moved(Notes(above, ()), MARGIN, MARGIN)
    every = joined([headed, beside, Notes(cords, ())])
    return _Page(inner + 2 * MARGIN, height, origin, every, swatches)


def _svg(page: _Page, title: str, css: str, inside: str) -> str:
    w, h = page.width, page.height
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{w:.1f}mm" height="{h:.1f}mm" '
        f'viewBox="0 0 {w:.1f} {h:.1f}"><title>{escape(printable(title))}</title>'
        "<style>path{fill:none;stroke-linejoin:round}"
        f".n{{stroke:{SOFT};stroke-width:.2}}"
        f"text{{font-family:'{FAMILY}',sans-serif;fill:{TEXT}}}{css}</style>"
        f"{inside}</svg>"
    )
