from collections.abc import Callable

import pytest

from cordwright.errors import WorkError
from cordwright.knots.spec import KnotName, Role
from cordwright.piece.lineup import line_up_at
from cordwright.piece.model import Piece

Worked = Callable[..., Piece]


def test_a_sinnet_adds_its_knots_up_by_hand(worked: Worked) -> None:
    piece = worked([{"tie": "square-knot", "on": "1-4", "times": 3, "gap": "1 cm"}])
    assert [k.top.at(piece.values) for k in piece.knots] == [0.0, 26.0, 52.0]
    worker, filler = piece.strands[0], piece.strands[1]
    # made-up figures: worker 15 + 2 * 0.5 = 16 d, filler and height 4 d, d = 4 mm
    assert [s.take_up.at(piece.values) for s in worker.course] == [64.0, 64.0, 64.0]
    assert [s.free.at(piece.values) for s in filler.course] == [0.0, 10.0, 10.0]
    assert [s.role for s in filler.course] == [Role.FILLER] * 3
    assert worker.course[0].take_up.terms == {"d:main": 16.0}


def test_a_knot_starts_at_its_deepest_strand(worked: Worked) -> None:
    piece = worked(
        [
            {"tie": "square-knot", "on": "1-4"},
            {"free": "5 cm", "on": "5"},
            {"tie": "square-knot", "on": "3-6", "free": "1 cm"},
        ]
    )
    last = piece.knots[-1]
    assert last.top.at(piece.values) == 60.0  # strand 5 owes 5 cm and 1 cm; 3 and 4 are at 16 mm
    free = {s: piece.strands[s].course[-1].free.at(piece.values) for s in last.strands}
    assert free == {2: 44.0, 3: 44.0, 4: 60.0, 5: 60.0}


def test_half_knots_swap_their_working_cords(worked: Worked) -> None:
    piece = worked([{"tie": "half-knot", "on": "1-4", "times": 3}])
    assert [k.strands for k in piece.knots] == [(0, 1, 2, 3), (3, 1, 2, 0), (0, 1, 2, 3)]
    assert line_up_at(piece, 1e9).strands[:4] == (3, 1, 2, 0)
    assert line_up_at(piece, 16.0).strands[:4] == (0, 1, 2, 3)
    assert line_up_at(piece, 8.0).strands[:4] == (3, 1, 2, 0)


def test_groups_in_the_round_run_over_the_seam(worked: Worked) -> None:
    piece = worked([{"join": "round"}, {"tie": "square-knot", "each": 4, "skip": 2}])
    assert [k.strands for k in piece.knots] == [(2, 3, 4, 5), (6, 7, 0, 1)]
    assert line_up_at(piece, 1e9).strands == tuple(range(8))


def test_flat_groups_leave_what_is_over_alone_and_say_so(worked: Worked) -> None:
    piece = worked([{"tie": "square-knot", "each": 3}])
    assert [k.strands for k in piece.knots] == [(0, 1, 2), (3, 4, 5)]
    assert "2 strands are left over" in piece.warnings[0].what


def test_alternating_rows_shift_every_second_row(worked: Worked) -> None:
    piece = worked([{"rows": 3, "tie": "square-knot", "each": 4, "shift": 2, "gap": "5 mm"}])
    assert [(k.row, k.column, k.strands[0]) for k in piece.knots] == [
        (0, 0, 0),
        (0, 1, 4),
        (1, 0, 2),
        (2, 0, 0),
        (2, 1, 4),
    ]
    assert [k.top.at(piece.values) for k in piece.knots] == [0.0, 0.0, 21.0, 42.0, 42.0]
    assert not any("left over" in w.what for w in piece.warnings)


@pytest.mark.parametrize(("key", "first"), [("shrink", [(0, 4), (2,)]), ("grow", [(2,), (0, 4)])])
def test_rows_shrink_and_grow(worked: Worked, key: str, first: list[tuple[int, ...]]) -> None:
    piece = worked([{"rows": 2, "tie": "square-knot", "each": 4, key: 2}])
    rows = [tuple(k.strands[0] for k in piece.knots if k.row == r) for r in (0, 1)]
    assert rows == first


def test_rows_that_shrink_away_are_refused(worked: Worked) -> None:
    with pytest.raises(WorkError, match="In row 3 of 3, 4 strands are left out at each side"):
        worked([{"rows": 3, "tie": "square-knot", "each": 4, "shrink": 2}])


def test_alternate_hands_alternate_down_the_column(worked: Worked) -> None:
    piece = worked(
        [
            {"tie": "square-knot", "on": "1-4", "times": 3, "hand": "alternate"},
            {"rows": 2, "on": "5-8", "tie": "half-knot", "each": 4, "hand": "alternate"},
        ]
    )
    assert [k.spec.hand for k in piece.knots] == ["left", "right", "left", "left", "right"]


