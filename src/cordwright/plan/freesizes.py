"""The sizes that a plan leaves free: those with a bound that are not sums over others."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from cordwright.plan.sizes import resolve_sizes
from cordwright.units.form import Form

if TYPE_CHECKING:
    from cordwright.plan.model import Plan
    from cordwright.plan.sizes import Sizes
    from cordwright.plan.sums import Sum


@dataclass(frozen=True, slots=True)
class FreeSize:
    """A size that may be changed.

    Args:
        name: its name.
        value: as planned, mm or a count.
        least: the least it may be, in the same; None if the plan has no such bound.
        most: the most it may be; None if the plan has no such bound.
        count: whether it is a count.
    """

    name: str
    value: float
    least: float | None
    most: float | None
    count: bool


def free_sizes(plan: Plan) -> tuple[FreeSize, ...]:
    """The free sizes of a plan, in its order."""
    sizes = resolve_sizes(plan)
    return tuple(
        FreeSize(
            name,
            sizes.mm(name),
            _worth(spec.at_least, sizes),
            _worth(spec.at_most, sizes),
            not isinstance(sizes.env[name], Form),
        )
        for name, spec in plan.sizes.items()
        if not spec.value.names and (spec.at_least is not None or spec.at_most is not None)
    )


def _worth(bound: Sum | None, sizes: Sizes) -> float | None:
    if bound is None:
        return None
    amount = bound.evaluate(sizes.env, sizes.values)
    return amount.at(sizes.values) if isinstance(amount, Form) else float(amount)
