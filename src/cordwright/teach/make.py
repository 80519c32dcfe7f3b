"""From what a step of the plan did to a step of the lesson."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import groupby
from typing import TYPE_CHECKING, cast

from cordwright.knots.spec import KnotName, Role
from cordwright.piece.lineup import in_order
from cordwright.plan import steps as plan_steps
from cordwright.teach import pace
from cordwright.teach.amounts import Length, Span
from cordwright.teach.steps import Begun, Ended, Figure, Group, HandUse, Row, Step, Tied, Verb

if TYPE_CHECKING:
    from cordwright.piece.model import Knot
    from cordwright.piece.record import Done
    from cordwright.teach.context import Context

SEEN_MM = 2.0
"""Free cord that the plan leaves open is told from here on; less lies against the knots anyway."""


def step_of(at: Context, done: Done) -> Iterator[Step]:
    """The step that the reader is told; none where nothing happened."""
    make = _MAKERS[type(done.step)] if done.step is not None else _edge
    made = make(at, done, _bare(done))
    if made is not None:
        yield _timed(at, done, made)


def _bare(done: Done) -> Step:
    note = getattr(done.step, "note", None) or ""
    return Step("free", 0, done.shape, len(done.before), note=note)


def _timed(at: Context, done: Done, step: Step) -> Step:
    """With the line-up's names, the time and the figures filled in."""
    knots = [at.piece.knots[k] for k in done.knots]
    spent = pace.total(pace.times(at.pace.of(k.spec.name.value), 1) for k in knots)
    spent += pace.times(pace.ENDING, len(done.ended))
    kinds = tuple(dict.fromkeys(at.kind(k) for k in knots))
    return replace(
        step,
        line_up=at.names(done.after) if done.before != done.after else None,
        figures=tuple(Figure(k) for k in kinds),
        time=spent if knots or done.ended else Span(2.0, 5.0, 15.0),
    )


def _places(done: Done, strands: Sequence[int]) -> tuple[int, ...]:
    slots = {s: i + 1 for i, s in enumerate(done.before)}
    return tuple(slots[s] for s in strands)


def _edge(at: Context, done: Done, step: Step) -> Step | None:
    """Mounting, or the tails at the end."""
    if len(done.cords):
        return replace(_mount(at, done, step), verb="mount")
    if not done.ended:
        return None
    return replace(_ending(at, done, step), verb="tail")


def _mount(at: Context, done: Done, step: Step) -> Step:
    ties = []
    for k in done.knots:
        knot = at.piece.knots[k]
        over = at.name(knot.over) if knot.over is not None else ""
        ties.append(_tied(at, knot, over))
    groups = tuple(
        Group(
            tuple(done.after.index(s) + 1 for s in at.piece.knots[k].strands),
            tie.names,
            (tie,),
            tie.names,
        )
        for k, tie in zip(done.knots, ties, strict=True)
    )
    return replace(step, rows=(Row(groups),) if groups else (), begun=_begun(at, done))


def _begun(at: Context, done: Done) -> tuple[Begun, ...]:
    return tuple(at.begun(cord, done.after) for cord in done.cords)


def _tied(at: Context, knot: Knot, over: str = "") -> Tied:
    free = tuple(at.free(s, knot.id) for s in knot.strands)
    return Tied(at.kind(knot), at.names(knot.strands), free, over)


def _tie(at: Context, done: Done, step: Step) -> Step | None:
    """Sinnets side by side, rows of them, or braids."""
    if not len(done.knots):
        return None
    plan = done.step
    knots = [at.piece.knots[k] for k in done.knots]
    rows = []
    for _, in_row in groupby(knots, key=lambda k: k.row):
        sinnets = groupby(in_row, key=lambda k: k.column)
        rows.append(Row(tuple(_sinnet(at, done, list(found)) for _, found in sinnets)))
    times = max(len(g.ties) for row in rows for g in row.groups)
    return replace(
        _asked(at, done, step),
        verb="braid" if isinstance(plan, plan_steps.BraidStep) else "tie",
        rows=tuple(rows),
        times=times,
        hand=_hand(plan, knots),
        workers=_workers(rows[0].groups[0], knots[0], at),
        open=_open(at, knots),
    )


