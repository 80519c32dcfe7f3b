"""The named sizes that a plan leaves free, and how they may be changed to fit a vessel."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from cordwright.plan import freesizes

if TYPE_CHECKING:
    from cordwright.piece.model import Piece
    from cordwright.plan.model import Plan

WIDEST = 3.0
"""How many times its value a size without an upper bound may become."""


@dataclass(frozen=True, slots=True)
class Free:
    """A size that may be changed.

    Args:
        name: its name.
        value: in mm, or a count.
        least: its lower bound, in the same.
        most: its upper bound.
        count: whether it is a count.
        net: whether it sets free cord of the net, or how many knots that has.
    """

    name: str
    value: float
    least: float
    most: float
    count: bool
    net: bool

    @property
    def span(self) -> float:
        """Between its bounds."""
        return max(self.most - self.least, 1e-9)

    def text(self, value: float) -> str:
        """A value as it stands in a plan: whole counts, lengths to the mm in cm."""
        return str(round(value)) if self.count else f"{round(value) / 10:g} cm"

    def bounded(self, value: float) -> float:
        """The nearest value within the bounds; lengths to the mm, counts whole."""
        return min(max(float(round(value)), self.least), self.most)


def free_sizes(plan: Plan, piece: Piece) -> tuple[Free, ...]:
    """The free sizes of a plan, in its order.

    Args:
        plan: the plan.
        piece: the same plan, worked.
    """
    net = {
        symbol
        for strand in piece.strands
        for stop in strand.course
        if piece.knots[stop.knot].shape == "round" and stop.asked
        for symbol, k in stop.free.terms.items()
        if k
    }
    found = []
    for size in freesizes.free_sizes(plan):
        least = 0.0 if size.least is None else size.least
        most = WIDEST * size.value if size.most is None else size.most
        wide = max(most, size.value)
        in_net = f"s:{size.name}" in net
        found.append(Free(size.name, size.value, least, wide, size.count, in_net))
    return tuple(found)
