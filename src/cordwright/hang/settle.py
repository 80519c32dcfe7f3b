"""Letting a frame settle: damped Newton steps until forces balance.

The stiffness is positive semidefinite at every step, so a little damping (Levenberg 1944) makes it
definite whatever still dangles; SuperLU solves it. Contacts
are taken anew at every step.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from scipy.sparse import diags
from scipy.sparse.linalg import splu

from cordwright.hang.forces import STIFF, Pull, Terms, energy, expand

if TYPE_CHECKING:
    from cordwright.hang.frame import Floats, Frame, Points
    from cordwright.hang.touching import Touching

Contacts = Callable[["Frame", "Points"], "Touching"]

BALANCED = 1e-4
"""Largest force out of balance at any node, against all weight, at which a shape has settled."""

MOST_STEPS = 120
"""Newton steps in each stage at most."""

LONGEST = 30.0
"""Longest move of a node in one step, mm."""


@dataclass(frozen=True, slots=True)
class Settled:
    """A frame at rest, or as near to it as the steps allowed.

    Args:
        frame: what hangs.
        x: (n, 3) float, mm.
        rest: (s,) float, mm, lengths of its spans.
        stiffness: of knots and contact, N/mm, and of cord that does not stretch.
        residual: largest force out of balance against all weight.
        steps: Newton steps taken.
    """

    frame: Frame
    x: Points
    rest: Floats
    stiffness: float
    residual: float
    steps: int

    @property
    def pull(self) -> Pull:
        """What makes its spans pull."""
        return Pull(self.rest, self.stiffness, self.rest * self.frame.spans.give)

    @property
    def balanced(self) -> bool:
        """Whether the forces balance."""
        return self.residual < BALANCED


STAGES = ((0.01, 1e-2), (0.1, 1e-2), (1.0, BALANCED))
"""Shares of the full stiffness, and the residual at which the next stage begins: soft cord lets
knots turn and slack come out in long steps, stiff cord makes lengths true."""


SOFTER = ((0.001, 3e-4), (0.01, 3e-4), (0.1, 3e-4), (1.0, BALANCED))
"""The same for pieces that hold nothing and did not settle: begun softer, large panels do. What is
held would fall through cord as soft as that."""

NEAR = STAGES[-1:]
"""Stages for a start that is nearly at rest: the full stiffness alone."""


def settle(
    frame: Frame,
    rest: Floats,
    contacts: Contacts,
    start: Points,
    stages: tuple[tuple[float, float], ...] = STAGES,
) -> Settled:
    """Let a frame come to rest.

    Args:
        frame: what hangs.
        rest: (s,) float, mm, lengths of its spans.
        contacts: gives the contacts about a position.
        start: (n, 3) float, mm, where to begin.
        stages: shares of the full stiffness, the last one 1, and where each is left.
    """
    x, steps, residual = start.copy(), 0, np.inf
    load = float(frame.weight.sum()) or 1.0
    for share, enough in stages:
        pull = Pull(rest, share * STIFF * load, rest * frame.spans.give)
        x, residual, used = _stage(frame, pull, contacts, x, enough * load)
        steps += used
    return Settled(frame, x, rest, STIFF * load, residual / load, steps)


def _stage(
    frame: Frame, pull: Pull, contacts: Contacts, x: Points, enough: float
) -> tuple[Points, float, int]:
    """Steps at one stiffness; gives the position, the force left (N) and the steps taken."""
    damping, step = 1e-4 * pull.stiffness, 0
    while True:
        touching = contacts(frame, x)
        terms = expand(frame, x, pull, touching)
        force = float(np.abs(terms.gradient).max())
        if force < enough or step == MOST_STEPS:
            return x, force, step
        found = _lower(frame, x, pull, touching, terms, damping)
        if found is None:
            return x, force, step
        x, damping = found
        step += 1


SHARES = (1.0, 0.5, 0.2, 0.05)
"""Shares of a step that are tried before it is damped more: slack cord that comes taut is a kink
in the stiffness, which a shorter step stays on this side of."""


def _lower(
    frame: Frame,
    x: Points,
    pull: Pull,
    touching: Touching,
    terms: Terms,
    damping: float,
) -> tuple[Points, float] | None:
    """A position of less energy and the damping to go on with; None if there is none."""
    least = 1e-6 * pull.stiffness
    for _ in range(8):
        step = _step(frame, terms, damping)
        for share in SHARES:
            trial = _swung(frame, x, share * step)
            if energy(frame, trial, pull, touching) < terms.value:
                return trial, max(damping * (0.1 if share == 1.0 else 1.0), least)
        damping = 30.0 * damping
    return None


def _swung(frame: Frame, x: Points, step: Points) -> Points:
    """The position after a step, in which knots that turn keep the height that the step gives them.

    A straight step makes a turning bar longer, by the square of its turn, which the stiffness of a
    bar would punish: steps would have to be tiny.
    """
    bars, moved = frame.bars, x + step
    before = x[bars.top] - x[bars.bottom]
    size = np.maximum(np.linalg.norm(before, axis=1), 1e-9)
    change = step[bars.top] - step[bars.bottom]
    meant = size + np.einsum("ij,ij->i", before, change) / size
    after = before + change
    length = np.maximum(np.linalg.norm(after, axis=1), 1e-9)
    fix = 0.5 * after * (meant / length - 1.0)[:, None]
    free = frame.free[bars.top, 0] & frame.free[bars.bottom, 0]
    moved[bars.top[free]] += fix[free]
    moved[bars.bottom[free]] -= fix[free]
    return moved


def _step(frame: Frame, terms: Terms, damping: float) -> Points:
    live = frame.free.ravel()
    keep = np.flatnonzero(live)
    j = terms.jacobian[:, keep]
    matrix = (j.T @ j + diags(np.full(len(keep), damping))).tocsc()
    lu = splu(
        matrix,
        permc_spec="MMD_AT_PLUS_A",
        diag_pivot_thresh=0.0,
        options={"SymmetricMode": True},
    )
    step = np.zeros(len(live))
    step[keep] = -lu.solve(terms.gradient[keep])
    dx = step.reshape(-1, 3)
    # Node by node: something that dangles must not hold up all the rest.
    far = np.linalg.norm(dx, axis=1)
    short: Points = dx * np.minimum(1.0, LONGEST / np.maximum(far, 1e-12))[:, None]
    return short
