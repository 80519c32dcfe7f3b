from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import pairwise

import numpy as np
import pytest

from cordwright.draw.crossings import crossings
from cordwright.draw.curves import lengths
from cordwright.draw.poses import tying_pose
from cordwright.draw.tying import Step, tying
from cordwright.knots.atlas import Atlas
from cordwright.knots.canonical import key
from cordwright.knots.spec import KnotName, KnotSpec, Role
from tests.draw.knotpictures import HANDED, SPECS, strokes
from tests.draw.test_knotfigure import wrong_crossings

ATLAS = Atlas()
every_knot = pytest.mark.parametrize("spec", SPECS, ids=lambda s: f"{key(s)} {s.hand}")


@cache
def steps_of(spec: KnotSpec) -> tuple[Step, ...]:
    return tying(ATLAS, spec)


@every_knot
def test_there_are_three_to_six_steps_and_the_last_draws_up(spec: KnotSpec) -> None:
    steps = steps_of(spec)
    assert 3 <= len(steps) <= 6
    assert [s.number for s in steps] == list(range(1, len(steps) + 1))
    assert all(s.moved for s in steps[:-1])
    assert not steps[-1].moved


@every_knot
def test_what_is_laid_stays_and_all_is_laid_in_the_end(spec: KnotSpec) -> None:
    *laid, _ = steps_of(spec)
    for before, after in pairwise(laid):
        for b, a in zip(before.shown, after.shown, strict=True):
            assert a.start <= b.start
            assert b.end <= a.end
    pose = tying_pose(ATLAS, spec)
    for cord, shown in zip(pose.cords, laid[-1].shown, strict=True):
        whole = lengths(pose.slackened(cord).points)[-1]
        assert (shown.start, shown.end) == pytest.approx((0.0, whole))


@every_knot
def test_nothing_that_comes_later_is_painted(spec: KnotSpec) -> None:
    for step in steps_of(spec)[:-1]:
        for tube, shown in zip(step.figure.tubes, step.shown, strict=True):
            drawn = lengths(tube.points)[-1]
            assert drawn == pytest.approx(shown.end - shown.start, abs=1e-6)


@every_knot
def test_crossings_of_the_steps_are_painted_as_in_space(spec: KnotSpec) -> None:
    for step in steps_of(spec)[:-1]:
        count, wrong = wrong_crossings(step.figure)
        assert wrong == 0, (step.number, count)


@every_knot
def test_steps_are_inside_their_pictures(spec: KnotSpec) -> None:
    steps = steps_of(spec)
    assert len({(s.figure.width_mm, s.figure.height_mm) for s in steps}) == 1
    for step in steps:
        for stroke in strokes(step.figure.svg):
            assert (stroke.points.min(axis=0) - stroke.width / 2 > 0).all()
            size = [step.figure.width_mm, step.figure.height_mm]
            assert (stroke.points.max(axis=0) + stroke.width / 2 < size).all()


@every_knot
def test_every_crossing_is_made_in_just_one_step(spec: KnotSpec) -> None:
    """A crossing with what lies still is told once, one of two that move by both of them."""
    pose = tying_pose(ATLAS, spec)
    slack = [pose.slackened(c) for c in pose.cords]
    there = sum(
        Role.WORKING in (pose.cords[c.over].role, pose.cords[c.under].role)
        for c in crossings(slack)
    )
    told = sum(len(m.passes) for s in steps_of(spec) for m in s.moved)
    assert there <= told <= 2 * there


def test_a_square_knot_is_told_as_makers_tie_it() -> None:
    """Left cord over the fillers; right cord over it, behind the fillers, out through its loop;
    then the same from the other side (common practice)."""
    steps = steps_of(KnotSpec(KnotName.SQUARE_KNOT, 4))
    told = [
        (m.place, "".join("O" if p.over else "U" for p in m.passes if p.role is Role.FILLER))
        for s in steps
        for m in s.moved
    ]
    assert told == [(0, "OO"), (3, "UU"), (0, "OO"), (3, "UU")]
    for step in (steps[1], steps[3]):
        mine = [p for p in step.moved[0].passes if p.place == 0]
        assert mine[0].over
        assert mine[-1].over


def test_a_larks_head_is_tied_with_both_ends_at_once() -> None:
    steps = steps_of(KnotSpec(KnotName.LARKS_HEAD, 2, over="ring", over_d=1.5))
    told = [[["O" if p.over else "U" for p in m.passes] for m in s.moved] for s in steps[:-1]]
    # The fold hangs in front; both ends go up behind the ring, over it and down behind the fold.
    assert told == [[[], []], [["U"], ["U"]], [["O", "U"], ["O", "U"]]]


def test_a_double_half_hitch_goes_round_its_holding_cord_twice() -> None:
    steps = steps_of(KnotSpec(KnotName.DOUBLE_HALF_HITCH, 2))
    bars = [p.over for s in steps for m in s.moved for p in m.passes if p.role is Role.HOLDING]
    in_front = [over for n, over in enumerate(bars) if n == 0 or bars[n - 1] != over]
    assert in_front == [False, True, False, True, False]


@pytest.mark.parametrize("spec", HANDED, ids=key)
def test_the_other_hand_ties_the_mirror_image(spec: KnotSpec) -> None:
    left, right = steps_of(spec), steps_of(replace(spec, hand="right"))
    assert len(left) == len(right)
    for a, b in zip(left, right, strict=True):
        assert [[p.over for p in m.passes] for m in a.moved] == [
            [p.over for p in m.passes] for m in b.moved
        ]
        for x, y in zip(a.figure.tubes, b.figure.tubes, strict=True):
            mirrored = x.points * [-1.0, 1.0, 1.0]
            shift = y.points[0] - mirrored[0]
            assert np.abs(mirrored + shift - y.points).max() < 1e-6


def test_moving_ends_have_arrows_and_the_drawn_up_knot_has_none() -> None:
    steps = steps_of(KnotSpec(KnotName.SQUARE_KNOT, 4))
    heads = [s.figure.svg.count('Z" fill=') for s in steps]
    assert heads == [1, 1, 1, 1, 0]
