"""Force and slack of cords and contacts, against answers known in closed form."""

from __future__ import annotations

import numpy as np
import pytest

from cordwright.hang import slack


def test_where_it_opens_force_times_slack_is_mu_and_they_balance() -> None:
    over, mu = np.array([-3.0, 0.0, 0.02]), 1e-3
    at = slack.opened(np.full(3, 50.0), over, mu, 1e-9)
    assert at.force * at.slack == pytest.approx(mu)
    assert 50.0 * (over + at.slack) == pytest.approx(at.force, rel=1e-6)
    # Slack cord hardly pulls, and taut cord pulls as much as it is too long.
    assert at.force[0] == pytest.approx(mu / 3.0, rel=1e-4)
    assert at.force[2] == pytest.approx(50.0 * 0.02, rel=0.1)


def test_steps_alone_find_the_balance() -> None:
    """With nothing moving, repeated steps of one cord end where it opens."""
    stiff, over, mu = np.array([50.0]), np.array([0.3]), 1e-3
    at = slack.Slack(stiff, np.array([2.0]), np.array([0.5]))
    for _ in range(60):
        way = at.step(over, np.zeros(1), mu)
        share = slack.farthest(at.slack, way[0]), slack.farthest(at.force, way[1])
        at = slack.moved(at, way, share)
    exact = slack.opened(stiff, over, mu, 0.0)
    assert at.slack == pytest.approx(exact.slack, rel=1e-6)
    assert at.force == pytest.approx(exact.force, rel=1e-6)


def test_a_step_stops_short_of_nothing() -> None:
    value = np.array([1.0, 2.0])
    assert slack.farthest(value, np.array([0.5, -4.0])) == pytest.approx(0.5 * slack.TO_WALL)
    assert slack.farthest(value, np.array([0.5, 4.0])) == 1.0


def test_equal_names_are_told_apart_by_their_order() -> None:
    before, now = np.array([7, 3, 7]), np.array([3, 7, 7, 7, 5])
    assert slack.same(before, now).tolist() == [1, 0, 2, -1, -1]
    assert slack.same(np.empty(0, np.int64), now).tolist() == [-1] * 5
