from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.piece.lineup import View, in_order, line_up_at
from cordwright.piece.model import Piece

Worked = Callable[..., Piece]


@pytest.mark.parametrize(
    ("held", "of", "order"),
    [
        ([6, 7, 0, 1], 8, [6, 7, 0, 1]),
        ([1, 0, 7, 6], 8, [6, 7, 0, 1]),
        ([2, 3, 4, 5], 8, [2, 3, 4, 5]),
        ([5, 6, 7, 0, 1, 2, 3, 4], 8, [5, 6, 7, 0, 1, 2, 3, 4]),
        ([0, 1, 6, 7], 20, [0, 1, 6, 7]),
    ],
)
def test_slots_in_the_round_begin_behind_the_widest_gap(
    held: list[int], of: int, order: list[int]
) -> None:
    assert in_order(held, of, "round") == order
    assert in_order(held, of, "flat") == sorted(held)


@given(st.permutations(range(9)), st.integers(1, 9), st.sampled_from(["flat", "round"]))
def test_placing_keeps_all_strands_and_their_slots(order: list[int], n: int, shape: str) -> None:
    view = View(range(9))
    group = order[:n]
    slots = {view.slots[s] for s in group}
    view.place(group, shape="flat" if shape == "flat" else "round")
    assert sorted(view.strands) == list(range(9))
    assert {view.slots[s] for s in group} == slots
    assert all(view.strands[view.slots[s]] == s for s in range(9))
    others = [s for s in range(9) if s not in group]
    assert all(view.slots[s] == s for s in others)


def test_the_line_up_changes_with_height(worked: Worked) -> None:
    piece = worked(
        [
            {"tie": "half-knot", "on": "1-4", "times": 5},  # 40 mm
            {"tie": "half-knot", "on": "5-8"},  # 8 mm
            {"pass": "1-4", "behind": "5-8"},
            {"tie": "half-knot", "on": "1-4"},
        ]
    )
    assert line_up_at(piece, 0.0) == ("flat", tuple(range(8)))
    assert line_up_at(piece, 8.0).strands == (3, 1, 2, 0, 7, 5, 6, 4)
    assert line_up_at(piece, 39.0).strands == (0, 1, 2, 3, 7, 5, 6, 4)
    # the pass waits for the lowest of its strands, and so does what is tied on top of it
    assert line_up_at(piece, 40.0).strands == (4, 5, 6, 7, 3, 1, 2, 0)


def test_every_height_shows_strands_that_are_there(worked: Worked) -> None:
    piece = worked(
        [
            {"rows": 4, "tie": "half-knot", "each": 4, "shift": 2},
            {"add": 2, "cord": "main", "after": 4},
            {"leave": "1-2"},
            {"join": "round"},
            {"tie": "half-knot", "each": 4, "skip": 3, "times": 3},
            {"hitch": "right", "on": "3-6", "slant": "steep"},
        ]
    )
    for depth in range(200):
        strands = line_up_at(piece, float(depth)).strands
        assert len(set(strands)) == len(strands)
        assert len(strands) in (6, 8, 10, 12)
    assert len(line_up_at(piece, 1e9).strands) == 10
