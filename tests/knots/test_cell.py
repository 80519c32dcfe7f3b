from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from cordwright.knots.atlas import Atlas
from cordwright.knots.drawn import draw
from cordwright.knots.spec import KnotName, KnotSpec

ATLAS = Atlas()
SPECS = (
    KnotSpec(KnotName.SQUARE_KNOT, 4),
    KnotSpec(KnotName.HALF_KNOT, 4, hand="right"),
    KnotSpec(KnotName.HALF_HITCH, 3, hand="right"),
    KnotSpec(KnotName.DOUBLE_HALF_HITCH, 2, slant_deg=30.0, hand="right"),
    KnotSpec(KnotName.LARKS_HEAD, 2, over="rod", over_d=2.0),
    KnotSpec(KnotName.BRAID, 3),
)


@pytest.mark.parametrize("spec", SPECS, ids=lambda s: f"{s.name} {s.hand}")
def test_a_cell_says_what_the_drawing_says(spec: KnotSpec) -> None:
    cell, tangle = ATLAS.cell(spec), draw(spec)
    assert len(cell.courses) == len(ATLAS.curves(spec))
    for kept, drawn in zip(cell.courses, tangle.courses, strict=True):
        assert (kept.role, kept.diameter_d) == (drawn.role, drawn.diameter)
        assert (kept.fixed, kept.goes_on_as) == (drawn.fixed, drawn.goes_on_as)
        if spec.name is not KnotName.DOUBLE_HALF_HITCH:
            assert kept.place == drawn.place
    if tangle.repeat is None:
        assert cell.direction is None
    else:
        assert cell.direction == pytest.approx(tangle.repeat.direction)


@pytest.mark.parametrize("spec", [s for s in SPECS if ATLAS.cell(s).direction], ids=str)
def test_curves_go_on_in_the_next_cell(spec: KnotSpec) -> None:
    """The image of where a course goes on lies one edge of the mesh beyond its last point."""
    cell, curves = ATLAS.cell(spec), ATLAS.curves(spec)
    c, s = np.cos(cell.twist), np.sin(cell.twist)
    for course, curve in zip(cell.courses, curves, strict=True):
        if course.goes_on_as is None:
            continue
        x, y, z = curves[course.goes_on_as][0]
        step = cell.period_d * np.array(cell.direction)
        following = np.array([c * x - s * y, s * x + c * y, z]) + step
        edge = np.linalg.norm(np.diff(curve, axis=0), axis=1).max()
        assert np.linalg.norm(following - curve[-1]) < 1.1 * edge


def test_hands_turn_against_each_other() -> None:
    left = KnotSpec(KnotName.HALF_KNOT, 4)
    assert ATLAS.cell(replace(left, hand="right")).twist == -ATLAS.cell(left).twist != 0
