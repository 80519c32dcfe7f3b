from __future__ import annotations

import numpy as np
import pytest

from cordwright.draw.crossings import crossings
from cordwright.draw.layers import Tube, View, layers


def stick(start: tuple[float, float, float], end: tuple[float, float, float]) -> Tube:
    return Tube(np.linspace(start, end, 80), 1.0)


def test_three_sticks_in_a_circle_are_cut_once() -> None:
    """Each lies over the next and under the last: no order of whole sticks would be right."""
    corners = [np.array([np.cos(a), np.sin(a)]) * 4 for a in np.radians([90, 210, 330])]
    sticks = []
    for a, b in ((0, 1), (1, 2), (2, 0)):
        way = corners[b] - corners[a]
        start, end = corners[a] - 0.4 * way, corners[b] + 0.4 * way
        sticks.append(stick((*start, 2.0), (*end, -2.0)))
    crossed = crossings(sticks)
    assert len(crossed) == 3
    assert sorted(c.over for c in crossed) == [0, 1, 2]
    runs = layers(sticks)
    assert len(runs) == 4
    for c in crossed:
        order = [
            next(n for n, r in enumerate(runs) if r.cord == cord and r.start <= where <= r.end)
            for cord, where in ((c.under, c.under_at), (c.over, c.over_at))
        ]
        assert order[0] < order[1]


def test_sticks_side_by_side_are_not_cut() -> None:
    runs = layers([stick((x, 0.0, 0.3 * x), (x, 9.0, -0.3 * x)) for x in (0.0, 1.0, 2.0)])
    assert sorted(r.cord for r in runs) == [0, 1, 2]


def test_a_loop_lies_over_itself() -> None:
    t = np.linspace(-2.0, 2.0, 200)
    loop = np.stack([3 * (t**3 - 1.5 * t), 4 * t**2, 2 * t], axis=1)
    runs = layers([Tube(loop, 1.0)])
    assert len(runs) == 2
    assert runs[0].end == runs[1].start
    (crossing,) = crossings([Tube(loop, 1.0)])
    assert crossing.over_at > crossing.under_at
    assert crossing.gap == pytest.approx(4 * np.sqrt(1.5), abs=0.01)


def test_views_are_turns() -> None:
    points = np.random.default_rng(1).normal(size=(5, 3))
    front = View().seen(points)
    assert np.allclose(front, np.stack([points[:, 0], points[:, 2], -points[:, 1]], axis=1))
    back = View(turn=180.0).seen(points)
    assert np.allclose(back, front * [-1, 1, -1])
    above = View(tilt=90.0).seen(points)
    assert np.allclose(above[:, 2], points[:, 2])
    some = View(turn=20.0, tilt=35.0).seen(points)
    assert np.allclose(some @ some.T, points @ points.T)
