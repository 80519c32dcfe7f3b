"""Nets against the force density method.

H.-J. Schek, 'The force density method for form finding and computation of general networks',
Comput. Methods Appl. Mech. Eng. 3 (1974): with q = tension / length of every branch, equilibrium is
linear, D x = p - D_f x_f with D = C^T Q C. Here that linear system is solved by itself (dense
NumPy), and the solver of the piece must come to the same net from another start. The branches of
the first net are those of the paper's figure 2, as a published script gives them (from the script,
unchecked against the paper); loads here pull down instead of in the plane.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest

from cordwright.hang import forces
from cordwright.hang.forces import STIFF
from tests.hang.links import at_rest, net

if TYPE_CHECKING:
    from cordwright.hang.frame import Floats, Frame, Points

SCHEK = [(0, 5), (1, 6), (2, 7), (3, 8), (0, 3), (0, 1), (1, 2), (2, 3), (3, 4), (0, 4), (1, 4),
         (2, 4)]  # fmt: skip
SCHEK_HELD = 500.0 * np.array([[-2.0, 0, 0], [0, -2, 0], [2, 0, 0], [0, 2, 0]])


def force_density(
    links: list[tuple[int, int]], q: Floats, free: int, held: Points, p: Floats
) -> Points:
    """Positions of the free nodes (the first ones) for force densities q and weights p."""
    c = np.zeros((len(links), free + len(held)))
    for row, (i, j) in enumerate(links):
        c[row, i], c[row, j] = 1.0, -1.0
    d = c[:, :free].T @ (q[:, None] * c[:, :free])
    load = np.zeros((free, 3))
    load[:, 2] = -p
    known = load - c[:, :free].T @ (q[:, None] * (c[:, free:] @ held))
    return np.asarray(np.linalg.solve(d, known), dtype=np.float64)


def lengths(links: list[tuple[int, int]], x: Points) -> Floats:
    return np.array([float(np.linalg.norm(x[i] - x[j])) for i, j in links])


def rebuilt(
    links: list[tuple[int, int]], q: Floats, held: Points, p: Floats, seed: int
) -> tuple[Frame, Points]:
    """The frame whose unstretched lengths belong to the force densities, and where it must lie."""
    free = len(p)
    x = np.concatenate([force_density(links, q, free, held, p), held])
    length = lengths(links, x)
    rest = length - q * length / (STIFF * p.sum())
    start = x.copy()
    start[:free] += np.random.default_rng(seed).normal(0.0, 60.0, (free, 3))
    own = np.concatenate([p, np.zeros(len(held))])
    return net(start, range(free, len(x)), links, rest, own), x


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_schek_s_net_comes_out_where_its_force_densities_put_it(seed: int) -> None:
    rng = np.random.default_rng(seed)
    q = rng.uniform(0.5, 1.5, len(SCHEK)) * 0.02
    p = rng.uniform(2.0, 6.0, 5)
    frame, wanted = rebuilt(SCHEK, q, SCHEK_HELD, p, seed)
    settled = at_rest(frame)
    assert settled.balanced
    assert settled.x == pytest.approx(wanted, abs=0.3)
    pulls = forces.tensions(frame, settled.x, forces.Pull(settled.rest, settled.stiffness))
    assert pulls / lengths(SCHEK, settled.x) == pytest.approx(q, rel=0.02)


def grid(size: int) -> tuple[list[tuple[int, int]], Points, int]:
    """A square net, its rim held: links, held points, number of free nodes."""
    inner = {(i, j) for i in range(1, size) for j in range(1, size)}
    names = {n: k for k, n in enumerate(sorted(inner))}
    held: list[list[float]] = []
    links: list[tuple[int, int]] = []

    def index(i: int, j: int) -> int:
        if (i, j) not in names:
            names[i, j] = len(inner) + len(held)
            held.append([100.0 * i, 100.0 * j, 15.0 * ((i + 2 * j) % 3)])
        return names[i, j]

    for i, j in sorted(inner):
        for di, dj in ((1, 0), (0, 1)):
            links.append((index(i, j), index(i + di, j + dj)))
        if i == 1:
            links.append((index(0, j), index(i, j)))
        if j == 1:
            links.append((index(i, 0), index(i, j)))
    return links, np.array(held), len(inner)


def test_a_net_that_settled_satisfies_the_linear_equations() -> None:
    """The other way round: lengths are given, and force densities are what comes out."""
    links, held, free = grid(6)
    p = np.linspace(0.5, 1.5, free)
    flat = np.array([[100.0 * i, 100.0 * j, 0.0] for i in range(1, 6) for j in range(1, 6)])
    start = np.concatenate([flat, held])
    own = np.concatenate([p, np.zeros(len(held))])
    rest = 1.12 * lengths(links, start)
    frame = net(start, range(free, len(start)), links, rest, own)
    settled = at_rest(frame)
    assert settled.balanced
    pulls = forces.tensions(frame, settled.x, forces.Pull(settled.rest, settled.stiffness))
    found = force_density(links, pulls / lengths(links, settled.x), free, held, p)
    # Where every link pulls, force densities alone say where the net lies.
    assert (pulls > 0.0).mean() > 0.9
    assert found == pytest.approx(settled.x[:free], abs=0.5)


# The same net with force densities 0.010, 0.011 ... 0.021 N/mm and weights of 2, 3, 4, 5 and 6 N at
# its free nodes, as the form-finding library compas_fd 0.5.4 (on compas 2.15.1) gives it:
# compas_fd.solvers.fd_numpy(vertices=..., fixed=[5, 6, 7, 8], edges=SCHEK, forcedensities=...,
# loads=[[0, 0, -2], ...]), its free nodes' coordinates and the edges' forces, run by hand once.
COMPAS_Q = np.linspace(0.010, 0.021, 12)
COMPAS_P = np.array([2.0, 3.0, 4.0, 5.0, 6.0])
COMPAS_NODES = np.array([
    [-141.395858, 26.419813, -420.064198],
    [33.592973, -153.083456, -428.746581],
    [212.529899, 32.396044, -441.645464],
    [38.00593, 233.151335, -444.876928],
    [40.161189, 29.709593, -510.749882],
])  # fmt: skip
COMPAS_FORCES = np.array([
    9.56218076, 10.44837739, 10.84131683, 11.53574619, 3.84779999, 3.76251606, 4.12872705,
    4.52250311, 3.84932572, 3.8564701, 4.00903887, 3.90021563,
])  # fmt: skip


def settled_net(p: Floats) -> tuple[Points, Floats]:
    """The library's net with its lengths, other weights on it: free nodes and pulls at rest."""
    frame, _ = rebuilt(SCHEK, COMPAS_Q, SCHEK_HELD, COMPAS_P, 7)
    frame = replace(frame, own=np.concatenate([p, np.zeros(4)]))
    settled = at_rest(frame)
    assert settled.balanced
    pulls = forces.tensions(frame, settled.x, forces.Pull(settled.rest, settled.stiffness))
    return settled.x[:5], pulls


def test_the_net_is_where_a_library_puts_it() -> None:
    nodes, pulls = settled_net(COMPAS_P)
    assert nodes == pytest.approx(COMPAS_NODES, abs=0.3)
    assert pulls == pytest.approx(COMPAS_FORCES, rel=0.02)
    assert force_density(SCHEK, COMPAS_Q, 5, SCHEK_HELD, COMPAS_P) == pytest.approx(
        COMPAS_NODES, abs=1e-5
    )


def test_other_forces_would_put_it_elsewhere() -> None:
    """A negative control: weights in another order, or force densities a tenth off, do not pass."""
    nodes, pulls = settled_net(COMPAS_P[::-1].copy())
    assert nodes != pytest.approx(COMPAS_NODES, abs=0.3)
    assert pulls != pytest.approx(COMPAS_FORCES, rel=0.02)
    other = COMPAS_Q.copy()
    other[0] *= 1.1
    found = force_density(SCHEK, other, 5, SCHEK_HELD, COMPAS_P)
    assert found != pytest.approx(COMPAS_NODES, abs=0.3)
