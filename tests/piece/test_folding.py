import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.piece.folding import Halves, fold_points, measured
from cordwright.units.length import System, round_up

PART = st.floats(1.0, 6000.0)
SYSTEM: st.SearchStrategy[System] = st.sampled_from(["metric", "inch"])


@pytest.mark.parametrize(
    ("halves", "length"),
    [
        (Halves("none", 1001.0, 0.0), 1010.0),
        (Halves("middle", 400.0, 603.0), 1210.0),
        (Halves("needed", 601.0, 602.0), 1210.0),
        (Halves("needed", 501.0, 803.0), 1310.0),
    ],
)
def test_lengths_by_hand(halves: Halves, length: float) -> None:
    assert measured(halves, "metric") == length


@given(st.lists(st.tuples(PART, PART), min_size=1, max_size=12), SYSTEM, st.floats(0, 500))
def test_both_halves_reach_and_parts_sum_to_the_length(
    parts: list[tuple[float, float]], system: System, more: float
) -> None:
    cords = {i: Halves("needed", *p) for i, p in enumerate(parts)}
    length = round_up(max(measured(h, system) for h in cords.values()) + more, system)
    for cord, fold in fold_points(cords, length, system).items():
        left, right = fold if fold is not None else (length / 2, length / 2)
        assert left + right == pytest.approx(length)
        assert left >= cords[cord].left - 1e-5
        assert right >= cords[cord].right - 1e-5
        if fold is not None:  # the shorter part is measured off
            assert round_up(min(fold), system) == pytest.approx(min(fold), abs=1e-5)


@given(PART, PART, SYSTEM)
def test_left_and_right_are_treated_alike(a: float, b: float, system: System) -> None:
    one, other = Halves("needed", a, b), Halves("needed", b, a)
    length = measured(one, system)
    assert measured(other, system) == length
    fold = fold_points({0: one}, length, system)[0]
    mirrored = fold_points({0: other}, length, system)[0]
    assert mirrored == (None if fold is None else fold[::-1])


def test_cords_of_one_length_share_a_fold_point() -> None:
    cords = {0: Halves("needed", 301.0, 690.0), 1: Halves("needed", 312.0, 600.0)}
    assert fold_points(cords, 1010.0, "metric") == {0: (315.0, 695.0), 1: (315.0, 695.0)}
    cords[2] = Halves("needed", 690.0, 301.0)
    assert fold_points(cords, 1010.0, "metric")[2] in ((705.0, 305.0), (695.0, 315.0))


def test_a_cord_already_cut_too_short_for_a_measured_part_is_folded_where_it_must() -> None:
    left, right = fold_points({0: Halves("needed", 301.0, 690.0)}, 992.0, "metric")[0] or (0, 0)
    assert (left, right) == pytest.approx((301.5, 690.5))
