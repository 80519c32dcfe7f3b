from collections.abc import Callable
from typing import Any

import pytest

from cordwright.errors import PlanError, WorkError
from cordwright.knots.spec import Role
from cordwright.piece.lineup import line_up_at
from cordwright.piece.model import Piece

Worked = Callable[..., Piece]
Mount = Callable[..., dict[str, Any]]


@pytest.mark.parametrize(
    ("holder", "over", "over_d"),
    [
        ({"ring": {"inside": "50 mm", "wire": "6 mm"}}, "ring", 1.5),
        ({"rod": {"length": "40 cm", "thick": "12 mm"}}, "rod", 3.0),
        ({"cord": {"cord": "main", "tail": "5 cm"}}, "rod", 1.0),
    ],
)
def test_folded_cords_hang_by_larks_heads(
    worked: Worked, mount_of: Mount, holder: dict[str, Any], over: str, over_d: float
) -> None:
    piece = worked([], mount=mount_of(3, holder, face="reverse"))
    assert {(k.spec.over, k.spec.over_d, k.spec.face) for k in piece.knots} == {
        (over, over_d, "reverse")
    }
    cord = piece.cords[-1]
    left, right = (piece.strands[s] for s in cord.strands)
    assert (left.half, right.half) == ("left", "right")
    assert left.course[0].take_up.terms == {"d:main": 4.0 + 1.5 * over_d}
    assert cord.mount.terms == {"d:main": 8.25 + 3.0 * over_d}
    assert piece.mm(left.end.depth) == 4.0 * (2.0 + over_d)


def test_a_holding_cord_runs_through_its_larks_heads(worked: Worked, mount_of: Mount) -> None:
    piece = worked([], mount=mount_of(3, {"cord": {"cord": "main", "tail": "5 cm"}}))
    holder = piece.strands[0]
    assert piece.cords[0].part == "holding"
    assert [(s.knot, s.place, s.role) for s in holder.course] == [
        (i, 2, Role.HOLDING) for i in range(3)
    ]
    assert sum(piece.mm(s.take_up) for s in holder.course) == 3 * 3.0 * 4.0
    assert {k.over for k in piece.knots} == {0}
    assert line_up_at(piece, 0.0).strands == (1, 2, 3, 4, 5, 6)


def test_a_run_of_cords_is_mounted_over_and_over(worked: Worked) -> None:
    run = [{"cord": "main", "count": 2}, {"cord": "fine"}]
    piece = worked(
        [],
        cords={
            "main": {"fibre": "cotton", "diameter": "4 mm"},
            "fine": {"fibre": "cotton", "diameter": "2 mm"},
        },
        mount={"nothing": {}, "cords": [{"repeat": 2, "cords": run}, {"cord": "fine"}]},
    )
    order = [piece.cords[piece.strands[s].cord].cord for s in line_up_at(piece, 0.0).strands]
    assert order[::2] == ["main", "main", "fine", "main", "main", "fine", "fine"]
    assert order[::2] == order[1::2]


def test_a_run_repeated_without_end_is_refused(worked: Worked) -> None:
    endless = {"repeat": 200_000, "cords": [{"cord": "main", "count": 0}] * 100}
    with pytest.raises(WorkError, match="steps"):
        worked([], mount={"nothing": {}, "cords": [endless]})


def test_unfolded_cords_keep_a_tail_above(worked: Worked, mount_of: Mount) -> None:
    piece = worked([], mount=mount_of(2, {"nothing": {"tail": "8 cm"}}, fold="none"))
    assert [piece.mm(s.start) for s in piece.strands] == [80.0, 80.0]
    piece = worked([], mount=mount_of(2, {"nothing": {"tail": "8 cm"}}, fold="none", tail="3 cm"))
    assert [piece.mm(s.start) for s in piece.strands] == [30.0, 30.0]
    piece = worked([], mount=mount_of(1, {"ring": {"inside": "5 cm", "wire": "6 mm"}}, fold="none"))
    assert [piece.mm(s.start) for s in piece.strands] == [100.0]
    assert not piece.knots


