"""How little a cutting plan can cost at least, without solving it.

`l1` and `l2` are for spools of one length, and count them: S. Martello & P. Toth, 'Lower bounds
and reduction procedures for the bin packing problem', Discrete Applied Mathematics 28 (1990),
59-70. `by_amount` is the same thought as `l1` for spools of several lengths, with their cost.
The bound that the cutting plan mostly ends on is in `cordwright.supply.columns`.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from cordwright.supply.problem import Problem


MOST_STEPS = 20_000
"""Amounts that are gone through one by one for the cheapest purchase."""


def l1(lengths: Sequence[int], room: int) -> int:
    """Spools needed if pieces could be joined: all cord over one spool, rounded up.

    >>> l1([6, 6, 6], 10)
    2
    """
    return -(-sum(lengths) // room)


def l2(lengths: Sequence[int], room: int) -> int:
    """Spools needed at least, because long pieces do not share a spool.

    For each limit k up to half a spool: pieces above ``room - k`` each have a spool of their own,
    in which nothing of at least k fits; pieces above half a spool have one each; what these leave
    must hold the pieces from k to half, or more spools are needed for them.

    Args:
        lengths: of the pieces, each above 0 and at most ``room``.
        room: of a spool, in the same whole units.

    >>> l2([6, 6, 6], 10)
    3
    """
    best = l1(lengths, room)
    for limit in sorted({0, *(x for x in lengths if 2 * x <= room)}):
        alone = sum(1 for x in lengths if x > room - limit)
        long = [x for x in lengths if room - limit >= x > room / 2]
        short = sum(x for x in lengths if room / 2 >= x >= limit)
        over = short - (len(long) * room - sum(long))
        best = max(best, alone + len(long) + max(0, -(-over // room)))
    return best


def by_amount(problem: Problem) -> int:
    """Cost in ticks of enough spools and purchases, wherever pieces end; pieces may be joined.

    As few set-ups as the longest spools need, and the cheapest purchases that make up for what is
    not at hand; where nothing is at hand and no rest is worth keeping, also what these leave.
    What cannot be had at all costs nothing here.
    """
    sources = problem.sources
    hand = sum(s.length * problem.most(i) for i, s in enumerate(sources) if not s.buy)
    setups = _fewest(problem) * problem.setup
    put_ups = [(i, s) for i, s in enumerate(sources) if s.buy]
    if hand >= problem.need or not put_ups:
        return setups
    rests = problem.keep is None and not hand
    costs = [s.buy + (s.length if rests else 0) for _, s in put_ups]
    rooms = [s.length for _, s in put_ups]
    bought = _cheapest_cover(rooms, costs, problem.need - hand)
    return problem.round_up(setups + bought - (problem.need if rests else 0))


def _fewest(problem: Problem) -> int:
    """The fewest spools that hold so much cord; all of them if they hold less."""
    left, n = problem.need, 0
    for i in sorted(range(len(problem.sources)), key=lambda i: -problem.sources[i].length):
        length = problem.sources[i].length
        take = min(problem.most(i), -(-max(0, left) // length))
        left, n = left - take * length, n + take
    return n


def _cheapest_cover(rooms: Sequence[int], costs: Sequence[int], need: int) -> float:
    """The least cost of any number of each that hold so much together.

    Exact where the amounts have a coarse measure in common; where not, in parts of spools.
    """
    measure = math.gcd(*rooms)
    steps = -(-need // measure)
    if steps > MOST_STEPS:
        return need * min(c / r for c, r in zip(costs, rooms, strict=True))
    least = [0]
    for held in range(1, steps + 1):
        ways = (
            least[max(0, held - room // measure)] + cost
            for room, cost in zip(rooms, costs, strict=True)
        )
        least.append(min(ways))
    return least[steps]
