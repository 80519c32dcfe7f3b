"""What is written down of the steps: all of the piece, once, in order, with line-ups that join."""

from __future__ import annotations

from itertools import pairwise

import pytest

from cordwright.piece.work import work
from tests.examples.conftest import ATLAS, NAMES, piece_of, plan_of


def test_nothing_is_written_down_unless_it_is_asked_for() -> None:
    assert piece_of("tally-fob").done == ()


@pytest.mark.parametrize("name", NAMES)
def test_the_record_has_every_knot_cord_pass_and_end_once(name: str) -> None:
    piece = work(plan_of(name), ATLAS, record=True)
    assert piece == piece_of(name)
    for field, things in (("knots", piece.knots), ("cords", piece.cords), ("passes", piece.passes)):
        assert [i for d in piece.done for i in getattr(d, field)] == list(range(len(things)))
    laid = [s.id for s in piece.strands if s.end.kind == "laid in"]
    assert sorted([*laid, *(s for d in piece.done for s in d.ended)]) == [
        s.id for s in piece.strands
    ]


@pytest.mark.parametrize("name", NAMES)
def test_every_line_up_is_the_one_that_the_step_before_left(name: str) -> None:
    done = work(plan_of(name), ATLAS, record=True).done
    assert done[0].before == done[-1].after == ()
    assert all(one.after == other.before for one, other in pairwise(done))
    assert all(len(d.depths) == len(d.after) for d in done)
