"""Tightening: the least length of cord that the tied knot can have under stated pulls.

Damped Gauss-Newton steps (Levenberg 1944) on the energy of ``energy.py``; the stiffness of
contact is raised and the mesh refined in stages. Every step is held to 0.1 d, and is taken only
if no cord passed through another on the way (``guard.py``). The polygon's error falls with the
square of the edge, so two meshes give an extrapolated figure and an estimate of what is left.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
from scipy.sparse import diags
from scipy.sparse.linalg import splu

from cordwright.errors import TighteningError
from cordwright.knots.contact import closest, contacts, near_pairs
from cordwright.knots.energy import Terms, energy, expand
from cordwright.knots.guard import passes
from cordwright.knots.mesh import (
    Floats,
    Mesh,
    State,
    course_lengths,
    edge_ends,
    edge_lengths,
    resampled,
    turn,
)
from cordwright.knots.symmetry import asymmetry, landings, symmetrised

if TYPE_CHECKING:
    from cordwright.knots.tangle import Points, Tangle

LONGEST_MOVE = 0.1
"""Longest move of a vertex in one step, in d."""

MARGIN = 0.35
"""Pairs whose tubes are farther apart than this (in d) are left out until the list is renewed."""


NEAREST = 0.25
"""Nearest that two centre lines may be at the start, as a share of the sum of their radii:
twice what a vertex may move, so that the guard has something to guard from the first step."""

WATCHED = 10
"""Steps over which the fall of the energy is watched."""


@dataclass(frozen=True, slots=True)
class Stage:
    """One part of a tightening: mesh, stiffness, when to stop.

    Args:
        per_d: vertices per diameter of cord.
        stiffness: of contact, in units of pull / d.
        settled: the stage ends when ten steps lower the energy by less than this, in units of
            pull times d.
        steps: at most.
    """

    per_d: float
    stiffness: float
    settled: float
    steps: int


STAGES = (
    Stage(3, 20, 1e-2, 400),
    Stage(3, 100, 1e-2, 100),
    Stage(5, 500, 3e-3, 100),
    Stage(5, 4000, 3e-4, 250),
    Stage(8, 4000, 3e-4, 250),
)


@dataclass(frozen=True, slots=True)
class Tight:
    """A tightened tangle on one mesh.

    Args:
        mesh, state: the curves.
        lengths: (courses,) float, length of each course within a cell, in d.
        overlap: largest overlap of two tubes, in d.
        sharpest: sharpest bend, as half a diameter over its radius (1: as sharp as can be).
        fall: by how much the last ten steps still lowered the energy, in units of pull times d.
        asymmetry: largest distance of a vertex from its place under the declared symmetry, in d.
        steps: Newton steps taken on this mesh and those before it.
    """

    mesh: Mesh
    state: State
    lengths: Floats
    overlap: float
    sharpest: float
    fall: float
    asymmetry: float
    steps: int

    def curve(self, course: int) -> Points:
        """(n, 3) float: vertices of one course."""
        return self.state.x[self.mesh.start[course] : self.mesh.start[course + 1]]


Progress = Callable[[float], None]


def tighten(
    tangle: Tangle,
    *,
    stages: tuple[Stage, ...] = STAGES,
    seed: int | None = None,
    resume: Tight | None = None,
    progress: Progress | None = None,
) -> tuple[Tight, ...]:
    """Tighten a tangle; one result for each mesh whose last stage it is, coarse to fine.

    Args:
        tangle: as drawn; centre lines keep a quarter of their distance in contact.
        stages: what to do in turn.
        seed: shakes the drawn curves by up to 0.05 d first, to look for another minimum.
        resume: goes on from this result instead of from the drawing.
        progress: is told the share done, 0 to 1.

    Raises:
        TighteningError: cords are drawn inside one another, or one would pass through another.
    """
    mesh, state = _begun(tangle, resume, stages[0].per_d)
    _refuse_overlaps(mesh, state)
    if seed is not None:
        shake = np.random.default_rng(seed).uniform(-0.05, 0.05, state.x.shape)
        state = replace(state, x=state.x + shake * mesh.free)
    results: list[Tight] = []
    steps, per_d = 0, stages[0].per_d
    for i, stage in enumerate(stages):
        if stage.per_d != per_d:
            old = [state.x[a:b] for a, b in zip(mesh.start, mesh.start[1:], strict=False)]
            mesh, state = resampled(tangle, old, state, stage.per_d)
            _refuse_overlaps(mesh, state)
            per_d = stage.per_d
        state, fall, used = _settle(mesh, state, stage)
        steps += used
        last = i + 1 == len(stages) or stages[i + 1].per_d != per_d
        if last:
            results.append(_measured(mesh, state, fall, steps))
        if progress is not None:
            progress((i + 1) / len(stages))
    return tuple(results)


def work(tight: Tight) -> float:
    """Pull times length of a tight knot, less what its repeat is pushed, in pulls times d."""
    repeat = tight.mesh.tangle.repeat
    pulled = float(tight.mesh.tension @ edge_lengths(tight.mesh, tight.state))
    return pulled + (repeat.push * tight.state.period if repeat else 0.0)


def _begun(tangle: Tangle, resume: Tight | None, per_d: float) -> tuple[Mesh, State]:
    if resume is not None:
        curves = [resume.curve(i) for i in range(len(tangle.courses))]
        return resampled(tangle, curves, resume.state, per_d)
    repeat = tangle.repeat
    period, twist = (repeat.period, repeat.twist) if repeat else (0.0, 0.0)
    curves = [np.asarray(c.points, dtype=np.float64) for c in tangle.courses]
    return resampled(tangle, curves, State(np.empty((0, 3)), period, twist), per_d)


def extrapolated(coarse: Floats, fine: Floats, ratio: float) -> Floats:
    """Richardson's limit for an error that falls with the square of the edge.

    Args:
        coarse: figures on the coarser mesh.
        fine: the same on the finer one.
        ratio: vertices per d of the fine mesh over those of the coarse one.
    """
    return fine + (fine - coarse) / (ratio**2 - 1.0)


def _refuse_overlaps(mesh: Mesh, state: State) -> None:
    """A start in which it is not clear which cord lies on which side is no start."""
    pairs = near_pairs(mesh, state, 0.0)
    gap, reach = contacts(mesh, pairs, closest(mesh, state, pairs))
    deepest = float((gap / reach).min(initial=0.0))
    if deepest < NEAREST - 1.0:
        raise TighteningError(
            f"two cords are drawn {1.0 + deepest:.2f} of their distance apart",
            remedy="draw the tangle with more room between its cords",
        )


def _settle(mesh: Mesh, state: State, stage: Stage) -> tuple[State, float, int]:
    """Newton steps at one stiffness until the energy no longer falls."""
    maps = landings(mesh, state)
    state = symmetrised(mesh, state, maps)
    pairs, slack = near_pairs(mesh, state, MARGIN), MARGIN
    damping, fall, values = 1.0, np.inf, deque[float](maxlen=WATCHED)
    for step in range(stage.steps):
        terms = expand(mesh, state, pairs, stage.stiffness)
        if len(values) == WATCHED:
            fall = values[0] - terms.value
            if fall < stage.settled:
                return state, fall, step
        values.append(terms.value)
        trial, value = state, np.inf
        for _ in range(14):
            trial = symmetrised(mesh, _stepped(mesh, state, terms, damping), maps)
            value = energy(mesh, trial, pairs, stage.stiffness)
            if value < terms.value + 1e-9:
                break
            damping = min(damping * 4.0, 1e8)
        else:
            # No step lowers the energy any more: contacts only trade places at rounding level.
            return state, 0.0, step
        if passes(mesh, state, trial, pairs):
            damping *= 16.0
            if damping > 1e8:
                raise TighteningError(
                    "a cord would pass through another while the knot is tightened",
                    remedy="draw the tangle with more room between its cords",
                )
            continue
        damping = max(damping * 0.35, 1e-6)
        slack -= 2.0 * _farthest(state, trial)
        state = trial
        if slack < 0.1:
            pairs, slack = near_pairs(mesh, state, MARGIN), MARGIN
    return state, fall, stage.steps


def _farthest(before: State, after: State) -> float:
    moved = float(np.linalg.norm(after.x - before.x, axis=1).max())
    # Copies in far cells move with the period and the twist as well.
    reach = 4.0 * abs(after.period - before.period) + 4.0 * abs(after.twist - before.twist)
    return moved + reach


def _stepped(mesh: Mesh, state: State, terms: Terms, damping: float) -> State:
    """One damped step, shortened to the longest move allowed."""
    j = terms.jacobian
    size = j.shape[1]
    live = np.append(mesh.free.ravel(), [True, True])
    weight = np.where(live, damping, 1.0)
    matrix = (j.T @ j + diags(weight + 1e-9)).tocsc()
    lu = splu(
        matrix,
        permc_spec="MMD_AT_PLUS_A",
        diag_pivot_thresh=0.0,
        options={"SymmetricMode": True},
    )
    step = -lu.solve(terms.gradient)
    dx = step[: size - 2].reshape(-1, 3)
    longest = max(
        float(np.linalg.norm(dx, axis=1).max()),
        abs(float(step[-2])),
        abs(float(step[-1])),
    )
    cut = min(1.0, LONGEST_MOVE / max(longest, 1e-12))
    return State(
        state.x + cut * dx,
        state.period + cut * float(step[-2]),
        state.twist + cut * float(step[-1]),
    )


def _measured(mesh: Mesh, state: State, fall: float, steps: int) -> Tight:
    pairs = near_pairs(mesh, state, 0.1)
    gap, _ = contacts(mesh, pairs, closest(mesh, state, pairs))
    return Tight(
        mesh=mesh,
        state=state,
        lengths=course_lengths(mesh, state),
        overlap=float(max(0.0, -gap.min(initial=0.0))),
        sharpest=_sharpest(mesh, state),
        fall=fall,
        asymmetry=asymmetry(mesh, state),
        steps=steps,
    )


def _sharpest(mesh: Mesh, state: State) -> float:
    a, b = edge_ends(mesh, state)
    d = b - a
    length = np.linalg.norm(d, axis=1)
    t = d / length[:, None]
    e1, e2 = mesh.corner[:, 0], mesh.corner[:, 1]
    if not len(e1):
        return 0.0
    t2 = turn(t[e2], mesh.edge_image[e1] * state.twist)
    bend = np.linalg.norm(t2 - t[e1], axis=1) / (0.5 * (length[e1] + length[e2]))
    return float((0.5 * mesh.diameter[e1] * bend).max())
