from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from cordwright.supply.bounds import by_amount, l1, l2
from cordwright.supply.filling import best_filling
from cordwright.supply.problem import Source, problem

ROOM = 100
pieces = st.lists(st.integers(1, ROOM), min_size=1, max_size=9)


def fewest(lengths: list[int]) -> int:
    """By trying everything: each piece into each opened spool, or into a new one."""

    def further(at: int, rooms: tuple[int, ...], best: int) -> int:
        if len(rooms) >= best:
            return best
        if at == len(lengths):
            return len(rooms)
        for i in range(len(rooms)):
            if rooms[i] >= lengths[at]:
                less = (*rooms[:i], rooms[i] - lengths[at], *rooms[i + 1 :])
                best = further(at + 1, less, best)
        return further(at + 1, (*rooms, ROOM - lengths[at]), best)

    return further(0, (), len(lengths) + 1)


@given(pieces)
def test_no_bound_is_above_the_fewest_spools(lengths: list[int]) -> None:
    assert l1(lengths, ROOM) <= l2(lengths, ROOM) <= fewest(lengths)


def test_l2_by_hand() -> None:
    # With k = 45: 70 and 60 are above 55 and have a spool each; so has 51, which leaves 49; 45 and
    # 45 need 41 more than that, so one spool more.
    sizes = [70, 60, 51, 45, 45]
    assert (l1(sizes, ROOM), l2(sizes, ROOM), fewest(sizes)) == (3, 4, 4)


@given(
    pieces,
    st.lists(st.integers(100, 300), max_size=4),
    st.one_of(st.none(), st.integers(10, 60)),
    st.integers(0, 5),
)
def test_no_filling_costs_less_than_its_amount(
    lengths: list[int], spools: list[int], keep: int | None, setup: int
) -> None:
    needs: dict[float, int] = {}
    for mm in lengths:
        needs[float(mm)] = needs.get(float(mm), 0) + 1
    sources = [Source(20 * mm, 1) for mm in spools] + [Source(2000, None, 2400)]
    task = problem(needs, sources, keep_mm=keep, setup_mm=setup)
    assert by_amount(task) <= task.total(best_filling(task))
