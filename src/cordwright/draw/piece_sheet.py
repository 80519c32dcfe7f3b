"""The whole piece on one page: as it hangs, with its measures and the names of its parts."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape

import numpy as np

from cordwright.draw.ink import PAPER, SOFT, TEXT, coloured, mixed
from cordwright.draw.piece_colours import rgb_of
from cordwright.draw.piece_cords import Strip, painted_strips, strip
from cordwright.draw.piece_curves import number
from cordwright.draw.piece_layout import heading, legend, measures
from cordwright.draw.piece_measures import reach
from cordwright.draw.piece_notes import Notes, joined, moved
from cordwright.draw.piece_symbols import OUTLINE, Brush, styled, symbols
from cordwright.draw.piece_text import FAMILY, Text, printable
from cordwright.draw.piece_things import held_svg, mount_colour, mount_svg
from cordwright.draw.piece_view import Seen, seen_from_the_front
from cordwright.draw.placed_cords import free_cords
from cordwright.draw.strand_line import line_svg, way_of

if TYPE_CHECKING:
    from cordwright.draw.placed import Instance, Placed
    from cordwright.draw.placed_cell import Points
    from cordwright.draw.placed_cords import FreeCord
    from cordwright.piece.model import Piece
    from cordwright.units.length import System

TALLEST, WIDEST = 235.0, 150.0
"""What a piece is fitted into, page mm; with its notes that is an A4 page."""

LARGEST = 3.0
"""Small pieces are drawn at most so many times as large as they are."""

NARROWEST = 80.0
"""Least width between the margins, page mm: room for the heading."""

SHEEN_FROM = 0.5
"""Cords thinner than this on the page, mm, are drawn without a sheen."""

COARSE_FROM = 1.3
"""Knots of cord thinner than this on the page, mm, are turned in double steps."""

MARGIN = 8.0
"""Round the page, mm."""

SLAB = 1.5
"""Depth, in diameters of the thickest cord, within which knots are drawn over free cord."""

FINE_LINE = 0.07
"""Least width of a cord's outline, page mm: finer lines do not print."""


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
class Styles:
    """How cords are drawn.

    Args:
        strand: style of every strand of the piece.
        mount: style of the ring or rod.
        css: of all styles.
        legend: fill and words of what stands below the picture.
    """

    strand: tuple[int, ...]
    mount: int
    css: str
    legend: tuple[tuple[str, str], ...]


def piece_styles(piece: Piece, only: Iterable[int] | None = None) -> Styles:
    """Every cord of the plan in its own colour.

    Args:
        piece: as worked.
        only: strands that are to stand out; the others are quiet then.
    """
    names = list(piece.plan.cords)
    fills = [rgb_of(spec.colour) for spec in piece.plan.cords.values()]
    picked = None if only is None else set(only)
    strand, css = [], []
    for s in piece.strands:
        i = names.index(piece.cords[s.cord].cord)
        loud = picked is None or s.id in picked
        strand.append(i if loud else i + len(names))
    for i, fill in enumerate(fills):
        css.append(_css(i, LOUD if picked is not None else fill))
        if picked is not None:
            css.append(_css(i + len(names), mixed(fill, PAPER, QUIET), quiet=True))
    rod = 2 * len(names)
    css.append(_css(rod, mixed(mount_colour(piece), PAPER, 0.0 if picked is None else 0.5)))
    used = {piece.cords[s.cord].cord for s in piece.strands}
    legend = [
        (fill, _cord_words(piece, name))
        for name, fill in zip(names, fills, strict=True)
        if name in used and picked is None
    ]
    return Styles(tuple(strand), rod, "".join(css), tuple(legend))


LOUD = "#c8442a"
"""Colour of a strand that is picked out."""

QUIET = 0.6
"""How much paler than they are the other strands are drawn then."""


def _css(style: int, fill: str, *, quiet: bool = False) -> str:
    ink = coloured(fill)
    edge = mixed(ink.edge, PAPER, 0.55) if quiet else ink.edge
    return styled(style, edge, fill, mixed(fill, "#ffffff", 0.3))


def _cord_words(piece: Piece, name: str) -> str:
    spec = piece.plan.cords[name]
    parts = (name, f"{piece.values[f'd:{name}']:g} mm", spec.build, spec.fibre, spec.colour)
    return ", ".join(p for p in parts if p)


