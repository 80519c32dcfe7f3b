"""Tubes as SVG: outline, colour and mark of each run, from back to front, with gaps at crossings.

Each run is written once, as the path of its outline, which is used for its colour, its mark, and to
end the runs that it covers: a mask takes from them what lies under it, and a little more.
"""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from string import ascii_letters, digits
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.brush import Brush, Masks
from cordwright.draw.curves import at, beziers, lengths, part
from cordwright.draw.gaps import GAP, seen_of, touching
from cordwright.draw.strokes import ERROR, Page, beyond, dashed, path, stroke_of

if TYPE_CHECKING:
    from cordwright.draw.ink import Ink
    from cordwright.draw.layers import Run, Tube
    from cordwright.draw.strokes import Stroke

LINE = 0.085
"""Thickness of a cord's outline, in its diameters, or in those of the thinnest cord shown."""

FINE = 16
"""Figures are written in whole numbers of so many to the mm, 64 to a cord's diameter."""


SIGNS = ascii_letters + digits


def painted(
    tubes: Sequence[Tube],
    inks: Sequence[Ink],
    runs: Sequence[Run],
    page: Page,
    size: tuple[float, float],
) -> list[str]:
    """SVG elements of the runs that are seen, in order, each in its ink.

    Args:
        tubes: the cords as they are seen.
        inks: one for each run.
        runs: parts of the cords from back to front.
        page: where they come on paper.
        size: width and height of the picture, mm.
    """
    fine = Page(FINE * page.scale, page.left, page.top)
    strokes = [stroke_of(tubes, runs, i, fine) for i in range(len(runs))]
    seen = seen_of(tubes, runs)
    drawn = "".join(s.data for s in strokes)
    # Figures may stand in one page: their names are as different as they are.
    name = _named(drawn)
    gap = GAP * min(t.diameter for t in tubes) * fine.scale
    line = LINE * min(t.diameter for t in tubes) * fine.scale
    brush = Brush(name, line, fine, {})
    touch = touching([t.run for t in strokes], tubes, 2 * gap / fine.scale)
    masks = Masks(name, strokes, gap, (round(size[0] * FINE), round(size[1] * FINE)), touch, [])
    shared = masks.shared(seen.gaps)
    groups, defs = [], [masks.ground()]
    for i, (run, ink) in enumerate(zip(runs, inks, strict=True)):
        if i in seen.hidden:
            continue
        group = "".join(_run(i, strokes[i], tubes[run.cord], ink, brush))
        groups.append(f'<g mask="url(#{name}m{shared[i]})">{group}</g>' if i in shared else group)
    defs += masks.svg()
    scaled = f'<g id="{name}" transform="scale({1 / FINE:g})">'
    return [brush.css(masks.most), scaled, "<defs>", *defs, "</defs>", *groups, "</g>"]


def _named(data: str) -> str:
    """Three letters and digits that hardly another picture has; ids begin with a letter."""
    number = int.from_bytes(hashlib.sha256(data.encode()).digest()[:8], "big")
    number, first = divmod(number, len(ascii_letters))
    number, second = divmod(number, len(SIGNS))
    return ascii_letters[first] + SIGNS[second] + SIGNS[number % len(SIGNS)]


def _run(i: int, stroke: Stroke, tube: Tube, ink: Ink, brush: Brush) -> list[str]:
    """Outline, colour and mark of a run."""
    inner = stroke.width - 2 * brush.line
    half = tuple(0.5 * lap for lap in stroke.laps)
    laps = dashed(stroke, (half[0], half[1])) if any(half) else ""
    # Where a cord turns along the line of sight its parts meet at an angle; as a tube it is round
    # there, with the outline of a ball.
    edge_balls = [e.slow and e.covered for e in stroke.ends]
    # What is painted later at a covered end brings a ball of that colour itself.
    fill_balls = [e.slow and not e.covered for e in stroke.ends]
    round_edge, round_fill = all(edge_balls), all(e.slow for e in stroke.ends)
    found = [] if round_edge else _balls(stroke, tube, edge_balls, ink.edge, stroke.width, brush)
    found.append(brush.first(i, stroke.data, ink.edge, stroke.width, laps, rounded=round_edge))
    if not round_fill:
        found += _balls(stroke, tube, fill_balls, ink.fill, inner, brush)
    found.append(brush.used(i, ink.fill, inner, rounded=round_fill))
    return found + _mark(i, stroke, tube, ink, brush)


def _balls(
    stroke: Stroke, tube: Tube, which: Sequence[bool], colour: str, width: float, brush: Brush
) -> list[str]:
    """Balls at those ends of a run that have one."""
    ends = zip(which, (stroke.run.start, stroke.run.end), strict=True)
    where = [s for is_ball, s in ends if is_ball]
    return [
        brush.ball(brush.page.on(at(tube.points, np.array([s])))[0], colour, width) for s in where
    ]


def _mark(i: int, stroke: Stroke, tube: Tube, ink: Ink, brush: Brush) -> list[str]:
    mark, width = ink.mark, stroke.width
    if not mark.width:
        return []
    start, end = stroke.start, stroke.end
    page, inner = brush.page, stroke.width - 2 * brush.line
    balls = tuple(e.slow and not e.covered for e in stroke.ends)
    data = ""
    if any(balls):
        # A ball painted over a neighbour hides its mark, which is drawn again as far as that.
        start = beyond(tube, start, -inner / 2, page) if balls[0] else start
        end = beyond(tube, end, inner / 2, page) if balls[1] else end
        data = path(beziers(page.on(part(tube.points, start, end)), ERROR * width))
    dashes = " ".join(f"{round(x * width)}" for x in mark.dashes)
    more = ""
    if mark.dashes:
        # Dashes go on from run to run as they were on the whole cord.
        # The cord begins in the middle of a gap.
        phase = (mark.dashes[0] + mark.dashes[1] / 2) * width
        if start > 0:
            phase += float(lengths(page.on(part(tube.points, 0.0, start)))[-1])
        more = f' stroke-dashoffset="{round(phase % (sum(mark.dashes) * width))}"'
    thick = mark.width * width
    rounded = mark.round_ends
    if not data:
        return [brush.used(i, ink.mark_colour, thick, more, rounded=rounded, dashes=dashes)]
    return [brush.drawn(data, ink.mark_colour, thick, more, rounded=rounded, dashes=dashes)]
