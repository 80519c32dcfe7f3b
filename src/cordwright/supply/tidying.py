"""Fewer lengths to measure, at no cost: pieces of one length are gathered on fewer spools."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from cordwright.supply.filling import collected

if TYPE_CHECKING:
    from cordwright.supply.problem import Filled, Problem

MOST_SPOOLS = 200
"""With more spools than this a plan stays as it is; it then repeats itself anyway."""


def tidied(problem: Problem, filled: Sequence[Filled]) -> list[Filled]:
    """The plan, with all pieces of a kind moved from one spool to another wherever that is free.

    A move is made if the other spool has pieces of that kind already, has the room, and the plan
    does not cost more. So each move saves one length to measure, and there is an end to them.
    """
    spools = [(f.source, list(f.counts)) for f in filled for _ in range(f.times)]
    if len(spools) > MOST_SPOOLS:
        return list(filled)
    while _one_move(problem, spools):
        pass
    return collected((source, tuple(counts)) for source, counts in spools if any(counts))


def _one_move(problem: Problem, spools: Sequence[tuple[int, list[int]]]) -> bool:
    for kind in range(len(problem.lengths)):
        holders = [i for i, (_, counts) in enumerate(spools) if counts[kind]]
        for giver in holders:
            for taker in holders:
                if giver != taker and _moved(problem, spools[giver], spools[taker], kind):
                    return True
    return False


def _moved(
    problem: Problem, giver: tuple[int, list[int]], taker: tuple[int, list[int]], kind: int
) -> bool:
    n = giver[1][kind]
    fewer, more = list(giver[1]), list(taker[1])
    fewer[kind] = 0
    more[kind] += n
    if problem.used(more) > problem.room(taker[0]):
        return False
    if _cost(problem, giver[0], fewer) + _cost(problem, taker[0], more) > (
        _cost(problem, *giver) + _cost(problem, *taker)
    ):
        return False
    giver[1][:], taker[1][:] = fewer, more
    return True


def _cost(problem: Problem, source: int, counts: Sequence[int]) -> int:
    used = problem.used(counts)
    return problem.cost(source, used) if used else 0
