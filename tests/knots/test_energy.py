"""The energy's slopes against differences of its values, and what it must not depend on."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest

from cordwright.knots.contact import near_pairs
from cordwright.knots.drawn.bundles import clasp
from cordwright.knots.drawn.hitches import double_half_hitch
from cordwright.knots.drawn.mounts import larks_head
from cordwright.knots.drawn.sinnets import half_knot
from cordwright.knots.energy import energy, expand
from cordwright.knots.mesh import Mesh, State, image, resampled, turn
from cordwright.knots.tangle import Course, Tangle
from tests.knots import reference

if TYPE_CHECKING:
    from cordwright.knots.contact import Pairs

STIFFNESS = 30.0
NUDGE = 1e-6


def unequal() -> Tangle:
    thin, thick = clasp().courses
    return Tangle((replace(thin, diameter=0.7), replace(thick, diameter=1.4, tension=2.0)))


TANGLES = {
    "free period and twist": half_knot(2),
    "thick fillers": half_knot(3, 1.6),
    "row": double_half_hitch(30.0),
    "unequal cords": unequal(),
    "rigid rod": larks_head("rod", 2.0, "face"),
    "closed": reference.torus(2, 3, 1.2),
}


def meshed(tangle: Tangle) -> tuple[Mesh, State]:
    repeat = tangle.repeat
    period, twist = (repeat.period, repeat.twist) if repeat else (0.0, 0.0)
    curves = [c.points for c in tangle.courses]
    return resampled(tangle, curves, State(curves[0], period, twist), 3)


def crumpled(tangle: Tangle, seed: int) -> tuple[Mesh, State, Pairs]:
    """A random state with overlaps and bends that are too sharp."""
    mesh, state = meshed(tangle)
    rng = np.random.default_rng(seed)
    x = 0.75 * state.x + 0.05 * rng.normal(size=state.x.shape)
    twist = 0.4 if tangle.repeat and tangle.repeat.free_twist else 0.0
    state = State(np.where(mesh.free, x, state.x), 0.75 * state.period, twist)
    return mesh, state, near_pairs(mesh, state, 0.35)


def moved(state: State, way: np.ndarray[tuple[int], np.dtype[np.float64]]) -> State:
    x = state.x + way[:-2].reshape(-1, 3)
    return State(x, state.period + float(way[-2]), state.twist + float(way[-1]))


def ways(mesh: Mesh, seed: int) -> list[np.ndarray[tuple[int], np.dtype[np.float64]]]:
    """Random directions of change, the last two the period's and the twist's alone."""
    rng = np.random.default_rng(seed)
    free = np.append(mesh.free.ravel(), [False, False])
    repeat = mesh.tangle.repeat
    found = [free * rng.normal(size=len(free)) for _ in range(6)]
    for i, may in ((-2, repeat and repeat.free_period), (-1, repeat and repeat.free_twist)):
        if may:
            alone = np.zeros(len(free))
            alone[i] = 1.0
            found.append(alone)
    return found


@pytest.mark.parametrize("seed", [0, 1])
@pytest.mark.parametrize("tangle", TANGLES.values(), ids=TANGLES)
def test_gradient_is_the_slope_of_the_value(tangle: Tangle, seed: int) -> None:
    mesh, state, pairs = crumpled(tangle, seed)
    terms = expand(mesh, state, pairs, STIFFNESS)
    assert terms.value == pytest.approx(energy(mesh, state, pairs, STIFFNESS))
    for way in ways(mesh, seed):
        ahead = energy(mesh, moved(state, NUDGE * way), pairs, STIFFNESS)
        behind = energy(mesh, moved(state, -NUDGE * way), pairs, STIFFNESS)
        slope = (ahead - behind) / (2 * NUDGE)
        assert terms.gradient @ way == pytest.approx(slope, rel=1e-4, abs=1e-4)


@pytest.mark.parametrize("tangle", TANGLES.values(), ids=TANGLES)
def test_every_kind_of_term_is_in_the_random_states(tangle: Tangle) -> None:
    mesh, state, pairs = crumpled(tangle, 0)
    stiff, slack = (energy(mesh, state, pairs, s) for s in (STIFFNESS, 0.0))
    none = replace(pairs, a=pairs.a[:0], b=pairs.b[:0], cell=pairs.cell[:0], apart=pairs.apart[:0])
    bends = energy(mesh, state, none, STIFFNESS)
    assert stiff > bends > slack > 0


@pytest.mark.parametrize("tangle", TANGLES.values(), ids=TANGLES)
def test_what_may_not_move_has_no_slope(tangle: Tangle) -> None:
    mesh, state, pairs = crumpled(tangle, 0)
    gradient = expand(mesh, state, pairs, STIFFNESS).gradient
    assert not gradient[:-2][~mesh.free.ravel()].any()
    if tangle.repeat is None:
        assert not gradient[-2:].any()
    elif not tangle.repeat.free_twist:
        assert gradient[-1] == 0.0


@pytest.mark.parametrize("tangle", TANGLES.values(), ids=TANGLES)
def test_same_wherever_it_stands(tangle: Tangle) -> None:
    mesh, state, pairs = crumpled(tangle, 2)
    value = energy(mesh, state, pairs, STIFFNESS)
    along = np.array(tangle.repeat.direction) if tangle.repeat else np.array([0.3, -0.5, 0.8])
    shifted = replace(state, x=state.x + 2.5 * along)
    assert energy(mesh, shifted, pairs, STIFFNESS) == pytest.approx(value)
    if tangle.repeat is None or tangle.repeat.direction[2] == -1.0:
        turned = replace(state, x=turn(state.x, np.array([0.9])))
        assert energy(mesh, turned, pairs, STIFFNESS) == pytest.approx(value)


def test_same_for_the_next_cell() -> None:
    mesh, state, pairs = crumpled(half_knot(2), 3)
    value = energy(mesh, state, pairs, STIFFNESS)
    following = replace(state, x=image(mesh, state, state.x, np.ones(len(state.x), np.int64)))
    assert energy(mesh, following, pairs, STIFFNESS) == pytest.approx(value)


def test_twice_as_thick_a_cord_costs_twice_as_much() -> None:
    # Penalties are per squared length where they are contacts, so the stiffness halves.
    tangle = reference.torus(2, 3, 1.2)
    thick = Tangle(tuple(replace(c, points=2 * c.points, diameter=2.0) for c in tangle.courses))
    mesh, state, pairs = crumpled(tangle, 4)
    double = replace(mesh, tangle=thick)
    state2 = replace(state, x=2 * state.x)
    pairs2 = near_pairs(double, state2, 0.7)
    for stiffness in (0.0, 30.0):
        bend = energy(mesh, state, replace(pairs, apart=0 * pairs.apart), stiffness)
        bend2 = energy(double, state2, replace(pairs2, apart=0 * pairs2.apart), stiffness)
        assert bend2 == pytest.approx(2 * bend)
    touch = energy(mesh, state, pairs, 30.0) - energy(
        mesh, state, replace(pairs, apart=0 * pairs.apart), 30.0
    )
    touch2 = energy(double, state2, pairs2, 30.0) - energy(
        double, state2, replace(pairs2, apart=0 * pairs2.apart), 30.0
    )
    assert touch > 0
    assert touch2 == pytest.approx(4 * touch)


def test_a_straight_taut_cord_costs_its_length() -> None:
    line = np.stack([np.zeros(5), np.zeros(5), np.linspace(0, 4, 5)], axis=1)
    mesh, state = meshed(Tangle((Course(line, tension=3.0),)))
    pairs = near_pairs(mesh, state, 0.35)
    assert energy(mesh, state, pairs, STIFFNESS) == pytest.approx(12.0)
