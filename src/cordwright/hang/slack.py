"""What pulls only when taut, or pushes only when pressed: slack and force, neither below nothing.

A cord is taut and pulls, or it is slack and does not: ``force * slack = 0``. Solved as it stands
that is a kink, on which Newton steps change sides for ever. So ``force * slack = mu`` is solved,
with mu falling to nothing (a primal-dual interior-point method: J. Nocedal, S. J. Wright,
'Numerical Optimization', chapter 19; from memory, unchecked): every step is smooth, and the number
of steps hardly grows with the number of cords. ``over + slack = force / stiffness`` holds at the
end; ``over`` is how much longer than its cord a span is, or how far a contact overlaps.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from cordwright.hang.frame import Floats, Ints

KEPT = 0.1
"""Least share of a slack that a correction for curved paths leaves."""

LEAST = 1e-12
"""Least slack, mm, and least force, N: above what rounding makes of nothing."""

TO_WALL = 0.995
"""Share of the way to the nearest wall, slack or force zero, that a step goes at most."""


@dataclass(frozen=True, slots=True)
class Slack:
    """Cords and contacts about a position.

    Args:
        stiffness: (r,) float, N/mm.
        slack: (r,) float, mm, above 0.
        force: (r,) float, N, above 0.
    """

    stiffness: Floats
    slack: Floats
    force: Floats

    def __len__(self) -> int:
        return len(self.slack)

    def part(self, rows: Ints) -> Slack:
        """Some of them."""
        return Slack(self.stiffness[rows], self.slack[rows], self.force[rows])

    @property
    def along(self) -> Floats:
        """(r,) float, N/mm: how stiff they are for a step."""
        found: Floats = self.stiffness * self.force / (self.stiffness * self.slack + self.force)
        return found

    def wanted(self, over: Floats, mu: float) -> Floats:
        """(r,) float, N: forces towards which a step goes if nothing moves."""
        return self.stiffness * (over + self.slack + self.shift(over, mu))

    def shift(self, over: Floats, mu: float) -> Floats:
        """(r,) float, mm: how slacks change in a step if nothing moves."""
        off = self.stiffness * (over + self.slack) - mu / self.slack
        found: Floats = -off / (self.stiffness + self.force / self.slack)
        return found

    def step(self, over: Floats, change: Floats, mu: float) -> tuple[Floats, Floats]:
        """((r,), (r,)): how slacks and forces change in a step that changes ``over`` so much."""
        rate = self.force / self.slack
        slack = self.shift(over, mu) - self.stiffness * change / (self.stiffness + rate)
        return slack, mu / self.slack - self.force - rate * slack

    def value(self, over: Floats, mu: float) -> float:
        """Energy that a step must lower, N mm."""
        drawn = over + self.slack
        walls = float(np.log(self.slack).sum())
        return 0.5 * float(self.stiffness @ drawn**2) - mu * walls


def opened(stiffness: Floats, over: Floats, mu: float, least: float) -> Slack:
    """Where force and slack begin: balanced with each other, and no nearer to nothing than given.

    Args:
        stiffness: (r,) float, N/mm.
        over: (r,) float, mm.
        mu: product of force and slack, N mm.
        least: slack, mm.
    """
    slack = 0.5 * (np.hypot(over, 2.0 * np.sqrt(mu / stiffness)) - over)
    slack = np.maximum(slack, least)
    return Slack(stiffness, slack, mu / slack)


def resumed(stiffness: Floats, before: Slack, mu: float) -> Slack:
    """Where force and slack begin near a rest: what pulled there pulls as much.

    Args:
        stiffness: (r,) float, N/mm.
        before: at rest.
        mu: product of force and slack, N mm.
    """
    pulled = before.force > stiffness * before.slack
    loose = np.maximum(before.slack, np.sqrt(mu / stiffness))
    slack = np.where(pulled, mu / np.maximum(before.force, LEAST), loose)
    return Slack(stiffness, slack, np.where(pulled, before.force, mu / slack))


def farthest(value: Floats, change: Floats) -> float:
    """Share of a change, at most 1, that leaves every value above 0."""
    down = change < 0.0
    return float(min(1.0, TO_WALL * (-value[down] / change[down]).min(initial=np.inf)))


def moved(at: Slack, step: tuple[Floats, Floats], share: tuple[float, float]) -> Slack:
    """After shares of the changes of slack and of force."""
    force = np.maximum(at.force + share[1] * step[1], LEAST)
    return Slack(at.stiffness, np.maximum(at.slack + share[0] * step[0], LEAST), force)


def bent(straight: Slack, more: Floats) -> Slack:
    """Slack that makes up for curved paths.

    Args:
        straight: after a straight step.
        more: (r,) float, mm, by how much ``over`` came out above what the step meant it to be.
    """
    left = np.maximum(straight.slack - more, KEPT * straight.slack)
    return Slack(straight.stiffness, left, straight.force)


def chosen(new: NDArray[np.bool_], fresh: Slack, before: Slack, rows: Ints) -> Slack:
    """Rows of what was before, and fresh ones where they are new."""
    return Slack(
        fresh.stiffness,
        np.where(new, fresh.slack, before.slack[rows]),
        np.where(new, fresh.force, before.force[rows]),
    )


def same(before: Ints, now: Ints) -> Ints:
    """(c,) int: which of the names before each name now is; -1 where there was none such.

    The first of several equal names is the first of those before, the second the second.
    """
    if not len(before):
        return np.full(len(now), -1)
    known, wanted = _numbered(before), _numbered(now)
    order = np.argsort(known)
    place = np.searchsorted(known[order], wanted).clip(0, len(known) - 1)
    found: Ints = np.where(known[order][place] == wanted, order[place], -1)
    return found


def _numbered(names: Ints) -> Ints:
    """Names made different: the k-th of equal ones gets k."""
    order = np.argsort(names, kind="stable")
    inside = names[order]
    first = np.concatenate([[True], inside[1:] != inside[:-1]]) if len(names) else np.empty(0, bool)
    place = np.arange(len(names))
    number = np.empty(len(names), dtype=np.int64)
    number[order] = place - np.maximum.accumulate(np.where(first, place, 0))
    found: Ints = names * 64 + np.minimum(number, 63)
    return found
