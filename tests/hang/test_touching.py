from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.hang import vessel
from cordwright.hang.framing import frame_of
from cordwright.hang.touching import abreast, against, joined, none, plain, stacked
from cordwright.hang.worked import worked
from tests.examples.conftest import piece_of
from tests.hang.conftest import panel, planter

PANEL = frame_of(panel(rows=4, cords=8))
AS_WORKED = worked(PANEL)


def test_knots_abreast_just_touch_in_a_packed_row() -> None:
    touching = abreast(PANEL, AS_WORKED)
    apart = np.einsum("ij,ij->i", touching.normal, touching.between(AS_WORKED))
    assert len(touching.gap) == len(PANEL.beside) > 0
    assert (apart >= touching.gap * (1 - 1e-4)).all()
    assert np.isclose(apart, touching.gap, rtol=1e-3).any()
    assert np.linalg.norm(touching.normal, axis=1) == pytest.approx(1.0)
    # Side by side is sideways.
    assert np.abs(touching.normal[:, 0]) == pytest.approx(1.0)


def test_knots_stay_below_what_they_hang_from() -> None:
    touching = stacked(PANEL, AS_WORKED)
    apart = np.einsum("ij,ij->i", touching.normal, touching.between(AS_WORKED))
    assert (apart >= touching.gap - 1e-3).all()
    assert touching.normal[:, 2] == pytest.approx(-1.0)


@given(st.integers(0, 2**32 - 1))
def test_slopes_are_those_of_the_distance(seed: int) -> None:
    """For fixed normals the distance is linear in the nodes: differences are exact."""
    rng = np.random.default_rng(seed)
    touching = joined([abreast(PANEL, AS_WORKED), stacked(PANEL, AS_WORKED)])
    x = AS_WORKED + rng.normal(0.0, 2.0, AS_WORKED.shape)
    way = rng.normal(0.0, 1.0, x.shape)
    nodes, slope = touching.slopes()
    wanted = np.einsum("cki,cki->c", slope, way[nodes])
    before, after = (
        np.einsum("ij,ij->i", touching.normal, touching.between(y)) for y in (x, x + way)
    )
    assert after - before == pytest.approx(wanted, abs=1e-9)


@given(st.integers(0, 2**32 - 1))
def test_what_is_inside_a_held_thing_is_pushed_out_the_shortest_way(seed: int) -> None:
    rng = np.random.default_rng(seed)
    ball = vessel.sphere(100.0)
    base = rng.normal(0.0, 30.0, 3)
    middle = base + np.array([0.0, 0.0, 50.0])
    x = np.concatenate([rng.normal(middle, 35.0, (12, 3)), base[None]])
    points, clear = plain(np.arange(12)), rng.uniform(0.0, 5.0, 12)
    touching = against(ball, 12, points, clear, x)
    apart = np.einsum("ij,ij->i", touching.normal, touching.between(x))
    distance, _ = ball.distance(x[touching.a.top] - base)
    # What is missing to the gap is what is missing to the clearance.
    assert touching.gap - apart == pytest.approx(clear[touching.a.top] - distance)
    moved = x.copy()
    short = np.maximum(touching.gap - apart, 0.0)
    moved[touching.a.top] += short[:, None] * touching.normal
    after, _ = ball.distance(moved[touching.a.top] - base)
    assert (after >= clear[touching.a.top] - 0.2).all()  # the ball has 80 facets


def test_far_points_are_left_alone() -> None:
    x = np.array([[500.0, 0.0, 0.0], [0.0, 0.0, 0.0]])
    touching = against(vessel.pot(80, 60, 90), 1, plain(np.array([0])), np.ones(1), x)
    assert len(touching.gap) == 0


def test_knots_across_a_round_do_not_meet() -> None:
    piece = piece_of("oxbow-planter")
    frame = frame_of(piece)
    touching = abreast(frame, frame.start)
    faces = frame.bars.facing
    left, right = frame.beside[:, 0], frame.beside[:, 1]
    opposite = np.einsum("ij,ij->i", faces[left], faces[right]) < -0.9
    assert len(touching.gap) <= (~opposite).sum()


def test_nothing_touches_in_none_at_all() -> None:
    touching = joined([none(), none()])
    assert len(touching.gap) == 0
    x = worked(frame_of(planter()[0]))
    assert touching.between(x).shape == (0, 3)
