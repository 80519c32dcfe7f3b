from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cordwright.draw.curves import along, at, beziers, even, lengths, part


def waves(ends: list[float]) -> np.ndarray:
    """A smooth curve with so many bends."""
    t = np.linspace(0.0, 1.0, 160)
    y = sum(a * np.sin((k + 1) * np.pi * t) for k, a in enumerate(ends))
    return np.stack([6.0 * t, np.broadcast_to(y, t.shape)], axis=1)


@settings(deadline=None, max_examples=40)
@given(st.lists(st.floats(-1.5, 1.5), min_size=1, max_size=5), st.sampled_from([0.01, 0.05]))
def test_cubics_stay_within_the_error(ends: list[float], error: float) -> None:
    curve = waves(ends)
    cubics = beziers(curve, error)
    t = np.linspace(0.0, 1.0, 600)
    drawn = np.concatenate([along(c, t) for c in cubics])
    miss = [np.hypot(*(drawn - p).T).min() for p in curve]
    assert max(miss) < error + 0.03  # half the distance of the points on the drawn curve
    assert np.allclose(cubics[1:, 0], cubics[:-1, 3])
    assert np.allclose([cubics[0, 0], cubics[-1, 3]], curve[[0, -1]])


def test_a_circle_takes_few_cubics_and_a_line_one() -> None:
    angle = np.linspace(0.0, 2 * np.pi, 200)
    circle = np.stack([np.cos(angle), np.sin(angle)], axis=1)
    assert len(beziers(circle, 0.01)) <= 6
    line = np.linspace([0.0, 0.0], [5.0, 2.0], 50)
    assert len(beziers(line, 0.001)) == 1


def test_a_hairpin_is_followed_to_its_tip() -> None:
    there = np.linspace([0.0, 0.0], [3.0, 0.0], 40)
    curve = np.concatenate([there, there[::-1] + np.array([0.0, 1e-4])])
    drawn = np.concatenate([along(c, np.linspace(0, 1, 40)) for c in beziers(curve, 0.02)])
    assert drawn[:, 0].max() == pytest.approx(3.0, abs=0.05)


def test_points_that_coincide_are_one_point() -> None:
    cubics = beziers(np.zeros((5, 2)), 0.01)
    assert np.allclose(cubics, 0.0)


def test_parts_and_places_are_measured_along_the_curve() -> None:
    corner = np.array([[0.0, 0.0], [3.0, 0.0], [3.0, 4.0]])
    assert lengths(corner).tolist() == [0.0, 3.0, 7.0]
    assert at(corner, np.array([5.0])).tolist() == [[3.0, 2.0]]
    assert part(corner, 2.0, 5.0).tolist() == [[2.0, 0.0], [3.0, 0.0], [3.0, 2.0]]
    assert len(even(corner, 0.5)) == 15
