"""Gathering (wrapping) knots and braids."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING

from cordwright.errors import Place, WorkError
from cordwright.knots.spec import KnotName, KnotSpec
from cordwright.piece.grouping import cut_into, number, reach, say_left_over, shape_of, strands_at
from cordwright.piece.knotting import (
    Spot,
    check_knots,
    deepest,
    filler_ratio,
    fitted,
    tie,
    working_cords,
)
from cordwright.piece.lying import begin_lying, end_lying
from cordwright.piece.state import MOST_KNOTS, Hanging, State
from cordwright.plan.sums import Sum
from cordwright.units.form import Form

if TYPE_CHECKING:
    from cordwright.plan.steps import BraidStep, GatherStep

TRIES = 6  # a wrap's height is all but linear in its turns: two or three are enough
MOST_TURNS = 1_000
NEARLY = 1e-6  # rounds of a braid: a length that they reach but for rounding is reached


def gather_step(state: State, step: GatherStep) -> None:
    """Wraps a gathering knot round strands, with a strand of the line-up or a new cord."""
    strands = strands_at(state, step.gather, step.where)
    if isinstance(step.with_, Sum):
        wrap = _strand(state, number(state, step.with_, 1), step.where)
        held = [s for s in strands if s != wrap.strand]
        if not held:
            raise WorkError(
                "The gathering knot goes round no strand but its own wrap.",
                remedy="gather more strands",
                place=step.where,
            )
        _wrap(state, step, wrap, held)
        return
    name = step.with_.cord if step.with_ is not None else state.strands[strands[0]].name
    wrap = begin_lying(state, name, "wrap", None, step.where)
    lead = deepest([state.strands[s] for s in strands])
    wrap.begins = wrap.depth = lead.depth + lead.owed
    wrap.at = lead.at + lead.owes
    _wrap(state, step, wrap, strands)
    end_lying(state, wrap, None, step.where)


def _strand(state: State, place: int, step: Place | None) -> Hanging:
    seen = state.view.strands
    if place > len(seen):
        raise WorkError(
            f"The wrap is to be strand {place}, but there are {len(seen)} strands here.",
            remedy=f"use a place from 1 to {len(seen)}, or a new cord: with: {{cord: …}}",
            place=step,
        )
    return state.strands[seen[place - 1]]


def _wrap(state: State, step: GatherStep, wrap: Hanging, held: list[int]) -> None:
    fillers = [state.strands[s] for s in held]
    filler_d = filler_ratio(state, fillers, state.diameter(wrap.name))

    def spec_of(turns: int) -> KnotSpec:
        _check_turns(turns, step.where)
        return KnotSpec(KnotName.GATHERING, len(held) + 1, turns=turns, filler_d=filler_d)

    if step.turns is not None:
        turns = number(state, step.turns, 1)
    else:
        height = reach(state, step.height) if step.height is not None else Form()
        turns = _turns(state, spec_of, wrap.name, height.at(state.values))
    spec = spec_of(turns)
    knot = fitted(state, spec, (wrap.name,))
    tie(state, spec, knot, [wrap.strand, *held], Spot(0, 0, 0, step.where))


def _check_turns(turns: int, step: Place | None) -> None:
    if turns > MOST_TURNS:
        raise WorkError(
            f"A gathering knot of {turns} turns is too long; {MOST_TURNS} is the most.",
            remedy="tie several, one below the other",
            place=step,
        )


def _turns(state: State, spec_of: Callable[[int], KnotSpec], cord: str, height_mm: float) -> int:
    """Turns of wrap whose height comes nearest to the one asked for; at least one."""
    d = state.diameter(cord)
    turns = max(1, round(height_mm / d))
    for _ in range(TRIES):
        missing = height_mm - fitted(state, spec_of(turns), (cord,)).height_mm
        better = max(1, turns + round(missing / d))
        if better == turns:
            break
        turns = better
    return turns


def braid_step(state: State, step: BraidStep) -> None:
    """Braids groups of three or four strands."""
    strands = strands_at(state, step.on, step.where)
    each = number(state, step.each, 1) if step.each is not None else step.braid
    if each != step.braid:
        raise WorkError(
            f"A braid of {step.braid} is made on {step.braid} strands, not on groups of {each}.",
            remedy=f"write each: {step.braid}, or leave each out",
            place=step.where,
        )
    cut = cut_into(strands, each, 0, shape_of(state, strands), step.where)
    say_left_over(state, cut.left_over, each, step.where)
    for column, group in enumerate(cut.groups):
        _braid(state, step, list(group), column)


def _braid(state: State, step: BraidStep, order: list[int], column: int) -> None:
    cords, _ = working_cords(state, [state.strands[s] for s in order], step.where)
    spec = KnotSpec(KnotName.BRAID, step.braid)
    knot = fitted(state, spec, cords)
    if step.times is not None:
        times = number(state, step.times)
    else:
        length = reach(state, step.length) if step.length is not None else Form()
        rounds = length.at(state.values) / knot.height_mm
        times = min(MOST_KNOTS + 1, math.ceil(rounds - NEARLY))
    check_knots(state, times, step.where)
    for i in range(times):
        tie(state, spec, knot, order, Spot(0, column, i, step.where))
        if knot.exits is not None or not i:
            by_place = order
            exits = knot.exits or range(len(order))
            order = [by_place[exits.index(place)] for place in range(len(by_place))]
            state.arrange(order, state.strands[order[0]].at)
