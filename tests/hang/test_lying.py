"""Cord and knots against what is held: edges do not part cord, and it pulls alike on both sides."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.hang import forces, vessel
from cordwright.hang.lying import lying
from cordwright.hang.settle import Settled, settle
from tests.hang.links import net

if TYPE_CHECKING:
    from cordwright.hang.frame import Frame

THICK = 6.0
POT = vessel.pot(160.0, 110.0, 140.0)


def of_strands(frame: Frame) -> Frame:
    """The same, its links parts of a piece's strands."""
    spans = frame.spans
    strands = replace(spans, strand=np.zeros_like(spans.strand), thick=np.full(len(spans), THICK))
    return replace(frame, spans=strands)


@given(st.integers(0, 2**32 - 1))
def test_cord_touches_where_it_comes_nearest(seed: int) -> None:
    """Against a dense sampling of the same straight parts."""
    rng = np.random.default_rng(seed)
    start = rng.normal(0.0, 60.0, (24, 3)) + np.array([0.0, 0.0, 40.0])
    end = start + rng.normal(0.0, 10.0, (24, 3))
    x = np.concatenate([start, end, np.zeros((1, 3))])
    frame = of_strands(net(x, [], [(i, 24 + i) for i in range(24)], np.full(24, 10.0), np.ones(49)))
    touching = lying(frame, POT, 48)(x)
    inner = touching.a.top != touching.a.bottom
    along = np.linspace(0.0, 1.0, 401)
    for row in np.flatnonzero(inner):
        i = int(touching.a.top[row])
        places = start[i] + along[:, None] * (end - start)[i]
        far = POT.distance(places)[0]
        if far.min() < 0.0:
            continue  # inside there may be two ways out
        size = np.linalg.norm(touching.normal[row])
        if size > 1e-9:
            unit = touching.normal[row] / size
            over = touching.gap[row] / size - unit @ touching.between(x)[row]
            # Half of the cord's thickness, less how far off it is.
            assert over == pytest.approx(0.5 * THICK - far.min(), abs=0.05)


def over_a_ball(parts: int, *, pull: float = 20.0, across: float = 200.0) -> Settled:
    """A cord over a ball that is held, one end held and a weight at the other."""
    reach = 0.5 * (across + THICK)
    angle = np.linspace(-0.5 * np.pi, 0.5 * np.pi, 61)
    arc = np.stack([reach * np.sin(angle), 0 * angle, 0.5 * across + reach * np.cos(angle)], axis=1)
    way = np.concatenate([[[-reach, 0.0, -120.0]], arc, [[reach, 0.0, -120.0]]])
    along = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(way, axis=0), axis=1))])
    at = np.linspace(0.0, along[-1], parts + 1)
    x = np.stack([np.interp(at, along, way[:, k]) for k in range(3)], axis=1)
    x = np.concatenate([x, [[0.0, 0.0, 0.0]]])
    own = np.zeros(parts + 2)
    own[parts] = pull
    links = [(i, i + 1) for i in range(parts)]
    frame = of_strands(net(x, [0, parts + 1], links, np.full(parts, along[-1] / parts), own))
    frame = replace(frame, free=frame.free & [True, False, True])
    contacts = lying(frame, vessel.sphere(across), parts + 1)
    return settle(frame, frame.spans.rest, lambda _frame, where: contacts(where), x)


@pytest.mark.parametrize("parts", [20, 33, 60])
def test_cord_over_something_round_pulls_alike_on_both_sides(parts: int) -> None:
    """The capstan without friction: exp(0 pi) = 1."""
    settled = over_a_ball(parts)
    assert settled.residual < 1e-3
    pulls = forces.tensions(settled.frame, settled.x, settled.pull)
    # A chain's links are straight: what they differ by falls with the square of their length.
    part = settled.rest[0] / (100.0 + 0.5 * THICK)
    assert pulls == pytest.approx(20.0, rel=part**2 / 3)
    middle = settled.x[:-1] - [0.0, 0.0, 100.0]
    # It is pressed flat a little, and lies on the ball.
    assert np.linalg.norm(middle, axis=1).min() > 100.0


def test_a_knot_s_flat_end_comes_right_up_to_what_lies_across_it() -> None:
    from cordwright.hang.framing import frame_of
    from tests.hang.conftest import planter

    frame = frame_of(planter()[0])
    x = np.concatenate([frame.start, [[0.0, 0.0, 0.0]]])
    knot = len(frame.bars) - 1
    node = len(x) - 1
    top, bottom = int(frame.bars.top[knot]), int(frame.bars.bottom[knot])
    assert frame.bars.depth[knot] > 8.0
    for place, wanted in (((0.0, 0.0, -4.0), -4.0), ((90.0, 0.0, 60.0), None)):
        x[top] = place
        x[bottom] = np.array(place) - [0.0, 0.0, frame.bars.height[knot]]
        touching = lying(frame, POT, node)(x)
        row = int(np.flatnonzero((touching.a.top == top) & (touching.a.bottom == top))[0])
        size = float(np.linalg.norm(touching.normal[row]))
        unit = touching.normal[row] / size
        over = touching.gap[row] / size - float(unit @ touching.between(x)[row])
        if wanted is not None:
            assert over == pytest.approx(wanted, abs=1e-6)  # free by all of the 4 mm
        else:
            far = float(POT.distance(x[[top]])[0][0])
            lean = 0.5 * frame.bars.depth[knot] * np.sqrt(1.0 - unit[2] ** 2)
            assert over == pytest.approx(lean - far)
