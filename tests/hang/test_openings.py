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
from cordwright.hang.gaps import FINE, largest_gap
from cordwright.hang.holding import held_of, slimmest
from cordwright.hang.mouth import Ways, ways_in
from cordwright.hang.shape import Held, Shape, hang
from cordwright.hang.vessel import Box, sphere
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


SIDE, PITCH, CORD, BALL = 240.0, 40.0, 4.0, 160.0


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
    return around(x, links, PITCH, Held(Box(SIDE, SIDE, SIDE), 10.0))


def around(x: Points, links: list[tuple[int, int]], part: float, held: Held) -> Shape:
    """Links of so many mm round a held thing, at whose base the last node is."""
    frame = links_net(x, [], links, np.full(len(links), part))
    frame = replace(frame, spans=replace(frame.spans, thick=np.full(len(links), CORD)))
    settled = cast("Any", SimpleNamespace(frame=frame, x=x))
    return Shape(cast("Any", None), settled, {}, held, len(x) - 1, np.arange(len(x) - 1), x)


def opening(reach: float) -> float:
    """Across, mm, where the cords' middles pass half a cord off the face, so far to the side."""
    return 2 * math.hypot(reach, CORD / 2) - CORD


def test_the_opening_of_a_square_mesh_is_as_wide_as_a_square() -> None:
    assert largest_gap(boxed()).across_mm == pytest.approx(opening(PITCH / 2), abs=2 * FINE)


def test_an_opening_of_four_squares_is_found_where_it_is() -> None:
    found = largest_gap(boxed((0.0, SIDE / 2)))
    assert found.across_mm == pytest.approx(opening(PITCH), abs=2 * FINE)
    assert found.up_mm == pytest.approx(SIDE / 2, abs=1.0)


@pytest.mark.parametrize("meridians", [5, 6, 9])
def test_the_opening_between_meridians_of_a_ball_is_known_in_closed_form(meridians: int) -> None:
    """Widest at the equator, midway between two of them; one of five pairs stands wider apart."""
    reach, links = BALL / 2 + CORD / 2, 120
    turns = 2 * math.pi * np.arange(meridians) / (meridians + 0.5)
    widest = 2 * math.pi - turns[-1]
    down = np.linspace(0.0, math.pi, links + 1)
    arcs = [
        np.stack([np.sin(down) * np.sin(t), np.sin(down) * np.cos(t), np.cos(down)], axis=1)
        for t in turns
    ]
    x = np.concatenate([*(reach * a + [0.0, 0.0, BALL / 2] for a in arcs), np.zeros((1, 3))])
    pairs = [(i, i + 1) for i in range(len(x) - 2) if (i + 1) % (links + 1)]
    part = math.pi * reach / links
    found = largest_gap(around(x, pairs, part, Held(sphere(BALL), 10.0)))
    # From a place on the ball to the nearest of a circle as far round as the cord's middle is.
    far = math.sqrt((BALL / 2) ** 2 + reach**2 - BALL * reach * math.cos(widest / 2))
    assert found.across_mm == pytest.approx(2 * far - CORD, abs=2 * FINE)
    assert found.up_mm == pytest.approx(BALL / 2, abs=2.0)


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