@pytest.mark.parametrize(
    ("after", "line"),
    [(0, (8, 9, 0, 1)), (1, (0, 8, 9, 1)), ("end", (6, 7, 8, 9))],
)
def test_cords_are_added_in_their_place(
    worked: Worked, after: object, line: tuple[int, ...]
) -> None:
    piece = worked([{"add": 1, "cord": "main", "after": after}])
    strands = line_up_at(piece, 1e9).strands
    assert (strands[:4] if after != "end" else strands[-4:]) == line


def test_added_cords_hang_where_their_neighbour_is(worked: Worked) -> None:
    piece = worked(
        [
            {"tie": "square-knot", "on": "1-4"},
            {"add": 2, "cord": "main", "after": 4, "fold": "none", "tail": "3 cm"},
            {"tie": "square-knot", "on": "3-6"},
        ]
    )
    assert [piece.mm(s.begins) for s in piece.strands[8:]] == [16.0, 16.0]
    assert [piece.mm(s.start) for s in piece.strands[8:]] == [30.0, 30.0]
    assert piece.knots[-1].strands == (2, 3, 8, 9)
    assert [piece.mm(s.course[0].free) for s in piece.strands[8:]] == [0.0, 0.0]
    assert line_up_at(piece, 10.0).strands == tuple(range(8))
    assert len(line_up_at(piece, 16.0).strands) == 10


def test_cords_added_in_a_motif_come_in_beside_its_strands(worked: Worked) -> None:
    piece = worked(
        [{"motif": "more", "on": "3-6"}],
        motifs={
            "more": {
                "work": [
                    {"add": 1, "cord": "main", "after": 0, "fold": "none"},
                    {"add": 1, "cord": "main", "after": "end", "fold": "none"},
                    {"tie": "square-knot"},
                ]
            }
        },
    )
    assert line_up_at(piece, 1e9).strands == (0, 1, 8, 2, 3, 4, 5, 9, 6, 7)
    assert piece.knots[0].strands == (8, 2, 3, 4, 5, 9)


def test_crowded_mounts_are_told(worked: Worked, mount_of: Mount) -> None:
    rod = {"rod": {"length": "10 cm", "thick": "12 mm"}}
    assert not worked([{"tie": "overhand"}], mount=mount_of(8, rod)).warnings
    crowded = worked([{"tie": "overhand"}], mount=mount_of(9, rod)).warnings
    assert [w.what for w in crowded] == [
        "The mounting knots are 108 mm wide side by side, and the rod offers 100 mm."
    ]


@pytest.mark.parametrize(
    ("mount", "message"),
    [
        ({"nothing": {}, "cords": [{"cord": "nope"}]}, "no cord called 'nope'"),
        ({"nothing": {}, "cords": [{"cord": "main", "count": 0}]}, "No cord is mounted"),
        ({"nothing": {}, "cords": [{"cord": "main", "count": 501}]}, "1000 is the most"),
        ({"nothing": {}, "cords": [{"cord": "main", "knot": "larks-head"}]}, "hangs on nothing"),
        ({"cord": {"cord": "nope"}, "cords": [{"cord": "main"}]}, "no cord called 'nope'"),
        ({"rod": {"length": "1 m", "thick": 0}, "cords": [{"cord": "main"}]}, "no thickness"),
    ],
)
def test_mounts_that_do_not_fit_are_refused(
    worked: Worked, mount: dict[str, Any], message: str
) -> None:
    with pytest.raises((WorkError, PlanError), match=message):
        worked([], mount=mount)


@pytest.mark.parametrize(
    ("step", "message"),
    [
        ({"add": 1, "cord": "main", "after": 9}, "after strand 9, but there are 8"),
        ({"add": 1, "cord": "nope", "after": 1}, "no cord called 'nope'"),
        ({"add": 600, "cord": "main", "after": 1}, "1208 strands would hang at once"),
    ],
)
def test_cords_that_cannot_be_added_are_refused(
    worked: Worked, step: dict[str, Any], message: str
) -> None:
    with pytest.raises(WorkError, match=message):
        worked([step])
