from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from cordwright.cords import swatch_length
from cordwright.cords.swatch import FREE_SD
from cordwright.cords.swatch_length import Doubts, chance, length_for
from cordwright.errors import CordwrightError


def doubts(
    sure: float, free: float, knotted: float, scale: float = 0.1, dof: float = 9.0
) -> Doubts:
    return Doubts(*(np.array([v]) for v in (sure, free, knotted, 0.02, scale, dof)))


@given(
    st.floats(0.0, 500.0),
    st.sampled_from([0.0, 10.0, 900.0]),
    st.sampled_from([0.0, 40.0, 3000.0]),
    st.floats(0.02, 0.3),
    st.floats(0.001, 0.4),
)
def test_the_length_has_the_chance_that_was_asked(
    sure: float, free: float, knotted: float, scale: float, risk: float
) -> None:
    of = doubts(sure, free, knotted, scale)
    length = length_for(of, risk)
    assert length[0] >= sure
    if free + knotted:
        assert chance(of, length)[0] == pytest.approx(1.0 - risk, abs=1e-6)


def test_knots_alone_follow_student_and_free_cord_alone_the_normal() -> None:
    knots = length_for(doubts(100.0, 0.0, 1000.0), 0.05)[0]
    assert knots == pytest.approx(100.0 + 1000.0 * np.exp(stats.t(9.0, 0.02, 0.1).ppf(0.95)))
    free = length_for(doubts(100.0, 1000.0, 0.0), 0.05)[0]
    assert free == pytest.approx(100.0 + 1000.0 * (1 + FREE_SD * stats.norm.ppf(0.95)))
    assert free == pytest.approx(1120.0, abs=0.1)  # the 2 % of common practice


def test_both_together_by_trying() -> None:
    rng = np.random.default_rng(3)
    n = 400_000
    y = 0.02 + 0.1 * rng.standard_t(9.0, n)
    used = 50.0 + 800.0 * (1.0 + FREE_SD * rng.standard_normal(n)) + 900.0 * np.exp(y)
    of = doubts(50.0, 800.0, 900.0)
    for length in (1700.0, 1850.0, 2000.0, 2300.0):
        found = float(np.mean(used <= length))
        assert chance(of, np.array([length]))[0] == pytest.approx(found, abs=0.003)


def test_more_nodes_give_the_same_chance(monkeypatch: pytest.MonkeyPatch) -> None:
    of = doubts(0.0, 3000.0, 300.0)
    lengths = np.array([3250.0])
    found = chance(of, lengths)
    monkeypatch.setattr(swatch_length, "NODES", 80)
    assert found == pytest.approx(chance(of, lengths), abs=1e-4)


def test_many_strands_at_once_are_each_their_own() -> None:
    one = [length_for(doubts(10.0, 20.0 * i, 300.0), 0.05)[0] for i in range(4)]
    n = np.ones(4)
    all_at_once = length_for(
        Doubts(10 * n, 20.0 * np.arange(4.0), 300 * n, 0.02 * n, 0.1 * n, 9 * n), 0.05
    )
    assert list(all_at_once) == pytest.approx(one)


@pytest.mark.parametrize("risk", [0.0, -0.1, 0.5, 1.0, float("nan")])
def test_risks_that_are_none_are_refused(risk: float) -> None:
    with pytest.raises(CordwrightError, match="cannot be planned for"):
        length_for(doubts(1.0, 1.0, 1.0), risk)
