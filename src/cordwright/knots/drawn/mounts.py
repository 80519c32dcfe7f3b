"""The lark's head: a folded cord hung on a rod, a ring or another cord.

Each half comes up in front of the rod, behind the bar, goes over the top, down the back and
under, and the bar joins both halves across the front. In reverse the bar is behind.
"""

from __future__ import annotations

import numpy as np

from cordwright.errors import KnotError
from cordwright.knots.spec import Role
from cordwright.knots.tangle import Course, Points, Symmetry, Tangle, through

REACH = 7.0
"""How far below the rod's axis the strands are followed, in d, beyond the rod's radius."""

RING = 8.0
"""Inside diameter of the ring against its wire: a 50 mm ring of 6 mm wire is common practice.
The ring's curve changes the figures by less than their mesh error, so it is not a parameter."""

_LEFT_RIGHT = ((-1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


def larks_head(over: str, over_d: float, face: str) -> Tangle:
    """A cord's fold tied on a rod, ring wire or cord of diameter ``over_d`` (in d)."""
    if not 0.2 <= over_d <= 60.0:
        raise KnotError(
            f"a lark's head was to hang on something {over_d:.3g} times as thick as its cord",
            remedy="use a ring, rod or cord from a fifth to sixty times the cord's diameter",
        )
    bottom = -(0.5 * over_d + REACH)
    half = _half(0.5 * over_d + 0.7, bottom)
    cord = np.concatenate([half, half[-2::-1] * [-1, 1, 1]])
    if face == "reverse":
        cord = cord * [1, -1, 1]
    return Tangle(
        (
            Course(_support(over, over_d), "open", Role.HOLDING, over_d, fixed=True),
            Course(cord, "open", place=0),
        ),
        symmetries=(Symmetry(_LEFT_RIGHT, (0, 1), reverse=True),),
    )


def _half(r: float, bottom: float) -> Points:
    """The left half from its end below to the middle of the bar; r is the axis's distance."""
    steps = 24
    # From the front (0) over the top, down the back and under, to where the bar leaves the rod.
    angle = np.linspace(0.0, np.radians(300.0), steps)
    aside = -np.interp(np.degrees(angle), [0.0, 60.0, 240.0, 300.0], [0.65, 0.75, 1.5, 1.7])
    away = r + np.interp(np.degrees(angle), [0.0, 200.0, 300.0], [0.0, 0.0, 1.15])
    round_rod = np.stack([aside, -away * np.cos(angle), away * np.sin(angle)], axis=1)
    up = through([(-0.65, -r, bottom), (-0.65, -r, 0.7 * bottom), (-0.65, -r, 0.4 * bottom)])
    # From there straight on to the front of the hanging strands, and across them.
    front = r + 1.3
    way = (front - away[-1] * np.cos(angle[-1])) / -np.sin(angle[-1])
    level = away[-1] * np.sin(angle[-1]) + way * np.cos(angle[-1])
    bar = through([(-1.0, -front, level), (0.0, -front - 0.1, level)])
    return np.concatenate([up, round_rod, bar])


def _support(over: str, over_d: float) -> Points:
    reach = 6.0
    n = 2 * int(np.ceil(8 * reach)) + 1
    x = np.linspace(-reach, reach, n)
    if over == "ring":
        radius = 0.5 * over_d * (RING + 1.0)
        angle = np.clip(x / radius, -1.2, 1.2)
        # The cord hangs on the lowest part of the ring.
        return np.stack([radius * np.sin(angle), 0 * x, radius * (1 - np.cos(angle))], axis=1)
    return np.stack([x, 0 * x, 0 * x], axis=1)
