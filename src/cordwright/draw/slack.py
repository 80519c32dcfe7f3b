"""Slack cord: as long as it is, it hangs between its ends in a belly.

A cord between two heights hangs in a catenary; a shallow one is a parabola, which one cubic Bézier
curve is exactly. Here the belly of a cubic is moved down, across the line between its ends, until
the curve is as long as the cord. Where the ends hang one above the other no belly can go straight
down: it stands out to the side, away from the piece's middle, and to the front, heaviest below.
That last is how slack is drawn, not computed from the stiffness of the cord.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from cordwright.draw.placed_cell import Points
    from cordwright.draw.placed_cords import FreeCord

TAUT = 1.02
"""Cord that is longer than its way by no more than this factor is drawn straight."""

ASIDE = 0.35
"""How strongly a belly goes to the side and to the front, against gravity's pull across it."""

HEAVY = 0.2
"""How far a belly goes down along its cord, against how far it stands out."""

HALVINGS = 24
"""Of the range in which the belly's depth lies: a cord's length comes out to a millionth."""

GAUSS = np.polynomial.legendre.leggauss(8)
"""Places and weights with which the length of a curve is summed."""


def with_slack(cords: Sequence[FreeCord], middle: float) -> tuple[FreeCord, ...]:
    """The same cords; those between two knots that have slack hang in bellies.

    Args:
        cords: of the piece; only what is drawn as one curve is changed.
        middle: mm, where across the piece's middle is.
    """
    picked = [i for i, c in enumerate(cords) if c.part == "free" and len(c.curves) == 1]
    if not picked:
        return tuple(cords)
    curves = np.concatenate([cords[i].curves for i in picked])
    wanted = np.array([cords[i].length for i in picked])
    slack = wanted > TAUT * arc(curves)
    found = list(cords)
    bellied = _bellied(curves[slack], wanted[slack], middle)
    for i, curve in zip(np.array(picked)[slack].tolist(), bellied, strict=True):
        found[i] = replace(cords[i], curves=curve[None])
    return tuple(found)


def arc(curves: Points) -> Points:
    """(n,) float: lengths of cubic Bézier curves, (n, 4, 3) float."""
    t = 0.5 * (GAUSS[0] + 1.0)[:, None]
    steps = 3.0 * np.diff(curves, axis=1)[:, :, None, :]
    u = 1.0 - t
    speed = u * u * steps[:, 0] + 2.0 * u * t * steps[:, 1] + t * t * steps[:, 2]
    total: Points = 0.5 * np.linalg.norm(speed, axis=2) @ GAUSS[1]
    return total


def _bellied(curves: Points, wanted: Points, middle: float) -> Points:
    """(n, 4, 3) float: the curves with bellies so deep that they are as long as wanted, mm."""
    out = _out(curves, middle)
    low, high = np.zeros(len(curves)), wanted.copy()
    for _ in range(HALVINGS):
        depth = 0.5 * (low + high)
        longer = arc(_moved(curves, depth[:, None] * out)) > wanted
        low, high = np.where(longer, low, depth), np.where(longer, depth, high)
    return _moved(curves, (0.5 * (low + high))[:, None] * out)


def _moved(curves: Points, by: Points) -> Points:
    moved = curves.copy()
    moved[:, 1:3] += by[:, None, :]
    return moved


def _out(curves: Points, middle: float) -> Points:
    """(n, 3) float: which way each belly goes."""
    chord = curves[:, 3] - curves[:, 0]
    size = np.linalg.norm(chord, axis=1, keepdims=True)
    along = np.where(size > 1e-9, chord / np.maximum(size, 1e-9), 0.0)
    across = 0.5 * (curves[:, 0, 0] + curves[:, 3, 0]) - middle
    side = np.where(across < 0.0, -1.0, 1.0)
    pull = np.stack([ASIDE * side, np.full(len(side), -ASIDE), np.full(len(side), -1.0)], axis=1)
    out = pull - (pull * along).sum(axis=1, keepdims=True) * along
    out /= np.maximum(np.linalg.norm(out, axis=1, keepdims=True), 1e-9)
    belly: Points = out + HEAVY * np.array([0.0, 0.0, -1.0])
    return belly
