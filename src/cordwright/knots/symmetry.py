"""Keeping a tangle to the symmetry that its knot is known to have."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from cordwright.knots.mesh import Ints, Mesh, State, turn

if TYPE_CHECKING:
    from cordwright.knots.tangle import Points, Symmetry


@dataclass(frozen=True, slots=True)
class Landing:
    """Where one symmetry takes every vertex of a mesh.

    Args:
        symmetry: the isometry.
        target: (n,) int, vertex on which each vertex lands.
        cell: (n,) int, cell in which it lands.
    """

    symmetry: Symmetry
    target: Ints
    cell: Ints


def landings(mesh: Mesh, state: State) -> tuple[Landing, ...]:
    """For every declared symmetry, which vertex lands on which; found once for a mesh."""
    return tuple(_landing(mesh, state, s) for s in mesh.tangle.symmetries)


def symmetrised(mesh: Mesh, state: State, maps: tuple[Landing, ...]) -> State:
    """The state averaged with its images under every declared symmetry, in turn."""
    for m in maps:
        x = state.x.copy()
        # Averaging x with its image keeps an involution exactly; others approach it.
        x[m.target] = 0.5 * (x[m.target] + _moved(mesh, state, m))
        state = replace(state, x=np.where(mesh.free, x, state.x))
    return state


def asymmetry(mesh: Mesh, state: State) -> float:
    """Largest distance in d of a vertex from its place under a declared symmetry; 0 if none is."""
    worst = 0.0
    for m in landings(mesh, state):
        miss = state.x[m.target] - _moved(mesh, state, m)
        worst = max(worst, float(np.linalg.norm(miss, axis=1).max()))
    return worst


def _moved(mesh: Mesh, state: State, m: Landing) -> Points:
    """(n, 3) float: images of all vertices, brought back to the cell of the vertex they land on."""
    along = _along(mesh, state)
    moved = state.x @ np.array(m.symmetry.matrix).T + m.symmetry.shift * along
    return turn(moved - m.cell[:, None] * along, -m.cell * state.twist)


def _along(mesh: Mesh, state: State) -> Points:
    repeat = mesh.tangle.repeat
    return np.array(repeat.direction) * state.period if repeat else np.zeros(3)


def _landing(mesh: Mesh, state: State, s: Symmetry) -> Landing:
    moved = state.x @ np.array(s.matrix).T + s.shift * _along(mesh, state)
    target = np.empty(len(state.x), dtype=np.int64)
    cell = np.zeros(len(state.x), dtype=np.int64)
    for c, onto in enumerate(s.onto):
        a, n = int(mesh.start[c]), int(mesh.start[c + 1] - mesh.start[c])
        first = int(mesh.start[onto])
        k, w = _offset(mesh, state, moved[a : a + n], onto, s.reverse)
        i = np.arange(n)
        j = k - i if s.reverse else k + i
        if mesh.tangle.courses[c].path == "open":
            target[a : a + n] = first + np.clip(j, 0, n - 1)
        else:
            target[a : a + n] = first + j % n
        if mesh.tangle.courses[c].path == "periodic":
            cell[a : a + n] = w + j // n
    return Landing(s, target, cell)


def _offset(mesh: Mesh, state: State, moved: Points, onto: int, reverse: bool) -> tuple[int, int]:
    """Vertex of course ``onto`` (and cell) on which the first moved vertex lands."""
    curve = state.x[mesh.start[onto] : mesh.start[onto + 1]]
    n = len(curve)
    course = mesh.tangle.courses[onto]
    if course.path == "open":
        return (n - 1 if reverse else 0), 0
    cells = range(-2, 3) if course.path == "periodic" else range(1)
    along = _along(mesh, state)
    best, found = np.inf, (0, 0)
    i = np.arange(n)
    for w in cells:
        for k in range(n):
            j = k - i if reverse else k + i
            x = (
                curve[j % n]
                + (w + (j // n if course.path == "periodic" else 0 * j))[:, None] * along
            )
            miss = float(np.abs(x - moved).max())
            if miss < best:
                best, found = miss, (k, w)
    return found
