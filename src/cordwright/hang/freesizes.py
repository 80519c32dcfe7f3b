"""The named sizes that a plan leaves free: those with bounds, lengths and counts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from cordwright.plan.sizes import resolve_sizes
from cordwright.units.form import Form

if TYPE_CHECKING:
    from cordwright.piece.model import Piece
    from cordwright.plan.model import Plan
    from cordwright.plan.sums import Amount, Sum

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
    sizes = resolve_sizes(plan)
    net = {
        symbol
        for strand in piece.strands
        for stop in strand.course
        if piece.knots[stop.knot].shape == "round" and stop.asked
        for symbol, k in stop.free.terms.items()
        if k
    }
    found = []
    for name, spec in plan.sizes.items():
        if (spec.at_least is None and spec.at_most is None) or spec.value.names:
            continue
        now = sizes.mm(name)
        least = _worth(spec.at_least, sizes.env, sizes.values) if spec.at_least else 0.0
        most = _worth(spec.at_most, sizes.env, sizes.values) if spec.at_most else WIDEST * now
        count = not isinstance(sizes.env[name], Form)
        found.append(Free(name, now, least, max(most, now), count, f"s:{name}" in net))
    return tuple(found)


def _worth(bound: Sum, env: Mapping[str, Amount], values: Mapping[str, float]) -> float:
    amount = bound.evaluate(env, values)
    return amount.at(values) if isinstance(amount, Form) else float(amount)
