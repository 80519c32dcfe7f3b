"""What the guard must see, and what it must let go by."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.errors import TighteningError
from cordwright.knots import tighten as tightening
from cordwright.knots.contact import closest, contacts, near_pairs, segment_closest
from cordwright.knots.drawn.bundles import clasp
from cordwright.knots.guard import passes
from cordwright.knots.mesh import Mesh, State, build
from cordwright.knots.tangle import Course, Points, Repeat, Tangle
from cordwright.knots.tighten import STAGES, Stage, tighten
from tests.knots import reference
from tests.topology.diagram import diagram

if TYPE_CHECKING:
    from cordwright.knots.mesh import Floats


def line(a: tuple[float, float, float], b: tuple[float, float, float], n: int = 2) -> Points:
    return np.linspace(np.array(a), np.array(b), n)


def two(first: Points, second: Points) -> tuple[Mesh, State]:
    tangle = Tangle((Course(first), Course(second)))
    return build(tangle, [first, second], State(first, 0.0, 0.0))


def seen(mesh: Mesh, before: State, after: State) -> int:
    return passes(mesh, before, after, near_pairs(mesh, before, 0.35))


def crossing(height: float) -> tuple[Mesh, State]:
    """One edge along x, another along y that lies so high above it."""
    return two(line((-1, 0, 0), (1, 0, 0)), line((0.1, -1, height), (0.2, 1, height)))


def shifted(state: State, by: tuple[float, float, float], first: int = 2) -> State:
    x = state.x.copy()
    x[first:] += np.array(by)
    return replace(state, x=x)


def test_a_planted_pass_is_seen() -> None:
    mesh, state = crossing(0.05)
    assert seen(mesh, state, shifted(state, (0, 0, -0.1))) == 1
    assert seen(mesh, state, shifted(state, (0.03, 0.02, -0.0501))) == 1


def test_near_is_not_through() -> None:
    # In all of these the edges move farther than they lie apart, so the cubic decides.
    mesh, state = crossing(0.05)
    assert seen(mesh, state, shifted(state, (0, 0, -0.0499))) == 0
    assert seen(mesh, state, shifted(state, (0.08, 0.08, 0))) == 0
    assert seen(mesh, state, replace(state, x=state.x - np.array([0, 0, 0.1]))) == 0


def test_past_the_end_is_not_through() -> None:
    mesh, state = two(line((-1, 0, 0), (1, 0, 0)), line((1.02, -1, 0.05), (1.02, 1, 0.05)))
    assert seen(mesh, state, shifted(state, (0, 0, -0.1))) == 0
    assert seen(mesh, state, shifted(state, (-0.08, 0, -0.1))) == 1


@pytest.mark.parametrize("turn", [0.0, 0.3])
def test_a_pass_within_one_plane_is_seen(turn: float) -> None:
    mesh, state = two(line((-1, 0, 0), (1, 0, 0)), line((-1, 0.05, 0), (1, 0.05 + turn, 0)))
    assert seen(mesh, state, shifted(state, (0, -0.07, 0))) == 1
    assert seen(mesh, state, shifted(state, (0, -0.045, 0))) == 0
    assert seen(mesh, state, shifted(state, (0.09, 0, 0))) == 0


def test_a_pass_through_a_copy_in_the_next_cell_is_seen() -> None:
    upright, level = line((0, 0, 0), (0, 0, -1.5), 4), line((-1, 0.05, -0.9), (1, 0.05, -0.9))
    tangle = Tangle(
        (Course(upright[:-1], "periodic", goes_on_as=0), Course(level, hold=(True, True, True))),
        Repeat((0, 0, -1), 1.5),
    )
    mesh, state = build(tangle, [upright[:-1], level], State(upright, 1.5, 0.0))
    # The level cord hangs a cell lower than the one whose upright cord it is moved through.
    state = shifted(state, (0, 0, -1.5), first=3)
    assert seen(mesh, state, shifted(state, (0, -0.1, 0), first=3)) == 1
    assert seen(mesh, state, shifted(state, (0, -0.04, 0), first=3)) == 0


def test_a_strand_on_the_other_side_is_seen_in_a_knot() -> None:
    fine = tighten(clasp(), stages=STAGES[:2])[-1]
    assert seen(fine.mesh, fine.state, fine.state) == 0
    across = shifted(fine.state, (0, 0, 1.3), first=int(fine.mesh.start[1]))
    pairs = near_pairs(fine.mesh, fine.state, 2.0)
    assert passes(fine.mesh, fine.state, across, pairs) > 0


coordinate = st.floats(-1, 1, width=32)
point = st.tuples(coordinate, coordinate, coordinate)


@given(st.lists(point, min_size=8, max_size=8))
def test_what_is_called_a_pass_comes_near(points: list[tuple[float, float, float]]) -> None:
    ends = 0.3 * np.array(points)
    start, end = ends[:4], ends[:4] + 0.4 * ends[4:]
    mesh, state = two(start[:2], start[2:])
    if seen(mesh, state, replace(state, x=end)):
        assert _nearest(start, end) < 0.01


def _nearest(start: Points, end: Points) -> float:
    t = np.linspace(0, 1, 2001)[:, None, None]
    at: Floats = (1 - t) * start + t * end
    return float(segment_closest(at[:, 0], at[:, 1], at[:, 2], at[:, 3]).distance.min())


@given(st.lists(point, min_size=6, max_size=6), st.tuples(*[st.floats(0.05, 0.95)] * 3))
def test_random_passes_are_seen(
    points: list[tuple[float, float, float]], where: tuple[float, float, float]
) -> None:
    s, t, when = where
    d1, d2, *drift = 0.3 * np.array(points)
    volume = abs(np.linalg.det([d1, d2, drift[0] - drift[2]]))
    if volume < 1e-6:
        return
    # At the time ``when`` point s of one edge is point t of the other, and they move apart.
    met = np.array([-s * d1, (1 - s) * d1, -t * d2, (1 - t) * d2])
    way = np.array([drift[0], drift[0], drift[2], drift[2]])
    mesh, state = two(*np.split(met - when * way, 2))
    assert seen(mesh, state, replace(state, x=met + (1 - when) * way)) == 1


def test_overlap_of_cords_pushed_together_is_told() -> None:
    fine = tighten(reference.hopf(), stages=STAGES[:2])[-1]
    assert fine.overlap < 0.02
    pushed = shifted(fine.state, (-0.3, 0, 0), first=int(fine.mesh.start[1]))
    pairs = near_pairs(fine.mesh, pushed, 0.1)
    gap, _ = contacts(fine.mesh, pairs, closest(fine.mesh, pushed, pairs))
    assert gap.min() == pytest.approx(-0.3, abs=0.05)


def test_cords_drawn_inside_one_another_are_refused() -> None:
    side_by_side = [line((x, 0, 4), (x, 0, -4), 9) for x in (0.0, 0.2)]
    with pytest.raises(TighteningError, match=r"drawn 0\.20 of their distance") as refused:
        tighten(Tangle(tuple(Course(c) for c in side_by_side)))
    assert "more room" in refused.value.remedy


def test_cords_that_cannot_part_keep_an_overlap_that_is_told() -> None:
    held = (True, True, True)
    lines = [line((x, 0, 2), (x, 0, -2), 9) for x in (0.0, 0.7)]
    fine = tighten(Tangle(tuple(Course(c, hold=held) for c in lines)), stages=STAGES[:2])[-1]
    assert fine.overlap == pytest.approx(0.3, abs=0.01)


SLACK = (Stage(3, 0.0, -1.0, 400),)
"""Nothing but the guard keeps cords apart, and nothing settles."""


def linking(tight: tightening.Tight) -> int:
    return diagram([tight.curve(0), tight.curve(1)]).linking(0, 1)


def longer_steps(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(tightening, "LONGEST_MOVE", 3.0)
    monkeypatch.setattr(tightening, "MARGIN", 8.0)


def test_a_step_that_would_tunnel_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    longer_steps(monkeypatch)
    with pytest.raises(TighteningError, match="pass through another") as refused:
        tighten(reference.hopf(), stages=SLACK)
    assert "more room" in refused.value.remedy


def test_without_the_guard_it_would_have_tunnelled(monkeypatch: pytest.MonkeyPatch) -> None:
    longer_steps(monkeypatch)
    monkeypatch.setattr(tightening, "passes", lambda *_: 0)
    loose = tighten(reference.hopf(), stages=(Stage(3, 0.0, -1.0, 6),))[-1]
    assert abs(linking(loose)) != abs(linking(tighten(reference.hopf(), stages=STAGES[:1])[-1]))
