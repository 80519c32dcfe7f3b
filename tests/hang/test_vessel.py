"""Distances to what a piece holds, against sampled surfaces."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.hang import vessel

if TYPE_CHECKING:
    from cordwright.hang.frame import Points

mm = st.floats(20.0, 400.0)
share = st.floats(-1.5, 1.5)


def outline_of(body: vessel.Turned | vessel.Cap) -> Points:
    """(k, 2) float: its outline's corners; a sphere's is a polygon of many."""
    if isinstance(body, vessel.Turned):
        return np.array(body.outline)
    end = np.arcsin(np.clip((body.high - body.ball) / body.ball, -1.0, 1.0))
    angle = np.linspace(-0.5 * np.pi, end, 200)
    side = np.stack([body.ball * np.cos(angle), body.ball * (1 + np.sin(angle))], axis=1)
    return np.concatenate([side, [[0.0, body.high]]])


def turned_surface(body: vessel.Turned | vessel.Cap, count: int = 400) -> Points:
    """Points on the outline in the plane y = 0 and x >= 0."""
    outline = outline_of(body)
    step = (body.widest + body.height) / count
    parts = [
        np.linspace(a, b, 2 + int(np.linalg.norm(b - a) / step))
        for a, b in itertools.pairwise(outline)
    ]
    flat = np.concatenate(parts)
    return np.stack([flat[:, 0], np.zeros(len(flat)), flat[:, 1]], axis=1)


def inside_turned(body: vessel.Turned | vessel.Cap, p: Points) -> bool:
    """By the radius at a point's height."""
    (r,) = body.radius(p[2:])
    return bool(0.0 < p[2] < body.height and np.hypot(p[0], p[1]) < r)


BODIES = st.one_of(
    st.builds(vessel.pot, mm, mm, mm),
    st.builds(vessel.sphere, mm),
    st.builds(lambda across, part: vessel.bowl(across, part * across), mm, st.floats(0.1, 0.9)),
)


@given(BODIES, share, share, st.floats(-0.5, 1.5))
def test_distance_to_a_turned_body_is_that_to_its_nearest_point(
    body: vessel.Turned | vessel.Cap, x: float, y: float, z: float
) -> None:
    p = np.array([x * body.widest, y * body.widest, z * body.height])
    (distance,), (normal,) = body.distance(p[None])
    assert np.linalg.norm(normal) == pytest.approx(1.0, abs=1e-6)
    across = np.array([np.hypot(p[0], p[1]), 0.0, p[2]])
    surface = turned_surface(body)
    brute = np.linalg.norm(surface - across, axis=1).min()
    step = 2.0 * (body.widest + body.height) / 400
    if inside_turned(body, p):
        assert distance <= 1e-6
        # Deep inside never out through the top: the way out is at least as long as the nearest.
        assert -distance >= brute - step
    elif distance > 1e-6:
        assert distance == pytest.approx(brute, abs=step)
    on_surface = p - distance * normal
    again = np.array([np.hypot(on_surface[0], on_surface[1]), 0.0, on_surface[2]])
    if distance > 1e-6:
        assert np.linalg.norm(surface - again, axis=1).min() < step


def box_surface(box: vessel.Box, count: int = 60) -> Points:
    """Points all over its six faces."""
    x, y, z = (
        np.linspace(a, b, count)
        for a, b in (
            (-box.wide / 2, box.wide / 2),
            (-box.deep / 2, box.deep / 2),
            (0.0, box.high),
        )
    )
    faces = []
    for first, second, axis, ends in (
        (y, z, 0, x[[0, -1]]),
        (x, z, 1, y[[0, -1]]),
        (x, y, 2, z[[0, -1]]),
    ):
        for end in ends:
            u, v = np.meshgrid(first, second)
            faces.append(np.insert(np.stack([u.ravel(), v.ravel()], axis=1), axis, end, axis=1))
    return np.concatenate(faces)


@given(mm, mm, mm, share, share, st.floats(-0.5, 1.5))
def test_distance_to_a_box_is_that_to_its_nearest_point(
    wide: float, deep: float, high: float, x: float, y: float, z: float
) -> None:
    box = vessel.Box(wide, deep, high)
    p = np.array([x * wide / 2, y * deep / 2, z * high])
    (distance,), (normal,) = box.distance(p[None])
    brute = np.linalg.norm(box_surface(box) - p, axis=1).min()
    step = (wide + deep + high) / 60
    assert abs(distance) == pytest.approx(brute, abs=step)
    inside = abs(p[0]) < wide / 2 and abs(p[1]) < deep / 2 and 0 < p[2] < high
    assert (distance < 0) == inside or abs(distance) < 1e-9
    assert np.linalg.norm(normal) == pytest.approx(1.0, abs=1e-6)
    (left,), _ = box.distance((p - distance * normal)[None])
    assert left == pytest.approx(0.0, abs=1e-6)


@given(BODIES, st.floats(0.02, 0.98))
def test_radius_is_where_the_distance_is_nought(
    body: vessel.Turned | vessel.Cap, part: float
) -> None:
    z = part * body.height
    (r,) = body.radius(np.array([z]))
    (distance,), _ = body.distance(np.array([[r, 0.0, z]]))
    assert distance == pytest.approx(0.0, abs=1e-6 * (1 + body.widest))
    assert r <= body.widest + 1e-9
    assert body.radius(np.array([-1.0, body.height + 1.0])) == pytest.approx(0.0)


def test_a_pot_s_measures_are_its_own() -> None:
    pot = vessel.pot(160.0, 110.0, 140.0)
    assert (pot.height, pot.widest) == (140.0, 80.0)
    assert pot.radius(np.array([0.0, 70.0, 140.0])) == pytest.approx([55.0, 67.5, 80.0])
    cap = vessel.bowl(200.0, 60.0)
    assert (cap.height, cap.widest) == pytest.approx((60.0, 100.0))
    ball = vessel.sphere(120.0)
    (distance,), (normal,) = ball.distance(np.array([[0.0, 0.0, -10.0]]))
    assert distance == pytest.approx(10.0)
    assert normal == pytest.approx([0.0, 0.0, -1.0])
