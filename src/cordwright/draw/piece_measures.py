"""What is worth measuring on a piece: its whole, its sections, its longer free lengths."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.piece_things import extent

if TYPE_CHECKING:
    from cordwright.draw.placed import Instance, Placed
    from cordwright.draw.placed_cell import Points

GAP = 0.035
"""Free lengths that hang less than this share of the piece's height are not measured."""

LEAST_GAP = 8.0
"""Nor are those shorter than this, mm."""

ALIKE = 0.02
"""Free lengths whose ends lie within this share of the height are measured once."""


@dataclass(frozen=True, slots=True)
class Reach:
    """Something that reaches from one height to another.

    Args:
        name: what it is; empty for a free length.
        top: mm, up.
        bottom: mm, up.
        length: mm; of the cord where that is longer than the way.
        side: mm, how far to the right it reaches, of a section at half its height.
    """

    name: str
    top: float
    bottom: float
    length: float
    side: float


@dataclass(frozen=True, slots=True)
class Extent:
    """How far a piece reaches: (2,) float each, across and up, mm.

    Args:
        low: left and lowest, with mount and what is held.
        high: right and highest, with them.
        cord_low: of cord alone.
        cord_high: of cord alone.
    """

    low: Points
    high: Points
    cord_low: Points
    cord_high: Points


def reach(what: Placed) -> Extent:
    """How far a piece reaches."""
    corners = [_around(knot_points(k), 0.5 * k.d) for k in what.knots]
    if what.cords:
        points = sampled(np.concatenate([c.curves for c in what.cords]))[:, [0, 2]]
        count = [SAMPLES * len(c.curves) for c in what.cords]
        half = np.repeat([0.5 * c.thick for c in what.cords], count)[:, None]
        corners += [np.array([(points - half).min(axis=0), (points + half).max(axis=0)])]
    every = np.concatenate(corners) if corners else np.zeros((2, 2))
    cord_low, cord_high = every.min(axis=0), every.max(axis=0)
    things = np.concatenate([extent(what), [cord_low, cord_high]])
    return Extent(things.min(axis=0), things.max(axis=0), cord_low, cord_high)


def _around(points: Points, half: float) -> Points:
    """(2, 2) float: corners of the box round cord of half this thickness, seen from the front."""
    p = points[:, [0, 2]]
    return np.array([p.min(axis=0) - half, p.max(axis=0) + half])


def knot_points(knot: Instance) -> Points:
    """(n, 3) float: mm, points of all strands in a knot."""
    return knot.at(np.concatenate([w.points for w in knot.cell.ways[: len(knot.strands)]]))


SAMPLES = 9
"""Points along each Bézier curve, where its extent is asked for."""


def sampled(curves: Points, per: int = SAMPLES) -> Points:
    """(n, 3) float: points along Bézier curves, (k, 4, 3) float."""
    t = np.linspace(0.0, 1.0, per)[None, :, None]
    p0, p1, p2, p3 = (curves[:, i, None, :] for i in range(4))
    u = 1.0 - t
    points: Points = u**3 * p0 + 3 * u * u * t * p1 + 3 * u * t * t * p2 + t**3 * p3
    return points.reshape(-1, 3)


def sections(what: Placed) -> list[Reach]:
    """The plan's sections from top to bottom: from first knot to last, or to their ends."""
    piece = what.piece
    paths = [k.section for k in piece.knots] + [s.end.section for s in piece.strands]
    level = _level(paths)
    found: dict[str, list[tuple[float, float, float]]] = {}
    for k in what.knots:
        path = piece.knots[k.knot].section
        if len(path) > level:
            points = knot_points(k)
            half = 0.5 * k.d
            found.setdefault(path[level], []).append(
                (
                    float(k.origin[2]),
                    float(k.origin[2]) - k.cell.height * k.d,
                    float(points[:, 0].max()) + half,
                )
            )
    knotted = set(found)
    fringes: dict[str, list[float]] = {}
    for c in what.cords:
        strand = piece.strands[c.strand]
        path = strand.end.section
        if c.part != "tail" or len(path) <= level or path[level] in knotted:
            continue
        p = sampled(c.curves)
        reach = (float(p[:, 2].max()), float(p[:, 2].min()), float(p[:, 0].max()))
        found.setdefault(path[level], []).append(reach)
        fringes.setdefault(path[level], []).append(reach[0])
    named = []
    beside = _beside(what, [r for reaches in found.values() for r in reaches])
    for name, reaches in found.items():
        # A fringe is measured from the lowest knot above it.
        top = min(fringes[name]) if name in fringes else max(t for t, _, _ in reaches)
        bottom = min(b for _, b, _ in reaches)
        named.append(Reach(name, top, bottom, top - bottom, beside(0.5 * (top + bottom))))
    return named


def _beside(
    what: Placed, reaches: Sequence[tuple[float, float, float]]
) -> Callable[[float], float]:
    """How far to the right the piece reaches at a height, mm.

    Args:
        what: the piece in space.
        reaches: top, bottom and right side of knots and ends.
    """
    rows = np.array(reaches).reshape(-1, 3)
    points = sampled(np.concatenate([c.curves for c in what.cords])) if what.cords else rows
    thick = max((c.thick for c in what.cords), default=1.0)

    def side(height: float) -> float:
        knots = rows[(rows[:, 0] > height - thick) & (rows[:, 1] < height + thick), 2]
        # Long straight curves have their points far apart.
        for band in (thick,) if len(knots) else (thick, 4 * thick, 16 * thick):
            near = points[np.abs(points[:, 2] - height) < band, 0] + 0.5 * thick
            if len(near) or len(knots):
                return float(max(near.max(initial=-np.inf), knots.max(initial=-np.inf)))
        return float(rows[:, 2].max())

    return side


def _level(paths: Iterable[tuple[str, ...]]) -> int:
    """The outermost level of sections at which there is more than one."""
    every = {p for p in paths if p}
    level = 0
    while every and len({p[level] for p in every if len(p) > level}) == 1:
        if max(len(p) for p in every) <= level + 1:
            break
        level += 1
    return level


def gaps(what: Placed, height: float) -> list[Reach]:
    """Longer free lengths between knots, those alike once, from top to bottom; none overlap."""
    piece = what.piece
    least = max(LEAST_GAP, GAP * height)
    alike: dict[tuple[int, int, int], Reach] = {}
    grain = ALIKE * height
    for c in what.cords:
        if c.part != "free" or not 0 <= c.stop < len(piece.strands[c.strand].course):
            continue
        top, bottom = float(c.curves[0, 0, 2]), float(c.curves[-1, 3, 2])
        if top - bottom < least:
            continue
        length = max(c.length, _arc(c.curves))
        key = round(top / grain), round(bottom / grain), round(length)
        side = float(c.curves[:, :, 0].max())
        if key not in alike or alike[key].side < side:
            alike[key] = Reach("", top, bottom, length, side)
    chosen: list[Reach] = []
    for g in sorted(alike.values(), key=lambda g: g.bottom - g.top):
        if all(g.top <= o.bottom + 1e-6 or g.bottom >= o.top - 1e-6 for o in chosen):
            chosen.append(g)
    return sorted(chosen, key=lambda g: -g.top)


def _arc(curves: Points) -> float:
    p = sampled(curves)
    return float(np.linalg.norm(np.diff(p, axis=0), axis=1).sum())
