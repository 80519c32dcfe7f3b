"""Steps that tie knots on groups of strands: sinnets side by side, and rows."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cordwright.errors import WorkError
from cordwright.knots.spec import KnotName
from cordwright.piece.grouping import cut_into, number, reach, say_left_over, shape_of, strands_at
from cordwright.piece.knotting import Spot, check_knots, owe
from cordwright.piece.sinnets import sinnet
from cordwright.piece.state import ZERO, State
from cordwright.piece.workers import Tie

if TYPE_CHECKING:
    from cordwright.plan.steps import RowsStep, TieStep


def tie_step(state: State, step: TieStep) -> None:
    """Ties a knot, or sinnets of it, on groups."""
    strands = strands_at(state, step.on, step.where)
    each = number(state, step.each, 1) if step.each is not None else len(strands)
    cut = cut_into(strands, each, number(state, step.skip), shape_of(state, strands), step.where)
    what = Tie(
        KnotName(step.tie),
        number(state, step.times),
        reach(state, step.gap),
        step.hand,
        step.workers,
        step.where,
    )
    free = reach(state, step.free)
    say_left_over(state, cut.left_over, each, step.where)
    check_knots(state, len(cut.groups) * what.times, step.where)
    for column, group in enumerate(cut.groups):
        if free is not ZERO:
            owe(state, group, free)
        sinnet(state, group, what, Spot(0, column, 0, step.where))


def rows_step(state: State, step: RowsStep) -> None:
    """Ties rows of one knot, straight, alternating, shrinking or growing."""
    n_rows = number(state, step.rows)
    gap = reach(state, step.gap)
    what = Tie(
        KnotName(step.tie), number(state, step.times), ZERO, step.hand, step.workers, step.where
    )
    for row in range(n_rows):
        state.count_step(step.where)
        strands = _row_strands(state, step, row, n_rows)
        each = number(state, step.each, 1) if step.each is not None else len(strands)
        skip = number(state, step.shift) if row % 2 else 0
        cut = cut_into(strands, each, skip, shape_of(state, strands), step.where)
        if not skip:
            say_left_over(state, cut.left_over, each, step.where)
        check_knots(state, len(cut.groups) * what.times, step.where)
        for column, group in enumerate(cut.groups):
            if row and gap is not ZERO:
                owe(state, group, gap)
            sinnet(state, group, what, Spot(row, column, 0, step.where), row * what.times)


def _row_strands(state: State, step: RowsStep, row: int, n_rows: int) -> list[int]:
    strands = strands_at(state, step.on, step.where)
    out = number(state, step.shrink) * row + number(state, step.grow) * (n_rows - 1 - row)
    rest = strands[out : len(strands) - out] if out else strands
    if not rest or (step.each is not None and len(rest) < number(state, step.each, 1)):
        raise WorkError(
            f"In row {row + 1} of {n_rows}, {out} strands are left out at each side and "
            f"{len(rest)} of {len(strands)} are left: too few for a {step.tie}.",
            remedy="work fewer rows, or change shrink or grow",
            place=step.where,
        )
    return rest
