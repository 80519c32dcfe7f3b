from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.draw.placed_cords import FreeCord
from cordwright.draw.slack import arc, with_slack
from tests.draw.pieces import flat


def cord(a: tuple[float, float, float], b: tuple[float, float, float], length: float) -> FreeCord:
    way = np.linspace(a, b, 4)[None]
    return FreeCord(0, 1, "free", way, 4.0, length)


def test_lengths_of_curves_are_those_of_their_polygons() -> None:
    rng = np.random.default_rng(2)
    curves = rng.normal(size=(6, 4, 3)) * 10 + np.linspace(0, 60, 4)[:, None]
    t = np.linspace(0.0, 1.0, 4001)[:, None, None]
    p = [curves[None, :, i] for i in range(4)]
    points = (1 - t) ** 3 * p[0] + 3 * (1 - t) ** 2 * t * p[1] + 3 * (1 - t) * t * t * p[2]
    points = points + t**3 * p[3]
    polygons = np.linalg.norm(np.diff(points, axis=0), axis=2).sum(axis=0)
    assert arc(curves) == pytest.approx(polygons, rel=1e-3)


@given(st.floats(-80.0, 80.0), st.floats(-80.0, 0.0), st.floats(1.05, 6.0))
def test_slack_cord_is_drawn_as_long_as_it_is(across: float, down: float, more: float) -> None:
    way = float(np.hypot(across, down))
    if way < 1.0:
        return
    (drawn,) = with_slack([cord((0.0, 0.0, 0.0), (across, 0.0, down), more * way)], 0.0)
    assert arc(drawn.curves)[0] == pytest.approx(more * way, rel=1e-3)
    assert drawn.curves[0, [0, 3]] == pytest.approx(np.array([[0, 0, 0], [across, 0, down]]))


def test_a_shallow_belly_is_a_catenary() -> None:
    """Sag of a catenary with parameter a over a span s: a (cosh(s / 2a) - 1), its own length."""
    span, a = 100.0, 110.0
    length = 2 * a * np.sinh(span / (2 * a))
    sag = a * (np.cosh(span / (2 * a)) - 1)
    (drawn,) = with_slack([cord((-50.0, 0.0, 0.0), (50.0, 0.0, 0.0), length)], 0.0)
    middle = np.array([1, 3, 3, 1]) @ drawn.curves[0] / 8
    assert np.hypot(middle[1], middle[2]) == pytest.approx(sag, rel=0.03)
    assert middle[2] < -0.9 * sag


def test_taut_cord_stays_straight() -> None:
    taut = cord((0.0, 0.0, 0.0), (0.0, 0.0, -50.0), 50.5)
    assert with_slack([taut], 0.0)[0] is taut


def test_what_hangs_below_itself_bellies_outwards() -> None:
    ends = [((x, 0.0, 0.0), (x, 0.0, -20.0)) for x in (-30.0, 30.0)]
    left, right = with_slack([cord(a, b, 40.0) for a, b in ends], 0.0)
    assert left.curves[0, 1:3, 0].max() < -30.0
    assert right.curves[0, 1:3, 0].min() > 30.0
    assert (left.curves[0, 1:3, 1] < 0.0).all()  # to the front


def test_pieces_have_no_cord_that_is_shorter_than_it_is() -> None:
    """But for what knots take up on their way, and wraps, under which cord bends unseen."""
    for c in flat("weir-meadow-hanging").cords:
        if c.part == "free" and len(c.curves) == 1 and c.length > 8.0:
            assert arc(c.curves)[0] > 0.98 * c.length - 1e-6
