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
from cordwright.hang.linkage import linkage, same_links
from cordwright.hang.stepping import (
    Contacts,
    Rig,
    begun,
    energy,
    names,
    residual,
    resumed,
    stepped,
)

if TYPE_CHECKING:
    from cordwright.hang.frame import Floats, Frame, Ints, Points
    from cordwright.hang.linkage import Linkage
    from cordwright.hang.slack import Slack
    from cordwright.hang.stepping import State

__all__ = ["BALANCED", "COLD", "Begin", "Contacts", "Settled", "settle"]

BALANCED = 1e-4
"""Largest force out of balance at any node, against all weight, at which a shape has settled."""

FINE = 1e-6
"""The same where it stops at once; once it has settled, one more step comes nearer to that."""

FINER_STEPS = 1

MOST_STEPS = 100
"""Steps from each beginning at most."""


@dataclass(frozen=True, slots=True)
class Settled:
    """A frame at rest, or as near to it as the steps allowed.

    Args:
        frame: what hangs.
        links: its differences.
        x: (n, 3) float, mm.
        rest: (s,) float, mm, lengths of its spans.
        stiffness: of knots and contact, N/mm, and of cord that does not stretch.
        holds: slack and force of its cords and contacts.
        names: (c,) int, of its contacts.
        residual: largest force out of balance against all weight.
        steps: steps taken.
    """

    frame: Frame
    links: Linkage
    x: Points
    rest: Floats
    stiffness: float
    holds: Slack
    names: Ints
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

NEAR = 1e-6
"""Product of force and slack for a start that is nearly at rest, against all weight and its
residual, mm: the further from rest, the more loosely. Found by trial on small changes of
planters."""

NEAREST, FARTHEST = 1e-3, 10.0
"""Least and most residual for which that is taken."""


def settle(
    frame: Frame,
    rest: Floats,
    contacts: Contacts,
    start: Points,
    after: Settled | None = None,
) -> Settled:
    """Let a frame come to rest.

    Args:
        frame: what hangs.
        rest: (s,) float, mm, lengths of its spans.
        contacts: gives the contacts about a position.
        start: (n, 3) float, mm, where to begin.
        after: a frame of the same nodes, knots and spans at rest, if the start is close to that:
            then it is tried from there only, with its forces.
    """
    load = float(frame.weight.sum()) or 1.0
    pull = Pull(rest, STIFF * load, rest * frame.spans.give)
    known = after is not None and same_links(frame, after.frame)
    links = after.links if after is not None and known else linkage(frame, contacts(frame, start))
    rig = Rig(frame, pull, contacts, links, np.flatnonzero(~pull.joint), load)
    if after is not None:
        return _attempt(rig, _close(rig, start, after))[0]
    steps, lowest, found = 0, np.inf, None
    for begin in COLD:
        mu = begin.force * load / np.sqrt(max(1, len(rig.taut)))
        tried, value = _attempt(rig, begun(rig, start, mu, begin.slack))
        steps += tried.steps
        # What does not come to rest ends where it has fallen furthest.
        if found is None or tried.balanced or value < lowest:
            found, lowest = tried, value
        if found.balanced:
            break
    assert found is not None  # noqa: S101 - there are several beginnings
    return replace(found, steps=steps)


def _close(rig: Rig, start: Points, after: Settled) -> State:
    """The state at a start close to where a frame came to rest."""
    state = begun(rig, start, NEAR * rig.load, np.sqrt(NEAR / STIFF))
    off = float(np.clip(residual(rig, state), NEAREST, FARTHEST))
    before, load = after.holds, float(after.frame.weight.sum()) or 1.0
    before = replace(before, force=before.force * (rig.load / load))
    return resumed(rig, state, before, after.names, NEAR * off * rig.load)


def _attempt(rig: Rig, state: State) -> tuple[Settled, float]:
    """From one beginning: where it rests or else ended, and the energy there, N mm."""
    best, least, step, most = state, np.inf, 0, MOST_STEPS
    while True:
        left = residual(rig, state)
        if left < BALANCED <= least:
            most = min(most, step + FINER_STEPS)
        if left < least or least >= BALANCED:
            best, least = state, left
        after = stepped(rig, state) if least > FINE and step < most else None
        if after is None:
            break
        state, step = after, step + 1
    found = Settled(
        rig.frame,
        rig.links,
        best.x,
        rig.pull.rest,
        rig.pull.stiffness,
        best.holds,
        names(rig, best.touching),
        least,
        step,
    )
    return found, energy(rig, best)
