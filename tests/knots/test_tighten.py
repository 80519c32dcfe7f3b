"""What tightening must keep and what it must not depend on."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from cordwright.errors import KnotError, TighteningError
from cordwright.knots.drawn.bundles import overhand
from cordwright.knots.drawn.sinnets import half_knot, square_knot
from cordwright.knots.mesh import course_lengths
from cordwright.knots.symmetry import asymmetry
from cordwright.knots.tangle import Course, Repeat, Tangle, mirrored
from cordwright.knots.tighten import STAGES, Stage, Tight, extrapolated, tighten, work
from tests.knots import reference

COARSE = STAGES[:2]


def only(per_d: float, settled: float = 1e-6) -> tuple[Stage, ...]:
    """One mesh, well settled."""
    return (
        Stage(per_d, 20, 1e-2, 400),
        Stage(per_d, 500, 1e-3, 150),
        Stage(per_d, 4000, settled, 400),
    )


def scaled(tangle: Tangle, k: float) -> Tangle:
    return Tangle(
        tuple(replace(c, points=k * c.points, diameter=k * c.diameter) for c in tangle.courses)
    )


def moved(tangle: Tangle) -> Tangle:
    turn, _ = np.linalg.qr(np.random.default_rng(5).normal(size=(3, 3)))
    turn *= np.sign(np.linalg.det(turn))
    shift = np.array([3.0, -2.0, 7.0])
    return Tangle(tuple(replace(c, points=c.points @ turn.T + shift) for c in tangle.courses))


def test_same_wherever_it_is_drawn() -> None:
    here = tighten(reference.torus(2, 3), stages=COARSE)[-1]
    there = tighten(moved(reference.torus(2, 3)), stages=COARSE)[-1]
    assert there.lengths == pytest.approx(here.lengths, rel=1e-3)


def test_twice_as_thick_is_twice_as_long() -> None:
    one = tighten(reference.hopf(), stages=STAGES[:3])[-1]
    two = tighten(scaled(reference.hopf(), 2.0), stages=STAGES[:3])[-1]
    assert two.lengths == pytest.approx(2 * one.lengths, rel=2e-3)


@pytest.mark.parametrize("tangle", [half_knot(2), square_knot(2)], ids=["half", "square"])
def test_mirror_image_of_the_drawing_gives_the_mirror_image(tangle: Tangle) -> None:
    left = tighten(tangle, stages=COARSE)[-1]
    right = tighten(mirrored(tangle), stages=COARSE)[-1]
    assert right.lengths == pytest.approx(left.lengths, rel=1e-3)
    assert right.state.period == pytest.approx(left.state.period, rel=5e-3)
    assert right.state.twist == pytest.approx(-left.state.twist, abs=0.01)


def test_half_knots_turn_and_square_knots_do_not() -> None:
    half = tighten(half_knot(2), stages=COARSE)[-1]
    assert 20 < np.degrees(abs(half.state.twist)) < 50
    # Two half turns that undo one another: free to turn, a square knot stays as it is.
    square = square_knot(2)
    assert square.repeat is not None
    free = replace(square, repeat=replace(square.repeat, free_twist=True), symmetries=())
    assert abs(np.degrees(tighten(free, stages=COARSE)[-1].state.twist)) < 2.0


@pytest.mark.parametrize(
    "tangle", [square_knot(2), half_knot(4), overhand(1)], ids=["square", "half", "overhand"]
)
def test_declared_symmetry_is_kept(tangle: Tangle) -> None:
    fine = tighten(tangle, stages=COARSE)[-1]
    assert fine.asymmetry < 1e-9
    assert tighten(tangle, stages=COARSE, seed=4)[-1].asymmetry < 1e-9


def test_a_symmetry_that_the_knot_has_not_is_told() -> None:
    fine = tighten(half_knot(2), stages=COARSE)[-1]
    wrong = replace(square_knot(2).symmetries[0], onto=(0, 1, 2, 3))
    crooked = replace(fine.mesh, tangle=replace(fine.mesh.tangle, symmetries=(wrong,)))
    assert asymmetry(crooked, fine.state) > 0.5


def test_symmetric_courses_are_equally_long() -> None:
    fine = tighten(square_knot(2), stages=COARSE)[-1]
    assert fine.lengths[0] == pytest.approx(fine.lengths[1], rel=1e-9)
    assert fine.lengths[2] == pytest.approx(fine.lengths[3], rel=1e-9)


def test_error_falls_with_the_square_of_the_edge() -> None:
    # A ring round one cord is a circle of radius 1 d: 2 pi. It starts small, to be quick.
    edges, errors = [], []
    for per_d in (3, 5, 8):
        fine = tighten(reference.ring_round(1), stages=only(per_d))[-1]
        edges.append(fine.lengths[0] / np.count_nonzero(fine.mesh.course == 0))
        errors.append(fine.lengths[0] / (2 * np.pi) - 1)
    order = np.polyfit(np.log(edges), np.log(errors), 1)[0]
    assert order == pytest.approx(2.0, abs=0.05)
    # The polygon round a circle of radius r with edge e is longer by the share e^2 / (12 r^2).
    assert np.array(errors) / np.array(edges) ** 2 == pytest.approx(1 / 12, abs=0.005)


def test_extrapolation_takes_out_an_error_of_the_second_order() -> None:
    coarse, fine = np.array([1 + 0.3 / 5**2]), np.array([1 + 0.3 / 8**2])
    assert extrapolated(coarse, fine, 8 / 5) == pytest.approx(1.0)


def test_starts_shaken_differently_agree() -> None:
    found = [tighten(square_knot(2), stages=COARSE, seed=s)[-1] for s in (None, 1, 2)]
    assert [work(t) for t in found] == pytest.approx([work(found[0])] * 3, rel=2e-3)


def test_going_on_from_a_result_changes_little() -> None:
    first = tighten(reference.hopf(), stages=STAGES[:4])[-1]
    again = tighten(reference.hopf(), stages=STAGES[3:4], resume=first)[-1]
    assert again.lengths == pytest.approx(first.lengths, rel=1e-3)


def test_progress_runs_to_one() -> None:
    told: list[float] = []
    tighten(reference.hopf(), stages=COARSE, progress=told.append)
    assert told == sorted(told)
    assert told[-1] == 1.0


def test_lengths_are_those_of_the_curves() -> None:
    fine: Tight = tighten(reference.hopf(), stages=COARSE)[-1]
    curve = fine.curve(0)
    around = np.linalg.norm(np.roll(curve, -1, axis=0) - curve, axis=1).sum()
    assert fine.lengths[0] == pytest.approx(around)
    assert course_lengths(fine.mesh, fine.state) == pytest.approx(fine.lengths)


def test_impossible_tangles_are_refused() -> None:
    with pytest.raises(KnotError, match="fewer than two points"):
        Tangle((Course(np.zeros((1, 3))),))
    with pytest.raises(KnotError, match="next cell"):
        Tangle((Course(np.zeros((4, 3)), "periodic"),))
    with pytest.raises(KnotError, match="z axis"):
        Repeat((1.0, 0.0, 0.0), 2.0, free_twist=True)
    assert issubclass(TighteningError, KnotError)
