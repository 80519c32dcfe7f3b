"""Rows of double half hitches on a holding cord.

The holding cord's axis lies half a hitch below the row's upper edge. It comes in there, runs along
the row (per hitch its take-up in the tight knot), dips by the sine of the slant times that, and
goes out at the height where the last hitch holds it. Level, all hitches share one upper edge;
slanted, each lies where the holding cord is by then. The row starts where no strand has to go up.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from cordwright.errors import WorkError
from cordwright.knots.spec import Hand, KnotName, KnotSpec, Role
from cordwright.piece.grouping import number, reach, strands_at
from cordwright.piece.knotting import SAME_MM, Spot, fitted, owe, ratio, record
from cordwright.piece.lying import begin_lying, end_lying
from cordwright.piece.model import Stop
from cordwright.piece.state import ZERO, Hanging, State

if TYPE_CHECKING:
    from cordwright.piece.fit import Fit
    from cordwright.plan.steps import HitchStep
    from cordwright.units.form import Form


class Hitch(NamedTuple):
    """One hitch of a row.

    Args:
        strand: the working strand.
        spec: which tight knot.
        knot: the same in the strand's cord.
        dip: how far below the row's start its upper edge lies, and that in mm.
        dip_mm: value of it.
    """

    strand: Hanging
    spec: KnotSpec
    knot: Fit
    dip: Form
    dip_mm: float


def hitch_step(state: State, step: HitchStep) -> None:
    """Ties rows of double half hitches."""
    strands = strands_at(state, step.on, step.where)
    free = reach(state, step.free)
    least = 1 if step.cord is not None else 2
    if len(strands) < least:
        raise WorkError(
            "A row of double half hitches wants a holding cord and at least one strand to tie on "
            f"it; there is {len(strands)} strand.",
            remedy="take more places, or lay in a holding cord with cord:",
            place=step.where,
        )
    for row in range(number(state, step.rows)):
        state.count_step(step.where)
        if not row and free is not ZERO:
            owe(state, strands, free)
        strands = _row(state, step, strands, row)


def _row(state: State, step: HitchStep, strands: list[int], row: int) -> list[int]:
    """One row; gives the strands from left to right below it."""
    right = step.hitch == "right"
    if step.cord is not None:
        laid = begin_lying(state, step.cord, "holding", step.tail, step.where)
        workers = strands if right else strands[::-1]
        _tie_on(state, laid, workers, step, row)
        end_lying(state, laid, step.tail, step.where)
        below = strands
    else:
        holding = strands[0] if right else strands[-1]
        workers = strands[1:] if right else strands[-2::-1]
        _tie_on(state, state.strands[holding], workers, step, row)
        below = [*strands[1:], holding] if right else [holding, *strands[:-1]]
    state.arrange(below, max(state.strands[s].at for s in below))
    return below


def _tie_on(
    state: State, holding: Hanging, workers: Sequence[int], step: HitchStep, row: int
) -> None:
    laid_in = step.cord is not None
    hitches = _hitches(state, holding, workers, step.hitch, step.slant_deg)
    start, start_mm = _start(holding, hitches, laid_in=laid_in)
    axis, axis_mm = hitches[0].knot.height * 0.5, hitches[0].knot.height_mm * 0.5
    if laid_in:
        holding.begins = holding.depth = start + axis
        holding.at = start_mm + axis_mm
    free = (start + axis) - holding.depth if not laid_in else ZERO
    for i, hitch in enumerate(hitches):
        _one(state, holding, hitch, (start, start_mm), free, Spot(row, 0, i, step.where))
        free = ZERO
    dip, dip_mm = _down(state, hitches[-1], step.slant_deg)
    holding.reach(start + axis + dip, start_mm + axis_mm + dip_mm)


def _hitches(
    state: State, holding: Hanging, workers: Sequence[int], hand: Hand, slant_deg: float
) -> list[Hitch]:
    hitches: list[Hitch] = []
    dip, dip_mm = ZERO, 0.0
    thick = state.diameter(holding.name)
    for strand in workers:
        hung = state.strands[strand]
        spec = KnotSpec(
            KnotName.DOUBLE_HALF_HITCH,
            2,
            hand=hand,
            slant_deg=slant_deg,
            filler_d=ratio(thick, state.diameter(hung.name)),
        )
        hitches.append(Hitch(hung, spec, fitted(state, spec, (hung.name,)), dip, dip_mm))
        dip, dip_mm = _down(state, hitches[-1], slant_deg)
    return hitches


def _down(state: State, hitch: Hitch, slant_deg: float) -> tuple[Form, float]:
    """How far the holding cord has gone down behind a hitch, as a form and in mm."""
    if not slant_deg:
        return ZERO, 0.0
    way = hitch.knot.take_ups[0] * math.sin(math.radians(slant_deg))
    return hitch.dip + way, hitch.dip_mm + way.at(state.values)


def _start(holding: Hanging, hitches: Sequence[Hitch], *, laid_in: bool) -> tuple[Form, float]:
    """The row's upper edge at its first hitch: as high as all strands allow, not above 0."""
    best: tuple[float, Form, Form] = (-math.inf, ZERO, ZERO)
    if not laid_in:
        best = (holding.at + holding.owes, holding.depth, holding.owed)
    for hitch in hitches:
        s = hitch.strand
        mm = s.at + s.owes - hitch.dip_mm
        if mm > best[0]:
            best = (mm, s.depth, s.owed - hitch.dip if hitch.dip is not ZERO else s.owed)
    if best[0] < 0.0:
        return ZERO, 0.0
    mm, depth, more = best
    return (depth if more is ZERO else depth + more), mm


def _one(
    state: State,
    holding: Hanging,
    hitch: Hitch,
    start: tuple[Form, float],
    free: Form,
    spot: Spot,
) -> None:
    strand, knot = hitch.strand, hitch.knot
    level = hitch.dip is ZERO
    top = start[0] if level else start[0] + hitch.dip
    top_mm = start[1] + hitch.dip_mm
    index = len(state.knots)
    holding.course.append(Stop(index, 0, Role.HOLDING, free, knot.take_ups[0]))
    above = ZERO if strand.depth is top else top - strand.depth
    asked = strand.owes > 0.0 and top_mm - strand.at <= strand.owes + SAME_MM
    strand.course.append(Stop(index, 1, Role.WORKING, above, knot.take_ups[1], asked))
    strand.reach(top + knot.height, top_mm + knot.height_mm)
    record(
        state,
        hitch.spec,
        (holding, strand),
        (holding.strand, strand.strand),
        top,
        knot.height,
        spot,
        cord=strand.name,
    )
