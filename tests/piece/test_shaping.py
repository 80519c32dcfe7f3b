from collections.abc import Callable
from typing import Any

import pytest

from cordwright.errors import PlanError, WorkError
from cordwright.piece.lineup import line_up_at
from cordwright.piece.model import Piece

Worked = Callable[..., Piece]


def test_free_cord_adds_up_until_the_next_knot(worked: Worked) -> None:
    piece = worked(
        [{"free": "2 cm"}, {"free": "1 cm", "on": "1-4"}, {"tie": "square-knot", "each": 4}]
    )
    assert [piece.mm(k.top) for k in piece.knots] == [30.0, 20.0]


def test_groups_pass_and_become_neighbours(worked: Worked) -> None:
    piece = worked([{"pass": "1-2", "in_front_of": "3-5"}, {"tie": "square-knot", "on": "4-7"}])
    assert line_up_at(piece, 1e9).strands == (2, 3, 4, 0, 1, 5, 6, 7)
    assert piece.knots[0].strands == (0, 1, 5, 6)
    assert [(p.front, p.behind) for p in piece.passes] == [((0, 1), (2, 3, 4))]


def test_a_group_passes_behind_to_the_left_and_over_the_seam(worked: Worked) -> None:
    piece = worked([{"pass": "3-5", "behind": "1-2"}])
    assert line_up_at(piece, 1e9).strands == (2, 3, 4, 0, 1, 5, 6, 7)
    assert [(p.front, p.behind) for p in piece.passes] == [((0, 1), (2, 3, 4))]
    piece = worked([{"join": "round"}, {"pass": "8 to 1", "behind": "2-3"}])
    assert line_up_at(piece, 1e9).strands == (2, 7, 0, 3, 4, 5, 6, 1)


@pytest.mark.parametrize(
    ("step", "message"),
    [
        ({"pass": "1-2", "behind": "4-5"}, "not neighbours in the line-up: places 1, 2 and 4, 5"),
        ({"pass": "1-3", "behind": "2-5"}, "Strand 2 is in both groups"),
        ({"pass": "1-2", "behind": "7-8"}, "not neighbours"),
        ({"pass": [1, 3], "behind": [2, 4]}, "not neighbours"),
    ],
)
def test_passes_that_cannot_be_are_refused(
    worked: Worked, step: dict[str, Any], message: str
) -> None:
    with pytest.raises(WorkError, match=message):
        worked([step])


def test_strands_change_places(worked: Worked) -> None:
    piece = worked([{"reorder": [2, 1, 4, 3], "each": 4}, {"tie": "square-knot", "on": "1-4"}])
    assert line_up_at(piece, 1e9).strands == (1, 0, 3, 2, 5, 4, 7, 6)
    assert piece.knots[0].strands == (1, 0, 3, 2)


def test_flat_work_closes_opens_and_turns(worked: Worked) -> None:
    piece = worked([{"join": "round"}, {"tie": "square-knot", "on": "7 to 2"}, {"seam": 5}])
    assert piece.knots[0].strands == (6, 7, 0, 1)
    assert line_up_at(piece, 1e9) == ("round", (4, 5, 6, 7, 0, 1, 2, 3))
    assert line_up_at(piece, 0.0) == ("round", tuple(range(8)))
    piece = worked([{"join": "round"}, {"open": "flat", "seam": 3}])
    assert line_up_at(piece, 1e9) == ("flat", (2, 3, 4, 5, 6, 7, 0, 1))


@pytest.mark.parametrize(
    ("work", "message"),
    [
        ([{"join": "round"}, {"join": "round"}], "it is one already"),
        ([{"open": "flat"}], "it is flat already"),
        ([{"seam": 9}], "at strand 9, but there are 8"),
        ([{"reorder": [2, 1], "each": 4}], "names 2 places, and the groups have 4"),
        ([{"motif": "close", "on": "1-4"}], "sees 4 of 8 strands"),
    ],
)
def test_shapes_that_cannot_be_are_refused(
    worked: Worked, work: list[dict[str, Any]], message: str
) -> None:
    with pytest.raises(WorkError, match=message):
        worked(work, motifs={"close": {"work": [{"join": "round"}]}})


@pytest.mark.parametrize("on", ["7 to 2", "7-9", "0", "1, 1"])
def test_places_that_are_not_there_are_refused(worked: Worked, on: str) -> None:
    with pytest.raises(PlanError):
        worked([{"tie": "square-knot", "on": on}])
