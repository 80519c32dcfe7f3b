"""What can be made from what is at hand: as planned, or with the plan's free sizes changed.

A size is free if the plan gives it a bound. All free sizes go down together, by the same share of
their way to their lower bounds, until the piece can be cut; and one at a time, the others as
planned. Where the piece fits as planned, they go up the same way to their upper bounds.

Shares are tried by bisection in steps of 1/64 of the way. That takes for granted that a smaller
piece needs no more cord; the size that is told was worked and cut, so it fits in any case.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from cordwright.errors import CordwrightError
from cordwright.plan.freesizes import FreeSize, free_sizes
from cordwright.supply.cutting import Rules, cutting_plan

if TYPE_CHECKING:
    from cordwright.plan.model import Plan
    from cordwright.supply.demand import Demand
    from cordwright.supply.stock import Stock

STEPS = 64
Fits = Literal["yes", "no", "not found"]
"""Whether there is a way to cut everything; "not found" where none was found in time, without proof
that there is none."""
DemandAt = Callable[[Mapping[str, str]], "Demand"]
"""What a plan needs with some sizes as given; a `CordwrightError` if that cannot be worked."""


@dataclass(frozen=True, slots=True)
class Resized:
    """A piece that fits with other sizes.

    Args:
        share: of the way to the bounds: from 0, as planned, to 1; below 0 upwards.
        sizes: what the sizes are then, as written in a plan.
    """

    share: float
    sizes: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Makeable:
    """What can be made of one plan.

    Args:
        fits: as planned.
        together: all free sizes changed by the same share: made smaller as little as need be where
            it does not fit, larger as far as it goes where it does; None if that does not help.
        alone: the same for each size that is changed alone, and helps; only where it does not fit.
        lacking: cords of which there is none at all.
    """

    fits: Fits
    together: Resized | None
    alone: Mapping[str, Resized]
    lacking: tuple[str, ...] = ()


def fits(demand: Demand, stock: Stock, seconds: float) -> Fits:
    """Whether everything can be cut from a stock.

    Args:
        demand: what is to be cut.
        stock: of all cords.
        seconds: time for each cord where filling the spools one by one is not enough.
    """
    verdict: Fits = "yes"
    for cord, needs in demand.items():
        here = stock.of(cord)
        if sum(n.length_mm * n.count for n in needs) > _held(here):
            return "no"
        plan = cutting_plan(needs, here, Rules(setup_mm=0.0, seconds=0.0))
        if not plan.enough and not plan.proved:
            plan = cutting_plan(needs, here, Rules(setup_mm=0.0, seconds=seconds))
        if not plan.enough:
            if plan.proved:
                return "no"
            verdict = "not found"
    return verdict


def _held(stock: Stock) -> float:
    endless = any(p.most is None for p in stock.put_ups)
    held = sum(s.length_mm for s in stock.spools)
    return (
        float("inf") if endless else held + sum(p.length_mm * (p.most or 0) for p in stock.put_ups)
    )


def makeable(plan: Plan, demand_at: DemandAt, stock: Stock, seconds: float = 2.0) -> Makeable:
    """Whether a plan can be made from a stock, and with which sizes.

    Args:
        plan: the plan.
        demand_at: what it needs with other sizes.
        stock: of all cords.
        seconds: as for `fits`.

    Raises:
        CordwrightError: the plan cannot be worked as it is.
    """
    free = free_sizes(plan)

    def fit(sizes: Mapping[str, str]) -> bool:
        try:
            return fits(demand_at(sizes), stock, seconds) == "yes"
        except CordwrightError:  # sizes that do not go together
            return False

    planned = demand_at({})
    held = {s.cord for s in stock.spools} | {p.cord for p in stock.put_ups}
    lacking = tuple(cord for cord in planned if cord not in held)
    if lacking:
        return Makeable("no", None, {}, lacking)
    verdict = fits(planned, stock, seconds)
    if verdict == "yes":
        upward = tuple(f for f in free if f.most is not None and f.most > f.value)
        return Makeable(verdict, _farthest(upward, fit), {})
    down = tuple(f for f in free if f.least is not None and f.least < f.value)
    together = _nearest(down, fit)
    alone = {f.name: _nearest((f,), fit) for f in down} if together and len(down) > 1 else {}
    return Makeable(verdict, together, {n: r for n, r in alone.items() if r})


def _nearest(
    free: tuple[FreeSize, ...], fit: Callable[[Mapping[str, str]], bool]
) -> Resized | None:
    """The least share downwards that fits; None if all of it does not."""
    if not free or not fit(_sizes(free, 1.0)):
        return None
    misses, hits = 0, STEPS
    while hits - misses > 1:
        middle = (misses + hits) // 2
        if fit(_sizes(free, middle / STEPS)):
            hits = middle
        else:
            misses = middle
    return Resized(hits / STEPS, _sizes(free, hits / STEPS))


def _farthest(
    free: tuple[FreeSize, ...], fit: Callable[[Mapping[str, str]], bool]
) -> Resized | None:
    """The greatest share upwards that fits; None if not even the first step does."""
    hits, misses = 0, STEPS + 1
    while free and misses - hits > 1:
        middle = (misses + hits) // 2
        if fit(_sizes(free, -middle / STEPS)):
            hits = middle
        else:
            misses = middle
    return Resized(-hits / STEPS, _sizes(free, -hits / STEPS)) if hits else None


def _sizes(free: tuple[FreeSize, ...], share: float) -> dict[str, str]:
    return {f.name: at(f, share) for f in free}


def at(size: FreeSize, share: float) -> str:
    """A size as written in a plan, a share of the way down (below 0: up).

    Lengths come to the millimetre, towards the planned one. A size without that bound stays.
    """
    bound = size.least if share >= 0 else size.most
    end = size.value if bound is None else bound
    moved = abs(share) * (end - size.value)
    if size.count:
        return str(round(size.value + (int(moved) if abs(share) < 1 else moved)))
    return f"{end if abs(share) == 1.0 else size.value + int(moved):.6f} mm"
