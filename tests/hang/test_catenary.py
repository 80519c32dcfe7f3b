"""A hanging chain against the catenary.

y = c cosh(x / c), sag c (cosh(a / 2c) - 1), length 2 c sinh(a / 2c), tension at the ends
w c cosh(a / 2c), for span a, weight w per length and c = H / w: the closed form of every book on
cables (Irvine, 'Cable Structures', 1981; from memory, the formulas are rederived by
differentiation in `test_the_closed_form_balances`).
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import brentq

from cordwright.hang import forces
from cordwright.hang.settle import BALANCED, Settled
from tests.hang.links import at_rest, net

LENGTH, SPAN, WEIGHT = 100_000.0, 80_000.0, 50.0  # mm, mm, N in all: cord barely stretches


def constant() -> float:
    """C of the catenary, mm."""
    return float(brentq(lambda c: 2 * c * np.sinh(SPAN / (2 * c)) - LENGTH, 0.05 * SPAN, 9 * SPAN))


def chain(links: int) -> Settled:
    """So many equal links between two points at one height."""
    c = constant()
    along = np.linspace(-0.5 * LENGTH, 0.5 * LENGTH, links + 1)
    x = c * np.arcsinh(along / c)
    z = c * np.cosh(x / c) - c * np.cosh(SPAN / (2 * c))
    start = np.stack([x, np.zeros_like(x), z], axis=1)
    start[1:-1] += np.random.default_rng(links).normal(0.0, 20.0, (links - 1, 3))
    pairs = [(i, i + 1) for i in range(links)]
    part = np.full(links, 1.0 / links)
    frame = net(start, [0, links], pairs, LENGTH * part, weight=WEIGHT * part)
    return at_rest(frame)


def test_the_closed_form_balances() -> None:
    """H y'' = w sqrt(1 + y'^2), by differences."""
    c = constant()
    x = np.linspace(-0.4 * SPAN, 0.4 * SPAN, 9)
    h = 10.0
    y = [c * np.cosh((x + k * h) / c) for k in (-1, 0, 1)]
    bend = (y[2] - 2 * y[1] + y[0]) / h**2
    slope = (y[2] - y[0]) / (2 * h)
    assert c * bend == pytest.approx(np.sqrt(1 + slope**2), rel=1e-4)


def measured(links: int) -> tuple[float, float]:
    """Sag in mm and tension at the end in N, the half link on the support counted too."""
    settled = chain(links)
    assert settled.balanced
    pull = forces.Pull(settled.rest, settled.stiffness)
    first = float(forces.tensions(settled.frame, settled.x, pull)[0])
    way = settled.x[0] - settled.x[1]
    unit = way / np.linalg.norm(way)
    at_end = np.hypot(first * unit[0], first * unit[2] + 0.5 * WEIGHT / links)
    return -float(settled.x[:, 2].min()), float(at_end)


def test_sag_and_end_tension_come_to_the_closed_form_as_the_square_of_the_link() -> None:
    c = constant()
    sag = c * (np.cosh(SPAN / (2 * c)) - 1)
    tension = WEIGHT / LENGTH * c * np.cosh(SPAN / (2 * c))
    found = np.array([measured(n) for n in (4, 8, 16)])
    assert found[-1] == pytest.approx([sag, tension], rel=2.5e-3)
    errors = np.abs(found / [sag, tension] - 1.0)
    order = np.log2(errors[:-1] / errors[1:])
    assert order[:, 0] == pytest.approx(2.0, abs=0.2)
    # With sixteen links tension is as near as the balance of forces that is asked for.
    assert order[0, 1] == pytest.approx(2.0, abs=0.2)
    assert errors[2, 1] < 4 * BALANCED


def test_a_chain_hangs_in_a_plane_and_symmetrically() -> None:
    x = chain(16).x
    assert np.abs(x[:, 1]).max() < 1e-3 * LENGTH
    mirrored = x[::-1] * [-1.0, 1.0, 1.0]
    assert np.abs(mirrored - x).max() < 1e-3 * LENGTH


def test_every_link_is_as_long_as_it_is() -> None:
    settled = chain(16)
    length = np.linalg.norm(np.diff(settled.x, axis=0), axis=1)
    # A cord that carries the whole load is 0.02 mm too long; the ends carry a little more.
    assert length - settled.rest == pytest.approx(0.0, abs=0.02)
    assert (length > settled.rest).all()
