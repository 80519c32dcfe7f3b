from __future__ import annotations

import numpy as np
import pytest

from cordwright.draw.chart_gaps import CLEAR, EDGE, SIDE, Lying, left_of, parted, whole
from cordwright.draw.chart_lines import Track, passed_over
from cordwright.draw.chart_sheet import chart_sheet
from cordwright.draw.chart_signs import sign
from cordwright.draw.ink import PAPER
from cordwright.draw.placed_cell import cell
from tests.draw.knotpictures import SPECS
from tests.examples.conftest import ATLAS, piece_of

ACROSS = Lying(np.array([[-2.0, 0.0], [2.0, 0.0]]), 0)


def turned(degrees: float) -> Lying:
    a = np.radians(degrees)
    way = np.array([np.cos(a), np.sin(a)])
    return Lying(np.array([-3.0 * way, 3.0 * way]), 1)


@pytest.mark.parametrize("degrees", [90.0, 60.0, 35.0, -50.0])
def test_a_line_behind_another_ends_as_far_from_it_on_either_side(degrees: float) -> None:
    front = turned(degrees)
    parts = left_of(ACROSS, [front])
    assert len(parts) == 2
    a = np.radians(degrees)
    normal = np.array([-np.sin(a), np.cos(a)])
    for part in parts:
        for outline in (part.left, part.right):
            nearest = float(np.abs(outline @ normal).min())
            assert CLEAR - 0.01 <= nearest < CLEAR + 0.05


def test_the_line_in_front_is_whole() -> None:
    behind, front = parted([ACROSS, turned(90.0)])
    assert len(behind) == 2
    (only,) = front
    assert np.ptp(only.points[:, 1]) == pytest.approx(6.0, abs=1e-6)


def test_lines_side_by_side_leave_each_other_alone() -> None:
    beside = Lying(ACROSS.points + np.array([0.0, EDGE + CLEAR]), 1)
    (part,) = left_of(ACROSS, [beside])
    assert np.ptp(part.points[:, 0]) == pytest.approx(4.0, abs=1e-6)


def test_a_strand_is_not_parted_from_what_it_goes_on_as() -> None:
    on = Lying(np.array([[2.0, 0.0], [2.0, 2.0]]), 0, start=4.0)
    (part,) = left_of(ACROSS, [on])
    assert part.points[:, 0].max() == pytest.approx(2.0, abs=1e-6)


def test_outlines_lie_to_either_side() -> None:
    part = whole(ACROSS.points)
    assert sorted({round(float(y), 6) for y in part.points[:, 1]}) == [-SIDE, SIDE]


def test_strands_behind_others_have_gaps_and_no_other_strands_do() -> None:
    down = ((0.0, 0.0), (0.0, 4.0))
    slanting = ((-2.0, 0.0), (2.0, 4.0))
    behind, level, front = Track(0, down, -1), Track(1, down), Track(2, slanting, 1)
    found = passed_over([behind, front])
    assert {i: len(parts) for i, parts in found.items()} == {0: 2}
    # Where nothing says which is in front, it is the one that goes to the right.
    found = passed_over([level, Track(3, slanting), Track(4, ((2.0, 0.2), (-2.0, 4.2)))])
    assert {i: len(parts) for i, parts in found.items()} == {0: 2, 2: 2}
    assert passed_over([level, Track(3, ((1.0, 0.0), (1.0, 4.0)))]) == {}


@pytest.mark.parametrize("spec", SPECS, ids=str)
def test_no_line_of_a_sign_is_painted_over_another(spec: object) -> None:
    """Bar where a strand goes on, or turns back on itself, later lines lie beside earlier ones."""
    lines = sign(cell(ATLAS.figures(spec), ATLAS)).lines  # type: ignore[arg-type]
    if str(getattr(spec, "name", "")) == "overhand":
        return
    for i, one in enumerate(lines):
        for other in lines[i + 1 :]:
            if one.place == other.place:
                continue
            gap = one.part.points[:, None] - other.part.middle[None]
            inner = gap[:, 1:-1]
            if inner.size:
                assert np.hypot(inner[..., 0], inner[..., 1]).min() > 0.5 * EDGE


def test_a_chart_has_no_strokes_in_the_colour_of_paper() -> None:
    svg = chart_sheet(piece_of("millrace-mat"), ATLAS).svg
    rules = svg[svg.index("<style>") : svg.index("</style>")].split("}")
    assert [r for r in rules if f"stroke:{PAPER}" in r and not r.startswith("text")] == []
