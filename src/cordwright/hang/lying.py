"""Cord and knots that lie against what a piece holds.

Knots stay outside with both ends of their bars: a knot is taken for a round bar as thick as the
tight knot is deep, so that it comes as near to a wall beside it as half of that, and with its flat
end right up to a wall across it. Free cord stays outside wherever it runs: each straight part
touches at the place where it comes nearest, half its thickness away from there. So a body's edges
are as round to the cord as the cord is thick, its pull is square to the cord, and cord that slides
over an edge without friction pulls alike on both sides of it.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import numpy as np

from cordwright.hang.frame import Ports
from cordwright.hang.touching import Touching, joined, plain, softly

if TYPE_CHECKING:
    from cordwright.hang.frame import Floats, Frame, Ints, Points
    from cordwright.hang.vessel import Vessel

NEAR = 40.0
"""Mm from the surface within which places are watched; a step moves no node further."""

TIGHTER = 20
"""Steps by which the place is found where a part of cord comes nearest."""

SOFT = 0.02
"""Stiffness of cord against what it lies on, as a share of that of knots along their height: a
place that carried the whole load would be pressed flat by 1 mm. Cord is as soft as that (a stated
choice, no published figure), and cord that is bent round a hard edge settles far sooner."""

LEVEL = 1e-6
"""Slope of the distance along a part, mm, at which its nearest place is found."""


def lying(frame: Frame, vessel: Vessel, node: int) -> Callable[[Points], Touching]:
    """What keeps a piece outside of what it holds, for any position of its nodes.

    Args:
        frame: what hangs.
        vessel: the held thing's shape, about its base's middle.
        node: the node at its base's middle.
    """
    bars = frame.bars
    ends = np.concatenate([bars.top, bars.bottom])
    half = np.concatenate([bars.depth, bars.depth]) * 0.5
    strands = np.flatnonzero((frame.spans.strand >= 0) & ~frame.spans.row)

    def contacts(x: Points) -> Touching:
        knots = _ends(frame, vessel, x, node, ends, half)
        return softly(joined([knots, _parts(frame, vessel, x, node, strands)]), SOFT)

    return contacts


def _ends(frame: Frame, vessel: Vessel, x: Points, node: int, ends: Ints, half: Floats) -> Touching:
    """Both ends of knots: as far off as the knot is thick where the surface lies beside it."""
    bars = frame.bars
    axis = x[bars.bottom] - x[bars.top]
    axis = axis / np.maximum(np.linalg.norm(axis, axis=1), 1e-9)[:, None]
    axis = np.concatenate([axis, axis])
    distance, normal = vessel.distance(x[ends] - x[node])
    along = np.einsum("ij,ij->i", axis, normal)
    clear = half * np.sqrt(np.maximum(0.0, 1.0 - along**2))
    return _kept(x, node, plain(ends), clear, distance, normal)


def _kept(
    x: Points, node: int, points: Ports, clear: Floats, distance: Floats, normal: Points
) -> Touching:
    """Half-spaces that keep points so far off, where they are near."""
    rows = np.flatnonzero(distance < clear + NEAR)
    part = points.part(rows)
    now = np.einsum("ij,ij->i", normal[rows], part.at(x) - x[node])
    base = plain(np.full(len(rows), node, dtype=np.int64))
    return Touching(part, base, normal[rows], clear[rows] - distance[rows] + now)


def _parts(frame: Frame, vessel: Vessel, x: Points, node: int, strands: Ints) -> Touching:
    """Straight parts of cord, where they come nearest: between their ends or at one of them.

    By how far that place is off, contact depends on the nodes alone, without a jump as a part
    slides past an edge; so its force is the slope of its energy.
    """
    spans = frame.spans
    start, end = spans.a.at(x)[strands] - x[node], spans.b.at(x)[strands] - x[node]
    reach = 0.5 * np.linalg.norm(end - start, axis=1) + 0.5 * spans.thick[strands] + 1.0
    middle, _ = vessel.distance(0.5 * (start + end))
    rows = np.flatnonzero(middle < reach)
    start, end, at = start[rows], end[rows], strands[rows]
    share, distance, normal = _nearest(vessel, start, end)
    # Beside a knot the pull goes to the middle of the knot's edge: its moment is left out.
    points = Ports(
        _node_of(spans.a, at),
        _node_of(spans.b, at),
        share,
        np.zeros(len(at)),
        np.zeros((len(at), 3)),
    )
    base = plain(np.full(len(at), node, dtype=np.int64))
    now = np.einsum("ij,ij->i", normal, points.at(x) - x[node])
    return Touching(points, base, normal, 0.5 * spans.thick[at] - distance + now)


def _node_of(ports: Ports, rows: Ints) -> Ints:
    """The node that is nearest to a port along its bar."""
    found: Ints = np.where(ports.along[rows] < 0.5, ports.top[rows], ports.bottom[rows])
    return found


def _nearest(vessel: Vessel, start: Points, end: Points) -> tuple[Floats, Floats, Points]:
    """Share of the way at which each straight part comes nearest, and distance and normal there.

    The distance from a convex body is a convex function along a straight line, so that its slope
    changes sign once: there, by false position (the Illinois variant, which never stalls). Where
    it does not turn between the ends, an end is the nearest.
    """
    way, count = end - start, len(start)
    distances, normals = vessel.distance(np.concatenate([start, end]))
    slopes = np.einsum("ij,ij->i", normals, np.concatenate([way, way]))
    down, up = slopes[:count], slopes[count:]
    at_end = up <= 0.0
    share = np.where(at_end, 1.0, 0.0)
    distance = np.where(at_end, distances[count:], distances[:count])
    normal = np.where(at_end[:, None], normals[count:], normals[:count])
    turns = np.flatnonzero((down < 0.0) & (up > 0.0))
    if len(turns):
        part = _turning(vessel, start[turns], way[turns], down[turns], up[turns])
        share[turns], distance[turns], normal[turns] = part
    return share, distance, normal


def _turning(
    vessel: Vessel, start: Points, way: Points, down: Floats, up: Floats
) -> tuple[Floats, Floats, Points]:
    """The same for parts along which the slope, given at their ends, turns."""
    low, high, kept = np.zeros(len(start)), np.ones(len(start)), np.zeros(len(start))
    share, distance, normal = low, low, way
    for _ in range(TIGHTER):
        share = low + (high - low) * down / np.minimum(down - up, -1e-12)
        distance, normal = vessel.distance(start + share[:, None] * way)
        now = np.einsum("ij,ij->i", normal, way)
        if np.abs(now).max() < LEVEL:
            break
        right = now > 0.0
        # An end that stays for the second time counts half.
        down = np.where(right & (kept < 0.0), 0.5 * down, np.where(right, down, now))
        up = np.where(right, now, np.where(kept > 0.0, 0.5 * up, up))
        kept = np.where(right, -1.0, 1.0)
        low, high = np.where(right, low, share), np.where(right, share, high)
    return share, distance, normal
