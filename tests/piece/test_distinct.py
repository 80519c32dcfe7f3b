from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.piece.distinct import few_lengths

LENGTHS = st.lists(st.integers(1, 60).map(lambda n: n * 5.0), min_size=1, max_size=8)


def extra(lengths: list[float], raised: dict[float, float]) -> float:
    return sum(raised[x] - x for x in lengths)


def best_by_trying_all(lengths: list[float], allowance: float) -> tuple[int, float]:
    """Fewest distinct lengths, and the least extra cord with as few: every choice is tried."""
    kinds = sorted(set(lengths))
    for k in range(1, len(kinds) + 1):
        costs = [
            sum(min(level for level in levels if level >= x) - x for x in lengths)
            for levels in combinations(kinds, k)
            if levels[-1] == kinds[-1]
        ]
        if min(costs) <= allowance * sum(lengths):
            return k, min(costs)
    raise AssertionError("all lengths as they are cost nothing")


@given(LENGTHS, st.sampled_from([0.0, 0.01, 0.03, 0.1, 0.5, 10.0]))
def test_it_is_as_good_as_trying_all(lengths: list[float], allowance: float) -> None:
    raised = few_lengths(lengths, allowance)
    assert all(raised[x] >= x for x in lengths)
    assert set(raised.values()) <= set(lengths)
    k, least = best_by_trying_all(lengths, allowance)
    assert len(set(raised.values())) == k
    assert extra(lengths, raised) == pytest.approx(least)


def test_no_cords_need_no_lengths() -> None:
    assert few_lengths([], 0.03) == {}


def test_many_lengths_are_done_in_reasonable_effort() -> None:
    lengths = [1000.0 + 5.0 * i for i in range(3000)]
    raised = few_lengths(lengths, 0.03)
    assert extra(lengths, raised) <= 0.03 * sum(lengths)
    assert len(set(raised.values())) < 60
