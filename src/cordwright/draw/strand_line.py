"""A strand's centre line over the picture, so that its way shows where other cord hides it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.piece_curves import line, path

if TYPE_CHECKING:
    from cordwright.draw.piece_view import Seen
    from cordwright.draw.placed_cell import Points
    from cordwright.draw.placed_cords import FreeCord
    from cordwright.piece.model import Strand

SHARE = 0.34
"""Width of the line in the cord's diameter."""

LEAST = 0.35
"""Its least width, page mm."""


def way_of(strand: Strand, seen: Seen, cords: Sequence[FreeCord]) -> list[Points]:
    """(k, 4, 3) float each, mm: a strand's way through free cord and knots, in order.

    Args:
        strand: of the piece.
        seen: the knots as they are drawn.
        cords: free cord that meets them.
    """
    own = {(c.stop, c.part): c.curves for c in cords if c.strand == strand.id}
    found = []
    if (-1, "start") in own:
        # Drawn from the first knot upwards; the way comes down.
        found.append(own[-1, "start"][::-1, ::-1])
    for i, stop in enumerate(strand.course):
        if (i, "free") in own:
            found.append(own[i, "free"])
        knot = seen.knots[stop.knot]
        if strand.id in knot.strands:
            points = knot.at(knot.way(strand.id))
            found.append(line(points).fitted(0, len(points) - 1))
    if (len(strand.course), "tail") in own:
        found.append(own[len(strand.course), "tail"])
    return found


def line_svg(
    ways: Sequence[Points], thick: float, colour: str, scale: float, origin: Points
) -> str:
    """The line on the page.

    Args:
        ways: (k, 4, 3) float each, mm.
        thick: mm, of the cord.
        colour: of the line.
        scale: page mm for each mm.
        origin: (2,) float, where on the page x = z = 0 is.
    """
    flat = [w[:, :, [0, 2]] * [1.0, -1.0] * scale + origin for w in ways]
    if not flat:
        return ""
    width = max(LEAST, SHARE * thick * scale)
    d = path([np.concatenate(flat)], 2)
    return (
        f'<path class="way" fill="none" stroke="{colour}" stroke-width="{width:.2f}" '
        f'stroke-linejoin="round" stroke-linecap="round" d="{d}"/>'
    )