def _asked(at: Context, done: Done, step: Step) -> Step:
    def length(key: str) -> Length | None:
        form = done.asked.get(key)
        found = at.length(form) if form is not None else None
        return found if found is not None and found.mm > 0.0 else None

    return replace(step, free=length("free"), gap=length("gap"), row_gap=length("row_gap"))


def _sinnet(at: Context, done: Done, knots: list[Knot]) -> Group:
    first = knots[0]
    by_slot = dict(zip(first.slots, first.strands, strict=True))
    order = in_order(first.slots, first.of, first.shape)
    return Group(
        tuple(slot + 1 for slot in order),
        at.names(tuple(by_slot[slot] for slot in order)),
        tuple(_tied(at, k) for k in knots),
        at.names(_left(done, knots)),
    )


def _left(done: Done, knots: list[Knot]) -> tuple[int, ...]:
    """Strands of a sinnet in the order in which they leave it."""
    span = range(knots[0].id + 1, knots[-1].id + 2)
    found = [a.strands for a in done.arranged if a.knots in span]
    return found[-1]


def _hand(plan: plan_steps.Step | None, knots: list[Knot]) -> HandUse:
    handless = (KnotName.OVERHAND, KnotName.BRAID, KnotName.GATHERING)
    if knots[0].spec.name in handless:
        return "none"
    if isinstance(plan, plan_steps.TieStep | plan_steps.RowsStep) and plan.hand == "alternate":
        return "alternate"
    return knots[0].spec.hand


def _workers(group: Group, first: Knot, at: Context) -> tuple[int, ...]:
    """Places of the working strands within their group, from 1."""
    roles = at.piece.figures[first.spec].roles
    if Role.FILLER not in roles:
        return ()
    names = at.names(first.strands)
    work = [n for n, role in zip(names, roles, strict=True) if role is Role.WORKING]
    return tuple(sorted(group.names.index(n) + 1 for n in work))


def _open(at: Context, knots: list[Knot]) -> tuple[Length, Length] | None:
    """Least and most free cord that the plan does not ask for, if there is any to see."""
    found = []
    for knot in knots:
        for strand in knot.strands:
            i = at.stop(strand, knot.id)
            stop = at.piece.strands[strand].course[i]
            mm = at.piece.mm(stop.free)
            if i and not stop.asked and mm >= SEEN_MM:
                found.append((mm, stop.free))
    if not found:
        return None
    least, most = min(found, key=lambda f: f[0]), max(found, key=lambda f: f[0])
    return at.length(least[1]), at.length(most[1])


def _hitch(at: Context, done: Done, step: Step) -> Step | None:
    """Rows of double half hitches: one group a row, the holding strand first."""
    plan = cast("plan_steps.HitchStep", done.step)
    if not len(done.knots):
        return None
    knots = [at.piece.knots[k] for k in done.knots]
    rows = []
    for _, found in groupby(knots, key=lambda k: k.row):
        in_row = list(found)
        laid = plan.cord is not None
        strands = ([] if laid else [in_row[0].strands[0]]) + [k.strands[1] for k in in_row]
        slots = ([] if laid else [in_row[0].slots[0]]) + [k.slots[-1] for k in in_row]
        last = in_row[-1].id + 1
        leaves = next(a.strands for a in done.arranged if a.knots == last)
        lying = at.name(in_row[0].strands[0]) if laid else ""
        group = Group(
            tuple(s + 1 for s in slots),
            at.names(tuple(strands)),
            tuple(_tied(at, k) for k in in_row),
            at.names(leaves),
            lying,
        )
        rows.append(Row((group,)))
    return replace(
        _asked(at, done, step),
        verb="hitch",
        rows=tuple(rows),
        side=plan.hitch,
        slant_deg=plan.slant_deg,
        hand="none",
        open=_open(at, knots),
        begun=_begun(at, done),
    )


