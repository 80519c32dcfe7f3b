"""Where sections are, down to the ends that hang from them."""

from __future__ import annotations

from functools import cache

import pytest

from cordwright.bench.changes import FromMount
from cordwright.bench.reach import Reach, reaches
from cordwright.bench.shaping import Shapes, posed
from cordwright.bench.starting import blank, example_text
from cordwright.bench.study import Worked, study
from cordwright.knots.atlas import Atlas


@cache
def atlas() -> Atlas:
    return Atlas()


def worked(text: str) -> Worked:
    found = study(text, atlas()).worked
    assert found is not None
    return found


def section(made: Worked, at: int) -> Reach:
    return reaches(made.plan, made.piece)["work", at]


def test_a_section_reaches_down_to_the_ends_of_its_fringe() -> None:
    text = example_text("oxbow-planter")
    made = worked(text)
    foot, above = section(made, 3), section(made, 2)
    knots = [made.piece.knots[i] for i in foot.ids]
    lowest = max(made.piece.mm(k.top) + made.piece.mm(k.height) for k in knots)
    assert foot.bottom_mm is not None
    assert foot.bottom_mm > lowest + 50.0
    assert foot.ends
    assert not above.ends
    shown = posed(Shapes().of("oxbow", text, made, atlas()))
    fringe = shown.parts["work.3"]
    assert 1000.0 * (fringe.top - fringe.bottom) == pytest.approx(
        foot.bottom_mm - (foot.top_mm or 0.0), rel=0.25
    )


def test_a_beginning_without_knots_is_where_its_cords_hang() -> None:
    text = blank("bare", FromMount(kind="blank", mount="rod", cords=4))
    made = worked(text)
    beginning = section(made, 0)
    assert beginning.top_mm is not None
    assert beginning.bottom_mm == pytest.approx(beginning.top_mm + 120.0)  # 2 cm free, 10 cm tail
    stretch = posed(Shapes().of("bare", text, made, atlas())).parts["work.0"]
    assert stretch.top - stretch.bottom == pytest.approx(0.12, abs=0.002)
