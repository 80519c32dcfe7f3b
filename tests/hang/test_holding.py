from __future__ import annotations

import math

import numpy as np
import pytest

from cordwright.hang.holding import (
    foot_across,
    girth,
    held_of,
    level_girth,
    middle_of_mass,
    slimmest,
    vessel_of,
    words,
)
from cordwright.plan.hung import Body, BowlBody, BoxBody, PotBody, SphereBody

POT = PotBody(160.0, 110.0, 140.0, 900.0, None, 0.0, 2000.0, "wet potting mix")
CYLINDER = PotBody(100.0, 100.0, 80.0, 500.0, None, 0.0, 1.0, "water")
BOWL = BowlBody(200.0, 100.0, 600.0, None, None)  # half of a ball of 200 mm
CUP = BowlBody(200.0, 60.0, 600.0, None, None)
BALL = SphereBody(120.0, 400.0)
BOX = BoxBody(200.0, 60.0, 280.0, 1100.0)
BODIES: tuple[Body, ...] = (POT, CYLINDER, BOWL, CUP, BALL, BOX)


@pytest.mark.parametrize("body", BODIES)
def test_the_middle_of_mass_is_that_of_slices(body: Body) -> None:
    vessel = vessel_of(body)
    z = np.linspace(0.0, vessel.height, 20001)
    area = vessel.radius(z) ** 2
    assert middle_of_mass(body) == pytest.approx(float((area * z).sum() / area.sum()), rel=2e-3)


def test_known_middles() -> None:
    assert middle_of_mass(CYLINDER) == pytest.approx(40.0)
    # Half a ball: 3/8 of its radius from its flat side (any handbook of mechanics).
    assert middle_of_mass(BOWL) == pytest.approx(100.0 - 37.5)


def test_weight_is_that_of_what_is_filled() -> None:
    assert held_of(BALL).weight == pytest.approx(0.4 * 9.80665)
    assert held_of(CYLINDER).weight == pytest.approx(0.501 * 9.80665, rel=0.01)
    assert held_of(POT).weight > 2.5 * 9.80665


@pytest.mark.parametrize("body", BODIES)
def test_no_loop_is_shorter_than_the_body_is_round(body: Body) -> None:
    assert 0.0 < girth(body) <= level_girth(body)
    assert foot_across(body) <= slimmest(body)


def test_loops_round_known_bodies() -> None:
    assert level_girth(POT) == pytest.approx(160.0 * math.pi)
    assert girth(BALL) == pytest.approx(120.0 * math.pi)
    assert girth(BOX) == 2 * (200 + 60)
    assert level_girth(BOWL) == pytest.approx(200.0 * math.pi)
    # On its side, half a ball is a straight line and half a circle.
    assert girth(BOWL) == pytest.approx(200.0 + 100.0 * math.pi)
    # A flat disc goes through on its edge.
    assert girth(PotBody(200.0, 200.0, 10.0, 1.0, None, 0.0, 1.0, "water")) == 420.0


def test_openings_that_let_it_through() -> None:
    assert (slimmest(POT), foot_across(POT)) == (160.0, 110.0)
    assert slimmest(BOX) == pytest.approx(math.hypot(60.0, 200.0))
    assert slimmest(BALL) == pytest.approx(120.0)
    assert {words(b) for b in BODIES} == {"pot", "bowl", "ball", "box"}
