"""Knots that turn in a step."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from cordwright.hang.swinging import swung
from tests.hang.links import bars_of, net


def test_a_knot_that_turns_keeps_its_height() -> None:
    start = np.array([[0.0, 0.0, 0.0], [0.0, 0.0, 10.0]])
    frame = replace(net(start, [], [], np.empty(0), np.ones(2)), bars=bars_of([(1, 0, 10.0)]))
    # Straight, it would come out root 2 times as high.
    step = np.array([[0.0, 0.0, 0.0], [10.0, 0.0, 0.0]])
    after = swung(frame, start, step)
    assert np.linalg.norm(after[1] - after[0]) == pytest.approx(10.0)
    assert after.mean(axis=0) == pytest.approx([5.0, 0.0, 5.0])
    assert np.linalg.norm(start + step - (start + step)[0], axis=1).max() == pytest.approx(200**0.5)


def test_what_lengthens_it_does_so() -> None:
    start = np.array([[0.0, 0.0, 0.0], [0.0, 0.0, 10.0]])
    frame = replace(net(start, [], [], np.empty(0), np.ones(2)), bars=bars_of([(1, 0, 10.0)]))
    step = np.array([[0.0, 0.0, 0.0], [0.0, 0.0, 0.5]])
    assert swung(frame, start, step) == pytest.approx(start + step)
