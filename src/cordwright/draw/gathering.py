"""The cords of a gathering knot drawn up: the atlas's turns, and where the wrapping cord ends.

The atlas has one turn, and under it two legs of the wrapping cord. Drawn up, the loop that they
made (``winding.py``) is pulled under the turns, so that one end comes out above and one below.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.layers import View
from cordwright.knots.spec import Role

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from cordwright.draw.cords import Cord

    Floats = NDArray[np.float64]

TAIL = 1.6
"""How far the ends of the wrapping cord stand out of a finished knot, in d."""

REACH = 1.2
"""How far from the coil's ends the cord lies along the bundle again, in d."""


def facing_legs(cords: Sequence[Cord]) -> View:
    """The view from that side of the bundle on which the legs lie."""
    legs = [c.points for c in cords if _is_leg(c)]
    x, y = np.mean([p.mean(axis=0)[:2] for p in legs], axis=0)
    return View(turn=float(np.degrees(np.arctan2(x, -y))))


def drawn_up(cords: Sequence[Cord], top: float, bottom: float) -> tuple[Cord, ...]:
    """The finished knot: turns whose ends go in under them, and the two ends of the cord.

    Args:
        cords: turns, bundle and legs as the atlas has them.
        top: height of the uppermost turn's beginning.
        bottom: height of the lowest turn's end.
    """
    coil, others, (a, b) = _sorted(cords)
    tucked = np.concatenate(
        [
            _bow(_on(b, top - REACH), [0.0, 0.0, 1.0], coil.points[0], _way(coil.points[:2])),
            coil.points,
            _bow(coil.points[-1], _way(coil.points[-2:]), _on(a, bottom + REACH), [0.0, 0.0, 1.0]),
        ]
    )
    middle = (top + bottom) / 2
    upper = np.array([_on(a, top + TAIL), _on(a, middle)])
    lower = np.array([_on(b, middle), _on(b, bottom - TAIL)])
    return (
        replace(coil, points=tucked),
        *others,
        replace(coil, points=upper),
        replace(coil, points=lower),
    )


def _sorted(cords: Sequence[Cord]) -> tuple[Cord, list[Cord], list[Floats]]:
    """The coil, the gathered strands, and the means of both legs, (3,) float each."""
    coil = next(c for c in cords if c.role is Role.WORKING and not _is_leg(c))
    others = [c for c in cords if c.role is not Role.WORKING]
    legs = [c.points.mean(axis=0) for c in cords if _is_leg(c)]
    return coil, others, legs


def _is_leg(cord: Cord) -> bool:
    return cord.role is Role.WORKING and cord.place is None


def _on(leg: Floats, height: float) -> Floats:
    return np.array([leg[0], leg[1], height])


def _way(points: Floats) -> Floats:
    way: Floats = points[1] - points[0]
    return way / np.linalg.norm(way)


def _bow(
    start: Floats, there: Sequence[float] | Floats, end: Floats, here: Sequence[float] | Floats,
    strength: float = 1.4,
) -> Floats:  # fmt: skip
    """A cubic from one point to another with given directions, its end points left out."""
    pull = strength * max(0.6, float(np.linalg.norm(end - start)))
    t = np.linspace(0.0, 1.0, 26)[1:-1, None]
    a, b = pull * np.asarray(there), pull * np.asarray(here)
    return (
        (2 * t**3 - 3 * t**2 + 1) * start
        + (t**3 - 2 * t**2 + t) * a
        + (3 * t**2 - 2 * t**3) * end
        + (t**3 - t**2) * b
    )
