"""Tubes as SVG paths: outline, colour and mark of each run, from back to front."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.curves import at, beziers, lengths, part

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from cordwright.draw.ink import Ink
    from cordwright.draw.layers import Run, Tube

    Floats = NDArray[np.float64]

ERROR = 0.015
"""How far a fitted curve may be from the cord's centre line, in diameters."""

LINE = 0.085
"""Thickness of a cord's outline, in its diameters, or in those of the thinnest cord shown."""

SLOW = 0.75
"""Where a cord's picture is shorter than the cord by more than this share, it runs towards the
viewer or away, and its parts meet at an angle."""

OVERLAY = 0.06
"""By how much a run's outline goes on over its neighbour on the same cord, in diameters, and by
how much its colour goes on beyond that: so no seam shows."""


@dataclass(frozen=True, slots=True)
class Page:
    """How the plane of the picture goes onto paper: x to the right, y down, in mm.

    Args:
        scale: mm per unit of the plane.
        left, top: coordinates in the plane that lie at the paper's left and upper edge.
    """

    scale: float
    left: float
    top: float

    def on(self, points: Floats) -> Floats:
        """(n, 2) float: points of the plane (right, up) on paper, in mm."""
        placed: Floats = (points[:, :2] - [self.left, self.top]) * [self.scale, -self.scale]
        return placed


def path(cubics: Floats) -> str:
    """SVG path data of joined cubics, (m, 4, 2) float, with relative curves and two decimals."""
    grid = np.round(cubics * 100).astype(np.int64)
    x0, y0 = grid[0, 0].tolist()
    parts = [f"M{_number(x0)}{_and(y0)}"]
    for start, *rest in grid:
        numbers = [int(v) for p in rest for v in p - start]
        parts.append("c" + _number(numbers[0]) + "".join(_and(v) for v in numbers[1:]))
    return "".join(parts)


def painted(
    tubes: Sequence[Tube], inks: Sequence[Ink], runs: Sequence[Run], page: Page
) -> list[str]:
    """SVG elements of the runs, in order, each in its ink."""
    found: list[str] = []
    line = LINE * min(t.diameter for t in tubes) * page.scale
    first = {(r.cord, r.start): i for i, r in enumerate(runs)}
    last = {(r.cord, r.end): i for i, r in enumerate(runs)}
    for i, (run, ink) in enumerate(zip(runs, inks, strict=True)):
        tube = tubes[run.cord]
        ends = (
            _end(tube, run.start, last.get((run.cord, run.start)), i),
            _end(tube, run.end, first.get((run.cord, run.end)), i),
        )
        found += _run(tube, ink, run, ends, line, page)
    return found


@dataclass(frozen=True, slots=True)
class End:
    """One end of a run.

    Args:
        goes_on: whether the cord goes on there, as another run.
        covered: whether that run is painted later.
        slow: whether the cord runs along the line of sight there.
    """

    goes_on: bool
    covered: bool
    slow: bool


def _end(tube: Tube, where: float, other: int | None, this: int) -> End:
    if other is None:
        return End(goes_on=False, covered=False, slow=False)
    by = 0.1 * tube.diameter
    way = np.diff(at(tube.points, np.array([where - by, where + by])), axis=0)[0]
    return End(True, other > this, float(np.hypot(way[0], way[1])) < SLOW * 2 * by)


def _run(
    tube: Tube, ink: Ink, run: Run, ends: tuple[End, End], line: float, page: Page
) -> list[str]:
    width = tube.diameter * page.scale
    inner = width - 2 * line
    cubics = beziers(page.on(part(tube.points, run.start, run.end)), ERROR * width)
    edge, fill = (path(_longer(cubics, ends, by * width)) for by in (OVERLAY, 2 * OVERLAY))
    # Where a cord turns along the line of sight its parts meet at an angle; as a tube it is round
    # there, with the outline of a ball.
    balls = [
        (page.on(at(tube.points, np.array([s])))[0], end.covered)
        for s, end in zip((run.start, run.end), ends, strict=True)
        if end.slow
    ]
    return [
        *(_disc(p, width / 2, ink.edge) for p, covered in balls if covered),
        f'<path d="{edge}" stroke="{ink.edge}" stroke-width="{_mm(width)}"/>',
        *(_disc(p, inner / 2, ink.fill) for p, _ in balls),
        f'<path d="{fill}" stroke="{ink.fill}" stroke-width="{_mm(inner)}"/>',
        *_mark(tube, ink, run, ends, cubics, page),
    ]


def _longer(cubics: Floats, ends: tuple[End, End], by: float) -> Floats:
    """The run's cubics, going straight on beyond its joints by so much."""
    parts = [cubics]
    thirds = np.arange(4)[:, None] / 3
    if ends[0].goes_on and not ends[0].slow:
        way = _unit(cubics[0, 0] - cubics[0, 1])
        parts.insert(0, (cubics[0, 0] + by * (1 - thirds) * way)[None])
    if ends[1].goes_on and not ends[1].slow:
        way = _unit(cubics[-1, 3] - cubics[-1, 2])
        parts.append((cubics[-1, 3] + by * thirds * way)[None])
    return np.concatenate(parts)


def _unit(way: Floats) -> Floats:
    return way / max(float(np.hypot(way[0], way[1])), 1e-9)


def _disc(centre: Floats, radius: float, colour: str) -> str:
    x, y = centre.tolist()
    return f'<circle cx="{_mm(x)}" cy="{_mm(y)}" r="{_mm(radius)}" fill="{colour}"/>'


def _mark(
    tube: Tube, ink: Ink, run: Run, ends: tuple[End, End], cubics: Floats, page: Page
) -> list[str]:
    mark, width = ink.mark, tube.diameter * page.scale
    if not mark.width:
        return []
    start = run.start
    if any(e.slow and not e.covered for e in ends):
        # A ball painted over a neighbour hides half a diameter of its mark, which is drawn again.
        total = float(lengths(tube.points)[-1])
        before, after = (0.45 * tube.diameter * (e.slow and not e.covered) for e in ends)
        start = max(0.0, run.start - before)
        points = part(tube.points, start, min(total, run.end + after))
        cubics = beziers(page.on(points), ERROR * width)
    data = path(cubics)
    more = ""
    if mark.dashes:
        dashes = " ".join(_mm(x * width) for x in mark.dashes)
        # Dashes go on from run to run as they were on the whole cord.
        # The cord begins in the middle of a gap.
        phase = (mark.dashes[0] + mark.dashes[1] / 2) * width
        if start > 0:
            phase += float(lengths(page.on(part(tube.points, 0.0, start)))[-1])
        offset = phase % (sum(mark.dashes) * width)
        more = f' stroke-dasharray="{dashes}" stroke-dashoffset="{_mm(offset)}"'
    if mark.round_ends:
        more += ' stroke-linecap="round"'
    stroke = f'stroke="{ink.mark_colour}" stroke-width="{_mm(mark.width * width)}"'
    return [f'<path d="{data}" {stroke}{more}/>']


def _number(hundredths: int) -> str:
    """Hundredths as a decimal, without zeros that say nothing."""
    text = f"{abs(hundredths) / 100:g}"
    text = text.removeprefix("0") if text != "0" else text
    return ("-" if hundredths < 0 else "") + text


def _and(hundredths: int) -> str:
    """The same after another number."""
    text = _number(hundredths)
    return text if text.startswith("-") else " " + text


def _mm(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".") or "0"
