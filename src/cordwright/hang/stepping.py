"""One interior-point step of a frame towards rest.

Unknowns are the nodes, and force and slack of every cord that only pulls and every contact that
only pushes (`cordwright.hang.slack`). Force and slack are eliminated, so that each step solves one
system of the nodes. Its matrix is positive semidefinite, so a little damping (Levenberg 1944) makes
it definite whatever still dangles; SuperLU solves it. A step counts if it lowers the energy of the
true, curved problem with its contacts taken anew; else it is halved, and then damped more.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
from scipy.sparse.linalg import splu

from cordwright.hang import slack
from cordwright.hang.forces import drawn, gradient, overlap, solid, stiffness
from cordwright.hang.linkage import pressing
from cordwright.hang.swinging import swung

if TYPE_CHECKING:
    from scipy.sparse import csc_matrix, csr_matrix
    from scipy.sparse.linalg import SuperLU

    from cordwright.hang.forces import Drawn, Pull
    from cordwright.hang.frame import Floats, Frame, Ints, Points
    from cordwright.hang.linkage import Linkage
    from cordwright.hang.slack import Slack
    from cordwright.hang.touching import Touching

Contacts = Callable[["Frame", "Points"], "Touching"]

LONGEST = 50.0
"""Longest move of a node along an axis in one step, mm."""

FALLS = ((0.9, 0.1), (0.5, 0.3), (0.2, 0.7), (0.0, 1.0))
"""How far mu, the product of force and slack, falls after a step of more than a share of its whole
length."""

LOWEST = 1e-16
"""Least mu against all weight, mm: far below what the balance of forces shows."""

HALVES = 6
"""How often a step that does not lower the energy is halved before it is damped more."""

DAMPINGS = 8

CALMEST = 1e-9
"""Least damping against the stiffness of cord."""

CALM = 1e-9
"""Product of force and slack against all weight, mm, below which cord counts as it is."""

BEYOND = 0.7
"""Least share of a step at which the slope along it may turn: where cord slides round an edge steps
go too far, back and forth, and are taken shorter."""

CHANGED = 5.0
"""Energy, in units of mu, by which a contact that comes or goes may change what is compared: the
logarithm of its slack."""


@dataclass(frozen=True, slots=True)
class Rig:
    """What stays the same while a frame settles.

    Args:
        frame: what hangs.
        pull: what makes its spans pull.
        contacts: gives the contacts about a position.
        links: its differences.
        taut: (t,) int, spans that are no joints.
        load: all weight, N.
    """

    frame: Frame
    pull: Pull
    contacts: Contacts
    links: Linkage
    taut: Ints
    load: float

    def over(self, at: Drawn, touching: Touching, x: Points) -> Floats:
        """(r,) float, mm: how much too long spans are, then how far contacts overlap."""
        return np.concatenate([at.over[self.taut], overlap(touching, x)])

    def firm(self, touching: Touching) -> Floats:
        """(r,) float, N/mm: stiffness of spans, then of contacts."""
        hard = np.full(len(touching.gap), self.pull.stiffness)
        return np.concatenate([self.pull.along[self.taut], hard])


@dataclass(frozen=True, slots=True)
class State:
    """Where a frame is on its way.

    Args:
        x: (n, 3) float, mm.
        at: spans and bars there.
        touching: contacts there.
        normals: (c, l) sparse, how their distances change with the coordinates that may move.
        over: (r,) float, mm, of spans that are no joints, then of contacts.
        holds: their slack and force.
        mu: N mm, product of force and slack that is aimed at.
        damping: N/mm.
    """

    x: Points
    at: Drawn
    touching: Touching
    normals: csr_matrix
    over: Floats
    holds: Slack
    mu: float
    damping: float

    def value(self, rig: Rig, mu: float) -> float:
        """Energy that a step must lower, N mm."""
        return solid(rig.frame, self.at, self.x, rig.pull) + self.holds.value(self.over, mu)


def begun(rig: Rig, x: Points, mu: float, least: float) -> State:
    """The first state.

    Args:
        rig: what hangs.
        x: (n, 3) float, mm, where it begins.
        mu: N mm.
        least: mm, least slack.
    """
    at, touching = drawn(rig.links, x, rig.pull.rest), rig.contacts(rig.frame, x)
    over = rig.over(at, touching, x)
    holds = slack.opened(rig.firm(touching), over, mu, least)
    normals = pressing(touching, rig.links)
    return State(x, at, touching, normals, over, holds, mu, 1e-6 * rig.pull.stiffness)


def resumed(rig: Rig, state: State, before: Slack, known: Ints, mu: float) -> State:
    """A state with the forces of one at rest nearby, where cords and contacts are the same.

    Args:
        rig: what hangs.
        state: where it begins.
        before: slack and force of the cords and contacts at rest.
        known: (c,) int, names of these contacts.
        mu: N mm.
    """
    if not len(before):
        return state
    spans = len(rig.taut)
    source = slack.same(known, names(rig, state.touching))
    rows = np.concatenate([np.arange(spans), spans + np.maximum(source, 0)])
    new = np.concatenate([np.zeros(spans, dtype=bool), source < 0])
    firm = rig.firm(state.touching)
    again = slack.resumed(firm, before.part(np.where(new, 0, rows)), mu)
    fresh = slack.opened(firm, state.over, mu, slack.LEAST)
    holds = slack.chosen(new, fresh, again, np.arange(len(rows)))
    return replace(state, holds=holds, mu=mu)


def energy(rig: Rig, state: State) -> float:
    """Energy of cord as it is, without mu, N mm."""
    over = np.maximum(0.0, state.over)
    held = 0.5 * float(rig.firm(state.touching) @ over**2)
    return solid(rig.frame, state.at, state.x, rig.pull) + held


def residual(rig: Rig, state: State) -> float:
    """Largest force that nothing balances, against all weight, of cord as it is: without mu."""
    return float(np.abs(_unbalanced(rig, state)).max(initial=0.0)) / rig.load


def _unbalanced(rig: Rig, state: State) -> Floats:
    """Slope of the energy of cord as it is, of the coordinates that may move, N."""
    tension = rig.pull.along * np.maximum(0.0, state.at.over)
    pressed = rig.pull.stiffness * np.maximum(0.0, state.over[len(rig.taut) :])
    left = gradient(rig.frame, rig.links, state.at, rig.pull, tension)[rig.links.live]
    found: Floats = left - state.normals.T @ pressed
    return found


def stepped(rig: Rig, state: State) -> State | None:
    """The state after a step to less energy; None if there is none."""
    left, matrix = _left(rig, state), _matrix(rig, state)
    damping, before = state.damping, state.value(rig, state.mu)
    for tries in range(DAMPINGS):
        dx = -_factor(matrix, damping).solve(left)
        if not np.isfinite(dx).all():
            return None
        found = _searched(rig, state, dx, before)
        if found is not None:
            calmer = max(0.2 * damping, CALMEST * rig.pull.stiffness)
            return replace(found, damping=damping if tries else calmer)
        damping = max(10.0 * damping, 100.0 * CALMEST * rig.pull.stiffness)
    return None


def _left(rig: Rig, state: State) -> Floats:
    """Forces that a step has to balance, of the coordinates that may move, N."""
    spans = len(rig.taut)
    wanted, tension = state.holds.wanted(state.over, state.mu), np.zeros(len(rig.pull.rest))
    tension[rig.taut] = wanted[:spans]
    left = gradient(rig.frame, rig.links, state.at, rig.pull, tension)[rig.links.live]
    found: Floats = left - state.normals.T @ wanted[spans:]
    return found


def _matrix(rig: Rig, state: State) -> csc_matrix:
    """Stiffness of the coordinates that may move."""
    spans, along = len(rig.taut), state.holds.along
    forces, firm = np.zeros(len(rig.pull.rest)), np.zeros(len(rig.pull.rest))
    forces[rig.taut], firm[rig.taut] = state.holds.force[:spans], along[:spans]
    matrix = stiffness(rig.frame, rig.links, state.at, rig.pull, forces, firm)
    pressed = state.normals
    firmly = pressed.copy()
    firmly.data *= np.repeat(along[spans:], np.diff(pressed.indptr))
    found: csc_matrix = (matrix + pressed.T.tocsr() @ firmly).tocsc()
    return found


def _factor(matrix: csc_matrix, damping: float) -> SuperLU:
    """Factors of a matrix that is damped; its coordinates are in a good order already."""
    damped = matrix.copy()
    damped.setdiag(damped.diagonal() + damping)
    return splu(
        damped,
        permc_spec="NATURAL",
        diag_pivot_thresh=0.0,
        relax=1,  # columns of chains have little in common: panels of several take longer
        panel_size=1,
        options={"SymmetricMode": True},
    )


def _searched(rig: Rig, state: State, dx: Floats, before: float) -> State | None:
    """The state after as much of a step as lowers the energy; None if none does."""
    holds, change = state.holds, _change(rig, state, dx)
    ways = holds.step(state.over, change, state.mu)
    far = float(np.abs(dx).max(initial=0.0))
    share = min(slack.farthest(holds.slack, ways[0]), LONGEST / max(far, 1e-9))
    forces = slack.farthest(holds.force, ways[1])
    for _ in range(HALVES):
        straight = slack.moved(holds, ways, (share, forces))
        after = _moved(rig, state, share * dx, straight, state.over + share * change)
        changed = CHANGED * abs(len(after.over) - len(state.over))
        lower = after.value(rig, state.mu) < before + 1e-12 * abs(before) + changed * state.mu
        back = _turned(rig, state, after, dx) if lower else 1.0
        if lower and back > BEYOND:
            fall = next(f for q, f in FALLS if min(share, forces) > q)
            return replace(after, mu=max(state.mu * fall, LOWEST * rig.load))
        share *= back if lower else 0.5
    return None


def _turned(rig: Rig, state: State, after: State, dx: Floats) -> float:
    """Share of a step at which the slope of the energy along it turns, once mu hardly counts."""
    if state.mu > CALM * rig.load:
        return 1.0
    down, up = (float(_unbalanced(rig, s) @ dx) for s in (state, after))
    return down / (down - up) if down < 0.0 < up else 1.0


def _change(rig: Rig, state: State, dx: Floats) -> Floats:
    """(r,) float, mm: by how much a step changes what is over, were everything straight."""
    ways = (rig.links.free @ dx).reshape(-1, 3)[rig.taut]
    unit = state.at.span[rig.taut] / state.at.length[rig.taut, None]
    return np.concatenate([np.einsum("ij,ij->i", unit, ways), -(state.normals @ dx)])


def _moved(rig: Rig, state: State, dx: Floats, straight: Slack, meant: Floats) -> State:
    """The state after a step, with its contacts taken anew.

    Args:
        rig: what hangs.
        state: before the step.
        dx: mm, of the coordinates that may move.
        straight: slack and force after it, were everything straight.
        meant: (r,) float, mm, what is over likewise.
    """
    step = np.zeros(state.x.size)
    step[rig.links.live] = dx
    x = swung(rig.frame, state.x, step.reshape(-1, 3))
    at, touching = drawn(rig.links, x, rig.pull.rest), rig.contacts(rig.frame, x)
    over, normals = rig.over(at, touching, x), state.normals
    if touching is not state.touching:
        spans, normals = len(rig.taut), pressing(touching, rig.links)
        source = slack.same(names(rig, state.touching), names(rig, touching))
        rows = np.concatenate([np.arange(spans), spans + source])
        new = np.concatenate([np.zeros(spans, dtype=bool), source < 0])
        fresh = slack.opened(rig.firm(touching), over, state.mu, slack.LEAST)
        straight = slack.chosen(new, fresh, straight, rows)
        meant = np.where(new, over, meant[rows])
    holds = slack.bent(straight, over - meant)
    return State(x, at, touching, normals, over, holds, state.mu, state.damping)


def names(rig: Rig, touching: Touching) -> Ints:
    """(c,) int: contacts between the same nodes have the same name from step to step."""
    count = len(rig.frame.start)
    found: Ints = (touching.a.top * count + touching.a.bottom) * count + touching.b.top
    return found
