"""Tubes as SVG: outline, colour and mark of each run, from back to front, with gaps at crossings.

Each run is written once, as the path of its outline, which is used for its colour, its mark, and to
end the runs that it covers: a mask takes from them what lies under it, and a little more.
"""

from __future__ import annotations

import hashlib
from collections.abc import Container, Sequence
from itertools import groupby
from string import ascii_letters, digits
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.brush import BUTT, Brush, Masks
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
    gone = gone_behind(runs, seen.hidden, tubes)
    groups, defs = [], [masks.ground()]
    for i, (run, ink) in enumerate(zip(runs, inks, strict=True)):
        if i in seen.hidden:
            continue
        mask = f' mask="url(#{name}m{shared[i]})"' if i in shared else ""
        groups.append(_run(i, strokes[i], tubes[run.cord], ink, brush, gone, mask))
    defs += masks.svg()
    scaled = f'<g id="{name}" transform="scale({1 / FINE:g})">'
    return [brush.css(masks.most), scaled, "<defs>", *defs, "</defs>", *groups, "</g>"]


def gone_behind(
    runs: Sequence[Run], hidden: Container[int], tubes: Sequence[Tube]
) -> frozenset[int]:
    """Hidden runs in stretches of a cord, longer than it is thick, of which nothing is seen."""
    order = sorted(range(len(runs)), key=lambda i: (runs[i].cord, runs[i].start))
    found: list[int] = []
    for seen, group in groupby(order, key=lambda i: None if i in hidden else (i,)):
        stretch = list(group) if seen is None else []
        for cord, own in groupby(stretch, key=lambda i: runs[i].cord):
            of = list(own)
            if runs[of[-1]].end - runs[of[0]].start > tubes[cord].diameter:
                found += of
    return frozenset(found)


def _named(data: str) -> str:
    """Three letters and digits that hardly another picture has; ids begin with a letter."""
    number = int.from_bytes(hashlib.sha256(data.encode()).digest()[:8], "big")
    number, first = divmod(number, len(ascii_letters))
    number, second = divmod(number, len(SIGNS))
    return ascii_letters[first] + SIGNS[second] + SIGNS[number % len(SIGNS)]


def _run(
    i: int,
    stroke: Stroke,
    tube: Tube,
    ink: Ink,
    brush: Brush,
    gone: Container[int | None],
    mask: str,
) -> str:
    """Outline, colour and mark of a run; where the cord is gone behind, its end is whole."""
    inner = stroke.width - 2 * brush.line
    half = tuple(0.5 * lap for lap in stroke.laps)
    laps = (dashed(stroke, (half[0], half[1])) if any(half) else "") or ""
    # Where a cord turns along the line of sight its parts meet at an angle; as a tube it is round
    # there, with the outline of a ball.
    edge_balls = [e.slow and (e.covered or e.other in gone) for e in stroke.ends]
    # What is painted later at a covered end brings a ball of that colour itself.
    fill_balls = [e.slow and not e.covered for e in stroke.ends]
    round_edge, round_fill = all(edge_balls), all(e.slow for e in stroke.ends)
    found = [] if round_edge else _balls(stroke, tube, edge_balls, ink.edge, stroke.width, brush)
    outline = brush.look(ink.edge, stroke.width, rounded=round_edge)
    if laps:
        # Dashes would be handed down to the colour too.
        found.append(f"<g class={outline}{laps}>{brush.path(i, stroke.data)}</g>")
    else:
        found.append(brush.path(i, stroke.data))
        mask += f" class={outline}"
    cap = BUTT if round_edge and not laps else ""
    if not round_fill:
        found += _balls(stroke, tube, fill_balls, ink.fill, inner, brush)
    found.append(brush.again(i, brush.look(ink.fill, inner, rounded=round_fill, cap=cap)))
    found += _mark(i, stroke, tube, ink, brush, cap)
    return f"<g{mask}>{''.join(found)}</g>" if mask else "".join(found)


def _balls(
    stroke: Stroke, tube: Tube, which: Sequence[bool], colour: str, width: float, brush: Brush
) -> list[str]:
    """Balls at those ends of a run that have one."""
    ends = zip(which, (stroke.run.start, stroke.run.end), strict=True)
    where = [s for is_ball, s in ends if is_ball]
    return [
        brush.ball(brush.page.on(at(tube.points, np.array([s])))[0], colour, width) for s in where
    ]


def _mark(i: int, stroke: Stroke, tube: Tube, ink: Ink, brush: Brush, cap: str) -> list[str]:
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
    look = brush.look(ink.mark_colour, thick, rounded=rounded, dashes=dashes, cap=cap)
    return [brush.again(i, look, more) if not data else brush.drawn(data, look, more)]
