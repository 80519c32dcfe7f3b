from collections.abc import Callable

import pytest

from cordwright.errors import KnotError, WorkError
from cordwright.knots.spec import Role
from cordwright.piece.lineup import line_up_at
from cordwright.piece.model import Piece

Worked = Callable[..., Piece]


def test_a_new_cord_wraps_with_a_tail_at_both_ends(worked: Worked) -> None:
    piece = worked([{"tie": "square-knot", "on": "1-4"}, {"gather": "all", "turns": 5}])
    wrap = piece.strands[-1]
    knot = piece.knots[-1]
    assert piece.cords[wrap.cord].part == "wrap"
    assert knot.strands == (wrap.id, *range(8))
    assert (knot.spec.strands, knot.spec.turns) == (9, 5)
    assert piece.mm(knot.top) == piece.mm(wrap.begins) == 16.0
    assert [s.role for s in wrap.course] == [Role.WORKING]
    assert piece.mm(wrap.start) == piece.mm(wrap.end.length) == 100.0
    assert piece.mm(piece.strands[7].course[-1].free) == 16.0
    assert piece.mm(wrap.course[0].free) == 0.0


def test_a_strand_of_the_line_up_can_wrap(worked: Worked) -> None:
    piece = worked([{"gather": "1-4", "turns": 3, "with": 2}])
    assert piece.knots[0].strands == (1, 0, 2, 3)
    assert len(piece.cords) == 4
    assert line_up_at(piece, 1e9).strands == tuple(range(8))


def test_a_height_gives_the_turns_that_come_nearest(worked: Worked) -> None:
    piece = worked([{"gather": "all", "height": "3 cm"}])
    # made-up: (turns + 1) d, so 6 turns are 28 mm and 7 are 32
    assert piece.knots[0].spec.turns in (6, 7)
    assert abs(piece.mm(piece.knots[0].height) - 30.0) <= 2.0


def test_a_wrap_of_another_diameter(worked: Worked) -> None:
    cords = {n: {"fibre": "cotton", "diameter": d} for n, d in (("main", "4 mm"), ("fine", "2 mm"))}
    piece = worked([{"gather": "all", "turns": 4, "with": {"cord": "fine"}}], cords=cords)
    assert piece.knots[0].spec.filler_d == 2.0
    assert piece.knots[0].height.terms == {"d:fine": 5.0}


@pytest.mark.parametrize(
    ("step", "message"),
    [
        ({"gather": "1", "turns": 3, "with": 1}, "no strand but its own wrap"),
        ({"gather": "1-4", "turns": 3, "with": 9}, "to be strand 9, but there are 8"),
        ({"gather": "1-4", "turns": 2000}, "2000 turns is too long"),
        ({"gather": "1-4", "height": "900 m"}, "is too long"),
        ({"gather": "1-4", "turns": 3, "with": {"cord": "nope"}}, "no cord called 'nope'"),
        ({"braid": 3, "each": 4, "times": 2}, "not on groups of 4"),
        ({"braid": 3, "on": "1-2", "times": 2}, "wants 3 strands and there are 2"),
    ],
)
def test_what_cannot_be_bound_is_refused(
    worked: Worked, step: dict[str, object], message: str
) -> None:
    with pytest.raises(WorkError, match=message):
        worked([step])


def test_trouble_with_a_knot_keeps_its_kind(
    worked: Worked, mount_of: Callable[..., object]
) -> None:
    with pytest.raises(KnotError, match="of 61 strands"):
        worked([{"gather": "all", "turns": 2}], mount=mount_of(30))


def test_braids_on_each_group(worked: Worked) -> None:
    piece = worked([{"braid": 4, "times": 3}])
    assert [(k.column, k.number) for k in piece.knots] == [(c, n) for c in (0, 1) for n in range(3)]
    assert piece.mm(piece.strands[0].end.depth) == 3 * 24.0


@pytest.mark.parametrize(("length", "rounds"), [("72 mm", 3), ("73 mm", 4), ("1 mm", 1), (0, 0)])
def test_a_length_gives_the_whole_rounds_that_reach_it(
    worked: Worked, length: object, rounds: int
) -> None:
    piece = worked([{"braid": 3, "on": "1-3", "length": length}])
    assert len(piece.knots) == rounds


def test_strands_left_over_from_braids_are_told(worked: Worked) -> None:
    piece = worked([{"braid": 3, "times": 1}])
    assert any("2 strands are left over" in w.what for w in piece.warnings)
