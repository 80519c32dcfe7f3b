"""From which side a round piece is seen: from where its cords hide least of each other.

Four arms all round a pot seen straight from the front are two: the others hang exactly behind them.
So a piece that is worked in the round is turned about the vertical, by steps, to where the knots
that can be seen cover most of the picture. What is flat, hangs on a rod or holds a box has a front
of its own and keeps it.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.piece_view import STEP
from cordwright.draw.placed import about_z
from cordwright.draw.placed_cords import WayPoints
from cordwright.hang.mounts import lies_level, ring_radius
from cordwright.hang.vessel import Box
from cordwright.plan.model import RodMount

if TYPE_CHECKING:
    from cordwright.draw.placed import Instance, Placed
    from cordwright.draw.placed_cell import Points

MOST_STEPS = 12
"""Furthest turn to either side, in steps of the knots' pictures: a quarter turn."""

UPRIGHT_STEPS = 5
"""On a ring that stands upright, which would be seen from its edge: less than 40°."""

GOOD = 0.99
"""Of turns that show nearly as much as the best, as a share of it, the least one is taken."""

MOST_POINTS = 12_000
"""Of all knots that are compared; of more, some are left out evenly."""


def showing_most(what: Placed) -> Placed:
    """The same piece, turned about the vertical to where fewest things hide each other.

    Args:
        what: the piece as it hangs.
    """
    if not _may_turn(what):
        return what
    steps = _best(what)
    return turned(what, steps * STEP) if steps else what


def turned(what: Placed, angle: float) -> Placed:
    """The same piece, turned about the vertical through the middle of its mount.

    Args:
        what: the piece in space.
        angle: radians; its nearest part goes to the right.
    """
    by = about_z(angle)
    knots = tuple(replace(k, origin=by @ k.origin, axes=by @ k.axes) for k in what.knots)
    cords = tuple(replace(c, curves=c.curves @ by.T) for c in what.cords)
    points = WayPoints(
        {key: p @ by.T for key, p in what.way_points.inner.items()},
        {key: by @ p for key, p in what.way_points.begins.items()},
        what.way_points.forward,
    )
    base = by @ what.base if what.base is not None else None
    return replace(
        what, knots=knots, cords=cords, way_points=points, base=base, turn=what.turn + angle
    )


def _may_turn(what: Placed) -> bool:
    piece = what.piece
    if not any(k.shape == "round" for k in piece.knots):
        return False
    if isinstance(piece.plan.mount.on, RodMount):
        return False
    return what.held is None or not isinstance(what.held.vessel, Box)


def _best(what: Placed) -> int:
    """How many steps the piece is turned; to the right if positive."""
    upright = ring_radius(what.piece) > 0.0 and not lies_level(what.piece)
    most = UPRIGHT_STEPS if upright else MOST_STEPS
    points = _points(what)
    grain = float(np.median([k.d for k in what.knots]))
    # The least turns first, and those to the right before those to the left.
    steps = sorted(range(-most, most + 1), key=lambda n: (abs(n), -n))
    reach = range(-most - 1, most + 2)
    alone = {n: _shown(points @ about_z(n * STEP).T, what, grain) for n in reach}
    # A turn next to which much would be hidden shows things only just apart.
    shown = [alone[n - 1] + 2 * alone[n] + alone[n + 1] for n in steps]
    enough = GOOD * max(shown)
    return next(n for n, seen in zip(steps, shown, strict=True) if seen >= enough)


def _points(what: Placed) -> Points:
    """(n, 3) float: mm, places a diameter or so apart in the boxes of all knots."""
    boxes = {id(k.cell): _box(k) for k in what.knots}
    points = np.concatenate([k.at(boxes[id(k.cell)]) for k in what.knots])
    return points[:: 1 + len(points) // MOST_POINTS]


def _box(knot: Instance) -> Points:
    """(n, 3) float: d, places in the middle plane of a knot's cell."""
    wide = max(float(np.abs(w.points[:, 0]).max()) for w in knot.cell.ways[: len(knot.strands)])
    across = np.arange(-wide, wide + 0.01, max(1.0, 0.5 * wide))
    down = -np.arange(0.5, max(knot.cell.height, 0.6), 1.0)
    x, z = np.meshgrid(across, down)
    return np.stack([x.ravel(), np.zeros(x.size), z.ravel()], axis=1)


def _shown(points: Points, what: Placed, grain: float) -> int:
    """How many squares of the picture, a cord's thickness wide, have something of a knot in them.

    Args:
        points: (n, 3) float, mm, of knots.
        what: the piece, for what it holds.
        grain: mm, side of the squares.
    """
    if what.held is not None and what.base is not None:
        vessel = what.held.vessel
        up = points[:, 2] - what.base[2]
        wide = vessel.radius(np.clip(up, 0.0, vessel.height))
        inside = (up > 0.0) & (up < vessel.height) & (np.abs(points[:, 0] - what.base[0]) < wide)
        points = points[~(inside & (points[:, 1] > what.base[1]))]
    squares = np.round(points[:, [0, 2]] / grain).astype(np.int64)
    return len(np.unique(squares[:, 0] * 1_000_003 + squares[:, 1]))
