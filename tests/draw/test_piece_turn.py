from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest

from cordwright.draw.piece_sheet import piece_sheet
from cordwright.draw.piece_turn import showing_most, turned
from cordwright.draw.piece_view import STEP
from cordwright.hang.shape import Held
from cordwright.hang.vessel import Box
from tests.draw.pieces import flat, looks, planter

if TYPE_CHECKING:
    from cordwright.draw.placed import Placed


def arms(what: Placed) -> list[float]:
    """Where across the page the middles of the planter's arms are, mm."""
    found: dict[frozenset[int], list[float]] = {}
    for k in what.knots:
        if what.piece.knots[k.knot].section[-1:] == ("Arms",):
            found.setdefault(frozenset(k.strands), []).append(float(k.origin[0]))
    return sorted(float(np.mean(x)) for x in found.values())


def test_arms_do_not_hide_each_other() -> None:
    as_hung, seen = arms(planter()), arms(showing_most(planter()))
    assert len(seen) == 4
    thick = planter().knots[0].d
    assert min(np.diff(as_hung)) < thick
    assert min(np.diff(seen)) > 2.5 * thick


def test_the_turn_is_a_whole_number_of_steps_and_small() -> None:
    turn = showing_most(planter()).turn
    assert turn / STEP == pytest.approx(round(turn / STEP))
    assert abs(turn) < np.radians(40.0)


def test_turning_changes_no_height_and_no_length() -> None:
    what = planter()
    seen = turned(what, 0.7)
    for a, b in zip(what.knots, seen.knots, strict=True):
        assert a.origin[2] == b.origin[2]
        assert np.hypot(*a.origin[:2]) == pytest.approx(np.hypot(*b.origin[:2]))
        assert b.axes.T @ b.axes == pytest.approx(np.eye(3))
    for c, d in zip(what.cords, seen.cords, strict=True):
        steps = np.diff(c.curves, axis=1), np.diff(d.curves, axis=1)
        assert np.linalg.norm(steps[0], axis=2) == pytest.approx(np.linalg.norm(steps[1], axis=2))


@pytest.mark.parametrize("name", ["cobble-belt", "millrace-mat", "weir-meadow-hanging"])
def test_flat_work_keeps_its_front(name: str) -> None:
    assert showing_most(flat(name)) is flat(name)


def test_who_holds_a_box_keeps_its_front() -> None:
    boxed = replace(planter(), held=Held(Box(100.0, 100.0, 80.0), 10.0))
    assert showing_most(boxed) is boxed


def test_an_upright_ring_that_is_turned_looks_narrower() -> None:
    svg = piece_sheet(planter()).svg
    ring = svg[svg.index('<ellipse class="mount"') :]
    across, high = (float(ring.split(f'{key}="')[1].split('"')[0]) for key in ("rx", "ry"))
    turn = showing_most(planter()).turn
    assert across / high == pytest.approx(np.cos(turn), abs=0.01)


def test_a_level_ring_looks_alike_from_every_side() -> None:
    assert '<rect class="mount"' in piece_sheet(looks("cressing-shade")).svg
