"""Large flat panels, whose every cord is as long as its way as worked: all taut, or nearly."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest

from cordwright.hang import forces
from cordwright.hang.settle import BALANCED
from cordwright.hang.shape import hang
from cordwright.hang.touching import abreast
from cordwright.knots.atlas import Atlas
from cordwright.piece.work import work
from cordwright.plan.model import Plan

if TYPE_CHECKING:
    from cordwright.piece.model import Piece


def panel(cords: int, rows: int) -> Piece:
    plan = Plan.model_validate(
        {
            "cordwright": 1,
            "title": "Trial panel",
            "cords": {"main": {"fibre": "cotton", "diameter": "3 mm"}},
            "mount": {
                "rod": {"length": f"{13 * cords} mm", "thick": "15 mm"},
                "cords": [{"cord": "main", "count": cords}],
            },
            "work": [{"rows": rows, "tie": "square-knot", "each": 4, "shift": 2}],
        }
    )
    return work(plan, Atlas())


def test_thousands_of_knots_come_to_rest() -> None:
    piece = panel(100, 50)
    assert len(piece.knots) > 2_500
    shape = hang(piece)
    settled = shape.settled
    assert settled.residual < BALANCED
    # As its forces say when they are taken anew, not only as the solver says.
    touching = abreast(settled.frame, shape.start)
    slope = forces.expand(settled.frame, settled.x, settled.pull, touching).gradient
    left = float(np.abs(slope).max()) / float(settled.frame.weight.sum())
    assert left == pytest.approx(settled.residual, rel=1e-3, abs=1e-9)


def test_steps_hardly_grow_with_the_panel() -> None:
    few, many = (hang(panel(cords, cords // 2)).settled for cords in (10, 40))
    assert few.balanced
    assert many.balanced
    assert len(many.frame.bars) > 10 * len(few.frame.bars)
    assert many.steps < 2 * few.steps
