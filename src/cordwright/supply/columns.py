"""The bound of Gilmore and Gomory: the cutting plan in parts of spools, by column generation.

P. C. Gilmore & R. E. Gomory, 'A linear programming approach to the cutting-stock problem',
Operations Research 9 (1961), 849-859. Each column is a way to cut a spool. The linear program
says what a piece of each kind is worth (its dual value), and the way of cutting that brings most
above its cost comes in next, found by dynamic programming over every position of the spool.

Every round gives a bound, whether or not it is the last: the program's value, with each spool's
best reduced cost taken off as often as there are spools (Lagrange; Farley 1990).

A plan may also leave a piece out, at a penalty, so that the program always has a solution.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from cordwright.supply.filling import chunks_of

if TYPE_CHECKING:
    from cordwright.supply.problem import Counts, Filled, Problem

Floats = NDArray[np.float64]

_ATTRACTIVE = 1e-7
"""A reduced cost is below zero if it is below this part of the largest cost, the other way."""
MOST_ROUNDS = 2000


@dataclass(frozen=True, slots=True)
class Relaxed:
    """The cutting plan in parts of spools.

    Args:
        bound: no cutting plan costs less, ticks; not yet rounded up.
        worth: of a piece of each kind, ticks.
        rent: of a spool of each source, ticks, 0 or below: what one more of it would change.
        solved: whether no better way of cutting is left, so that ``worth`` proves the bound.
        parts: ways of cutting, each with its source and how many spools, in parts, are cut so.
    """

    bound: float
    worth: tuple[float, ...]
    rent: tuple[float, ...]
    solved: bool
    parts: tuple[tuple[int, Counts, float], ...] = ()


def relaxed(
    problem: Problem, known: Iterable[Filled], enough: int, going: Callable[[], bool]
) -> Relaxed:
    """Solves the cutting plan in parts of spools.

    Args:
        problem: what to cut.
        known: ways of cutting to begin with.
        enough: stop when the bound, rounded up, has come to this.
        going: whether there is time for another round.
    """
    ways = dict.fromkeys((f.source, f.counts) for f in known)
    best = Relaxed(0.0, (0.0,) * len(problem.lengths), (0.0,) * len(problem.sources), solved=False)
    eps = _ATTRACTIVE * max(problem.penalty, 1)
    for _ in range(MOST_ROUNDS):
        value, worth, rent, parts = _master(problem, list(ways))
        reduced = _best_ways(problem, worth, rent)
        slack = sum(problem.most(s) * min(0.0, r) for s, (r, _) in reduced.items())
        solved = all(r >= -eps for r, _ in reduced.values())
        if solved or value + slack > best.bound:
            best = Relaxed(max(best.bound, value + slack), worth, rent, solved)
        best = replace(best, parts=parts)
        new = [(s, counts) for s, (r, counts) in reduced.items() if r < -eps]
        if solved or problem.round_up(best.bound) >= enough or not going():
            break
        if all(way in ways for way in new):  # the program and the table differ by rounding only
            break
        ways.update(dict.fromkeys(new))
    return best


def _master(
    problem: Problem, ways: Sequence[tuple[int, Counts]]
) -> tuple[float, tuple[float, ...], tuple[float, ...], tuple[tuple[int, Counts, float], ...]]:
    """The linear program over some ways of cutting: value, worth of pieces and spools, and plan.

    Costs go in as steps of `Problem.fineness`, which keeps them small.
    """
    from scipy.optimize import linprog

    kinds, sources = len(problem.lengths), len(problem.sources)
    fine = float(problem.fineness)
    cost = [problem.cost(s, problem.used(c)) / fine for s, c in ways]
    cost += [problem.penalty / fine] * kinds
    pieces = np.zeros((kinds, len(ways) + kinds))
    spools = np.zeros((sources, len(ways) + kinds))
    for column, (source, counts) in enumerate(ways):
        pieces[:, column] = counts
        spools[source, column] = 1.0
    pieces[:, len(ways) :] = np.eye(kinds)
    answer = linprog(
        cost,
        A_ub=spools,
        b_ub=[problem.most(i) for i in range(sources)],
        A_eq=pieces,
        b_eq=problem.demand,
        method="highs",
    )
    worth = tuple(float(w) * fine for w in answer.eqlin.marginals)
    rent = tuple(min(0.0, float(w)) * fine for w in answer.ineqlin.marginals)
    value = sum(w * n for w, n in zip(worth, problem.demand, strict=True))
    value += sum(w * problem.most(i) for i, w in enumerate(rent))
    amounts = np.asarray(answer.x, dtype=float)[: len(ways)]
    parts = tuple((*way, float(n)) for way, n in zip(ways, amounts, strict=True) if n > 0.0)
    return value, worth, rent, parts


def _best_ways(
    problem: Problem, worth: Sequence[float], rent: Sequence[float]
) -> dict[int, tuple[float, Counts]]:
    """For every source the least reduced cost in ticks, and the way of cutting that has it."""
    table = _Worths.of(problem, worth)
    found = {}
    for source in range(len(problem.sources)):
        reduced = costs(problem, source) - table.best[: problem.room(source) + 1] - rent[source]
        used = int(np.argmin(reduced))
        found[source] = float(reduced[used]), table.counts(used)
    return found


def costs(problem: Problem, source: int) -> Floats:
    """Cost in ticks of a spool of a source, (room + 1,), by the steps that are cut from it."""
    given = problem.sources[source]
    rest = given.length - problem.step * np.arange(problem.room(source) + 1, dtype=float)
    lost = rest if problem.keep is None else np.where(rest >= problem.keep, 0.0, rest)
    return np.asarray(given.buy + problem.setup + lost, dtype=float)


@dataclass(frozen=True, slots=True)
class _Worths:
    """The most that pieces with a given sum of steps are worth together.

    Args:
        best: by sum; minus infinity where no pieces have it.
        taken: for each chunk whether it is part of the best, by sum.
        chunks: kind and number of pieces taken together.
    """

    units: tuple[int, ...]
    best: Floats
    taken: tuple[NDArray[np.bool_], ...]
    chunks: tuple[tuple[int, int], ...]

    @classmethod
    def of(cls, problem: Problem, worth: Sequence[float]) -> _Worths:
        room = max(problem.room(i) for i in range(len(problem.sources)))
        best = np.full(room + 1, -np.inf)
        best[0] = 0.0
        taken, chunks = [], []
        for kind, unit in enumerate(problem.units):
            for n in chunks_of(min(problem.demand[kind], room // unit)):
                moved = best[: room + 1 - n * unit] + n * worth[kind]
                take = moved > best[n * unit :]
                best[n * unit :] = np.where(take, moved, best[n * unit :])
                taken.append(take)
                chunks.append((kind, n))
        return cls(problem.units, best, tuple(taken), tuple(chunks))

    def counts(self, total: int) -> Counts:
        """The pieces that are worth most among those with this sum, which some have."""
        counts = [0] * len(self.units)
        for (kind, n), take in zip(reversed(self.chunks), reversed(self.taken), strict=True):
            before = total - n * self.units[kind]
            if before >= 0 and take[before]:
                counts[kind] += n
                total = before
        return tuple(counts)
