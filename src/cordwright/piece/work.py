"""Working a plan, from the mount to the last fringe; docs/working.md says by which rules."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from functools import partial
from typing import TYPE_CHECKING, Any

from cordwright.errors import CordwrightError, WorkError
from cordwright.piece import (
    binding,
    ending,
    hitching,
    mounting,
    reaching,
    shaping,
    tying,
)
from cordwright.piece.grouping import number, strands_at
from cordwright.piece.model import Piece
from cordwright.piece.record import Record, recorded
from cordwright.piece.state import MOST_LEVELS, State
from cordwright.plan import steps
from cordwright.plan.sizes import resolve_sizes

if TYPE_CHECKING:
    from cordwright.cords.handling import Handling
    from cordwright.piece.figures import FiguresSource
    from cordwright.plan.model import Plan
    from cordwright.plan.sums import Amount

LEAST_MM, MOST_MM = 0.1, 100.0  # cord diameters; docs/plan-format.md, Bounds


def work(
    plan: Plan,
    figures: FiguresSource,
    *,
    sizes: Mapping[str, str] | None = None,
    diameters: Mapping[str, float] | None = None,
    handling: Mapping[str, Handling] | None = None,
    record: bool = False,
) -> Piece:
    """Works a plan.

    Args:
        plan: what to make.
        figures: where the tight knots' figures come from.
        sizes: named sizes that are to differ from the plan's, as a maker writes them.
        diameters: cords whose diameter is to differ from the plan's, mm, by name.
        handling: how knots come out in one's own cord and hands, by the cord's name; ideal cord
            where there is none.
        record: whether to write down what every step did (`Piece.done`).

    Returns:
        The worked piece. The same arguments give the same piece.

    Raises:
        WorkError: if strands and knots do not fit together; with the step's place.
        PlanError: if a sum of the plan cannot be worked out, or a size is not the plan's.
        KnotError: if a knot cannot be tied as asked.
    """
    known = resolve_sizes(plan, sizes or {})
    values = {**known.values, **_diameters(plan, diameters or {})}
    state = State(plan, figures, values, handling or {}, known.env, known.env)
    state.record = Record() if record else None
    recorded(state, None, partial(mounting.mount, state))
    _work_all(state, plan.work)
    recorded(state, None, partial(ending.finish, state))
    piece = Piece(
        plan,
        values,
        tuple(state.cords),
        state.finished(),
        tuple(state.knots),
        tuple(state.changes),
        tuple(state.passes),
        state.figures,
        state.handling,
        tuple(state.warnings),
        known.env,
        tuple(state.record.done) if state.record is not None else (),
    )
    reaching.check_cut_cords(piece)
    return piece


def _diameters(plan: Plan, other: Mapping[str, float]) -> dict[str, float]:
    for name, mm in other.items():
        if name not in plan.cords:
            raise WorkError(
                f"The plan has no cord called '{name}'.",
                remedy=f"it has {', '.join(plan.cords)}",
            )
        if not (math.isfinite(mm) and LEAST_MM <= mm <= MOST_MM):
            raise WorkError(
                f"A diameter of {mm:g} mm for '{name}' is out of range.",
                remedy=f"give {LEAST_MM:g} mm to {MOST_MM:g} mm",
            )
    return {f"d:{name}": other.get(name, cord.diameter_mm) for name, cord in plan.cords.items()}


def _work_all(state: State, work: Iterable[steps.Step]) -> None:
    state.level += 1
    for step in work:
        state.count_step(step.where)
        if state.level > MOST_LEVELS:
            raise WorkError(
                f"Motifs, repeats and sections stand more than {MOST_LEVELS} deep in each other.",
                remedy="put fewer of them into each other",
                place=step.where,
            )
        try:
            if isinstance(step, _WITHIN):
                _VERBS[type(step)](state, step)
            else:
                recorded(state, step, partial(_VERBS[type(step)], state, step))
        except CordwrightError as error:
            if error.place is None and step.where is not None:
                raise type(error)(error.what, remedy=error.remedy, place=step.where) from error
            raise
    state.level -= 1


def _repeat(state: State, step: steps.RepeatStep) -> None:
    outer = state.env
    for i in range(number(state, step.repeat)):
        state.count_step(step.where)
        if step.counter is not None:
            state.env = {**outer, step.counter: float(i + 1)}
        _work_all(state, step.work)
    state.env = outer


def _section(state: State, step: steps.SectionStep) -> None:
    outer = state.section
    state.section = (*outer, step.section)
    _work_all(state, step.work)
    state.section = outer


def _motif(state: State, step: steps.MotifStep) -> None:
    motif = state.plan.motifs.get(step.motif)
    if motif is None:
        raise WorkError(
            f"The plan has no motif called '{step.motif}'.",
            remedy=f"it has {', '.join(state.plan.motifs) or 'none'}",
            place=step.where,
        )
    if step.motif in state.motifs:
        chain = " calls ".join((*state.motifs[state.motifs.index(step.motif) :], step.motif))
        raise WorkError(
            f"A motif would never end: {chain}.",
            remedy="repeat it with repeat: instead",
            place=step.where,
        )
    env = _parameters(state, step, motif.takes)
    strands = strands_at(state, step.on, step.where)
    state.motifs = (*state.motifs, step.motif)
    with state.seeing(strands, env):
        _work_all(state, motif.work)
    state.motifs = state.motifs[:-1]


def _parameters(
    state: State, step: steps.MotifStep, takes: Mapping[str, Any]
) -> Mapping[str, Amount]:
    """Names as the motif sees them: the plan's sizes and its own parameters."""
    unknown = [name for name in step.with_ if name not in takes]
    if unknown:
        raise WorkError(
            f"The motif '{step.motif}' does not take '{unknown[0]}'.",
            remedy=f"it takes {', '.join(takes) or 'nothing'}",
            place=step.where,
        )
    given = {name: s.evaluate(state.env, state.values) for name, s in step.with_.items()}
    env: dict[str, Amount] = dict(state.sizes)
    for name, default in takes.items():
        env[name] = given[name] if name in given else default.evaluate(env, state.values)
    return env


_WITHIN = steps.MotifStep | steps.RepeatStep | steps.SectionStep
"""Steps that have others within them."""

_VERBS: Mapping[type, Callable[[State, Any], None]] = {
    steps.TieStep: tying.tie_step,
    steps.RowsStep: tying.rows_step,
    steps.FreeStep: shaping.free_step,
    steps.HitchStep: hitching.hitch_step,
    steps.PassStep: shaping.pass_step,
    steps.ReorderStep: shaping.reorder_step,
    steps.ShapeStep: shaping.shape_step,
    steps.BraidStep: binding.braid_step,
    steps.GatherStep: binding.gather_step,
    steps.AddStep: mounting.add_step,
    steps.LeaveStep: ending.leave_step,
    steps.MotifStep: _motif,
    steps.RepeatStep: _repeat,
    steps.SectionStep: _section,
    steps.FringeStep: ending.fringe_step,
}
