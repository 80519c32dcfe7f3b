"""What is to be checked before going on, against sums made another way."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from cordwright.piece.cutlist import cut_list
from cordwright.teach.repeats import flat
from tests.teach.conftest import NAMES, lesson, worked

if TYPE_CHECKING:
    from cordwright.teach.steps import Check, Step


def found(name: str, kind: str) -> list[tuple[Step, Check]]:
    steps = flat(s for part in lesson(name).sections for s in part.steps)
    return [(s, c) for s in steps for c in s.checks if c.kind == kind]


@pytest.mark.parametrize("name", NAMES)
def test_a_sinnet_measures_its_knots_and_gaps(name: str) -> None:
    made = lesson(name)
    for step, check in found(name, "sinnet"):
        gap = step.gap.mm if step.gap is not None else 0.0
        groups = [g for row in step.rows for g in row.groups]
        each = [
            sum(made.knots[t.knot].height_mm for t in g.ties) + gap * (len(g.ties) - 1)
            for g in groups
        ]
        assert check.low.mm == pytest.approx(min(each), abs=0.01)
        assert check.high.mm == pytest.approx(max(each), abs=0.01)


@pytest.mark.parametrize("name", NAMES)
def test_a_strand_has_left_what_it_still_needs_and_what_it_has_over(name: str) -> None:
    piece = worked(name)
    cuts = cut_list(piece)
    by_name = {piece.name(s.id): s for s in piece.strands}
    tied: dict[str, int] = {}
    steps = list(flat(s for part in lesson(name).sections for s in part.steps))
    seen = 0
    for step in steps:
        for row in step.rows:
            for tie in (t for g in row.groups for t in g.ties):
                for tied_name in (*tie.names, *([tie.over] if tie.over else [])):
                    tied[tied_name] = tied.get(tied_name, 0) + 1
        for check in (c for c in step.checks if c.kind == "left"):
            strand = by_name[check.names[0]]
            rest = strand.course[tied[check.names[0]] :]
            needs = piece.mm(strand.end.length) + sum(
                piece.mm(stop.free) + piece.mm(stop.take_up) for stop in rest
            )
            cord = piece.cords[strand.cord]
            part = cuts.cords[cord.id].parts_mm[cord.strands.index(strand.id)]
            over = part - piece.mm(cuts.lengths.used[strand.id])
            assert check.low.mm == pytest.approx(needs + over, abs=0.01)
            assert check.low.mm > 0.0
            seen += 1
    assert seen or name in ("cobble-belt", "cressing-shade", "millrace-mat", "tally-fob")


@pytest.mark.parametrize("name", NAMES)
def test_the_work_only_grows(name: str) -> None:
    depths = [c.low.mm for _, c in found(name, "depth")]
    assert depths
    assert depths == sorted(depths)
    assert depths[-1] <= lesson(name).finished.mm
