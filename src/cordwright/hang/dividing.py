"""Spans cut into pieces, so that cord can lie round what the piece holds."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from cordwright.hang.frame import Ports, Spans

if TYPE_CHECKING:
    from cordwright.hang.frame import Floats, Frame, Ints, Points


def divided(
    frame: Frame, x: Points, rest: Floats, parts: Ints
) -> tuple[Frame, Points, Floats, Ints]:
    """The frame with every span cut into so many equal parts.

    Args:
        frame: before.
        x: (n, 3) float, mm, positions of its nodes.
        rest: (s,) float, mm, lengths of its spans.
        parts: (s,) int, 1 or more.

    Returns:
        The frame, positions and lengths after, and the (m,) nodes that were put in.
    """
    spans = frame.spans
    count = int((parts - 1).sum())
    if not count:
        return frame, x, rest, np.empty(0, np.int64)
    first = len(x) + np.concatenate([[0], np.cumsum(parts - 1)])[:-1]
    whole = np.repeat(np.arange(len(spans)), parts)
    step = np.arange(len(whole)) - np.repeat(np.cumsum(parts) - parts, parts)
    new = np.repeat(np.arange(len(spans)), parts - 1)
    inner = np.arange(count) - np.repeat(np.cumsum(parts - 1) - (parts - 1), parts - 1)
    share = (inner + 1.0) / parts[new]
    a, b = spans.a.at(x), spans.b.at(x)
    between = a[new] + share[:, None] * (b - a)[new]
    upper = _ports(spans.a, whole, step == 0, first[whole] + step - 1)
    lower = _ports(spans.b, whole, step == parts[whole] - 1, first[whole] + step)
    cut = Spans(
        upper,
        lower,
        spans.rest[whole] / parts[whole],
        spans.given[whole],
        spans.strand[whole],
        spans.stop[whole],
        spans.row[whole],
        spans.weight[whole] / parts[whole],
        spans.thick[whole],
        (spans.give + 0.0 * spans.rest)[whole],
    )
    start = np.concatenate([frame.start, between])
    free = np.concatenate([frame.free, np.ones((count, 3), dtype=bool)])
    own = np.concatenate([frame.own, np.zeros(count)])
    after = replace(frame, start=start, free=free, own=own, spans=cut)
    nodes = np.arange(len(x), len(x) + count)
    return after, np.concatenate([x, between]), rest[whole] / parts[whole], nodes


def _ports(of: Ports, whole: Ints, end: np.ndarray, node: Ints) -> Ports:
    """The span's own port at its end, plain nodes in between."""
    return Ports(
        np.where(end, of.top[whole], node),
        np.where(end, of.bottom[whole], node),
        np.where(end, of.along[whole], 0.0),
        np.where(end, of.aside[whole], 0.0),
        np.where(end[:, None], of.facing[whole], 0.0),
    )
