"""Closed curves whose kind is known beforehand."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from tests.topology.diagram import Curve

STEPS = 12  # points on each strand from one generator of a braid to the next


def circle(centre: tuple[float, float, float], u: int, v: int, points: int = 60) -> Curve:
    """A circle of radius 1 in the plane of the axes ``u`` and ``v``."""
    t = np.linspace(0.0, 2 * np.pi, points, endpoint=False)
    curve = np.tile(np.array(centre, dtype=float), (points, 1))
    curve[:, u] += np.cos(t)
    curve[:, v] += np.sin(t)
    return curve


def torus_knot(p: int, q: int, points: int = 240) -> Curve:
    """The right-handed torus knot that goes ``p`` times the long way and ``q`` the short way."""
    # Off the symmetric start, so that no vertex of the polyline lies over another.
    t = 0.01 + np.linspace(0.0, 2 * np.pi, points, endpoint=False)
    r = 2 + np.cos(q * t)
    return np.column_stack([r * np.cos(p * t), r * np.sin(p * t), -np.sin(q * t)])


def figure_eight(points: int = 240) -> Curve:
    """The usual parametrised figure-eight knot."""
    t = np.linspace(0.0, 2 * np.pi, points, endpoint=False)
    r = 2 + np.cos(2 * t)
    return np.column_stack([r * np.cos(3 * t), r * np.sin(3 * t), np.sin(4 * t)])


def closed_braid(strands: int, word: list[int]) -> list[Curve]:
    """The closure of a braid that runs round the z axis.

    Generator ``i`` > 0 crosses strands ``i`` and ``i + 1`` right-handed, ``-i`` left-handed.
    """
    at = list(range(strands))  # which strand is at which place
    paths: list[list[tuple[float, float]]] = [[] for _ in range(strands)]  # place, height
    for generator in word:
        i = abs(generator) - 1
        for s in np.arange(STEPS) / STEPS:
            ease, bump = (1 - np.cos(np.pi * s)) / 2, 0.5 * np.sin(np.pi * s)
            for place, strand in enumerate(at):
                paths[strand].append((float(place), 0.0))
                if place == i:
                    paths[strand][-1] = (place + ease, bump if generator > 0 else -bump)
                elif place == i + 1:
                    paths[strand][-1] = (place - ease, 0.0)
        at[i], at[i + 1] = at[i + 1], at[i]
    angles = np.linspace(0.0, 2 * np.pi, STEPS * len(word), endpoint=False)
    ends_at = {strand: place for place, strand in enumerate(at)}
    curves, left = [], set(range(strands))
    while left:
        first = strand = min(left)
        turns: list[Curve] = []
        while not turns or strand != first:
            left.discard(strand)
            place, height = np.array(paths[strand]).T
            r = 2.0 + place
            turns.append(np.column_stack([r * np.cos(angles), r * np.sin(angles), height]))
            strand = ends_at[strand]
        curves.append(np.concatenate(turns))
    return curves
