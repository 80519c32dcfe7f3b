"""Steps that tie nothing: free cord, passes, new orders, closing and opening the round."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from typing import TYPE_CHECKING

from cordwright.errors import Place, WorkError
from cordwright.piece.grouping import cut_into, number, reach, say_left_over, shape_of, strands_at
from cordwright.piece.knotting import deepest, owe
from cordwright.piece.lineup import in_order
from cordwright.piece.model import Pass
from cordwright.piece.state import ZERO, State

if TYPE_CHECKING:
    from cordwright.plan.steps import FreeStep, PassStep, ReorderStep, ShapeStep


def free_step(state: State, step: FreeStep) -> None:
    """Leaves free cord before the next knot; what several steps leave adds up."""
    free = reach(state, step.free)
    if free is not ZERO:
        owe(state, strands_at(state, step.on, step.where), free)


def pass_step(state: State, step: PassStep) -> None:
    """Lets two neighbouring groups change places."""
    passing = strands_at(state, step.passing, step.where)
    passed = strands_at(state, step.passed, step.where)
    both = set(passing) & set(passed)
    if both:
        place = state.view.slots[min(both, key=lambda s: state.view.slots[s])] + 1
        raise WorkError(
            f"Strand {place} is in both groups of the pass.",
            remedy="name two groups that share no strand",
            place=step.where,
        )
    left, right = _sides(state, passing, passed, step.where)
    lead = deepest([state.strands[s] for s in (*passing, *passed)])
    front, behind = (passing, passed) if step.in_front_of is not None else (passed, passing)
    state.passes.append(Pass(lead.depth, tuple(front), tuple(behind), step.where))
    state.arrange([*right, *left], lead.at)


def _sides(
    state: State, passing: Sequence[int], passed: Sequence[int], step: Place | None
) -> tuple[Sequence[int], Sequence[int]]:
    """The two groups from left to right; they must be neighbours in the line-up."""
    view = state.view
    n = len(view.strands)
    slots = [view.slots[s] for s in (*passing, *passed)]
    held = in_order(slots, n, state.shape_of(view))
    first = {view.strands[slot] for slot in held[: len(passing)]}
    close = all((b - a) % n == 1 for a, b in itertools.pairwise(held))
    if close and first == set(passing):
        return passing, passed
    first = {view.strands[slot] for slot in held[: len(passed)]}
    if close and first == set(passed):
        return passed, passing
    raise WorkError(
        "The two groups of the pass are not neighbours in the line-up: places "
        f"{_places(view.slots, passing)} and {_places(view.slots, passed)}.",
        remedy="name groups that stand side by side, or pass the strands in between too",
        place=step,
    )


def _places(slots: dict[int, int], strands: Sequence[int]) -> str:
    shown = ", ".join(str(slots[s] + 1) for s in strands[:8])
    return shown + (", …" if len(strands) > 8 else "")


def reorder_step(state: State, step: ReorderStep) -> None:
    """Gives the strands of each group a new order."""
    strands = strands_at(state, step.on, step.where)
    n = len(step.reorder)
    each = number(state, step.each, 1) if step.each is not None else n
    if each != n:
        raise WorkError(
            f"The new order names {n} places, and the groups have {each} strands.",
            remedy="name as many places as a group has strands",
            place=step.where,
        )
    cut = cut_into(strands, each, 0, shape_of(state, strands), step.where)
    say_left_over(state, cut.left_over, each, step.where)
    for group in cut.groups:
        order = [group[old - 1] for old in step.reorder]
        state.arrange(order, deepest([state.strands[s] for s in order]).at)


def shape_step(state: State, step: ShapeStep) -> None:
    """Closes flat work into a round, opens it, or renumbers it from another strand."""
    whole, seen = state.views[0].strands, state.view.strands
    if not seen or len(seen) != len(whole):
        raise WorkError(
            f"Only the whole line-up can be joined, opened or renumbered, and this step sees "
            f"{len(seen)} of {len(whole)} strands.",
            remedy="put the step outside the motif, or let the motif work on all strands",
            place=step.where,
        )
    _check_shape(state, step, len(whole))
    seam = number(state, step.seam, 1) if step.seam is not None else 1
    if seam > len(seen):
        raise WorkError(
            f"The seam is to be at strand {seam}, but there are {len(seen)} strands.",
            remedy=f"use a place from 1 to {len(seen)}",
            place=step.where,
        )
    shape = "round" if step.join else "flat" if step.open else state.shape
    state.turn_to(shape, seen[seam - 1])


def _check_shape(state: State, step: ShapeStep, n: int) -> None:
    if step.join is not None and state.shape == "round":
        raise WorkError(
            "The work is joined into a round, but it is one already.",
            remedy="take the join out, or open it before",
            place=step.where,
        )
    if step.join is not None and n < 3:
        raise WorkError(
            f"{n} strands do not make a round.", remedy="join at least 3", place=step.where
        )
    if step.open is not None and state.shape == "flat":
        raise WorkError(
            "The work is opened, but it is flat already.",
            remedy="take the open out, or join it before",
            place=step.where,
        )
