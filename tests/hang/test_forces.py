"""Energy, its gradient and its stiffness, on frames with everything in them."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest

from cordwright.hang import vessel
from cordwright.hang.forces import Pull, energy, expand, tensions
from cordwright.hang.framing import frame_of
from cordwright.hang.touching import abreast, against, joined, none, plain, stacked
from cordwright.hang.worked import worked
from tests.examples.conftest import piece_of
from tests.hang.links import bars_of, net

if TYPE_CHECKING:
    from cordwright.hang.frame import Floats, Frame, Points
    from cordwright.hang.touching import Touching

STIFFNESS = 80.0


def shaken(frame: Frame, seed: int, by: float) -> Points:
    """The piece as worked, every free coordinate moved a little."""
    x = worked(frame)
    moved: Points = x + by * np.random.default_rng(seed).normal(size=x.shape) * frame.free
    return moved


def everything(frame: Frame, x: Points) -> Touching:
    """Knots against each other, and against a ball in the middle of them."""
    points = plain(np.concatenate([frame.bars.top, frame.bars.bottom]))
    ball = vessel.sphere(200.0)
    clear = np.full(len(points), 8.0)
    return joined(
        [abreast(frame, x), stacked(frame, x), against(ball, len(x) - 1, points, clear, x)]
    )


def case(name: str, seed: int) -> tuple[Frame, Points, Pull, Touching]:
    piece = piece_of("oxbow-planter" if name == "planter" else name)
    frame = frame_of(piece)
    x = shaken(frame, seed, 0.8)
    rest = frame.spans.rest + np.random.default_rng(seed).uniform(0.0, 3.0, len(frame.spans))
    middle = x.mean(axis=0)
    # A ball's base is one more node.
    frame = replace(
        frame,
        start=np.concatenate([frame.start, middle[None]]),
        free=np.concatenate([frame.free, [[True] * 3]]),
        own=np.concatenate([frame.own, [5.0]]),
    )
    x = np.concatenate([x, middle[None] - [0.0, 0.0, 100.0]])
    return frame, x, Pull(rest, STIFFNESS), everything(frame, x)


def by_differences(
    frame: Frame, x: Points, pull: Pull, touching: Touching, way: Points, h: float
) -> float:
    ahead, behind = (energy(frame, x + s * h * way, pull, touching) for s in (1, -1))
    return (ahead - behind) / (2 * h)


@pytest.mark.parametrize("name", ["planter", "tally-fob", "ledger-bookmark", "oxbow-planter"])
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_the_gradient_is_that_of_the_energy(name: str, seed: int) -> None:
    frame, x, pull, touching = case(name, seed)
    terms = expand(frame, x, pull, touching)
    assert terms.value == pytest.approx(energy(frame, x, pull, touching), rel=1e-12)
    rng = np.random.default_rng(seed)
    for _ in range(6):
        way = rng.normal(size=x.shape) * frame.free
        slope = float(terms.gradient @ way.ravel())
        size = float(np.abs(terms.gradient).sum())
        assert by_differences(frame, x, pull, touching, way, 1e-5) == pytest.approx(
            slope, rel=1e-4, abs=1e-6 * size
        )


def test_the_cases_press_pull_and_bend() -> None:
    """The test above would show nothing where nothing touches, bends or pulls."""
    frame, x, pull, touching = case("planter", 1)
    assert len(frame.stiff) > 0
    gap = np.einsum("ij,ij->i", touching.normal, touching.between(x))
    assert (touching.gap > gap).sum() > 3
    assert (touching.gap < gap).sum() > 3
    pulls = tensions(frame, x, pull)
    assert (pulls > 0).sum() > 3
    assert (pulls == 0).sum() > 3


def test_a_wrong_gradient_would_be_noticed() -> None:
    frame, x, pull, touching = case("planter", 2)
    terms = expand(frame, x, pull, none())
    way = np.random.default_rng(0).normal(size=x.shape) * frame.free
    slope = float(terms.gradient @ way.ravel())
    assert by_differences(frame, x, pull, touching, way, 1e-5) != pytest.approx(slope, rel=1e-3)


@pytest.mark.parametrize("seed", range(4))
def test_stiffness_of_taut_links_is_the_gradient_s_slope(seed: int) -> None:
    """For taut links Newton's matrix is exact: k u u' along, pull over length across."""
    rng = np.random.default_rng(seed)
    x = rng.normal(0.0, 50.0, (5, 3))
    links = [(0, 1), (1, 2), (2, 3), (3, 4), (0, 3), (1, 4)]
    length = np.array([np.linalg.norm(x[i] - x[j]) for i, j in links])
    frame = net(x, [0], links, 0.9 * length)
    pull = Pull(frame.spans.rest, STIFFNESS)
    matrix = expand(frame, x, pull, none()).stiffness.toarray()
    h = 1e-4
    for column in range(3, 15):
        step = np.zeros(15)
        step[column] = h
        ahead, behind = (
            expand(frame, x + s * step.reshape(-1, 3), pull, none()).gradient for s in (1, -1)
        )
        found: Floats = (ahead - behind) / (2 * h)
        assert matrix[:, column - 3] == pytest.approx(found[3:], abs=1e-4 * STIFFNESS)


def test_cord_pulls_and_never_pushes() -> None:
    x = np.array([[0.0, 0.0, 0.0], [0.0, 0.0, -90.0], [0.0, 0.0, -200.0]])
    frame = net(x, [0], [(0, 1), (1, 2)], np.array([100.0, 100.0]))
    pulls = tensions(frame, x, Pull(frame.spans.rest, 2.0))
    assert pulls == pytest.approx([0.0, 20.0])
    gradient = expand(frame, x, Pull(frame.spans.rest, 2.0), none()).gradient.reshape(-1, 3)
    assert gradient[1] == pytest.approx([0.0, 0.0, 20.0 * -1.0 * -1.0])
    assert gradient[2] == pytest.approx([0.0, 0.0, -20.0])


def test_a_knot_is_stiff_both_ways() -> None:
    x = np.array([[0.0, 0.0, 0.0], [0.0, 0.0, -9.0]])
    frame = replace(net(x, [0], [], np.empty(0)), bars=bars_of([(0, 1, 10.0)]))
    pull = Pull(np.empty(0), 2.0)
    short = expand(frame, x, pull, none()).gradient[5]
    long = expand(frame, x - [[0.0, 0.0, 0.0], [0.0, 0.0, 2.0]], pull, none()).gradient[5]
    assert (short, long) == pytest.approx((2.0, -2.0))


def test_weight_is_the_gradient_of_what_touches_nothing() -> None:
    frame = net(np.zeros((2, 3)), [0], [], np.empty(0), np.array([3.0, 4.0]))
    terms = expand(frame, np.ones((2, 3)), Pull(np.empty(0), 1.0), none())
    assert terms.value == pytest.approx(7.0)
    assert terms.gradient == pytest.approx([0, 0, 0, 0, 0, 4.0])
