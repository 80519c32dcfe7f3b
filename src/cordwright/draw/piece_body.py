"""Everything that hangs, on the page: cord, knots, mount and pot, the farthest first."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.piece_cords import Strip, painted_strips, strip
from cordwright.draw.piece_curves import number
from cordwright.draw.piece_symbols import OUTLINE, Brush, symbols
from cordwright.draw.piece_things import held_svg, mount_svg

if TYPE_CHECKING:
    from cordwright.draw.piece_styles import Styles
    from cordwright.draw.piece_view import Seen
    from cordwright.draw.placed import Instance, Placed
    from cordwright.draw.placed_cell import Points
    from cordwright.draw.placed_cords import FreeCord

SHEEN_FROM = 0.5
"""Cords thinner than this on the page, mm, are drawn without a sheen."""

SLAB = 1.5
"""Depth, in diameters of the thickest cord, within which knots are drawn over free cord."""

FINE_LINE = 0.07
"""Least width of a cord's outline, page mm: finer lines do not print."""


def body(
    what: Placed,
    seen: Seen,
    cords: Sequence[FreeCord],
    styles: Styles,
    scale: float,
    origin: Points,
) -> str:
    """SVG of everything that hangs, the farthest first.

    Args:
        what: the piece in space.
        seen: its knots as they are drawn.
        cords: free cord that meets them.
        styles: how cords are drawn.
        scale: page mm for each mm.
        origin: (2,) float, where on the page x = z = 0 is.
    """
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
    parts = [f"<defs>{defs}</defs>", mount_svg(what, scale, origin)]
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
