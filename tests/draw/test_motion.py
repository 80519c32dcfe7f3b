"""A tying as motion: it ends in the tight knot, nothing jumps, and nothing passes through."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import combinations_with_replacement, pairwise
from typing import TYPE_CHECKING

import numpy as np
import pytest
from scipy.spatial import cKDTree

from cordwright.draw.crossings import crossings
from cordwright.draw.curves import even, lengths
from cordwright.draw.layers import Tube
from cordwright.draw.motion import LED, Motion, at_key, motion
from cordwright.draw.poses import tying_pose
from cordwright.knots.atlas import Atlas
from cordwright.knots.canonical import key
from cordwright.knots.spec import KnotName, KnotSpec
from tests.draw.knotpictures import SPECS

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Points = NDArray[np.float64]

ATLAS = Atlas()
GATHERING = [s for s in SPECS if s.name is KnotName.GATHERING]
OTHERS = [s for s in SPECS if s.name is not KnotName.GATHERING]
every_knot = pytest.mark.parametrize("spec", SPECS, ids=lambda s: f"{key(s)} {s.hand}")
all_but_gathering = pytest.mark.parametrize("spec", OTHERS, ids=lambda s: f"{key(s)} {s.hand}")
gathering = pytest.mark.parametrize("spec", GATHERING, ids=key)

TOUCH = 0.07
"""What the stored curves of the atlas may overlap by where cords touch, in d; its largest is that
of a braid whose strands stand side by side in two cells."""


@cache
def motion_of(spec: KnotSpec) -> Motion:
    return motion(ATLAS, spec)


def between(made: Motion, share: float, first: int = 0, second: int = 1) -> list[Points]:
    """Curves between two forms, as a page shows them."""
    one, other = made.forms[first], made.forms[second]
    return [a + share * (b - a) for a, b in zip(one, other, strict=True)]


def least_gap(made: Motion, curves: list[Points]) -> float:
    """Smallest distance of two tubes' surfaces, in d; a tube and its own next part left out."""
    found = np.inf
    fine = [even(c, 0.1) for c in curves]
    for i, j in combinations_with_replacement(range(len(fine)), 2):
        if i == j and made.cords[i].fixed:
            continue
        thick = (made.cords[i].diameter + made.cords[j].diameter) / 2
        pairs = cKDTree(fine[i]).sparse_distance_matrix(
            cKDTree(fine[j]), thick + 0.4, output_type="coo_matrix"
        )
        far = np.abs(pairs.row - pairs.col) * 0.1 > 1.9 * thick
        gaps = pairs.data if i != j else pairs.data[far]
        if len(gaps):
            found = min(found, float(gaps.min()) - thick)
    return found


@all_but_gathering
def test_the_last_frame_is_the_tight_knot(spec: KnotSpec) -> None:
    made = motion_of(spec)
    pose = tying_pose(ATLAS, spec)
    shifts = []
    for cord, moving, shown in zip(
        pose.tight, made.cords, at_key(made, len(made.keys) - 1), strict=True
    ):
        knotted = shown if moving.fixed else shown[1:-1]
        offset = knotted - pose.view.seen(cord.points)
        shifts.append(offset[0])
        assert np.abs(offset - offset[0]).max() < 1e-9
        # Beyond the knot's own curve an end is led on straight.
        if not moving.fixed:
            for a, b, c in (shown[:3], shown[:-4:-1]):
                way, on = b - a, c - b
                cosine = way @ on / np.linalg.norm(way) / np.linalg.norm(on)
                assert cosine == pytest.approx(1.0, abs=1e-6)
    assert np.abs(np.array(shifts) - shifts[0]).max() < 1e-9


