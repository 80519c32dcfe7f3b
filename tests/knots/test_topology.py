"""The tight curves of the atlas are the knots that they are called, and those that were drawn."""

from __future__ import annotations

import json
from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING

import numpy as np
import pytest

from cordwright.knots.atlas import FIGURES, Atlas
from cordwright.knots.canonical import canonical, key
from cordwright.knots.drawn import draw
from cordwright.knots.shipped import SHIPPED
from cordwright.knots.spec import KnotName, KnotSpec
from cordwright.knots.tighten import STAGES, tighten
from tests.knots.closing import (
    Shape,
    alone,
    as_drawn,
    ends_joined,
    in_a_ring,
    lead_clearance,
    workers_joined,
)
from tests.topology.diagram import diagram
from tests.topology.kinds import kind_by_topoly, mirrored, summands, whole

if TYPE_CHECKING:
    from tests.topology.diagram import Curve

SQUARE = KnotSpec(KnotName.SQUARE_KNOT, 4)
HALF = KnotSpec(KnotName.HALF_KNOT, 4)
HITCH = KnotSpec(KnotName.DOUBLE_HALF_HITCH, 2)


@cache
def tight(spec: KnotSpec) -> Shape:
    """The curves that the atlas holds."""
    left = canonical(spec)
    entry = json.loads(FIGURES.read_text(encoding="utf-8"))["knots"][key(left)]
    curves = tuple(Atlas().curves(left))
    return Shape(draw(left), curves, entry["period_d"], float(np.radians(entry["twist_deg"])))


def drawn(spec: KnotSpec) -> Shape:
    return as_drawn(draw(canonical(spec)))


def names(curve: Curve) -> list[str]:
    return [kind.name for kind in summands([curve])]


@pytest.mark.parametrize("shape", [tight(SQUARE), drawn(SQUARE)], ids=["tight", "drawn"])
def test_square_knot_is_a_trefoil_and_its_mirror_image(shape: Shape) -> None:
    assert lead_clearance(shape, 1) > 0.9
    assert names(workers_joined(shape, 1)) == ["left trefoil", "right trefoil"]


@pytest.mark.parametrize("strands", [3, 6, 10])
def test_square_knot_round_other_fillers_too(strands: int) -> None:
    shape = tight(KnotSpec(KnotName.SQUARE_KNOT, strands))
    assert lead_clearance(shape, 1) > 0.9
    assert names(workers_joined(shape, 1)) == ["left trefoil", "right trefoil"]


@pytest.mark.parametrize("shape", [tight(HALF), drawn(HALF)], ids=["tight", "drawn"])
def test_two_half_knots_of_one_hand_are_a_granny(shape: Shape) -> None:
    assert lead_clearance(shape, 2) > 0.9
    assert names(workers_joined(shape, 1)) == ["left trefoil"]
    assert names(workers_joined(shape, 2)) == ["left trefoil", "left trefoil"]


def test_topoly_tells_the_same() -> None:
    pytest.importorskip("topoly")
    square = kind_by_topoly([workers_joined(tight(SQUARE), 1)])
    assert sorted(square.split("#")) == ["+3_1", "-3_1"]
    assert kind_by_topoly([workers_joined(tight(HALF), 1)]) == "-3_1"
    assert kind_by_topoly([workers_joined(tight(HALF), 2)]) == "-3_1#-3_1"


def test_each_hand_is_the_mirror_image_of_the_other() -> None:
    tangle = draw(replace(HALF, hand="right"))
    right = tighten(tangle, stages=STAGES[:2])[-1]
    curves = tuple(right.curve(i) for i in range(len(tangle.courses)))
    shape = Shape(tangle, curves, right.state.period, right.state.twist)
    assert names(workers_joined(shape, 1)) == ["right trefoil"]
    # Seen in the mirror, the ring's axis would run the other way.
    *cords, axis = mirrored(in_a_ring(shape))
    assert whole([*cords, axis[::-1]]) == whole(in_a_ring(tight(HALF)))
    assert whole(in_a_ring(shape)) != whole(in_a_ring(tight(HALF)))


@pytest.mark.parametrize("strands", range(1, 7))
def test_overhand_is_a_trefoil_in_every_strand(strands: int) -> None:
    spec = KnotSpec(KnotName.OVERHAND, strands)
    (hand,) = {tuple(names(alone(c))) for c in (*tight(spec).curves, *drawn(spec).curves)}
    (mirror,) = mirrored([alone(tight(spec).curves[0])])
    assert {*hand, *names(mirror)} == {"left trefoil", "right trefoil"}


MOUNTS = [s for s in SHIPPED if s.name is KnotName.LARKS_HEAD]


@pytest.mark.parametrize("spec", MOUNTS[::3], ids=key)
def test_larks_head(spec: KnotSpec) -> None:
    # Pulled straight the other way it would be a square knot: tail to ring's end on either side.
    for shape in (tight(spec), drawn(spec)):
        ring, cord = shape.curves
        assert names(ends_joined(ring[::-1], cord)) == ["left trefoil", "right trefoil"]


@pytest.mark.parametrize("spec", [HITCH, replace(HITCH, slant_deg=45.0)], ids=key)
def test_double_half_hitch(spec: KnotSpec) -> None:
    # A clove hitch is a granny pulled straight on one side, as a lark's head is a square knot.
    for shape in (tight(spec), drawn(spec)):
        holding, hitch = shape.curves
        assert names(ends_joined(holding[::-1], hitch)) == ["left trefoil", "left trefoil"]


def test_a_hitch_goes_twice_round_its_holding_cord() -> None:
    holding, hitch, _ = in_a_ring(tight(HITCH))
    assert abs(diagram([holding, hitch]).linking(0, 1)) == 2


def repeating(spec: KnotSpec) -> bool:
    if spec.name is KnotName.GATHERING:
        # Turns are all alike; thick bundles take minutes, and get by with linking numbers.
        return spec.turns == 4 and spec.strands < 10
    return spec.name not in {KnotName.LARKS_HEAD, KnotName.OVERHAND}


@pytest.mark.parametrize("spec", [s for s in SHIPPED if repeating(s)], ids=key)
def test_tight_is_what_was_drawn(spec: KnotSpec) -> None:
    before, after = whole(in_a_ring(drawn(spec))), whole(in_a_ring(tight(spec)))
    for what in ("components", "signature", "alexander"):
        assert getattr(after, what) == getattr(before, what)


@pytest.mark.parametrize("strands", [13, 17, 25])
def test_gathering_turn_goes_once_round_each_strand(strands: int) -> None:
    spec = KnotSpec(KnotName.GATHERING, strands, turns=4)
    found = []
    for shape in (tight(spec), drawn(spec)):
        wrap, *under, axis = in_a_ring(shape)
        assert len(under) == strands - 1 + 2  # and round its own two legs
        view = diagram([wrap, *under, axis])
        with_wrap = {view.linking(0, 1 + i) for i in range(len(under))}
        with_axis = {view.linking(i, len(under) + 1) for i in range(len(under) + 1)}
        found.append((with_wrap, with_axis))
    # A wrap that went round no strand, or two at a time, would not link all of them alike.
    assert found[0] == found[1]
    assert [len(links) for links in found[0]] == [1, 1]


def test_a_strand_on_the_wrong_side_would_be_seen() -> None:
    shape = tight(HALF)
    # The left filler carried through a working cord to the outside of the knot.
    moved = shape.curves[2] + np.array([0.0, 9.0, 0.0])
    wrong = replace(shape, curves=(*shape.curves[:2], moved, *shape.curves[3:]))
    assert whole(in_a_ring(wrong)) != whole(in_a_ring(shape))
