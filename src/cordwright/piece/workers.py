"""Which strands of a group work and which are run round, before a sinnet is begun."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from cordwright.errors import Place, WorkError
from cordwright.knots.spec import Hand, KnotName
from cordwright.plan.strands import Places, places

if TYPE_CHECKING:
    from cordwright.piece.state import State
    from cordwright.plan.steps import HandWord
    from cordwright.units.form import Form


class Tie(NamedTuple):
    """What is tied on each group of a step."""

    knot: KnotName
    times: int
    gap: Form
    hand: HandWord
    workers: str | Places | None
    step: Place | None


def entering(state: State, group: list[int], what: Tie) -> tuple[list[int], Hand | None]:
    """How a group enters a sinnet.

    Returns:
        Its strands from left to right, working strands outside; and the hand, where the choice of
        the working strand settles it.

    Raises:
        WorkError: if the group does not suit the knot, or the working strands the group.
    """
    least = {KnotName.OVERHAND: 1, KnotName.HALF_HITCH: 2}.get(what.knot, 3)
    n = len(group)
    if n < least:
        raise WorkError(
            f"A {what.knot} wants at least {least} strands and this group has {n}.",
            remedy="take more places, or another knot",
            place=what.step,
        )
    if what.knot is KnotName.OVERHAND:
        _all_work(what)
        return group, None
    if what.knot is KnotName.HALF_HITCH:
        return _hitching_order(state, group, what)
    left, right = _workers(state, n, what)
    fillers = [s for i, s in enumerate(group) if i not in (left, right)]
    return [group[left], *fillers, group[right]], None


def _all_work(what: Tie) -> None:
    if what.workers not in (None, "outer"):
        raise WorkError(
            "In an overhand knot all strands work together.",
            remedy="take workers out",
            place=what.step,
        )


def _workers(state: State, n: int, what: Tie) -> tuple[int, int]:
    """Places from 0 of the left and the right working strand in a group of n."""
    match what.workers:
        case None | "outer":
            return 0, n - 1
        case "inner" if n % 2:
            raise WorkError(
                f"A group of {n} has no two inner strands.",
                remedy="name them: workers: [1, 3]",
                place=what.step,
            )
        case "inner":
            return n // 2 - 1, n // 2
    found = _named(state, n, what)
    if len(found) != 2:
        raise WorkError(
            f"A {what.knot} has two working strands; 'workers: {_shown(what)}' names another "
            "number.",
            remedy="write outer, inner, or two places of the group such as [1, 4]",
            place=what.step,
        )
    return found[0], found[1]


def _hitching_order(state: State, group: list[int], what: Tie) -> tuple[list[int], Hand | None]:
    match what.workers:
        case None:
            return group, None
        case "first":
            return group, "left"
        case "last":
            return group, "right"
    found = _named(state, len(group), what)
    if len(found) != 1:
        raise WorkError(
            f"A half hitch has one working strand; 'workers: {_shown(what)}' names another number.",
            remedy="write first, last, or one place of the group",
            place=what.step,
        )
    worker = group[found[0]]
    return [worker, *(s for s in group if s != worker)], "left"


def _named(state: State, n: int, what: Tie) -> tuple[int, ...]:
    if isinstance(what.workers, Places):
        return places(what.workers, n, state.env)
    return ()


def _shown(what: Tie) -> str:
    return what.workers.text if isinstance(what.workers, Places) else str(what.workers)