def piece_sheet(
    what: Placed, *, system: System = "metric", only: Sequence[int] | None = None, title: str = ""
) -> Sheet:
    """The whole piece as SVG.

    Args:
        what: the piece in space.
        system: what lengths are written in.
        only: strands to pick out.
        title: above the picture; the plan's title if empty.
    """
    piece = what.piece
    styles = piece_styles(piece, only)
    extent = reach(what)
    low, high = extent.low, extent.high
    size = np.maximum(high - low, 1.0)
    scale = float(min(TALLEST / size[1], WIDEST / size[0], LARGEST))
    around = measures(what, extent, scale, system)
    inner = max(around.left + scale * size[0] + around.right, NARROWEST)
    above = heading(title or piece.plan.title, piece.plan.about or "", inner)
    top = MARGIN + max(t.box.bottom for t in above) + 4.0
    spare = 0.5 * (inner - around.left - scale * size[0] - around.right)
    origin = np.array([MARGIN + spare + around.left - scale * low[0], top + scale * high[1]])
    bottom = top + scale * size[1] + around.below + 3.0
    swatches, cords = legend(styles.legend, MARGIN, bottom, inner)
    height = max([bottom, *(t.box.bottom for t in cords)]) + MARGIN
    beside = moved(around.notes, float(origin[0]), float(origin[1]))
    headed = moved(Notes(above, ()), MARGIN, MARGIN)
    thick = scale * max((c.thick for c in what.cords), default=1.0)
    coarse = 1 if thick > COARSE_FROM else 2
    seen = seen_from_the_front(what, styles.strand, styles.mount, coarse)
    page = (inner + 2 * MARGIN, height)
    every = joined([headed, beside, Notes(cords, ())])
    free = free_cords(piece, seen.knots, what.way_points)
    drawn = _body(what, seen, free, styles, scale, origin)
    for i in only or ():
        strand = piece.strands[i]
        thick = piece.values[f"d:{piece.cords[strand.cord].cord}"]
        drawn += line_svg(way_of(strand, seen, free), thick, LOUD, scale, origin)
    svg = _svg(page, piece.plan.title, styles.css, drawn + swatches + every.svg())
    return Sheet(svg, *page, every.texts, scale, origin, seen)


def _svg(page: tuple[float, float], title: str, css: str, body: str) -> str:
    w, h = page
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{w:.1f}mm" height="{h:.1f}mm" '
        f'viewBox="0 0 {w:.1f} {h:.1f}"><title>{escape(printable(title))}</title>'
        "<style>path{fill:none;stroke-linejoin:round}"
        f".n{{stroke:{SOFT};stroke-width:.2}}"
        f"text{{font-family:'{FAMILY}',sans-serif;fill:{TEXT}}}{css}</style>"
        f'<rect width="100%" height="100%" fill="{PAPER}"/>{body}</svg>'
    )


def _body(
    what: Placed,
    seen: Seen,
    cords: Sequence[FreeCord],
    styles: Styles,
    scale: float,
    origin: Points,
) -> str:
    """Everything that hangs, the farthest first."""
    thickest = max((c.thick for c in what.cords), default=1.0)
    outline = max(OUTLINE, min(0.2, FINE_LINE / (thickest * scale)))
    fine = thickest * scale > SHEEN_FROM
    pictures = symbols(seen.looks, Brush(outline, fine, 2 if thickest * scale > 0.45 else 1))
    defs = "".join(f'<g id="k{i}">{p}</g>' for i, p in enumerate(pictures))
    strips = [strip(c, styles.strand[c.strand], scale, origin) for c in cords]
    shown = [s for s in strips if s is not None]
    slab = SLAB * thickest
    layers: dict[int, tuple[list[Strip], list[int]]] = {}
    for s in shown:
        layers.setdefault(-round(s.depth / slab), ([], []))[0].append(s)
    depth = [_depth(k) for k in seen.knots]
    for i, y in enumerate(depth):
        layers.setdefault(-round(y / slab), ([], []))[1].append(i)
    pot = -round(float(what.base[1]) / slab) if what.base is not None else None
    parts = [f"<defs>{defs}</defs>", mount_svg(what.piece, scale, origin)]
    brush = Brush(outline, fine)
    for layer in sorted(layers):
        if pot is not None and layer >= pot:
            parts.append(held_svg(what, scale, origin))
            pot = None
        free, knots = layers[layer]
        parts.append(painted_strips(free, brush, 2))
        parts += [_use(seen, i, scale, origin) for i in sorted(knots, key=lambda i: -depth[i])]
    if pot is not None:
        parts.append(held_svg(what, scale, origin))
    return f'<g stroke-linecap="butt">{"".join(parts)}</g>'


def _depth(knot: Instance) -> float:
    """How far away the middle of a knot is, mm."""
    return float(knot.origin[1] - 0.5 * knot.cell.height * knot.d * knot.axes[1, 2])


def _use(seen: Seen, i: int, scale: float, origin: Points) -> str:
    knot, lean = seen.knots[i], seen.lean[i]
    size = knot.d * scale
    x, y = origin + scale * knot.origin[[0, 2]] * [1.0, -1.0]
    c, s = size * np.cos(lean), size * np.sin(lean)
    a, b, e, f = (number(round(v * 1000), 3) for v in (c, s, x, y))
    minus = number(round(-s * 1000), 3)
    return f'<use href="#k{seen.look[i]}" transform="matrix({a} {b} {minus} {a} {e} {f})"/>'
