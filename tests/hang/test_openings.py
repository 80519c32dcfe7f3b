"""Loops and openings whose size is known by hand, and what goes through them."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace
from functools import cache
from types import SimpleNamespace
from typing import TYPE_CHECKING, Any, cast

import numpy as np
import pytest

from cordwright.hang.fit import _troubles, _way, _ways
from cordwright.hang.fitanswer import GapReport
from cordwright.hang.gaps import STEP, largest_gap
from cordwright.hang.holding import held_of, slimmest
from cordwright.hang.mouth import Ways, ways_in
from cordwright.hang.shape import Held, Shape, hang
from cordwright.hang.vessel import Box
from cordwright.knots.spec import KnotName
from cordwright.piece.work import work
from cordwright.plan.hung import BoxBody, SphereBody, hung
from cordwright.plan.read import parse_plan
from cordwright.plan.sizes import resolve_sizes
from tests.hang.cradles import SIZES, net, net_text
from tests.hang.links import net as links_net
from tests.piece.conftest import MadeUpFigures

if TYPE_CHECKING:
    from cordwright.hang.frame import Points


@cache
def ways() -> tuple[Ways, float]:
    """The loops of the small planter's net, and how long its mouth is by hand.

    Between two neighbouring knots of the upper round of three the shortest way goes down to the
    knot between them and up again: twice the mesh and the height of a knot; and across each knot
    of the round it goes once.
    """
    plan = parse_plan(net_text())
    piece = work(plan, MadeUpFigures())
    assert plan.hang is not None
    told = hung(plan.hang, resolve_sizes(plan))
    assert told.holds is not None
    found = ways_in(hang(piece, held_of(told.holds)))
    assert found is not None
    knot = next(k for k in piece.knots if k.spec.name is KnotName.SQUARE_KNOT)
    wide = piece.figures[knot.spec].width_d * SIZES["d"]
    return found, 3 * (2 * (SIZES["mesh"] + piece.mm(knot.height)) + wide)


def test_the_mouth_is_as_long_as_its_cords_and_knots() -> None:
    found, by_hand = ways()
    assert found.mouth_mm == pytest.approx(by_hand, rel=1e-6)


@pytest.mark.parametrize(("share", "goes_in"), [(0.5, True), (0.999, True), (1.001, False)])
def test_a_ball_goes_in_if_it_is_no_longer_round_than_the_mouth(
    share: float, goes_in: bool
) -> None:
    found, by_hand = ways()
    ball = SphereBody(share * by_hand / math.pi, 500.0)
    told = _way(found, ball)
    assert told is not None
    kept = [t for t in _ways("ball", told) if "uppermost round" in t.what]
    assert bool(kept) is not goes_in
    if kept:
        over = math.pi * ball.across_mm - by_hand
        assert f"{over:.0f} mm more" in kept[0].remedy


SIDE, PITCH, CORD = 240.0, 40.0, 4.0


def boxed(missing: tuple[float, float] | None = None) -> Shape:
    """A square mesh of cord lying on all sides of a cube, and on its base.

    Args:
        missing: place to the right and up, mm, of a crossing on its front that is left out.
    """
    marks = np.arange(-SIDE / 2, SIDE / 2 + 1, PITCH)
    faces: list[Points] = []
    for s, t in itertools.product(marks, marks):
        up = t + SIDE / 2
        near, far = -SIDE / 2 - CORD / 2, SIDE / 2 + CORD / 2
        faces += [np.array(p) for p in ((s, near, up), (s, far, up), (near, s, up), (far, s, up))]
        faces.append(np.array([s, t, -CORD / 2]))
    x = np.array(faces)
    if missing is not None:
        gone = (x[:, 1] < -SIDE / 2) & np.isclose(x[:, [0, 2]], missing).all(axis=1)
        assert gone.sum() == 1
        x = x[~gone]
    links = [
        (i, j)
        for i, j in itertools.combinations(range(len(x)), 2)
        if math.isclose(float(np.abs(x[i] - x[j]).sum()), PITCH)
    ]
    x = np.concatenate([x, np.zeros((1, 3))])
    frame = links_net(x, [], links, np.full(len(links), PITCH))
    frame = replace(frame, spans=replace(frame.spans, thick=np.full(len(links), CORD)))
    settled = cast("Any", SimpleNamespace(frame=frame, x=x))
    held = Held(Box(SIDE, SIDE, SIDE), 10.0)
    outside = np.arange(len(x) - 1)
    return Shape(cast("Any", None), settled, {}, held, len(x) - 1, outside, x)


def test_the_opening_of_a_square_mesh_is_as_wide_as_a_square() -> None:
    """Sampled places miss its middle by half of a step at most, along either side."""
    found = largest_gap(boxed()).across_mm
    step = STEP * SIDE / math.sqrt(2.0)
    assert PITCH - CORD - step < found <= PITCH - CORD + 0.5


def test_an_opening_of_four_squares_is_found_where_it_is() -> None:
    found = largest_gap(boxed((0.0, SIDE / 2)))
    step = 1.2 * STEP * SIDE / math.sqrt(2.0)  # a side is cut into whole steps, one fewer
    assert 2 * PITCH - CORD - step < found.across_mm <= 2 * PITCH - CORD + 0.5
    assert found.up_mm == pytest.approx(SIDE / 2, abs=step)


@pytest.mark.parametrize(("wide", "through"), [(30.0, True), (36.0, False)])
def test_a_box_goes_through_an_opening_as_wide_as_its_smallest_face_s_diagonal(
    wide: float, through: bool
) -> None:
    """3 : 4 : 5, so that the diagonal is known: 50 mm for 30 by 40, through 52 mm."""
    box = BoxBody(wide, 4 * wide / 3, 200.0, 500.0)
    assert slimmest(box) == pytest.approx(5 * wide / 3)
    gap = GapReport(across_mm=52.0, up_mm=10.0, passes_mm=slimmest(box), slips_mm=slimmest(box))
    report = net()[2].model_copy(update={"gap": gap, "holds": "box"})
    sitting = cast("Any", SimpleNamespace(fallen=False, tight=False, still=True))
    kinds = [t.kind for t in _troubles(report, sitting)]
    assert ("gap" in kinds) is through
