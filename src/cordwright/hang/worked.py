"""A piece as it is worked: every knot upright, drawn up to what it hangs from, none inside another.

Cord is drawn up lightly: each strand pulls the knots at its two ends together, to the free cord
that the plan asks for between them or until they touch. With knots upright, height and side are
two separate least-squares problems with contacts as inequalities; each is solved by taking those
contacts as stiff springs that are pressed, until the same ones are (an active-set iteration).

In the round, knots keep their place about the axis and only their heights are solved for; flat
parts of such a piece are drawn up to the side before that, by themselves (`side_by_side`).
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
from scipy.sparse import csr_matrix, diags
from scipy.sparse.linalg import splu

if TYPE_CHECKING:
    from cordwright.hang.frame import Floats, Frame, Ints, Points

PRESSED = 1e4
"""Stiffness of a contact against that of a strand that is drawn up."""

CLOSED = 1e3
"""How much more strongly hitches of a row are drawn together along their holding cord, and knots of
a sinnet onto each other: where strands have to wait, they do so between sinnets."""

REST = 1e-6
"""Weak hold on the first guess, for what nothing else holds."""

PRESSES = 3
"""How often contacts that still give are pressed harder by what they give (method of multipliers):
each time takes about another factor of a tenth off what is left."""

MOST_ROUNDS = 60


def worked(frame: Frame) -> Points:
    """(n, 3) float: positions of all nodes as the piece is worked, mm."""
    x = frame.start.copy()
    spans, bars = frame.spans, frame.bars
    ends, offset = _upright(frame, x)
    below = bars.top[frame.below]
    high = bars.height[frame.below[:, 0]] if len(frame.below) else np.empty(0)
    length = np.where(spans.given, spans.rest, 0.0)
    pull = np.where(spans.row | in_sinnet(frame), CLOSED, 1.0)
    x[:, 2] = _drawn_up(x[:, 2], frame.free[:, 2], ends, offset[:, 2] - length, pull, (below, high))
    if not frame.free[:, 1].any():
        x = side_by_side(replace(frame, start=x), np.ones(len(bars), dtype=bool))
    x[bars.bottom] = x[bars.top]
    x[bars.bottom, 2] -= bars.height
    return x


def side_by_side(frame: Frame, flat: np.ndarray) -> Points:
    """(n, 3) float: the start with flat knots drawn up to the side, mm.

    Strands between them and other knots do not count.

    Args:
        frame: what hangs, its knots upright.
        flat: (k,) bool, bars that lie in the plane of the viewer.
    """
    x, bars, spans = frame.start.copy(), frame.bars, frame.spans
    (i, j), offset = _upright(frame, x)
    lies = np.zeros(len(x), dtype=bool)
    lies[bars.top] = flat
    if flat.all():
        lies[:] = True
    among = np.flatnonzero(lies[i] & lies[j])
    pull = np.where(spans.row | in_sinnet(frame), CLOSED, 1.0)
    beside = bars.top[frame.beside]
    wide = 0.5 * bars.width[frame.beside].sum(axis=1) if len(beside) else np.empty(0)
    both = np.flatnonzero(lies[beside].all(axis=1))
    x[:, 0] = _drawn_up(
        x[:, 0],
        frame.free[:, 0] & lies,
        (i[among], j[among]),
        offset[among, 0],
        pull[among],
        (beside[both][:, ::-1], wide[both]),
    )
    x[bars.bottom, :2] = x[bars.top, :2]
    return x


def _upright(frame: Frame, x: Points) -> tuple[tuple[Ints, Ints], Points]:
    """Nodes at the tops of every strand's two knots, and how far its ports are apart beside that.

    Returns:
        (s,) int twice, and (s, 3) float, mm: ``x_i - x_j + offset`` is the way along the strand.
    """
    spans, bars = frame.spans, frame.bars
    top = np.arange(len(x))
    top[bars.bottom] = bars.top
    upright = x.copy()
    upright[bars.bottom] = x[bars.top]
    upright[bars.bottom, 2] -= bars.height
    i, j = top[spans.a.top], top[spans.b.top]
    offset = spans.a.at(upright) - upright[i] - (spans.b.at(upright) - upright[j])
    return (i, j), offset


def in_sinnet(frame: Frame) -> np.ndarray:
    """(s,) bool: spans between neighbours in a sinnet or on a holding cord."""
    bar = np.full(len(frame.start), -1)
    bar[frame.bars.top] = np.arange(len(frame.bars))
    count = len(frame.bars)
    pairs = bar[frame.spans.a.top] * count + bar[frame.spans.b.top]
    return np.isin(pairs, frame.stiff[:, 0] * count + frame.stiff[:, 1])


def _drawn_up(
    start: Floats,
    free: np.ndarray,
    ends: tuple[Ints, Ints],
    offset: Floats,
    pull: Floats,
    apart: tuple[Ints, Floats],
) -> Floats:
    """One coordinate of all knots, drawn up along it.

    Args:
        start: (n,) float, first guess, mm.
        free: (n,) bool.
        ends: nodes i and j of every strand between knots.
        offset: (s,) float, mm: ``x_i - x_j + offset`` is drawn towards 0.
        pull: (s,) float, how strongly.
        apart: pairs p and least distances: ``x_p0 - x_p1 >= distance``.
    """
    n = len(start)
    i, j = ends
    pairs, least = apart
    springs = diags(np.sqrt(pull)) @ _differences(n, i, j)
    offset = np.sqrt(pull) * offset
    contacts = _differences(n, pairs[:, 0], pairs[:, 1])
    x, keep = start.copy(), np.flatnonzero(free)
    pressed, shift = np.zeros(len(least), dtype=bool), np.zeros(len(least))
    held = np.where(free, 0.0, start)
    known = springs.T @ -offset + REST * start
    plain = springs.T @ springs + diags(np.full(n, REST))
    presses, lu = 0, None
    for _ in range(MOST_ROUNDS):
        rows = contacts[pressed]
        if lu is None:
            matrix = (plain + PRESSED * (rows.T @ rows)).tocsc()
            lu = splu(matrix[keep][:, keep], permc_spec="MMD_AT_PLUS_A")
        force = known + PRESSED * (rows.T @ (least + shift)[pressed]) - matrix @ held
        x = held.copy()
        x[keep] = lu.solve(force[keep])
        gap = contacts @ x - least - shift
        # A contact stays pressed while it pushes, that is, while it is still overlapped.
        now = gap < np.where(pressed, 0.0, -1e-9)
        if np.array_equal(now, pressed):
            if presses == PRESSES:
                break
            presses += 1
            shift = np.maximum(0.0, -gap)
        else:
            pressed, lu = now, None
    return x


def _differences(n: int, i: Ints, j: Ints) -> csr_matrix:
    m = len(i)
    rows = np.concatenate([np.arange(m), np.arange(m)])
    data = np.concatenate([np.ones(m), -np.ones(m)])
    return csr_matrix((data, (rows, np.concatenate([i, j]))), shape=(m, n))
