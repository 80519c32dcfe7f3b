from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.supply.filling import (
    best_fit_decreasing,
    chunks_of,
    fillings,
    first_fit_decreasing,
    spool_by_spool,
)
from cordwright.supply.problem import Filled, Problem, Source, problem


def task(needs: dict[float, int], *lengths_mm: float, keep: float | None = None) -> Problem:
    sources = [Source(round(20 * mm), 1) for mm in lengths_mm]
    return problem(needs, sources, keep_mm=keep, setup_mm=0.0)


def test_first_fit_decreasing_by_hand() -> None:
    # 6, 5 | 4: the 4 goes to the first spool, which has just so much room.
    found = first_fit_decreasing(task({6.0: 1, 5.0: 1, 4.0: 1}, 10.0, 9.0), (0, 1))
    assert found == [Filled(0, (1, 0, 1)), Filled(1, (0, 1, 0))]


def test_best_fit_decreasing_takes_the_tightest_spool() -> None:
    found = best_fit_decreasing(task({7.0: 1, 6.0: 1, 3.0: 1}, 11.0, 9.0), (0, 1))
    assert found == [Filled(0, (1, 0, 0)), Filled(1, (0, 1, 1))]


def test_spool_by_spool_finds_what_first_fit_misses() -> None:
    given = task({5.0: 2, 4.0: 1, 3.0: 2, 2.0: 1}, 11.0, 11.0)
    first = first_fit_decreasing(given, (0, 1))
    by_spool = spool_by_spool(given, (0, 1), longest=True, saving=False)
    assert given.total(by_spool) == 0 < given.total(first)


def test_a_rest_worth_keeping_is_rather_left_than_a_short_one() -> None:
    given = task({4.0: 2, 3.0: 1}, 9.0, 20.0, keep=5.0)
    saved = spool_by_spool(given, (0, 1), longest=False, saving=True)
    assert (
        given.total(saved)
        == 0
        < given.total(spool_by_spool(given, (0, 1), longest=False, saving=False))
    )


@given(
    st.dictionaries(st.integers(1, 60).map(float), st.integers(1, 5), min_size=1, max_size=6),
    st.lists(st.integers(5, 90).map(float), min_size=1, max_size=5),
    st.one_of(st.none(), st.floats(1.0, 20.0)),
)
def test_every_filling_keeps_to_the_spools_and_the_pieces(
    needs: dict[float, int], lengths: list[float], keep: float | None
) -> None:
    given = task(needs, *lengths, keep=keep)
    for filled in fillings(given):
        assert min(given.left_out(filled)) >= 0
        for source in range(len(given.sources)):
            used = [f for f in filled if f.source == source]
            assert sum(f.times for f in used) <= given.most(source)
            assert all(given.used(f.counts) <= given.room(source) for f in used)


@pytest.mark.parametrize("n", range(40))
def test_chunks_make_up_every_number(n: int) -> None:
    reached = {0}
    for size in chunks_of(n):
        reached |= {r + size for r in reached}
    assert reached == set(range(n + 1))
