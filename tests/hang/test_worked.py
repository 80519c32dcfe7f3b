"""Pieces as they are worked: packed knots, and the least-squares problem behind them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import lsq_linear

from cordwright.hang.counted import as_worked
from cordwright.hang.framing import frame_of
from cordwright.hang.worked import REST, _drawn_up, worked
from tests.examples.conftest import NAMES, piece_of
from tests.hang.conftest import panel

if TYPE_CHECKING:
    from cordwright.hang.frame import Floats


@pytest.mark.parametrize("name", NAMES)
def test_no_knot_overlaps_the_one_that_it_hangs_from(name: str) -> None:
    frame = frame_of(piece_of(name))
    x, bars = worked(frame), frame.bars
    gap = x[bars.bottom[frame.below[:, 0]], 2] - x[bars.top[frame.below[:, 1]], 2]
    allowed = 0.01 * np.minimum(bars.height[frame.below[:, 0]], bars.height[frame.below[:, 1]])
    assert (gap > -allowed).all()


@pytest.mark.parametrize("name", NAMES)
def test_no_knot_overlaps_its_neighbour_in_a_row(name: str) -> None:
    piece = piece_of(name)
    frame = frame_of(piece)
    if frame.free[:, 1].any():
        return  # in the round knots keep their place on the cylinder
    x, bars = worked(frame), frame.bars
    left, right = frame.beside[:, 0], frame.beside[:, 1]
    gap = x[bars.top[right], 0] - x[bars.top[left], 0]
    wide = 0.5 * (bars.width[left] + bars.width[right])
    assert (gap > 0.99 * wide).all()


@pytest.mark.parametrize("name", NAMES)
def test_knots_stand_upright_and_as_high_as_they_are(name: str) -> None:
    frame = frame_of(piece_of(name))
    x, bars = worked(frame), frame.bars
    down = x[bars.top] - x[bars.bottom]
    assert down[:, 2] == pytest.approx(bars.height)
    assert down[:, :2] == pytest.approx(0.0)


def test_four_square_knots_abreast_of_thin_cord_measure_33_mm() -> None:
    """16 strands of 1.4 mm polyester in four square knots abreast measured about 33 mm wide
    (jbknotting.blogspot.com). Nothing here is a sum of four widths: the panel is solved for."""
    shape = as_worked(panel(rows=9, cords=8, diameter="1.4 mm"))
    assert shape.width_mm == pytest.approx(33.0, abs=1.0)


def test_rows_of_a_panel_are_as_far_apart_as_their_knots_are_high() -> None:
    rows = 9
    piece = panel(rows=rows, cords=8, diameter="1.4 mm")
    height = piece.mm(piece.knots[0].height)
    frame = frame_of(piece)
    x, bars = worked(frame), frame.bars
    top, low = x[bars.top, 2].max(), x[bars.bottom, 2].min()
    assert top - low == pytest.approx(rows * height, rel=0.01)
    # Odd rows stand half a knot aside of even ones.
    by_row = [np.sort(x[bars.top[[k.id for k in piece.knots if k.row == r]], 0]) for r in (0, 1)]
    pitch = np.diff(by_row[0])
    assert by_row[1] == pytest.approx(by_row[0][:-1] + 0.5 * pitch, abs=0.02 * pitch[0])


def exact(
    start: Floats, springs: Floats, aim: Floats, contacts: Floats, least: Floats
) -> tuple[Floats, Floats]:
    """The same problem by its dual, which SciPy solves with bounds: positions and pushes.

    Minimise |springs y - aim|^2 + REST |y - start|^2 where contacts y >= least.
    """
    q = springs.T @ springs + REST * np.eye(len(start))
    alone = np.linalg.solve(q, springs.T @ aim + REST * start)
    give = contacts @ np.linalg.solve(q, contacts.T)
    root = np.linalg.cholesky(give).T
    right = np.linalg.solve(root.T, least - contacts @ alone)
    pushes = lsq_linear(root, right, bounds=(0.0, np.inf), method="bvls", tol=1e-14).x
    return alone + np.linalg.solve(q, contacts.T @ pushes), np.asarray(pushes)


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 100_000))
def test_drawing_up_is_the_constrained_least_squares_solution(seed: int) -> None:
    rng = np.random.default_rng(seed)
    n = 7
    start = np.cumsum(rng.uniform(-4.0, 1.0, n))
    drawn = [sorted(rng.choice(n, 2, replace=False)) for _ in range(9)]
    i, j = np.array(drawn).T
    offset, pull = rng.uniform(-6.0, 0.0, 9), rng.uniform(0.5, 2.0, 9)
    pairs = np.array([[a, a + 1] for a in range(n - 1)])
    least = rng.uniform(0.0, 5.0, n - 1)
    free = np.ones(n, dtype=bool)
    free[0] = False
    found = _drawn_up(start, free, (i, j), offset, pull, (pairs, least))
    eye = np.eye(n)
    springs = np.sqrt(pull)[:, None] * (eye[i] - eye[j])
    contacts = eye[pairs[:, 0]] - eye[pairs[:, 1]]
    wanted, pushes = exact(
        start[1:],
        springs[:, 1:],
        -np.sqrt(pull) * offset - springs[:, 0] * start[0],
        contacts[:, 1:],
        least - contacts[:, 0] * start[0],
    )
    assert found[0] == start[0]
    assert found[1:] == pytest.approx(wanted, abs=1e-5)
    # Optimal: nothing overlaps, and only what touches pushes.
    gaps = contacts @ found - least
    assert gaps.min() > -1e-6
    assert np.abs(gaps * pushes).max() < 1e-3
