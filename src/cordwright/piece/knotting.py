"""Tying one knot: the heart of working a plan.

Its top lies at the deepest of its strands, each with the free cord that it owes. Every strand uses
free cord down to there, then its take-up; all leave at the lower edge.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from cordwright.errors import Place, WorkError
from cordwright.piece.fit import Fit, fit
from cordwright.piece.model import Knot, Stop
from cordwright.piece.state import MOST_KNOTS, ZERO, Hanging, State

if TYPE_CHECKING:
    from cordwright.knots.spec import KnotSpec
    from cordwright.units.form import Form

RATIO_DIGITS = 4  # ratios of diameters: finer than any cord is even, coarse enough to meet again


SAME_MM = 1e-6  # depths that differ by less are the same: rounding of sums


class Spot(NamedTuple):
    """Where a knot stands within its step."""

    row: int
    column: int
    number: int
    step: Place | None


def fitted(state: State, spec: KnotSpec, cords: tuple[str, ...]) -> Fit:
    """A knot in given working cords; computed once for each."""
    key = (spec, cords)
    found = state.fits.get(key)
    if found is None:
        figures = state.figures.get(spec)
        if figures is None:
            figures = state.figures[spec] = state.source.figures(spec)
        found = state.fits[key] = fit(figures, cords, state.values, state.handling)
    return found


def ratio(part: float, whole: float) -> float:
    """A ratio of two diameters, rounded so that equal ratios ask for the same tight knot."""
    return round(part / whole, RATIO_DIGITS)


def working_cords(
    state: State, workers: Sequence[Hanging], step: Place | None
) -> tuple[tuple[str, ...], float]:
    """Names of the working cords (one if all are alike) and their mean diameter in mm."""
    names = tuple([w.name for w in workers])
    if names.count(names[0]) == len(names):
        return names[:1], state.diameter(names[0])
    each = [state.diameter(n) for n in names]
    mean = sum(each) / len(each)
    if max(each) > min(each):
        shown = ", ".join(f"{n} {state.diameter(n):.4g} mm" for n in dict.fromkeys(names))
        state.warn(
            f"Working cords of different diameters ({shown}) share a knot: it is computed "
            f"with their mean, {mean:.4g} mm.",
            step,
        )
    return names, mean


def filler_ratio(state: State, fillers: Sequence[Hanging], d: float) -> float:
    """Mean diameter of the fillers in working diameters."""
    if not fillers:
        return 1.0
    return ratio(sum(state.diameter(f.name) for f in fillers) / len(fillers), d)


def deepest(hung: Sequence[Hanging]) -> Hanging:
    """The strand that reaches deepest with the free cord that it owes; the first if several do."""
    return max(hung, key=lambda s: s.at + s.owes)


def free_above(hung: Sequence[Hanging], top: Form, lead: Hanging) -> list[Form]:
    """Free cord of each strand above a knot whose top the leading strand sets."""
    by_depth = {id(lead.depth): lead.owed}  # strands that left one knot share their depth's form
    free = []
    for strand in hung:
        above = by_depth.get(id(strand.depth))
        if above is None:
            above = by_depth[id(strand.depth)] = top - strand.depth
        free.append(above)
    return free


def tie(state: State, spec: KnotSpec, knot: Fit, strands: Sequence[int], spot: Spot) -> None:
    """Ties one knot; the strands come in by place, and each leaves at its lower edge.

    Raises:
        WorkError: if the piece has too many knots.
    """
    hung = [state.strands[s] for s in strands]
    lead = deepest(hung)
    top = lead.depth if lead.owed is ZERO else lead.depth + lead.owed
    top_mm = lead.at + lead.owes
    left, left_mm = top + knot.height, top_mm + knot.height_mm
    index = len(state.knots)
    free = free_above(hung, top, lead)
    for place, strand in enumerate(hung):
        asked = strand.owes > 0.0 and top_mm - strand.at <= strand.owes + SAME_MM
        strand.course.append(
            Stop(index, place, knot.roles[place], free[place], knot.take_ups[place], asked)
        )
        strand.reach(left, left_mm)
    record(state, spec, hung, tuple(strands), top, knot.height, spot)


def check_knots(state: State, more: int, step: Place | None) -> None:
    """Refuses knots beyond the most that a piece may have.

    Raises:
        WorkError: if the piece would have too many.
    """
    if len(state.knots) + more > MOST_KNOTS:
        raise WorkError(
            f"The plan comes to more than {MOST_KNOTS} knots.",
            remedy="repeat less often",
            place=step,
        )


def record(
    state: State,
    spec: KnotSpec,
    hung: Sequence[Hanging],
    strands: tuple[int, ...],
    top: Form,
    height: Form,
    spot: Spot,
    *,
    cord: str | None = None,
    over: int | None = None,
) -> None:
    """Enters a knot into the piece, under its working cord's name."""
    held = state.views[0].slots
    slots = tuple([held[s] for s in strands if s in held])
    check_knots(state, 1, spot.step)
    state.visit(len(strands), spot.step)
    name = cord or hung[0].name
    state.knots.append(
        Knot(
            len(state.knots),
            spec,
            name,
            strands,
            over,
            top,
            height,
            state.section,
            spot.row,
            spot.column,
            spot.number,
            spot.step,
            slots,
            len(held),
            state.shape,
        )
    )


def owe(state: State, strands: Sequence[int], free: Form) -> None:
    """Lets strands owe more free cord before their next knot."""
    mm = free.at(state.values)
    for s in strands:
        hung = state.strands[s]
        hung.owed = free if hung.owed is ZERO else hung.owed + free
        hung.owes += mm
