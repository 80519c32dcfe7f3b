"""How strands end: left out half-way, in a fringe, or with the plan's tail."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from cordwright.knots.spec import KnotName
from cordwright.piece.grouping import reach, strands_at
from cordwright.piece.knotting import deepest
from cordwright.piece.model import End, EndKind, strand_name
from cordwright.piece.state import ZERO, Hanging, State

if TYPE_CHECKING:
    from cordwright.errors import Place
    from cordwright.plan.steps import FringeStep, LeaveStep
    from cordwright.units.form import Form

MOST_NAMES = 8  # strands named in one warning


def leave_step(state: State, step: LeaveStep) -> None:
    """Ends strands here."""
    strands = strands_at(state, step.leave, step.where)
    tail = reach(state, step.tail or state.plan.tail)
    for s in strands:
        hung = state.strands[s]
        _end(state, hung, "leave", hung.owed + tail, step.where)
    state.take_out(strands)


def fringe_step(state: State, step: FringeStep) -> None:
    """Ends strands in a fringe, trimmed along a line."""
    strands = strands_at(state, step.on, step.where)
    fringe = reach(state, step.fringe)
    rise = reach(state, step.rise) if step.rise is not None else ZERO
    hung = [state.strands[s] for s in strands]
    lead = deepest(hung)
    lowest = lead.depth + lead.owed
    parts = _line(step, len(hung))
    for strand, part in zip(hung, parts, strict=True):
        longer = fringe + rise * part if part else fringe
        if step.trim == "as it falls":
            length = strand.owed + longer
        elif strand.depth is lead.depth and lead.owed is ZERO:
            length = longer
        else:
            length = lowest - strand.depth + longer
        _end(state, strand, "fringe", length, step.where)
    state.take_out(strands)


def _line(step: FringeStep, n: int) -> Sequence[float]:
    """Per strand from the left, how much of the rise it has: 0 for the shortest, 1 the longest."""
    if step.trim == "slant":
        parts = [i / (n - 1) if n > 1 else 0.0 for i in range(n)]
        return parts[::-1] if step.to == "left" else parts
    if step.trim == "point":
        inwards = [float(min(i, n - 1 - i)) for i in range(n)]
        most = max(inwards)
        return [i / most if most else 1.0 for i in inwards]
    return [0.0] * n


def _end(state: State, strand: Hanging, kind: EndKind, length: Form, step: Place | None) -> None:
    strand.end = End(kind, strand.depth, length, state.section, step)


def finish(state: State) -> None:
    """Ends what has not ended, with the plan's tail, and warns of what looks forgotten."""
    tail = reach(state, state.plan.tail)
    open_ends = [s for s in state.strands if s.end is None]
    for strand in open_ends:
        length = strand.owed + tail
        _end(state, strand, "tail", length, None)
    planned = any(s.end is not None and s.end.kind in ("fringe", "leave") for s in state.strands)
    if planned and open_ends:
        state.warn(
            "While others end in a fringe or are left out, these end with the plan's tail: "
            f"{_names(open_ends)}."
        )
    hanging = [s for s in state.strands if s.end is not None and s.end.kind != "laid in"]
    idle = [s for s in hanging if not any(_tied(state, stop.knot) for stop in s.course)]
    if idle:
        state.warn(f"These strands hang without a knot below the mount: {_names(idle)}.")


def _tied(state: State, knot: int) -> bool:
    return state.knots[knot].spec.name is not KnotName.LARKS_HEAD


def _names(strands: Sequence[Hanging]) -> str:
    names = [strand_name(s.cord, s.half) for s in strands[:MOST_NAMES]]
    more = f" and {len(strands) - MOST_NAMES} more" if len(strands) > MOST_NAMES else ""
    return ", ".join(names) + more
