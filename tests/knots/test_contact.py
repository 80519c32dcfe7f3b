from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.knots.contact import closest, contacts, near_pairs, segment_closest
from cordwright.knots.mesh import State, edge_ends, image, resampled
from cordwright.knots.tangle import Course, Repeat, Tangle

coordinate = st.floats(-2, 2, width=32)
point = st.tuples(coordinate, coordinate, coordinate)


@given(st.lists(point, min_size=4, max_size=4))
def test_closest_points_against_trying_many(points: list[tuple[float, float, float]]) -> None:
    p1, q1, p2, q2 = np.array(points)
    touch = segment_closest(*(np.array(p)[None] for p in points))
    s = np.linspace(0, 1, 41)
    first, second = p1 + s[:, None] * (q1 - p1), p2 + s[:, None] * (q2 - p2)
    tried = float(np.linalg.norm(first[:, None] - second[None], axis=2).min())
    step = (np.linalg.norm(q1 - p1) + np.linalg.norm(q2 - p2)) / 80
    # Nothing tried may be nearer, but for edges so nearly parallel that they count as parallel;
    # and the best tried is at most half a step from the truth.
    assert touch.distance[0] <= tried + 2e-4
    assert touch.distance[0] >= tried - step - 1e-6


@given(st.lists(point, min_size=4, max_size=4))
def test_the_points_named_are_as_far_apart_as_told(
    points: list[tuple[float, float, float]],
) -> None:
    p1, q1, p2, q2 = (np.array(p) for p in points)
    touch = segment_closest(p1[None], q1[None], p2[None], q2[None])
    s, t = touch.s[0], touch.t[0]
    assert 0 <= s <= 1
    assert 0 <= t <= 1
    gap = p1 + s * (q1 - p1) - p2 - t * (q2 - p2)
    assert np.linalg.norm(gap) == pytest.approx(touch.distance[0], abs=1e-9)
    assert touch.normal[0] * touch.distance[0] == pytest.approx(gap, abs=1e-9)


def helix(
    turns: float, pitch: float, points: int
) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    a = np.linspace(0, 2 * np.pi * turns, points, endpoint=False)
    return np.stack([0.8 * np.cos(a), 0.8 * np.sin(a), -pitch * a / (2 * np.pi)], axis=1)


def test_near_pairs_against_all_pairs() -> None:
    """Every pair of tubes nearer than the margin is found, in whichever cell, and only once."""
    coil = helix(1, 1.3, 24)
    tangle = Tangle((Course(coil, "periodic", goes_on_as=0),), Repeat((0, 0, -1), 1.3))
    mesh, state = resampled(tangle, [coil], State(coil, 1.3, 0.0), 4)
    pairs = near_pairs(mesh, state, 0.35)
    found = set(zip(pairs.a.tolist(), pairs.b.tolist(), pairs.cell.tolist(), strict=True))
    assert len(found) == len(pairs.a)
    p, q = edge_ends(mesh, state)
    m, turn = len(p), float(np.linalg.norm(q - p, axis=1).sum())
    for cell in range(4):
        to = np.full(m, cell)
        p2, q2 = image(mesh, state, p, to), image(mesh, state, q, to)
        for a in range(m):
            ones = np.ones((m, 1))
            gap = segment_closest(ones * p[a], ones * q[a], p2, q2).distance - 1.0
            apart = np.abs((np.arange(m) - a) * turn / m + cell * turn)
            wanted = (gap < 0.35) & (apart > 0.7) & ((cell > 0) | (np.arange(m) > a))
            for b in np.flatnonzero(wanted):
                assert (a, int(b), cell) in found


def test_a_cord_touches_itself_a_turn_away_but_not_in_its_bend() -> None:
    coil = helix(1, 1.0, 24)
    tangle = Tangle((Course(coil, "periodic", goes_on_as=0),), Repeat((0, 0, -1), 0.9))
    mesh, state = resampled(tangle, [coil], State(coil, 0.9, 0.0), 6)
    pairs = near_pairs(mesh, state, 0.1)
    gap, reach = contacts(mesh, pairs, closest(mesh, state, pairs))
    assert np.all(reach == 1.0)
    assert -0.15 < gap.min() < -0.05  # turns 0.9 d apart
    assert np.all(np.isinf(gap[pairs.apart < 1.7]))


def test_a_ring_and_its_copy_in_the_next_cell_are_two_cords() -> None:
    a = np.linspace(0, 2 * np.pi, 40, endpoint=False)
    ring = np.stack([np.cos(a), np.sin(a), 0 * a], axis=1)
    tangle = Tangle((Course(ring, "closed"),), Repeat((0, 0, -1), 0.8))
    mesh, state = resampled(tangle, [ring], State(ring, 0.8, 0.0), 5)
    pairs = near_pairs(mesh, state, 0.1)
    gap, _ = contacts(mesh, pairs, closest(mesh, state, pairs))
    assert np.all(np.isinf(pairs.apart[pairs.cell == 1]))
    assert gap.min() == pytest.approx(-0.2, abs=1e-3)


def test_cords_of_two_thicknesses_touch_at_their_mean() -> None:
    lines = [np.array([[x, 0, 3.0], [x, 0, 0.0], [x, 0, -3.0]]) for x in (0.0, 1.5)]
    tangle = Tangle((Course(lines[0]), Course(lines[1], diameter=2.0)))
    mesh, state = resampled(tangle, lines, State(lines[0], 0.0, 0.0), 3)
    pairs = near_pairs(mesh, state, 0.1)
    gap, reach = contacts(mesh, pairs, closest(mesh, state, pairs))
    assert reach[np.isfinite(gap)] == pytest.approx(1.5)
    assert gap.min() == pytest.approx(0.0, abs=1e-9)
