"""What every step of the plan did, in the order of working, for those who tell it.

A worked piece knows its knots, passes and ends, but not between which of them a step that ties
nothing stood, nor how the line-up lay before and after it. `cordwright.piece.work` writes that down
where it is asked to: it costs time and memory for every strand of every step.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, NamedTuple

from cordwright.piece.grouping import reach, strands_at
from cordwright.plan import steps as plan_steps

if TYPE_CHECKING:
    from cordwright.piece.model import Shape
    from cordwright.piece.state import State
    from cordwright.plan.sums import Sum
    from cordwright.units.form import Form


class Arranged(NamedTuple):
    """Strands in the order in which they leave: after so many knots in all."""

    knots: int
    strands: tuple[int, ...]


class Done(NamedTuple):
    """What one step of the plan did.

    Args:
        step: the plan's step; None for mounting and for the tails at the end.
        section: names of the sections it stands in.
        shape: flat or round, before.
        before: the line-up before, strands by place.
        after: the line-up after.
        knots, cords, passes: what it added to the piece, as ranges of indices.
        arranged: how its strands left.
        ended: strands that it ended.
        on: strands that a step without knots works on.
        asked: lengths that it asks for, by key.
        depths: depth of every strand of ``after``, as added up.
    """

    step: plan_steps.Step | None
    section: tuple[str, ...]
    shape: Shape
    before: tuple[int, ...]
    after: tuple[int, ...]
    knots: range
    cords: range
    passes: range
    arranged: tuple[Arranged, ...]
    ended: tuple[int, ...]
    on: tuple[int, ...]
    asked: Mapping[str, Form]
    depths: tuple[Form, ...]


@dataclass(slots=True)
class Record:
    """What is written down while a plan is worked.

    Args:
        done: every step so far.
        arranged: every arrangement of strands so far, in order.
    """

    done: list[Done] = field(default_factory=list)
    arranged: list[Arranged] = field(default_factory=list)


def recorded(state: State, step: plan_steps.Step | None, verb: Callable[[], None]) -> None:
    """Works one step that has no others within it, and writes down what it does.

    Args:
        state: before the step.
        step: the plan's step; None for mounting and for the tails at the end.
        verb: what works it.
    """
    record = state.record
    if record is None:
        verb()
        return
    before, shape = tuple(state.views[0].strands), state.shape
    asked = {key: reach(state, value) for key, value in _asked(step)}
    on = _on(state, step)
    at = (len(state.knots), len(state.cords), len(state.passes), len(record.arranged))
    open_ = [s for s in before if state.strands[s].end is None]
    verb()
    after = tuple(state.views[0].strands)
    record.done.append(
        Done(
            step,
            state.section,
            shape,
            before,
            after,
            range(at[0], len(state.knots)),
            range(at[1], len(state.cords)),
            range(at[2], len(state.passes)),
            tuple(record.arranged[at[3] :]),
            tuple(s for s in sorted(open_) if state.strands[s].end is not None),
            on,
            asked,
            tuple(state.strands[s].depth for s in after),
        )
    )


def _asked(step: plan_steps.Step | None) -> Iterable[tuple[str, Sum]]:
    """The lengths that a step asks for above its knots and between them."""
    match step:
        case plan_steps.TieStep():
            yield from (("free", step.free), ("gap", step.gap))
        case plan_steps.RowsStep():
            yield "row_gap", step.gap
        case plan_steps.HitchStep() | plan_steps.FreeStep():
            yield "free", step.free


def _on(state: State, step: plan_steps.Step | None) -> tuple[int, ...]:
    places = plan_steps.FreeStep | plan_steps.ReorderStep | plan_steps.FringeStep
    if isinstance(step, places):
        return tuple(strands_at(state, step.on, step.where))
    return ()
