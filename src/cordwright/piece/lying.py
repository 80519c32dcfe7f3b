"""Cords laid in across the work: holding cords and wraps, with a tail at both sides."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cordwright.errors import Place, WorkError
from cordwright.piece.grouping import reach
from cordwright.piece.model import End, Part
from cordwright.piece.state import ZERO, Hanging, State

if TYPE_CHECKING:
    from cordwright.plan.sums import Sum


def known_cord(state: State, name: str, step: Place | None) -> str:
    """The name, if the plan has such a cord.

    Raises:
        WorkError: if it has not.
    """
    if name not in state.plan.cords:
        raise WorkError(
            f"The plan has no cord called '{name}'.",
            remedy=f"it has {', '.join(state.plan.cords)}",
            place=step,
        )
    return name


def begin_lying(
    state: State, cord: str, part: Part, tail: Sum | None, step: Place | None
) -> Hanging:
    """Lays in a new cord, in one piece; it does not join the line-up.

    Its depth is 0 until its first knot says where it lies.

    Args:
        state: moved on.
        cord: the plan's name of it.
        part: what it is for.
        tail: what stands out at the first side; the plan's tail if None.
        step: where in the plan file.
    """
    new = state.new_cord(known_cord(state, cord, step), part, "none", None, step)
    return state.new_strand(new, "whole", ZERO, reach(state, tail or state.plan.tail))


def end_lying(state: State, strand: Hanging, tail: Sum | None, step: Place | None) -> None:
    """Ends a cord that was laid in, with its tail at the far side."""
    length = reach(state, tail or state.plan.tail)
    strand.end = End("laid in", strand.depth, length, state.section, step)
