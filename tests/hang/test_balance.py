"""Free-body cuts through planters at rest: what is pulled at from above is what hangs below."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING

import numpy as np
import pytest

from cordwright.hang import forces
from cordwright.hang.holding import held_of
from cordwright.hang.settle import BALANCED
from cordwright.hang.sitting import sit
from cordwright.hang.touching import abreast
from cordwright.plan.hung import hung
from cordwright.plan.sizes import resolve_sizes
from tests.examples.conftest import NAMES, piece_of, plan_of

if TYPE_CHECKING:
    from cordwright.hang.frame import Floats
    from cordwright.hang.shape import Shape

PLANTERS = [n for n in NAMES if (h := plan_of(n).hang) is not None and h.holds is not None]


@cache
def at_rest(name: str) -> Shape:
    plan = plan_of(name)
    assert plan.hang is not None
    told = hung(plan.hang, resolve_sizes(plan))
    assert told.holds is not None
    return sit(piece_of(name), held_of(told.holds)).shape


def pulled_up(shape: Shape, pulls: Floats, level: float) -> tuple[float, float, int]:
    """Upward pull, in N, of cord that crosses a level, weight in N below it, and nodes there.

    Knots count as above or below with both of their ends.
    """
    frame, x = shape.frame, shape.x.copy()
    x[frame.bars.bottom] = x[frame.bars.top]
    lower = x[:, 2] < level
    spans = frame.spans
    a, b = spans.a.at(shape.x), spans.b.at(shape.x)
    up = (a - b)[:, 2] / np.maximum(np.linalg.norm(a - b, axis=1), 1e-9)
    over = lower[spans.b.top].astype(float) - lower[spans.a.top]
    pull = float((pulls * up * over).sum())
    return pull + pushed_up(shape, lower), float(frame.weight[lower].sum()), int(lower.sum())


def pushed_up(shape: Shape, lower: np.ndarray) -> float:
    """Upward push, in N, on nodes below from what they lie against above: knots side by side."""
    touching = abreast(shape.frame, shape.start)
    gap = np.einsum("ij,ij->i", touching.normal, touching.between(shape.x))
    push = shape.settled.stiffness * np.maximum(0.0, touching.gap - gap) * touching.normal[:, 2]
    return float((push * (lower[touching.a.top].astype(float) - lower[touching.b.top])).sum())


def above_the_pot(shape: Shape) -> np.ndarray:
    """Levels in mm between the mount and what touches the rim of what is held."""
    assert shape.held is not None
    rim = float(shape.x[shape.vessel_node, 2]) + shape.held.vessel.height
    return np.linspace(rim + 40.0, -5.0, 6)


def pulls_of(shape: Shape) -> Floats:
    return forces.tensions(shape.frame, shape.x, shape.settled.pull)


def test_there_are_planters() -> None:
    assert {"oxbow-planter", "pellow-planter", "lantry-wall-planter"} <= set(PLANTERS)


@pytest.mark.parametrize("name", PLANTERS)
def test_what_is_pulled_up_above_the_pot_is_what_hangs_below(name: str) -> None:
    shape = at_rest(name)
    assert shape.settled.residual < BALANCED
    load = float(shape.frame.weight.sum())
    for level in above_the_pot(shape):
        up, weight, count = pulled_up(shape, pulls_of(shape), float(level))
        # The pot is part of what hangs, and most of it.
        assert shape.held is not None
        assert weight > shape.held.weight
        # At each node no more is out of balance than the residual.
        assert abs(up - weight) <= shape.settled.residual * load * count
        assert up == pytest.approx(weight, rel=1e-3)


@pytest.mark.parametrize("wrong", ["stiffness", "pull", "weight"])
def test_wrong_forces_would_be_noticed(wrong: str) -> None:
    """A negative control: the check above fails for other laws of pull, and for other weights."""
    shape = at_rest("oxbow-planter")
    pulls = pulls_of(shape)
    if wrong == "stiffness":
        half = replace(shape.settled.pull, stiffness=0.5 * shape.settled.pull.stiffness)
        pulls = forces.tensions(shape.frame, shape.x, half)
    if wrong == "pull":
        pulls = pulls**2 / pulls.max()
    if wrong == "weight":
        heavier = replace(shape.frame, own=1.01 * shape.frame.own)
        shape = replace(shape, settled=replace(shape.settled, frame=heavier))
    level = float(above_the_pot(shape)[0])
    up, weight, _ = pulled_up(shape, pulls, level)
    assert up != pytest.approx(weight, rel=1e-3)


def test_the_symmetric_planter_pulls_alike_on_both_sides_with_its_pot() -> None:
    shape = at_rest("oxbow-planter")
    spans, pulls = shape.frame.spans, pulls_of(shape)
    mount = [s.id for s in shape.piece.strands if shape.piece.cords[s.cord].part == "mount"]
    largest = np.array([pulls[spans.strand == s].max() for s in mount])
    assert largest == pytest.approx(largest[::-1], rel=0.02)
    assert np.ptp(largest) > 0.05 * largest.max()  # they are not all alike
