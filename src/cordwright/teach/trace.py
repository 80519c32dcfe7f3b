"""What the hands do, in order: the plan worked once more, step by step, on a piece's own figures.

A worked piece knows its knots, passes and ends, but not between which of them a plan's step with
no knot stood. So the plan is worked again with the same rules, those of `cordwright.piece`, and
what every step added is written down. Lengths are not taken from here: they are the piece's.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import partial
from typing import TYPE_CHECKING, Any, NamedTuple

from cordwright.errors import WorkError
from cordwright.piece import binding, ending, hitching, mounting, shaping, tying
from cordwright.piece.grouping import number, reach, strands_at
from cordwright.piece.state import State
from cordwright.plan import steps as plan_steps
from cordwright.plan.sizes import resolve_sizes

if TYPE_CHECKING:
    from cordwright.knots.spec import KnotFigures, KnotSpec
    from cordwright.piece.model import Piece, Shape
    from cordwright.plan.sums import Amount, Sum
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
        depths: depth of every strand of ``after``.
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


class _Watched(State):
    """A state that writes down how strands leave."""

    arranged: list[Arranged]

    def arrange(self, strands: Sequence[int], depth: float) -> None:
        self.arranged.append(Arranged(len(self.knots), tuple(strands)))
        super().arrange(strands, depth)


class _Known:
    """Figures of the knots that a piece already uses."""

    def __init__(self, piece: Piece) -> None:
        self._figures = piece.figures

    def figures(self, spec: KnotSpec) -> KnotFigures:
        """As the piece has them.

        Raises:
            WorkError: the piece has no such knot.
        """
        if spec not in self._figures:
            raise _other_piece()
        return self._figures[spec]


def trace(piece: Piece, sizes: Mapping[str, str] | None = None) -> tuple[Done, ...]:
    """Everything that is done, from the mount to the last tail.

    Args:
        piece: as worked.
        sizes: the sizes it was worked with, where they are not the plan's.

    Raises:
        WorkError: these are not the sizes that the piece was worked with.
    """
    known = resolve_sizes(piece.plan, sizes or {})
    values = {**known.values, **{k: v for k, v in piece.values.items() if k.startswith("d:")}}
    state = _Watched(piece.plan, _Known(piece), values, piece.handling, known.env, known.env)
    state.arranged = []
    walk = _Walk(state)
    walk.one(None, mounting.mount)
    walk.all(piece.plan.work)
    walk.one(None, ending.finish)
    same = [(k.spec, k.strands) for k in state.knots] == [(k.spec, k.strands) for k in piece.knots]
    if not same or len(state.strands) != len(piece.strands):
        raise _other_piece()
    return tuple(walk.done)


def _other_piece() -> WorkError:
    return WorkError(
        "The piece was worked with other sizes than the lesson is told for.",
        remedy="give the same sizes to both",
    )


class _Walk:
    """Walks through a plan's steps and writes down what each does."""

    def __init__(self, state: _Watched) -> None:
        self.state = state
        self.done: list[Done] = []

    def all(self, work: Iterable[plan_steps.Step]) -> None:
        """Works steps, those within others too."""
        for step in work:
            match step:
                case plan_steps.RepeatStep():
                    self._repeat(step)
                case plan_steps.SectionStep():
                    outer = self.state.section
                    self.state.section = (*outer, step.section)
                    self.all(step.work)
                    self.state.section = outer
                case plan_steps.MotifStep():
                    self._motif(step)
                case _:
                    self.one(step, partial(_work, step))

    def _repeat(self, step: plan_steps.RepeatStep) -> None:
        outer = self.state.env
        for i in range(number(self.state, step.repeat)):
            if step.counter is not None:
                self.state.env = {**outer, step.counter: float(i + 1)}
            self.all(step.work)
        self.state.env = outer

    def _motif(self, step: plan_steps.MotifStep) -> None:
        state = self.state
        motif = state.plan.motifs[step.motif]
        given = {name: s.evaluate(state.env, state.values) for name, s in step.with_.items()}
        env: dict[str, Amount] = dict(state.sizes)
        for name, default in motif.takes.items():
            env[name] = given[name] if name in given else default.evaluate(env, state.values)
        strands = strands_at(state, step.on, step.where)
        with state.seeing(strands, env):
            self.all(motif.work)

    def one(self, step: plan_steps.Step | None, verb: Callable[[_Watched], None]) -> None:
        """Works one step that has no others within it."""
        state = self.state
        before, shape = tuple(state.views[0].strands), state.shape
        asked = {key: reach(state, value) for key, value in _asked(step)}
        on = _on(state, step)
        at = (len(state.knots), len(state.cords), len(state.passes), len(state.arranged))
        open_ = {s.strand for s in state.strands if s.end is None}
        verb(state)
        after = tuple(state.views[0].strands)
        self.done.append(
            Done(
                step,
                state.section,
                shape,
                before,
                after,
                range(at[0], len(state.knots)),
                range(at[1], len(state.cords)),
                range(at[2], len(state.passes)),
                tuple(state.arranged[at[3] :]),
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
        case plan_steps.HitchStep():
            yield "free", step.free
        case plan_steps.FreeStep():
            yield "free", step.free


def _on(state: State, step: plan_steps.Step | None) -> tuple[int, ...]:
    if isinstance(step, plan_steps.FreeStep | plan_steps.ReorderStep):
        return tuple(strands_at(state, step.on, step.where))
    if isinstance(step, plan_steps.FringeStep):
        return tuple(strands_at(state, step.on, step.where))
    return ()


def _work(step: plan_steps.Step, state: State) -> None:
    _VERBS[type(step)](state, step)


_VERBS: Mapping[type, Callable[[State, Any], None]] = {
    plan_steps.TieStep: tying.tie_step,
    plan_steps.RowsStep: tying.rows_step,
    plan_steps.FreeStep: shaping.free_step,
    plan_steps.HitchStep: hitching.hitch_step,
    plan_steps.PassStep: shaping.pass_step,
    plan_steps.ReorderStep: shaping.reorder_step,
    plan_steps.ShapeStep: shaping.shape_step,
    plan_steps.BraidStep: binding.braid_step,
    plan_steps.GatherStep: binding.gather_step,
    plan_steps.AddStep: mounting.add_step,
    plan_steps.LeaveStep: ending.leave_step,
    plan_steps.FringeStep: ending.fringe_step,
}
