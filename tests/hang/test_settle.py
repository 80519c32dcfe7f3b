from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cordwright.hang import forces, settle
from cordwright.hang.settle import BALANCED, COLD
from cordwright.hang.touching import none
from tests.hang.links import at_rest, bars_of, net

if TYPE_CHECKING:
    from cordwright.hang.frame import Frame


def hanging_net(seed: int) -> tuple[np.ndarray, list[tuple[int, int]]]:
    """Random nodes below two held ones, each tied to two that came before it."""
    rng = np.random.default_rng(seed)
    start = np.concatenate([[[-60.0, 0, 0], [60.0, 0, 0]], rng.normal(0.0, 50.0, (6, 3))])
    start[2:, 2] -= 80.0
    links = [(int(a), n) for n in range(2, 8) for a in rng.choice(n, 2, replace=False)]
    return start, links


def lengths(start: np.ndarray, links: list[tuple[int, int]]) -> np.ndarray:
    return np.array([np.linalg.norm(start[a] - start[b]) for a, b in links])


def loaded_net(seed: int) -> tuple[Frame, list[tuple[int, int]]]:
    start, links = hanging_net(seed)
    own = np.random.default_rng(seed).uniform(0.0, 3.0, 8)
    return net(start, [0, 1], links, 1.1 * lengths(start, links), own), links


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 10_000))
def test_a_net_at_rest_carries_its_weight(seed: int) -> None:
    frame, links = loaded_net(seed)
    settled = at_rest(frame)
    assert settled.balanced
    pull = forces.Pull(settled.rest, settled.stiffness)
    length = lengths(settled.x, links)
    pulls = forces.tensions(frame, settled.x, pull)
    # Slack cord carries nothing; taut cord is as long as it is, and hardly longer.
    assert (pulls[length < settled.rest] == 0.0).all()
    assert (length <= settled.rest + 1.001 * pulls / settled.stiffness + 1e-9).all()
    # What is held pulls up as much as everything weighs.
    unheld = replace(frame, free=np.ones_like(frame.free))
    left = forces.expand(unheld, settled.x, pull, none()).gradient.reshape(-1, 3)
    load = float(frame.weight.sum())
    assert left[:2].sum(axis=0) == pytest.approx([0.0, 0.0, load], abs=10 * BALANCED * load)


@pytest.mark.parametrize("first", range(0, 300, 50))
def test_every_random_net_comes_to_rest(first: int) -> None:
    """Cord that would go slack and taut by turns does not keep a net from its rest."""
    found = [at_rest(loaded_net(seed)[0]) for seed in range(first, first + 50)]
    assert all(s.balanced for s in found)
    assert max(s.steps for s in found) < 60


@settings(max_examples=10, deadline=None)
@given(st.integers(0, 10_000))
def test_one_net_has_one_place_of_rest(seed: int) -> None:
    """Cord that only pulls is convex: the energy is the same from wherever it starts."""
    start, links = hanging_net(seed)
    own = np.full(8, 1.0)
    rest = 1.05 * lengths(start, links)
    frame = net(start, [0, 1], links, rest, own)
    other = replace(frame, start=start + np.random.default_rng(seed + 1).normal(0, 30, start.shape))
    other.start[:2] = start[:2]
    both = [at_rest(f) for f in (frame, other)]
    assert all(s.balanced for s in both)
    heights = [float((s.x[:, 2] * own).sum()) for s in both]
    assert heights[0] == pytest.approx(heights[1], abs=0.5)


def test_the_residual_is_what_is_left_out_of_balance() -> None:
    start, links = hanging_net(5)
    frame = net(start, [0, 1], links, lengths(start, links), np.ones(8))
    settled = at_rest(frame)
    pull = forces.Pull(settled.rest, settled.stiffness)
    left = np.abs(forces.expand(frame, settled.x, pull, none()).gradient).max()
    assert settled.residual == pytest.approx(left / frame.weight.sum(), rel=1e-6)
    assert settled.residual < BALANCED


def test_too_few_steps_are_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(settle, "MOST_STEPS", 1)
    start, links = hanging_net(5)
    start[2:, 2] += 200.0  # far above where it will hang
    frame = net(start, [0, 1], links, 1.2 * lengths(start, links), np.ones(8))
    settled = at_rest(frame)
    assert not settled.balanced
    assert settled.residual > BALANCED
    assert settled.steps <= len(COLD)
    pull = forces.Pull(settled.rest, settled.stiffness)
    left = np.abs(forces.expand(frame, settled.x, pull, none()).gradient).max()
    assert settled.residual == pytest.approx(left / frame.weight.sum(), rel=1e-6)


def test_what_nothing_holds_does_not_settle() -> None:
    """A negative control: a free body falls for ever."""
    start = np.array([[0.0, 0.0, 0.0], [0.0, 0.0, -50.0]])
    frame = net(start, [], [(0, 1)], np.array([50.0]), np.ones(2))
    assert not at_rest(frame).balanced


def test_a_pendulum_of_knots_hangs_straight_down() -> None:
    start = np.array([[0.0, 0, 0], [30.0, 20, 0], [60.0, 0, 0], [70.0, 10, 5]])
    frame = net(start, [0], [(0, 1), (2, 3)], np.array([40.0, 25.0]), np.array([0, 1.0, 1.0, 2.0]))
    frame = replace(frame, bars=bars_of([(1, 2, 33.0)]))
    settled = at_rest(frame)
    assert settled.balanced
    assert settled.x[1:, 2] == pytest.approx([-40.0, -73.0, -98.0], abs=0.1)
    assert settled.x[:, :2] == pytest.approx(0.0, abs=0.5)
