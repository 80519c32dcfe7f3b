"""The plan's named sizes, worked out: lengths as linear forms, counts as numbers."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from graphlib import CycleError, TopologicalSorter
from typing import TYPE_CHECKING

from cordwright.errors import Place, PlanError
from cordwright.plan.sums import Amount, Sum, count, kind, length
from cordwright.units.form import Form

if TYPE_CHECKING:
    from cordwright.plan.model import Plan, SizeSpec


@dataclass(frozen=True, slots=True)
class Sizes:
    """What every name is worth.

    Args:
        env: name to its amount. A size that is a length written without names is a base length
            and stands for itself: ``Form(0, {"s:arm": 1})``. Other lengths are combinations of
            those; counts are numbers.
        values: value in mm of each symbol ``s:NAME`` of a base length.

    """

    env: Mapping[str, Amount]
    values: Mapping[str, float]

    def mm(self, name: str) -> float:
        """A named length in mm, or a named count."""
        amount = self.env[name]
        return amount.at(self.values) if isinstance(amount, Form) else amount


def resolve_sizes(plan: Plan, overrides: Mapping[str, str] | None = None) -> Sizes:
    """Work out the plan's sizes.

    Args:
        plan: the plan.
        overrides: sizes that are to be different, as written: ``{"arm": "40 cm"}``. They may be
            sums over other sizes.

    Raises:
        PlanError: a circle of sizes, an unknown name, a kind that does not fit, a size outside
            its bounds, or a sum that cannot be worked out.

    """
    specs = dict(plan.sizes)
    for name, text in (overrides or {}).items():
        specs[name] = _overridden(name, text, specs)
    env: dict[str, Amount] = {}
    values: dict[str, float] = {}
    for name in _in_order(specs):
        amount = _worked_out(specs[name].value, env, values)
        if isinstance(amount, Form) and not specs[name].value.names:
            symbol = f"s:{name}"
            values[symbol] = amount.mm
            amount = Form(0.0, {symbol: 1.0})
        env[name] = amount
    for name, spec in specs.items():
        _check_bounds(name, spec, env, values)
    return Sizes(env, values)


def _overridden(name: str, text: str, specs: Mapping[str, SizeSpec]) -> SizeSpec:
    place = Place(f"<size {name}>", 1, 1)
    if name not in specs:
        near = get_close_matches(name, specs, 1)
        known = ", ".join(list(specs)[:12])
        raise PlanError(
            f"The plan has no size called '{name}'.",
            remedy=f"did you mean {near[0]}?" if near else f"it has {known or 'no sizes at all'}",
        )
    return specs[name].model_copy(update={"value": Sum.parse(text, place)})


def _in_order(specs: Mapping[str, SizeSpec]) -> Iterable[str]:
    """Names so that every size comes after those that it uses."""
    graph = {name: spec.value.names & specs.keys() for name, spec in specs.items()}
    try:
        return tuple(TopologicalSorter(graph).static_order())
    except CycleError as error:
        circle = list(reversed(error.args[1]))
        shown = " uses ".join(circle[:6]) + (" uses …" if len(circle) > 6 else "")
        raise PlanError(
            f"The sizes go round in a circle: {shown}.",
            remedy=f"give {circle[0]} a length or count of its own",
            place=specs[circle[0]].value.place,
        ) from None


def _worked_out(value: Sum, env: Mapping[str, Amount], values: Mapping[str, float]) -> Amount:
    amount = value.evaluate(env, values)
    if isinstance(amount, Form):
        return length(value, env, values)
    if amount < 0 or amount > 1e6:
        count(value, env, values)  # says what is allowed
    return amount


def _check_bounds(
    name: str, spec: SizeSpec, env: Mapping[str, Amount], values: Mapping[str, float]
) -> None:
    here = env[name]
    for bound, word in ((spec.at_least, "at least"), (spec.at_most, "at most")):
        if bound is None:
            continue
        limit = bound.evaluate(env, values)
        if isinstance(limit, Form) != isinstance(here, Form):
            raise PlanError(
                f"The size '{name}' is {kind(here)}, "
                f"but its bound '{bound.text}' is {kind(limit)}.",
                remedy="give both a unit, or neither",
                place=bound.place,
            )
        over = _worth(here, values) - _worth(limit, values)
        if (over < -1e-9) if word == "at least" else (over > 1e-9):
            raise PlanError(
                f"The size '{name}' is {spec.value.text}, but it must be {word} {bound.text}.",
                remedy="choose a size within its bounds, or change the bounds in the plan",
                place=spec.value.place,
            )


def _worth(amount: Amount, values: Mapping[str, float]) -> float:
    return amount.at(values) if isinstance(amount, Form) else amount