@pytest.mark.parametrize(
    ("workers", "order"),
    [("outer", (0, 1, 2, 3)), ("inner", (1, 0, 3, 2)), ([1, 3], (0, 1, 3, 2))],
)
def test_working_strands_go_outside(
    worked: Worked, workers: object, order: tuple[int, ...]
) -> None:
    piece = worked([{"tie": "square-knot", "on": "1-4", "times": 2, "workers": workers}])
    assert [k.strands for k in piece.knots] == [order, order]
    assert line_up_at(piece, 1e9).strands[:4] == order


@pytest.mark.parametrize(("workers", "worker"), [("first", 0), ("last", 2), ([2], 1)])
def test_one_strand_works_in_a_half_hitch(worked: Worked, workers: object, worker: int) -> None:
    piece = worked([{"tie": "half-hitch", "on": "1-3", "workers": workers}])
    assert piece.strands[worker].course[0].role is Role.WORKING
    others = [s for s in range(3) if s != worker]
    assert all(piece.strands[s].course[0].role is Role.FILLER for s in others)


def test_alternating_half_hitches_work_from_both_sides(worked: Worked) -> None:
    piece = worked([{"tie": "half-hitch", "on": "1-2", "times": 4, "hand": "alternate"}])
    roles = [stop.role for stop in piece.strands[0].course]
    assert roles == [Role.WORKING, Role.FILLER, Role.WORKING, Role.FILLER]
    assert line_up_at(piece, 1e9).strands == tuple(range(8))


def test_all_strands_work_in_an_overhand(worked: Worked) -> None:
    piece = worked([{"tie": "overhand"}])
    assert piece.knots[0].spec.strands == 8
    assert {s.course[0].role for s in piece.strands} == {Role.WORKING}


def test_strands_enter_in_the_order_given_and_take_their_slots(worked: Worked) -> None:
    piece = worked([{"tie": "square-knot", "on": [8, 7, 2, 1]}])
    assert piece.knots[0].strands == (7, 6, 1, 0)
    assert line_up_at(piece, 1e9).strands == (7, 6, 2, 3, 4, 5, 1, 0)


def test_mixed_diameters_give_ratio_mean_and_warning(worked: Worked) -> None:
    piece = worked(
        [{"tie": "square-knot", "on": "1-4"}, {"tie": "square-knot", "on": "2-5"}],
        cords={
            "main": {"fibre": "cotton", "diameter": "4 mm"},
            "fine": {"fibre": "cotton", "diameter": "2 mm"},
        },
        mount={
            "nothing": {},
            "cords": [
                {"cord": "main", "fold": "none"},
                {"cord": "fine"},
                {"cord": "main", "count": 2, "fold": "none"},
            ],
        },
    )
    even, odd = piece.knots
    assert even.spec.filler_d == 0.5
    assert odd.spec.filler_d == 1.0  # fillers 2 and 4 mm, workers 2 and 4 mm
    assert odd.height.terms == {"d:fine": 2.0, "d:main": 2.0}
    assert [w.what for w in piece.warnings if "different diameters" in w.what] == [
        "Working cords of different diameters (fine 2 mm, main 4 mm) share a knot: it is computed "
        "with their mean, 3 mm."
    ]


@pytest.mark.parametrize(
    ("step", "message"),
    [
        ({"tie": "square-knot", "on": "6-8", "each": 4}, "wants 4 strands and there are 3 left"),
        ({"tie": "square-knot", "skip": 6, "each": 4}, "there are 2 left after skipping 6"),
        ({"tie": "square-knot", "on": "1-2"}, "at least 3 strands and this group has 2"),
        ({"tie": "half-hitch", "on": "1"}, "at least 2 strands and this group has 1"),
        ({"tie": "square-knot", "on": "1-5", "workers": "inner"}, "no two inner strands"),
        ({"tie": "square-knot", "on": "1-4", "workers": [1]}, "two working strands"),
        ({"tie": "square-knot", "on": "1-4", "workers": "first"}, "two working strands"),
        ({"tie": "half-hitch", "on": "1-4", "workers": [1, 2]}, "one working strand"),
        ({"tie": "overhand", "workers": "inner"}, "all strands work together"),
    ],
)
def test_groups_that_do_not_suit_the_knot_are_refused(
    worked: Worked, step: dict[str, object], message: str
) -> None:
    with pytest.raises(WorkError, match=message):
        worked([step])


def test_knots_have_their_names(worked: Worked) -> None:
    piece = worked([{"tie": "half-knot", "each": 4}])
    assert {k.spec.name for k in piece.knots} == {KnotName.HALF_KNOT}
    assert {k.cord for k in piece.knots} == {"main"}
