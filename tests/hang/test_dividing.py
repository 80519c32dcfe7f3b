from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.hang.dividing import divided
from cordwright.hang.framing import frame_of
from cordwright.hang.worked import worked
from tests.hang.conftest import planter
from tests.hang.links import net

PIECE = planter()[0]
FRAME = frame_of(PIECE)
X = worked(FRAME)


@given(st.integers(0, 2**32 - 1))
def test_cutting_spans_keeps_length_weight_and_place(seed: int) -> None:
    rng = np.random.default_rng(seed)
    count = len(FRAME.spans)
    parts = rng.integers(1, 6, count)
    rest = rng.uniform(0.0, 90.0, count)
    frame, x, after, new = divided(FRAME, X, rest, parts)
    spans = frame.spans
    assert len(spans) == parts.sum()
    assert len(new) == (parts - 1).sum()
    assert after.sum() == pytest.approx(rest.sum())
    assert frame.weight.sum() == pytest.approx(FRAME.weight.sum())
    assert np.array_equal(x[: len(X)], X)
    a, b = spans.a.at(x), spans.b.at(x)
    whole = np.repeat(np.arange(count), parts)
    first = np.concatenate([[0], np.cumsum(parts)[:-1]])
    last = np.cumsum(parts) - 1
    # Ends stay where they were, parts follow each other in a straight line and are equal.
    assert a[first] == pytest.approx(FRAME.spans.a.at(X))
    assert b[last] == pytest.approx(FRAME.spans.b.at(X))
    inner = whole[1:] == whole[:-1]
    assert b[:-1][inner] == pytest.approx(a[1:][inner])
    length = np.linalg.norm(a - b, axis=1)
    ways = np.linalg.norm(FRAME.spans.a.at(X) - FRAME.spans.b.at(X), axis=1)
    assert length == pytest.approx(ways[whole] / parts[whole], abs=1e-9)
    assert np.bincount(whole, after) == pytest.approx(rest)
    for name in ("given", "strand", "stop", "row", "thick"):
        assert np.array_equal(getattr(spans, name), getattr(FRAME.spans, name)[whole])
    assert frame.free[new].all()


def test_spans_in_one_part_stay_what_they_are() -> None:
    frame, x, rest, new = divided(FRAME, X, FRAME.spans.rest, np.ones(len(FRAME.spans), int))
    assert frame is FRAME
    assert x is X
    assert rest is FRAME.spans.rest
    assert len(new) == 0


def test_a_link_s_new_nodes_lie_between_its_ends() -> None:
    start = np.array([[0.0, 0.0, 0.0], [90.0, 0.0, -30.0]])
    frame = net(start, [0], [(0, 1)], np.array([120.0]), weight=np.array([3.0]))
    after, x, rest, new = divided(frame, start, frame.spans.rest, np.array([3]))
    assert x[new] == pytest.approx(np.array([[30.0, 0.0, -10.0], [60.0, 0.0, -20.0]]))
    assert rest == pytest.approx([40.0, 40.0, 40.0])
    assert after.weight == pytest.approx([0.5, 0.5, 1.0, 1.0])
