import math
from collections.abc import Callable

import pytest

from cordwright.errors import WorkError
from cordwright.knots.spec import Role
from cordwright.piece.lineup import line_up_at
from cordwright.piece.model import Piece

Worked = Callable[..., Piece]

# made-up figures of a double half hitch: 2.5 d high, 10 d for the worker, 2 d / cos(slant) of the
# holding cord; d = 4 mm


def test_a_level_row_carries_the_holding_cord_across(worked: Worked) -> None:
    piece = worked([{"hitch": "right", "on": "1-4"}])
    assert [k.strands for k in piece.knots] == [(0, 1), (0, 2), (0, 3)]
    assert line_up_at(piece, 1e9).strands == (1, 2, 3, 0, 4, 5, 6, 7)
    holding = piece.strands[0]
    assert [s.role for s in holding.course] == [Role.HOLDING] * 3
    assert [piece.mm(s.free) for s in holding.course] == [5.0, 0.0, 0.0]  # down to its axis
    assert [piece.mm(s.take_up) for s in holding.course] == [8.0] * 3
    assert piece.mm(holding.end.depth) == 5.0
    assert [piece.mm(piece.strands[s].end.depth) for s in (1, 2, 3)] == [10.0] * 3


def test_a_row_to_the_left_starts_from_the_right(worked: Worked) -> None:
    piece = worked([{"hitch": "left", "on": "1-4"}])
    assert [k.strands for k in piece.knots] == [(3, 2), (3, 1), (3, 0)]
    assert {k.spec.hand for k in piece.knots} == {"left"}
    assert line_up_at(piece, 1e9).strands == (3, 0, 1, 2, 4, 5, 6, 7)


def test_a_slanted_row_goes_down_by_the_sine_of_its_way(worked: Worked) -> None:
    piece = worked([{"hitch": "right", "on": "1-4", "slant": "diagonal"}])
    way = 4.0 * 2.0 / math.cos(math.pi / 4)
    dip = way * math.sin(math.pi / 4)
    assert [piece.mm(k.top) for k in piece.knots] == pytest.approx([0.0, dip, 2 * dip])
    assert piece.mm(piece.strands[0].end.depth) == pytest.approx(5.0 + 3 * dip)


def test_a_slanted_row_starts_lower_where_a_strand_hangs_deeper(worked: Worked) -> None:
    piece = worked(
        [
            {"free": "3 cm", "on": "3"},
            {"hitch": "right", "on": "1-4", "slant": "diagonal"},
        ]
    )
    dip = 8.0
    assert [piece.mm(k.top) for k in piece.knots] == pytest.approx([30 - dip, 30.0, 30 + dip])
    assert piece.mm(piece.strands[2].course[0].free) == pytest.approx(30.0)


def test_holding_cords_meet_and_cross(worked: Worked) -> None:
    piece = worked(
        [
            {"hitch": "right", "on": "1-4", "slant": "diagonal"},
            {"hitch": "left", "on": "5-8", "slant": "diagonal"},
            {"hitch": "right", "on": "4-5", "slant": "diagonal"},
        ]
    )
    assert piece.knots[-1].strands == (0, 7)
    assert line_up_at(piece, 1e9).strands == (1, 2, 3, 7, 0, 4, 5, 6)


def test_a_band_takes_the_strand_that_leads_then(worked: Worked) -> None:
    piece = worked([{"hitch": "right", "on": "1-4", "rows": 3, "slant": 30}])
    assert [k.strands[0] for k in piece.knots] == [0, 0, 0, 1, 1, 1, 2, 2, 2]
    assert [k.row for k in piece.knots] == [0, 0, 0, 1, 1, 1, 2, 2, 2]
    assert line_up_at(piece, 1e9).strands[:4] == (3, 0, 1, 2)


def test_a_holding_cord_can_be_laid_in(worked: Worked) -> None:
    piece = worked(
        [{"tie": "square-knot", "on": "1-4"}, {"hitch": "left", "cord": "main", "tail": "5 cm"}]
    )
    laid = piece.strands[-1]
    assert piece.cords[laid.cord].part == "holding"
    assert [s.role for s in laid.course] == [Role.HOLDING] * 8
    assert piece.mm(laid.start) == piece.mm(laid.end.length) == 50.0
    assert laid.end.kind == "laid in"
    assert piece.mm(laid.begins) == piece.mm(laid.end.depth) == 16.0 + 5.0
    assert [k.strands[1] for k in piece.knots[1:]] == [7, 6, 5, 4, 3, 2, 1, 0]
    assert line_up_at(piece, 1e9).strands == tuple(range(8))


def test_a_thicker_holding_cord_is_asked_for_as_such(worked: Worked) -> None:
    cords = {n: {"fibre": "cotton", "diameter": d} for n, d in (("main", "4 mm"), ("fat", "6 mm"))}
    piece = worked([{"hitch": "right", "cord": "fat"}], cords=cords)
    assert {k.spec.filler_d for k in piece.knots} == {1.5}
    assert {k.cord for k in piece.knots} == {"main"}


def test_free_cord_above_a_row(worked: Worked) -> None:
    piece = worked([{"hitch": "right", "free": "2 cm"}])
    assert {piece.mm(k.top) for k in piece.knots} == {20.0}


def test_a_row_needs_two_strands(worked: Worked) -> None:
    with pytest.raises(WorkError, match="there is 1 strand"):
        worked([{"hitch": "right", "on": "3"}])
