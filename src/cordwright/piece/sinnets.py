"""Sinnets: knots one below the other on the same strands."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from cordwright.knots.spec import Hand, KnotName, KnotSpec, Role
from cordwright.piece.knotting import Spot, filler_ratio, fitted, owe, tie, working_cords
from cordwright.piece.state import ZERO, Hanging, State
from cordwright.piece.workers import Tie, entering

if TYPE_CHECKING:
    from cordwright.piece.fit import Fit


def sinnet(state: State, group: Sequence[int], what: Tie, spot: Spot, first: int = 0) -> None:
    """Ties a sinnet on one group.

    Args:
        state: moved on.
        group: strands from left to right.
        what: the knot, how often, with what free cord in between.
        spot: of the first knot.
        first: how many knots of the same column came before: alternating hands go on counting.
    """
    if not what.times:
        return
    order, fixed = entering(state, list(group), what)
    for i in range(what.times):
        if i and what.gap is not ZERO:
            owe(state, order, what.gap)
        hand = fixed or hand_of(what, first + i)
        order = one(state, order, what, hand, spot._replace(number=i), settled=i > 0)


def hand_of(what: Tie, index: int) -> Hand:
    """The hand of a knot, counted from 0 down its column."""
    if what.hand == "alternate":
        return "right" if index % 2 else "left"
    return what.hand


def one(
    state: State, order: list[int], what: Tie, hand: Hand, spot: Spot, *, settled: bool
) -> list[int]:
    """Ties one knot of a sinnet; gives the strands from left to right below it."""
    spec, knot, by_place = chosen(state, order, what, hand)
    tie(state, spec, knot, by_place, spot)
    below = by_place
    if knot.exits is not None:
        below = list(by_place)
        for place, out in enumerate(knot.exits):
            below[out] = by_place[place]
    if by_place[0] != order[0]:  # the figures count from the right
        below = below[::-1]
    if not settled or knot.exits is not None or below != order:
        state.arrange(below, state.strands[below[0]].at)
    return below


def chosen(
    state: State, order: list[int], what: Tie, hand: Hand
) -> tuple[KnotSpec, Fit, list[int]]:
    """Which tight knot a group takes, and its strands by place."""
    hung = [state.strands[s] for s in order]
    workers, fillers = _parts(what.knot, hung, hand)
    cords, d = working_cords(state, workers, what.step)
    spec = KnotSpec(what.knot, len(order), hand=hand, filler_d=filler_ratio(state, fillers, d))
    knot = fitted(state, spec, cords)
    if what.knot is KnotName.HALF_HITCH and len(order) > 1:
        works_last = knot.roles[-1] is Role.WORKING
        return spec, knot, order if works_last == (hand == "right") else order[::-1]
    return spec, knot, order


def _parts(
    knot: KnotName, hung: Sequence[Hanging], hand: Hand
) -> tuple[Sequence[Hanging], Sequence[Hanging]]:
    if knot is KnotName.OVERHAND:
        return hung, ()
    if knot is KnotName.HALF_HITCH:
        return (hung[:1], hung[1:]) if hand == "left" else (hung[-1:], hung[:-1])
    return (hung[0], hung[-1]), hung[1:-1]