def _gather(at: Context, done: Done, step: Step) -> Step | None:
    knot = at.piece.knots[done.knots[0]]
    laid = len(knot.slots) < len(knot.strands)
    strands = knot.strands[1:] if laid else knot.strands
    by_slot = dict(zip(knot.slots, strands, strict=True))
    order = in_order(knot.slots, knot.of, knot.shape)
    names = at.names(tuple(by_slot[slot] for slot in order))
    group = Group(
        tuple(slot + 1 for slot in order),
        names,
        (_tied(at, knot),),
        names,
        at.name(knot.strands[0]) if laid else "",
    )
    return replace(
        step,
        verb="gather",
        rows=(Row((group,)),),
        times=knot.spec.turns,
        workers=() if laid else (names.index(at.name(knot.strands[0])) + 1,),
        begun=_begun(at, done),
    )


def _free(at: Context, done: Done, step: Step) -> Step | None:
    made = _asked(at, done, step)
    return replace(made, places=_places(done, done.on)) if made.free is not None else None


def _pass(at: Context, done: Done, step: Step) -> Step | None:
    passed = at.piece.passes[done.passes[0]]
    return replace(
        step,
        verb="pass",
        places=_places(done, passed.front),
        behind=_places(done, passed.behind),
    )


def _reorder(at: Context, done: Done, step: Step) -> Step | None:
    plan = cast("plan_steps.ReorderStep", done.step)
    each = len(plan.reorder)
    groups = [done.on[i : i + each] for i in range(0, len(done.on) - each + 1, each)]
    rows = tuple(
        Group(
            _places(done, g), at.names(g), (), at.names(tuple(g[old - 1] for old in plan.reorder))
        )
        for g in groups
    )
    return replace(step, verb="reorder", rows=(Row(rows),), order=plan.reorder)


def _in_order(group: Sequence[int], order: Sequence[int]) -> tuple[int, ...]:
    return tuple(group[old - 1] for old in order)


def _shape(at: Context, done: Done, step: Step) -> Step | None:  # noqa: ARG001
    plan = cast("plan_steps.ShapeStep", done.step)
    verb: Verb = "join" if plan.join else "open" if plan.open else "seam"
    return replace(step, verb=verb, places=_places(done, done.after[:1]))


def _add(at: Context, done: Done, step: Step) -> Step | None:
    return replace(step, verb="add", begun=_begun(at, done)) if len(done.cords) else None


def _ending(at: Context, done: Done, step: Step) -> Step:
    places = _places(done, [s for s in done.before if s in set(done.ended)])
    ended = tuple(
        Ended(
            place,
            at.name(done.before[place - 1]),
            at.length(at.piece.strands[done.before[place - 1]].end.length),
        )
        for place in places
    )
    return replace(step, verb="leave", places=places, ended=ended)


def _fringe(at: Context, done: Done, step: Step) -> Step | None:
    plan = cast("plan_steps.FringeStep", done.step)
    side = (plan.to or "right") if plan.trim == "slant" else None
    return replace(_ending(at, done, step), verb="fringe", trim=plan.trim, side=side)


_MAKERS: Mapping[type, Callable[[Context, Done, Step], Step | None]] = {
    plan_steps.TieStep: _tie,
    plan_steps.RowsStep: _tie,
    plan_steps.BraidStep: _tie,
    plan_steps.HitchStep: _hitch,
    plan_steps.GatherStep: _gather,
    plan_steps.FreeStep: _free,
    plan_steps.PassStep: _pass,
    plan_steps.ReorderStep: _reorder,
    plan_steps.ShapeStep: _shape,
    plan_steps.AddStep: _add,
    plan_steps.LeaveStep: _ending,
    plan_steps.FringeStep: _fringe,
}
