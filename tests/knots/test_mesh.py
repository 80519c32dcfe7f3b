from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.knots.drawn.sinnets import half_knot
from cordwright.knots.mesh import State, course_lengths, edge_lengths, image, resampled
from cordwright.knots.tangle import Course, Repeat, Tangle, bundle, mirrored
from tests.knots import reference


@given(st.floats(1.0, 6.0), st.floats(3.0, 12.0))
def test_a_resampled_circle_keeps_its_length(radius: float, per_d: float) -> None:
    ring = reference.circle((1, 2, 3), radius, "x", "z")
    tangle = Tangle((Course(ring, "closed"),))
    mesh, state = resampled(tangle, [ring], State(ring, 0.0, 0.0), per_d)
    edges = edge_lengths(mesh, state)
    # What is missing is the polygon's own shortness, e^2 / (24 r^2).
    short = (edges.mean() / radius) ** 2 / 24
    assert edges.sum() == pytest.approx(2 * np.pi * radius * (1 - short), rel=3e-4)
    assert np.ptp(edges) < 0.02 * edges.mean()
    assert len(edges) % 2 == 0


@given(st.floats(0.5, 3.0), st.floats(2.0, 8.0), st.floats(-0.5, 0.5))
def test_a_periodic_course_goes_on_without_a_kink(
    radius: float, period: float, twist: float
) -> None:
    # A helix of a turn and ``twist`` a cell comes out a little turned: the next cell turns too.
    a = np.linspace(0, 2 * np.pi + twist, 30, endpoint=False)
    z = -period * np.arange(30) / 30
    coil = np.stack([radius * np.cos(a), radius * np.sin(a), z], axis=1)
    repeat = Repeat((0, 0, -1), period, twist=twist, free_twist=True)
    tangle = Tangle((Course(coil, "periodic", goes_on_as=0),), repeat)
    mesh, state = resampled(tangle, [coil], State(coil, period, twist), 6)
    whole = np.hypot(period, radius * (2 * np.pi + twist))
    assert course_lengths(mesh, state)[0] == pytest.approx(whole, rel=5e-3)
    assert np.ptp(edge_lengths(mesh, state)) < 0.03 * edge_lengths(mesh, state).mean()


def test_resampling_again_changes_next_to_nothing() -> None:
    tangle = half_knot(2)
    curves = [c.points for c in tangle.courses]
    assert tangle.repeat is not None
    mesh, state = resampled(tangle, curves, State(curves[0], tangle.repeat.period, 0.0), 8)
    again = [state.x[a:b] for a, b in zip(mesh.start, mesh.start[1:], strict=False)]
    mesh2, state2 = resampled(tangle, again, state, 8)
    before, after = course_lengths(mesh, state), course_lengths(mesh2, state2)
    assert after == pytest.approx(before, rel=1e-3)


cells = st.integers(-3, 3)


@given(cells, cells, st.floats(-1, 1), st.floats(0.5, 5))
def test_images_of_images(first: int, then: int, twist: float, period: float) -> None:
    tangle = half_knot(2)
    curves = [c.points for c in tangle.courses]
    mesh, state = resampled(tangle, curves, State(curves[0], period, twist), 2)
    n = len(state.x)

    def to(
        x: np.ndarray[tuple[int, ...], np.dtype[np.float64]], cell: int
    ) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
        return image(mesh, state, x, np.full(n, cell))

    assert to(to(state.x, first), then) == pytest.approx(to(state.x, first + then), abs=1e-9)
    assert to(state.x, 0) == pytest.approx(state.x)
    there = to(state.x, first)
    apart = np.linalg.norm(there[0] - there[1:], axis=1)
    assert apart == pytest.approx(np.linalg.norm(state.x[0] - state.x[1:], axis=1), abs=1e-9)


def test_a_mirror_image_twice_is_the_tangle() -> None:
    once, twice = mirrored(half_knot(3)), mirrored(mirrored(half_knot(3)))
    for a, b in zip(twice.courses, half_knot(3).courses, strict=True):
        assert a.points == pytest.approx(b.points)
        assert a.place == b.place
    assert [c.place for c in once.courses] == [4, 0, 3, 2, 1]


@pytest.mark.parametrize("count", range(1, 30))
def test_a_bundle_is_packed_without_overlap(count: int) -> None:
    discs = bundle(count)
    assert len(discs) == count
    apart = np.linalg.norm(discs[:, None] - discs[None], axis=2) + 9 * np.eye(count)
    assert apart.min() > 1 - 1e-9
    assert discs.mean(axis=0) == pytest.approx(np.zeros(2), abs=1e-9)
