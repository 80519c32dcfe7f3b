"""Hand-made frames: nodes and links, no knots."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from cordwright.hang.frame import Bars, Floats, Frame, Ints, Points, Spans
from cordwright.hang.settle import Settled, settle
from cordwright.hang.touching import none, plain


def bars_of(rows: Sequence[tuple[int, int, float]] = (), facing: Points | None = None) -> Bars:
    """Bars of top, bottom and height, a millimetre wide, facing along y."""
    n = len(rows)
    faces = np.tile([0.0, 1.0, 0.0], (n, 1)) if facing is None else facing
    return Bars(
        np.array([r[0] for r in rows], dtype=np.int64),
        np.array([r[1] for r in rows], dtype=np.int64),
        np.array([r[2] for r in rows], dtype=np.float64),
        np.ones(n),
        np.ones(n),
        faces,
        np.full(n, -1),
    )


def net(
    start: Points,
    held: Sequence[int],
    links: Sequence[tuple[int, int]],
    rest: Floats,
    own: Floats | None = None,
    weight: Floats | None = None,
) -> Frame:
    """Links between nodes, of lengths ``rest``; some nodes are held, all others free."""
    free = np.ones((len(start), 3), dtype=bool)
    free[list(held)] = False
    ends = np.array(links, dtype=np.int64).reshape(-1, 2)
    n = len(ends)
    spans = Spans(
        plain(ends[:, 0]),
        plain(ends[:, 1]),
        rest,
        np.ones(n, dtype=bool),
        np.full(n, -1),
        np.arange(n),
        np.zeros(n, dtype=bool),
        np.zeros(n) if weight is None else weight,
        np.ones(n),
    )
    pairs: Ints = np.empty((0, 2), dtype=np.int64)
    pulled = np.zeros(len(start)) if own is None else own
    return Frame(start, free, pulled, bars_of(), spans, pairs, pairs, pairs)


def at_rest(frame: Frame) -> Settled:
    """The frame settled, touching nothing."""
    return settle(frame, frame.spans.rest, lambda _frame, _x: none(), frame.start)
