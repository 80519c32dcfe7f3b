"""Places and groups: which strands a step works on, and how they fall into knots."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from cordwright.errors import Place, WorkError
from cordwright.plan.strands import places
from cordwright.plan.sums import count, length
from cordwright.units.form import Form

if TYPE_CHECKING:
    from cordwright.piece.model import Shape
    from cordwright.piece.state import State
    from cordwright.plan.strands import Places
    from cordwright.plan.sums import Amount, Sum

ZERO = Form()


class Groups(NamedTuple):
    """Strands cut into groups, from left to right.

    Args:
        groups: strands of each group.
        left_over: how many strands are left, too few for a group, skipped ones not counted.
    """

    groups: list[Sequence[int]]
    left_over: int


def strands_at(state: State, on: Places, step: Place | None) -> list[int]:
    """The strands at some places of the present view, in the order given.

    Raises:
        WorkError: if no strands are there.
        PlanError: if a place is out of range or named twice.
    """
    seen = state.view.strands
    if not seen:
        raise WorkError(
            "No strands are left to work on: all have ended.",
            remedy="put this step before the fringe or leave that ends them, or add cords",
            place=step,
        )
    found = list(seen)
    if on.runs:
        in_round = state.shape_of(state.view) == "round"
        found = [seen[i] for i in places(on, len(seen), state.env, in_round)]
    state.visit(len(found), step)
    return found


def shape_of(state: State, strands: Sequence[int]) -> Shape:
    """Round if these are all strands of a round, else flat."""
    return state.shape if len(strands) == len(state.views[0].strands) else "flat"


def number(
    state: State, asked: Sum, least: int = 0, env: Mapping[str, Amount] | None = None
) -> int:
    """A count of the plan, worked out with the names in force."""
    return count(asked, state.env if env is None else env, state.values, least=least)


def reach(state: State, asked: Sum) -> Form:
    """A length of the plan, worked out with the names in force; at least 0 and finite."""
    found = length(asked, state.env, state.values)
    return found if found.terms or found.mm else ZERO


def cut_into(
    strands: Sequence[int], each: int, skip: int, shape: Shape, step: Place | None
) -> Groups:
    """Cuts strands into groups from the left.

    Args:
        strands: from left to right.
        each: strands in a group.
        skip: strands left out before the first group; in the round they come last instead.
        shape: flat or round.
        step: where in the plan file.

    Raises:
        WorkError: if not even one group comes out.
    """
    if shape == "round" and strands:
        skip %= len(strands)
        rest = [*strands[skip:], *strands[:skip]]
    else:
        rest = list(strands[skip:])
    if len(rest) < each:
        skipped = f" after skipping {skip}" if skip and shape == "flat" else ""
        raise WorkError(
            f"A group wants {each} strands and there {_are(len(rest))} left{skipped}.",
            remedy="take more places, or make the groups smaller",
            place=step,
        )
    full = len(rest) // each
    groups: list[Sequence[int]] = [rest[i * each : (i + 1) * each] for i in range(full)]
    return Groups(groups, len(rest) - full * each)


def _are(n: int) -> str:
    return "is 1" if n == 1 else f"are {n}"


def say_left_over(state: State, n: int, each: int, step: Place | None) -> None:
    """Warns of strands that no group takes."""
    if n:
        strands = "1 strand is" if n == 1 else f"{n} strands are"
        state.warn(f"{strands} left over when groups of {each} are made, and left alone.", step)
