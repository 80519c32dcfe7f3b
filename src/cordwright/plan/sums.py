"""Sums: lengths and counts that a plan writes as text, worked out safely.

A length comes out as a ``Form``, linear in the plan's named base lengths, a count as a number.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from cordwright.errors import Place, PlanError
from cordwright.plan.sumtree import (
    Binary,
    Call,
    Measure,
    Name,
    Negative,
    Node,
    Number,
    SumError,
    parse_tree,
    walk,
)
from cordwright.units.form import Form

Wanted = Literal["length", "count", "amount"]
"""What a key needs: a length, a whole number, or either."""
Amount = Form | float
"""What a sum comes to: a length (``Form``, mm) or a pure number."""

MOST_MM = 1_000_000.0
"""The longest length a plan may use: 1 km, in mm (docs/plan-format.md, Bounds)."""
MOST_COUNT = 200_000
"""The largest count a plan may use (docs/plan-format.md, Bounds)."""
_MOST_VALUE = 1e12  # beyond any bound of the format, far from where floats lose whole numbers
_NO_VALUES: Mapping[str, float] = {}


@dataclass(frozen=True, slots=True)
class Sum:
    """A length or a count as written.

    Args:
        text: as it stands in the plan.
        tree: what it means.
        place: where the text starts; not part of equality.
        wants: what the key it stands at needs; not part of equality.

    """

    text: str
    tree: Node = field(repr=False, compare=False)
    place: Place | None = field(default=None, repr=False, compare=False)
    wants: Wanted = field(default="amount", repr=False, compare=False)

    @classmethod
    def parse(cls, text: str, place: Place | None = None, wants: Wanted = "amount") -> Sum:
        """Read a sum.

        Raises:
            PlanError: it cannot be read.

        """
        place = _moved(place, len(text) - len(text.lstrip()))
        text = text.strip()
        try:
            return cls(text, parse_tree(text), place, wants)
        except SumError as error:
            shown = text if len(text) <= 60 else text[:60] + "…"
            what = f"'{shown}' cannot be read. {error.what}" if shown else "A value is missing."
            raise PlanError(what, remedy=error.remedy, place=_moved(place, error.at)) from None

    @property
    def names(self) -> frozenset[str]:
        """The names it uses."""
        return frozenset(n.name for n in walk(self.tree) if isinstance(n, Name))

    def evaluate(
        self, env: Mapping[str, Amount], values: Mapping[str, float] = _NO_VALUES
    ) -> Amount:
        """Work it out.

        Args:
            env: value of each name: a number, or a length in mm.
            values: value in mm of each symbol that the lengths in ``env`` use; needed by
                ``min``, ``max`` and rounding, which choose by value.

        Raises:
            PlanError: unknown name, kinds that do not go together, division by zero, too large.

        """
        try:
            return _value(self.tree, env, values)
        except SumError as error:
            raise PlanError(
                f"'{self.text}' cannot be worked out. {error.what}",
                remedy=error.remedy,
                place=_moved(self.place, error.at),
            ) from None


def _moved(place: Place | None, by: int) -> Place | None:
    if place is None or place.column is None:
        return place
    return Place(place.file, place.line, place.column + by)


def kind(amount: Amount) -> str:
    """``a length`` or ``a number``, for messages."""
    return "a length" if isinstance(amount, Form) else "a number"


def _bounded(amount: Amount, at: int) -> Amount:
    parts = (amount.mm, *amount.terms.values()) if isinstance(amount, Form) else (amount,)
    if not all(math.isfinite(p) and abs(p) <= _MOST_VALUE for p in parts):
        raise SumError("It becomes far too large.", "check the numbers in the sum", at)
    return amount


def _value(node: Node, env: Mapping[str, Amount], values: Mapping[str, float]) -> Amount:
    match node:
        case Number(value=value):
            return value
        case Measure(mm=mm):
            return Form(mm)
        case Name(name=name, at=at):
            return _named(name, at, env)
        case Negative(part=part):
            return _value(part, env, values) * -1.0
        case Binary(left=left, right=right, at=at):
            return _bounded(
                _binary(node, _value(left, env, values), _value(right, env, values), values), at
            )
        case Call(parts=parts, at=at):
            amounts = [_value(p, env, values) for p in parts]
            return _bounded(_call(node, amounts, values), at)


def _named(name: str, at: int, env: Mapping[str, Amount]) -> Amount:
    if name in env:
        return env[name]
    from difflib import get_close_matches

    near = get_close_matches(name, env, 1)
    if near:
        remedy = f"did you mean {near[0]}?"
    else:
        known = ", ".join(sorted(env)[:12])
        remedy = f"names that are known here: {known}" if known else "define it under sizes"
    raise SumError(f"'{name}' is not a name that is known here.", remedy, at)


def _at_value(amount: Amount, values: Mapping[str, float]) -> float:
    return amount.at(values) if isinstance(amount, Form) else amount


def _alike(
    nodes: tuple[Node, ...], amounts: list[Amount], doing: str, at: int
) -> list[Form] | list[float]:
    """The amounts as all lengths or all numbers; a plain written 0 goes with either."""
    if any(isinstance(a, Form) for a in amounts):
        forms = []
        for node, amount in zip(nodes, amounts, strict=True):
            if isinstance(amount, Form):
                forms.append(amount)
            elif isinstance(node, Number) and node.value == 0:
                forms.append(Form())
            else:
                kinds = [kind(a) for a in amounts]
                raise SumError(
                    f"{doing} {' and '.join(kinds)} do not go together.",
                    "give both a unit, or neither",
                    at,
                )
        return forms
    return [a for a in amounts if not isinstance(a, Form)]


def _binary(node: Binary, left: Amount, right: Amount, values: Mapping[str, float]) -> Amount:
    operator, at = node.operator, node.at
    if operator in ("+", "-"):
        pair = _alike((node.left, node.right), [left, right], f"With '{operator}',", at)
        first, second = pair
        if isinstance(first, Form) and isinstance(second, Form):
            return first + second if operator == "+" else first - second
        return _number(first) + _number(second) * (1.0 if operator == "+" else -1.0)
    if operator == "*":
        if isinstance(left, Form) and isinstance(right, Form):
            raise SumError(
                "A length times a length is not a length.", "multiply a length by a number", at
            )
        if isinstance(right, Form):
            return right * _number(left)
        return left * right
    return _divided(operator, left, right, values, at)


def _divided(
    operator: str, left: Amount, right: Amount, values: Mapping[str, float], at: int
) -> Amount:
    if _at_value(right, values) == 0.0:
        raise SumError("It divides by zero.", "check what stands behind the /", at)
    if operator == "/":
        if not isinstance(right, Form):
            return left * (1.0 / right)
        if isinstance(left, Form):
            return left.at(values) / right.at(values)
        raise SumError(
            "A number divided by a length has no meaning here.", "divide a length by a length", at
        )
    if isinstance(left, Form) or isinstance(right, Form):
        raise SumError(
            f"'{operator}' works on numbers, not on {kind(left)} and {kind(right)}.",
            "use / and floor(length, step) with lengths",
            at,
        )
    return left // right if operator == "//" else left % right


def _number(amount: Amount) -> float:
    if isinstance(amount, Form):  # pragma: no cover - callers have sorted the kinds
        raise TypeError("a length where a number was sorted out")
    return amount


def _call(node: Call, amounts: list[Amount], values: Mapping[str, float]) -> Amount:
    function, at = node.function, node.at
    alike = _alike(node.parts, amounts, f"In {function}(…),", at)
    if function in ("min", "max"):
        worth = [_at_value(a, values) for a in alike]
        return alike[worth.index(min(worth) if function == "min" else max(worth))]
    if len(alike) == 1:
        if isinstance(alike[0], Form):
            raise SumError(
                f"{function} of a length needs to know to what.", f"write {function}(arm, 1 cm)", at
            )
        step = 1.0
    else:
        step = _at_value(alike[1], values)
        if not step > 0.0:
            raise SumError(f"The step of {function} is not above zero.", "write 1 cm", at)
    steps = _bounded(_at_value(alike[0], values) / step, at)
    rounded = _ROUNDED[function](_number(steps)) * step
    return Form(rounded) if isinstance(alike[0], Form) else rounded


_NEARLY = 1e-9  # 3 * (1 / 3) and the like count as the whole number they miss by rounding
_ROUNDED = {
    "round": lambda x: math.floor(x + 0.5 + _NEARLY),
    "floor": lambda x: math.floor(x + _NEARLY),
    "ceil": lambda x: math.ceil(x - _NEARLY),
}


def length(asked: Sum, env: Mapping[str, Amount], values: Mapping[str, float] = _NO_VALUES) -> Form:
    """A length between 0 and 1 km, in mm, linear in the symbols of ``env``.

    Raises:
        PlanError: it is a number other than 0, below zero, above 1 km, or cannot be worked out.

    >>> length(Sum.parse("2 * arm + 5 mm"), {"arm": Form(0.0, {"s:arm": 1.0})}, {"s:arm": 350.0})
    Form(mm=5.0, terms={'s:arm': 2.0})

    """
    amount = asked.evaluate(env, values)
    if not isinstance(amount, Form):
        if amount == 0.0:
            return Form()
        raise PlanError(
            f"'{asked.text}' is a number, and a length is needed here.",
            remedy=f"add a unit, for example {asked.text if not asked.names else '5'} cm",
            place=asked.place,
        )
    mm = amount.at(values)
    if mm < -1e-9:
        raise PlanError(
            f"'{asked.text}' comes to {mm:.4g} mm, which is below zero.",
            remedy="lengths start at 0; check the sizes it uses, or write max(0, …)",
            place=asked.place,
        )
    if mm > MOST_MM:
        raise PlanError(
            f"'{asked.text}' comes to {mm / 1000:.4g} m; 1 km is the most.",
            remedy="check its unit",
            place=asked.place,
        )
    return amount


def count(
    asked: Sum,
    env: Mapping[str, Amount],
    values: Mapping[str, float] = _NO_VALUES,
    *,
    least: int = 0,
    most: int = MOST_COUNT,
) -> int:
    """A whole number from ``least`` to ``most``.

    Raises:
        PlanError: it is a length, not whole, out of bounds, or cannot be worked out.

    >>> count(Sum.parse("2 * rows - 1"), {"rows": 6.0})
    11

    """
    amount = asked.evaluate(env, values)
    if isinstance(amount, Form):
        raise PlanError(
            f"'{asked.text}' is a length, and a whole number is needed here.",
            remedy="write a number without a unit",
            place=asked.place,
        )
    if abs(amount - round(amount)) > 1e-6:
        raise PlanError(
            f"'{asked.text}' comes to {amount:.6g}, which is not a whole number."
            if asked.names
            else f"'{asked.text}' is not a whole number.",
            remedy=f"write {round(amount)}, or round(…), floor(…) or ceil(…) around the sum",
            place=asked.place,
        )
    whole = round(amount)
    if not least <= whole <= most:
        raise PlanError(
            f"'{asked.text}' comes to {whole:,}; it must be from {least:,} to {most:,}.",
            remedy="check the numbers it is made of",
            place=asked.place,
        )
    return whole
