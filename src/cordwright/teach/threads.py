"""What an end does that is knotted on itself: which loop it makes, and when it goes through it.

Strands that are knotted together are taken as one: their middle line makes the same knot. Where
that line crosses itself, in the order in which its end comes there, is all that there is to tell.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, NamedTuple

import numpy as np

from cordwright.draw.crossings import crossings
from cordwright.draw.curves import at, lengths, part
from cordwright.draw.layers import Tube

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from cordwright.draw.tying import Step

    Floats = NDArray[np.float64]

SAMPLES = 600
"""Points of the middle line of several strands."""


class Own(NamedTuple):
    """One thing that the end does.

    Args:
        what: ``loop``: it closes the first loop; ``past``: it passes a part of itself that is not
            of that loop; ``into`` and ``out``: it crosses the loop's edge.
        front: whether it lies in front there.
    """

    what: Literal["loop", "past", "into", "out"]
    front: bool


def own_ways(steps: Sequence[Step]) -> list[list[Own]]:
    """What the end does in every step but the last, which draws up.

    Args:
        steps: pictures of a knot of strands that are knotted on themselves.
    """
    laid = steps[-2]  # there everything is shown from end to end
    line = _middle(laid.figure.tubes)
    first = laid.shown[0].end
    ends = [step.shown[0].end / first for step in steps[:-1]]
    met = _met(line)
    if len(met) == len(ends):  # the middle line may cross itself a little before or after the steps
        return [[own] for _, own in met]
    bounds = [0.0, *ends]
    return [
        [own for where, own in met if low < where <= high]
        for low, high in zip(bounds, ends, strict=False)
    ]


def _middle(tubes: Sequence[Tube]) -> Tube:
    """The middle line of all strands, each followed by the same shares of its length."""
    shares = np.linspace(0.0, 1.0, SAMPLES)
    lines = [at(t.points, shares * float(lengths(t.points)[-1])) for t in tubes]
    return tubes[0] if len(tubes) == 1 else Tube(np.mean(lines, axis=0), tubes[0].diameter)


def _met(line: Tube) -> list[tuple[float, Own]]:
    """Where a line comes to a part of itself that lies there, as a share of its length."""
    total = float(lengths(line.points)[-1])
    found = [
        (max(c.over_at, c.under_at), min(c.over_at, c.under_at), c.over_at > c.under_at)
        for c in crossings((line,))
    ]
    told: list[tuple[float, Own]] = []
    loop: tuple[float, float] | None = None
    inside = False
    for later, earlier, front in sorted(found):
        if loop is None:
            loop = (earlier, later)
            inside = _within(line, loop, later)
            what: Literal["loop", "past", "into", "out"] = "loop"
        elif loop[0] < earlier < loop[1]:
            what = "out" if inside else "into"
            inside = not inside
        else:
            what = "past"
        told.append((later / total, Own(what, front)))
    return told


def _within(line: Tube, loop: tuple[float, float], where: float) -> bool:
    """Whether the line is within its loop just after it has closed it, as the page shows it."""
    ring = part(line.points, *loop)[:, :2]
    x, y = at(line.points, np.array([where + 0.2]))[0, :2]
    (x0, y0), (x1, y1) = ring.T, np.roll(ring, -1, axis=0).T
    rises = (y0 > y) != (y1 > y)
    beyond = x < x0 + (y - y0) * (x1 - x0) / np.where(rises, y1 - y0, 1.0)
    return bool(np.count_nonzero(rises & beyond) % 2)
