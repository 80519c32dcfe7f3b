"""Mounting cords: on a ring, a rod, a holding cord or nothing, and adding cords later."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from cordwright.errors import Place, WorkError
from cordwright.knots.spec import KnotName, KnotSpec, Role
from cordwright.piece.grouping import number, reach
from cordwright.piece.knotting import Spot, fitted, ratio, record
from cordwright.piece.lying import begin_lying, end_lying, known_cord
from cordwright.piece.model import Fold, Stop
from cordwright.piece.state import ZERO, Hanging, State
from cordwright.plan.model import (
    CordMount,
    MountCord,
    MountRepeat,
    NothingMount,
    RingMount,
    RodMount,
)

if TYPE_CHECKING:
    from cordwright.piece.fit import Fit
    from cordwright.plan.model import Mounted
    from cordwright.plan.steps import AddStep
    from cordwright.plan.sums import Sum
    from cordwright.units.form import Form


def mount(state: State) -> None:
    """Mounts the plan's cords, from left to right."""
    plan = state.plan.mount
    holder: Hanging | None = None
    if isinstance(plan.on, CordMount):
        holder = begin_lying(state, plan.on.cord, "holding", plan.on.tail, plan.on.where)
    _mount_all(state, plan.cords, holder)
    if holder is not None and isinstance(plan.on, CordMount):
        end_lying(state, holder, plan.on.tail, plan.on.where)
    if not state.views[0].strands:
        raise WorkError(
            "No cord is mounted.", remedy="give at least one cord a count of 1", place=plan.where
        )
    _check_room(state)


def _mount_all(state: State, cords: Sequence[Mounted], holder: Hanging | None) -> None:
    for group in cords:
        if isinstance(group, MountRepeat):
            for _ in range(number(state, group.repeat)):
                _mount_all(state, group.cords, holder)
            continue
        state.count_step(group.where)
        known_cord(state, group.cord, group.where)
        for _ in range(number(state, group.count)):
            _mount_one(state, group, holder)


def _mount_one(state: State, group: MountCord, holder: Hanging | None) -> None:
    on = state.plan.mount.on
    cut = reach(state, group.cut) if group.cut is not None else None
    cord = state.new_cord(group.cord, "mount", group.fold, cut, group.where)
    if group.fold == "none":
        tail = group.tail
        if tail is None and isinstance(on, NothingMount):
            tail = on.tail
        strand = state.new_strand(cord, "whole", ZERO, reach(state, tail or state.plan.tail))
        _hang(state, [strand], group.where)
        return
    halves = [state.new_strand(cord, "left", ZERO), state.new_strand(cord, "right", ZERO)]
    if isinstance(on, NothingMount):
        if group.knot is not None:
            raise WorkError(
                "A lark's head needs something to be tied on, and this piece hangs on nothing.",
                remedy="take knot out, or mount on a ring, rod or cord",
                place=group.where,
            )
    else:
        _larks_head(state, group, halves, holder)
    _hang(state, halves, group.where)


def _hang(state: State, strands: list[Hanging], step: Place | None) -> None:
    here = len(state.views[0].strands)
    state.bring_in([s.strand for s in strands], here, step)


def _larks_head(
    state: State, group: MountCord, halves: list[Hanging], holder: Hanging | None
) -> None:
    thick = holder_mm(state)
    spec = KnotSpec(
        KnotName.LARKS_HEAD,
        2,
        face=group.face,
        over="ring" if isinstance(state.plan.mount.on, RingMount) else "rod",
        over_d=ratio(thick, state.diameter(group.cord)),
    )
    knot = fitted(state, spec, (group.cord,))
    index = len(state.knots)
    for place, strand in enumerate(halves):
        strand.course.append(Stop(index, place, knot.roles[place], ZERO, knot.take_ups[place]))
        strand.reach(knot.height, knot.height_mm)
    if holder is not None:
        holder.course.append(Stop(index, 2, Role.HOLDING, ZERO, knot.width))
    cord = halves[0].cord
    state.cords[cord] = state.cords[cord]._replace(mount=knot.take_ups[0] + knot.take_ups[1])
    record(
        state,
        spec,
        halves,
        (halves[0].strand, halves[1].strand),
        ZERO,
        knot.height,
        Spot(0, index, 0, group.where),
        over=None if holder is None else holder.strand,
    )


def holder_mm(state: State) -> float:
    """How thick the ring's wire, the rod or the holding cord is, mm."""
    on = state.plan.mount.on
    match on:
        case RingMount():
            thick = _above_zero(state, on.wire, "The ring's wire", on.where)
        case RodMount():
            thick = _above_zero(state, on.thick, "The rod", on.where)
        case CordMount():
            thick = state.diameter(known_cord(state, on.cord, on.where))
        case NothingMount():
            thick = 0.0
    return thick


def _above_zero(state: State, asked: Sum, what: str, place: Place | None) -> float:
    mm = reach(state, asked).at(state.values)
    if not mm > 0.0:
        raise WorkError(
            f"{what} has no thickness: {asked.text}.",
            remedy="write it like 6 mm",
            place=asked.place or place,
        )
    return mm


def _check_room(state: State) -> None:
    """Warns where the lark's heads are wider, side by side, than what they hang on."""
    on = state.plan.mount.on
    match on:
        case RingMount():
            # measured along the inside of the wire, where the knots crowd
            room, what = math.pi * reach(state, on.inside).at(state.values), "ring's inside"
        case RodMount():
            room, what = reach(state, on.length).at(state.values), "rod"
        case _:
            return
    fits: list[Fit] = [fitted(state, k.spec, (k.cord,)) for k in state.knots]
    wide = sum(f.width.at(state.values) for f in fits)
    if wide > room:
        state.warn(
            f"The mounting knots are {wide:.0f} mm wide side by side, and the {what} offers "
            f"{room:.0f} mm.",
            on.where,
        )


def add_step(state: State, step: AddStep) -> None:
    """Adds new cords; they hang at the height that their left-hand neighbour has reached."""
    known_cord(state, step.cord, step.where)
    place = _after(state, step)
    seen = state.view.strands
    depth = ZERO
    if seen:
        neighbour = state.strands[seen[place - 1] if place else seen[0]]
        depth = neighbour.depth + neighbour.owed
    fresh: list[int] = []
    for _ in range(number(state, step.add)):
        state.count_step(step.where)
        fresh += _add_one(state, step, step.fold, depth)
    if fresh:
        state.bring_in(fresh, place, step.where)


def _after(state: State, step: AddStep) -> int:
    seen = len(state.view.strands)
    place = number(state, step.after, env={**state.env, "end": float(seen)})
    if place > seen:
        raise WorkError(
            f"Cords are added after strand {place}, but there are {seen} strands here.",
            remedy=f"use 0 to {seen}, or end",
            place=step.where,
        )
    return place


def _add_one(state: State, step: AddStep, fold: Fold, depth: Form) -> list[int]:
    cord = state.new_cord(step.cord, "added", fold, None, step.where)
    if fold == "none":
        tail = reach(state, step.tail or state.plan.tail)
        return [state.new_strand(cord, "whole", depth, tail).strand]
    return [state.new_strand(cord, half, depth).strand for half in ("left", "right")]
