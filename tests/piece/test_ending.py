from collections.abc import Callable
from typing import Any

import pytest

from cordwright.errors import WorkError
from cordwright.piece.lengths import finished_length
from cordwright.piece.lineup import line_up_at
from cordwright.piece.model import Piece

Worked = Callable[..., Piece]


def ends(piece: Piece) -> list[float]:
    return [piece.mm(s.end.length) for s in piece.strands]


@pytest.mark.parametrize(
    ("step", "lengths"),
    [
        ({"fringe": "10 cm"}, [100.0] * 4 + [116.0] * 4),
        ({"fringe": "10 cm", "trim": "as it falls"}, [100.0] * 8),
        (
            {"fringe": "10 cm", "trim": "point", "rise": "6 cm"},
            [100.0, 120.0, 140.0, 160.0, 176.0, 156.0, 136.0, 116.0],
        ),
        (
            {"fringe": "10 cm", "trim": "slant", "rise": "7 cm", "to": "left"},
            [170.0, 160.0, 150.0, 140.0, 146.0, 136.0, 126.0, 116.0],
        ),
    ],
)
def test_fringes(worked: Worked, step: dict[str, Any], lengths: list[float]) -> None:
    piece = worked([{"tie": "square-knot", "on": "1-4"}, step])
    assert ends(piece) == pytest.approx(lengths)
    assert {s.end.kind for s in piece.strands} == {"fringe"}
    assert line_up_at(piece, 1e9).strands == ()


def test_a_level_fringe_makes_all_ends_level(worked: Worked) -> None:
    piece = worked([{"tie": "square-knot", "on": "1-4"}, {"fringe": "10 cm"}])
    assert {piece.mm(s.end.depth + s.end.length) for s in piece.strands} == {116.0}
    assert piece.mm(finished_length(piece)) == 116.0


def test_the_point_of_a_single_strand_and_of_two(worked: Worked) -> None:
    step = {"fringe": "10 cm", "trim": "point", "rise": "6 cm"}
    assert ends(worked([{**step, "on": "1"}]))[0] == 160.0
    assert ends(worked([{**step, "on": "1-2"}]))[:2] == [160.0, 160.0]
    assert ends(worked([{**step, "on": "1-3"}]))[:3] == [100.0, 160.0, 100.0]


def test_strands_leave_with_their_tail(worked: Worked) -> None:
    piece = worked(
        [{"leave": "3-4", "tail": "4 cm"}, {"tie": "square-knot", "on": "1-4"}, {"leave": "1"}]
    )
    assert piece.knots[0].strands == (0, 1, 4, 5)
    assert ends(piece)[:4] == [100.0, 100.0, 40.0, 40.0]
    assert line_up_at(piece, 1e9).strands == (1, 4, 5, 6, 7)


def test_owed_free_cord_is_not_lost_at_the_end(worked: Worked) -> None:
    assert ends(worked([{"free": "3 cm"}]))[0] == 130.0
    assert ends(worked([{"free": "3 cm"}, {"leave": "1", "tail": "1 cm"}]))[0] == 40.0
    assert ends(worked([{"free": "3 cm", "on": "1"}, {"fringe": "1 cm"}])) == [40.0] * 8


def test_what_is_forgotten_is_told(worked: Worked) -> None:
    piece = worked([{"tie": "square-knot", "each": 3}, {"fringe": "10 cm", "on": "1-6"}])
    told = [w.what for w in piece.warnings]
    assert any(w.endswith("end with the plan's tail: 4L, 4R.") for w in told)
    assert any(w.endswith("below the mount: 4L, 4R.") for w in told)


def test_nothing_can_be_worked_after_the_last_end(worked: Worked) -> None:
    with pytest.raises(WorkError, match="No strands are left"):
        worked([{"fringe": "10 cm"}, {"tie": "overhand"}])
