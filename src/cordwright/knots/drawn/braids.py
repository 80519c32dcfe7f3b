"""Flat braids of three and four strands, by their crossings.

Three: the left strand crosses over the middle one, then the right strand over the new middle
one. Four: the outer pairs cross left over right, then the middle pair right over left. Written
as one cell; the strands change places from cell to cell and are home after as many cells as
there are strands (a full round).
"""

from __future__ import annotations

import numpy as np

from cordwright.errors import KnotError
from cordwright.knots.tangle import Course, Points, Repeat, Tangle, through

_STEP = 3.0
_SPREAD = 1.3
_CLEAR = 0.8


def braid(strands: int) -> Tangle:
    """One cell of a braid."""
    words = {
        3: (((0, True),), ((1, False),)),
        4: (((0, True), (2, True)), ((1, False),)),
    }
    if strands not in words:
        raise KnotError(
            f"a braid of {strands} strands was asked for",
            remedy="braid 3 or 4 strands; more are a row of square knots or half hitches",
        )
    return _from_crossings(strands, words[strands])


Crossing = tuple[int, bool]
"""Left place of two neighbours that cross, and whether the left one passes in front."""


def _from_crossings(strands: int, levels: tuple[tuple[Crossing, ...], ...]) -> Tangle:
    at = list(range(strands))
    ways: list[list[tuple[float, float, float]]] = [[] for _ in range(strands)]

    def x(place: float) -> float:
        return _SPREAD * (place - (strands - 1) / 2)

    z = 0.0
    for level in levels:
        for place, s in enumerate(at):
            ways[s].append((x(place), 0.0, z))
        for left, over in level:
            a, b = at[left], at[left + 1]
            ways[a].append((x(left + 0.5), -_CLEAR if over else _CLEAR, z - _STEP / 2))
            ways[b].append((x(left + 0.5), _CLEAR if over else -_CLEAR, z - _STEP / 2))
            at[left], at[left + 1] = b, a
        z -= _STEP
    courses = tuple(
        Course(_points(way), "periodic", goes_on_as=at.index(s), place=s)
        for s, way in enumerate(ways)
    )
    return Tangle(courses, Repeat((0.0, 0.0, -1.0), -z))


def _points(way: list[tuple[float, float, float]]) -> Points:
    pts = through(way)
    if len(pts) > 2:
        return pts
    # A strand that crosses nothing in this cell still needs enough points for a curve.
    return np.vstack([pts, pts[-1] + np.array([0.0, 0.0, -0.6])])
