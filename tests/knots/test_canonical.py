from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.knots.canonical import as_asked, canonical, key
from cordwright.knots.places import exit_order, roles
from cordwright.knots.spec import KnotFigures, KnotName, KnotSpec

specs = st.builds(
    KnotSpec,
    name=st.sampled_from(KnotName),
    strands=st.integers(2, 12),
    turns=st.integers(1, 9),
    hand=st.sampled_from(["left", "right"]),
    face=st.sampled_from(["face", "reverse"]),
    over=st.sampled_from(["ring", "rod", "none"]),
    over_d=st.floats(0.2, 60.0),
    slant_deg=st.floats(0.0, 60.0),
    filler_d=st.floats(0.2, 5.0),
)


@given(specs)
def test_canonical_is_its_own_canonical(spec: KnotSpec) -> None:
    assert canonical(canonical(spec)) == canonical(spec)
    assert key(canonical(spec)) == key(spec)


@given(specs, specs)
def test_one_key_means_one_shape(a: KnotSpec, b: KnotSpec) -> None:
    assert (key(a) == key(b)) == (canonical(a) == canonical(b))


@given(specs)
def test_hand_does_not_change_the_shape(spec: KnotSpec) -> None:
    assert key(replace(spec, hand="left")) == key(replace(spec, hand="right"))


def figures(spec: KnotSpec) -> KnotFigures:
    used = tuple(1.0 + 0.1 * i for i in range(spec.strands))
    return KnotFigures(spec, 4.0, 5.0, 3.0, roles(spec), used, exit_order(spec), 30.0)


@given(specs)
def test_the_other_hand_twice_is_the_same(spec: KnotSpec) -> None:
    left = figures(replace(spec, hand="left"))
    right = as_asked(left, replace(spec, hand="right"))
    assert right.twist_deg == -left.twist_deg
    assert sorted(right.take_up_d) == sorted(left.take_up_d)
    assert sorted(right.exit_order) == list(range(len(right.exit_order)))
    assert as_asked(left, left.spec) == left


def test_the_working_strand_of_a_right_half_hitch_is_the_last() -> None:
    left = figures(KnotSpec(KnotName.HALF_HITCH, 3))
    right = as_asked(left, KnotSpec(KnotName.HALF_HITCH, 3, hand="right"))
    assert [str(r) for r in right.roles] == ["filler", "filler", "working"]
    assert right.take_up_d == pytest.approx((1.2, 1.1, 1.0))
