"""Letting a frame settle: interior-point steps until forces balance.

Slack cord that comes taut is a kink, on which Newton steps change sides for ever; so it is rounded
off by a product of force and slack that falls from step to step (`cordwright.hang.stepping`). The
number of steps, some twenty to eighty, hardly grows with the size of the piece.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from cordwright.hang.forces import STIFF, Pull
from cordwright.hang.linkage import linkage
from cordwright.hang.stepping import Contacts, Rig, begun, energy, residual, stepped

if TYPE_CHECKING:
    from cordwright.hang.frame import Floats, Frame, Points
    from cordwright.hang.stepping import State

__all__ = ["BALANCED", "COLD", "NEAR", "Begin", "Contacts", "Settled", "settle"]

BALANCED = 1e-4
"""Largest force out of balance at any node, against all weight, at which a shape has settled."""

FINE = 1e-6
"""The same where it stops at once; once it has settled, a few more steps come near that."""

FINER_STEPS = 3

MOST_STEPS = 100
"""Steps from each beginning at most."""


@dataclass(frozen=True, slots=True)
class Settled:
    """A frame at rest, or as near to it as the steps allowed.

    Args:
        frame: what hangs.
        x: (n, 3) float, mm.
        rest: (s,) float, mm, lengths of its spans.
        stiffness: of knots and contact, N/mm, and of cord that does not stretch.
        residual: largest force out of balance against all weight.
        steps: steps taken.
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


@dataclass(frozen=True, slots=True)
class Begin:
    """How loosely everything is held together at first.

    Args:
        force: pull of a cord a millimetre slack, against all weight over the root of the number of
            spans.
        slack: mm, least at first.
    """

    force: float
    slack: float


COLD = (Begin(10.0, 1.0), Begin(100.0, 1.0), Begin(1.0, 0.1))
"""Beginnings for a start as worked, the next where one does not come to rest."""

NEAR = (Begin(1e-4, 1e-4),)
"""For a start that is nearly at rest."""


def settle(
    frame: Frame,
    rest: Floats,
    contacts: Contacts,
    start: Points,
    begins: tuple[Begin, ...] = COLD,
) -> Settled:
    """Let a frame come to rest.

    Args:
        frame: what hangs.
        rest: (s,) float, mm, lengths of its spans.
        contacts: gives the contacts about a position.
        start: (n, 3) float, mm, where to begin.
        begins: how loosely to begin, one after the other until it comes to rest.
    """
    load = float(frame.weight.sum()) or 1.0
    pull = Pull(rest, STIFF * load, rest * frame.spans.give)
    rig = Rig(frame, pull, contacts, linkage(frame), np.flatnonzero(~pull.joint), load)
    found, steps, lowest = Settled(frame, start, rest, pull.stiffness, np.inf, 0), 0, np.inf
    for begin in begins:
        state, left, used = _attempt(rig, start, begin)
        steps += used
        # What does not come to rest ends where it has fallen furthest.
        value = energy(rig, state)
        if left < BALANCED or value < lowest:
            found, lowest = replace(found, x=state.x, residual=left), value
        if found.balanced:
            break
    return replace(found, steps=steps)


def _attempt(rig: Rig, start: Points, begin: Begin) -> tuple[State, float, int]:
    """From one beginning: where it rests or else ended, the residual there and the steps taken."""
    mu = begin.force * rig.load / np.sqrt(max(1, len(rig.taut)))
    state = begun(rig, start, mu, begin.slack)
    best, least, step, most = state, np.inf, 0, MOST_STEPS
    while True:
        left = residual(rig, state)
        if left < BALANCED <= least:
            most = min(most, step + FINER_STEPS)
        if left < least or least >= BALANCED:
            best, least = state, left
        after = stepped(rig, state) if least > FINE and step < most else None
        if after is None:
            return best, least, step
        state, step = after, step + 1