@gathering
def test_a_gathering_knot_ends_in_the_turns_of_the_atlas(spec: KnotSpec) -> None:
    made = motion_of(spec)
    pose = tying_pose(ATLAS, spec)
    drawn = [pose.view.seen(c.points) for c in pose.tight]
    wrap, *bundle = at_key(made, len(made.keys) - 1)
    coil = drawn[0][60:-60]  # without its tucked ends
    tree = cKDTree(even(wrap, 0.01))
    shift = bundle[0][1] - drawn[1][0]
    apart, _ = tree.query(coil + shift)
    assert np.max(apart) < 0.02
    for mine, theirs in zip(bundle, drawn[1:], strict=False):
        assert np.abs(mine[1] - theirs[0] - shift).max() < 1e-9


@every_knot
def test_nothing_jumps(spec: KnotSpec) -> None:
    made = motion_of(spec)
    assert made.keys[0].at_s == 0.0
    for form, other in pairwise(made.forms):
        assert [p.shape for p in form] == [p.shape for p in other]
    for before, after in pairwise(made.keys):
        assert after.at_s > before.at_s
        assert after.step - before.step in (0, 1)
        if after.step > before.step:
            assert after.shown == before.shown
        if after.form != before.form:  # only what is whole is drawn up
            assert after.form == before.form + 1
            for k in (before, after):
                for i, p in zip(k.shown, made.forms[k.form], strict=True):
                    assert (i.start, i.end) == pytest.approx((0.0, lengths(p)[-1]))
        else:
            for b, a in zip(before.shown, after.shown, strict=True):
                assert a.start <= b.start + 1e-9
                assert b.end <= a.end + 1e-9


@all_but_gathering
@pytest.mark.parametrize("share", [0.0, 0.3, 0.6, 0.9, 1.0])
def test_no_cord_passes_through_another(spec: KnotSpec, share: float) -> None:
    made = motion_of(spec)
    assert least_gap(made, between(made, share)) > -TOUCH


@gathering
def test_a_wrap_is_wound_without_passing_through_anything(spec: KnotSpec) -> None:
    assert least_gap(motion_of(spec), list(motion_of(spec).forms[0])) > 0.0


def test_the_check_sees_cords_that_pass_through() -> None:
    made = motion_of(KnotSpec(KnotName.SQUARE_KNOT, 4))
    curves = between(made, 1.0)
    curves[0] = curves[0] + [0.5, 0.0, 0.0]
    assert least_gap(made, curves) < -TOUCH


@all_but_gathering
def test_the_last_frame_crosses_as_the_tangle_does(spec: KnotSpec) -> None:
    made = motion_of(spec)
    pose = tying_pose(ATLAS, spec)
    mine = [
        Tube(p, c.diameter)
        for p, c in zip(at_key(made, len(made.keys) - 1), made.cords, strict=True)
    ]
    theirs = [Tube(pose.view.seen(c.points), c.diameter) for c in pose.tight]

    def told(tubes: list[Tube]) -> list[tuple[int, int]]:
        return sorted((c.over, c.under) for c in crossings(tubes))

    assert told(mine) == told(theirs)


@pytest.mark.parametrize("spec", [*SPECS[:2], SPECS[5], *GATHERING, SPECS[-1]], ids=key)
def test_the_other_hand_is_the_mirror_image(spec: KnotSpec) -> None:
    left, right = motion_of(replace(spec, hand="left")), motion_of(replace(spec, hand="right"))
    assert len(left.forms) == len(right.forms)
    for a, b in zip(left.forms, right.forms, strict=True):
        for p, q in zip(a, b, strict=True):
            assert np.abs(p * [-1.0, 1.0, 1.0] - q).max() < 1e-6
    assert [k.at_s for k in left.keys] == pytest.approx([k.at_s for k in right.keys])


@every_knot
def test_ends_are_led_on(spec: KnotSpec) -> None:
    for cord, points in zip(motion_of(spec).cords, motion_of(spec).forms[0], strict=True):
        if not cord.fixed:
            assert np.linalg.norm(points[1] - points[0]) == pytest.approx(LED)
