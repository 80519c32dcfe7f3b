"""From a cutting plan in parts of spools to one in whole spools.

Of every way of cutting in the relaxed plan (`cordwright.supply.columns`) so many whole spools are
taken as it has. What is still to be cut then is small, however many kits there are: fewer spools
than there are kinds of piece and of spool, since a vertex of the linear program has no more ways
of cutting than that. It is filled spool by spool, and looked through exactly for a better plan
where there is time. Wäscher & Gau, 'Heuristics for the integer one-dimensional cutting stock
problem: a computational study', OR Spektrum 18 (1996), 131-144, compare such residual methods
(cited from memory).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from cordwright.supply.columns import relaxed
from cordwright.supply.exact import better
from cordwright.supply.filling import best_filling
from cordwright.supply.problem import Filled, Problem

if TYPE_CHECKING:
    from cordwright.supply.columns import Relaxed

NEARLY = 1e-6  # a part of a spool that is this near to a whole one is one
MOST_SHARE = 0.4  # of the time that is left, for the exact search through what is left to cut


def whole(problem: Problem, relaxation: Relaxed, left: Callable[[], float]) -> list[Filled]:
    """A plan near the relaxed one.

    Args:
        problem: what to cut.
        relaxation: of the same.
        left: seconds that are left.
    """
    taken = [
        Filled(source, counts, int(np.floor(n + NEARLY)))
        for source, counts, n in relaxation.parts
        if n + NEARLY >= 1.0
    ]
    rest = _rest(problem, taken)
    if not any(rest.demand):
        return taken
    filled = best_filling(rest)
    cost = rest.total(filled)
    until = left() * (1.0 - MOST_SHARE)
    if left() > 0.0:
        solution = relaxed(rest, filled, cost, lambda: left() > until)
        if solution.solved and rest.round_up(solution.bound) < cost:
            answer = better(rest, solution, cost, max(0.0, left() - until))
            if answer.filled is not None and rest.total(answer.filled) < cost:
                filled = answer.filled
    return _together([*taken, *filled])


def _rest(problem: Problem, taken: list[Filled]) -> Problem:
    """What is to be cut beside that, from the spools that are left."""
    used = [0] * len(problem.sources)
    for f in taken:
        used[f.source] += f.times
    sources = tuple(
        s if s.most is None else replace(s, most=s.most - n)
        for s, n in zip(problem.sources, used, strict=True)
    )
    return replace(problem, demand=problem.left_out(taken), sources=sources)


def _together(filled: list[Filled]) -> list[Filled]:
    times: dict[tuple[int, tuple[int, ...]], int] = {}
    for f in filled:
        times[f.source, f.counts] = times.get((f.source, f.counts), 0) + f.times
    return [Filled(source, counts, n) for (source, counts), n in times.items()]
