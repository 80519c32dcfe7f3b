"""The best cutting plan, exactly: arcs along the spools, by integer programming with HiGHS.

J. M. Valério de Carvalho, 'Exact solution of bin-packing problems using column generation and
branch-and-bound', Annals of Operations Research 86 (1999), 629-659. A spool is a path from its
beginning over arcs, each as long as a piece, longer ones first; where the path leaves, the rest
begins. So many paths of each source as there are spools, so many arcs of each kind as pieces.

Only arcs that a better plan could use go in. The relaxation (`cordwright.supply.columns`) says
what every piece is worth; the best path over an arc has a reduced cost, and a plan with that path
costs at least the relaxed one and this. Where that is not better than the plan at hand, the arc
is left out. This is exact, unlike an integer program over the relaxation's own ways of cutting.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

import numpy as np
from numpy.typing import NDArray

from cordwright.supply.columns import Floats, Relaxed, costs
from cordwright.supply.filling import chunks_of, collected
from cordwright.supply.solving import Program, solve

if TYPE_CHECKING:
    from scipy.sparse import csr_array

    from cordwright.supply.problem import Filled, Problem

Ints = NDArray[np.int64]

MOST_ARCS = 150_000
"""Larger programs are not tried: they would not be solved in the seconds that there are."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What the integer program found.

    Args:
        filled: a plan that is better than the one at hand; None if none was found.
        bound: no plan costs less, ticks; None if nothing was learnt.
        end: solved, out of time, or too large to be tried.
    """

    filled: list[Filled] | None
    bound: int | None
    end: Literal["solved", "time", "size"]


@dataclass(frozen=True, slots=True)
class _Arcs:
    """Arcs and ends of paths that a better plan could use.

    Args:
        kind: of each arc, or -1 for an end.
        source: of each end, or -1 for an arc.
        start: where each begins, steps.
        stop: where an arc ends, steps; -1 for an end of a path.
        cost: of each, ticks: of an end that of the spool, of an arc none.
    """

    kind: Ints
    source: Ints
    start: Ints
    stop: Ints
    cost: Floats


def better(problem: Problem, relaxation: Relaxed, best: int, seconds: float) -> Answer:
    """Looks for a plan that is better than the one at hand, or proves that there is none.

    Args:
        problem: what to cut.
        relaxation: solved to the end.
        best: cost of the plan at hand, ticks.
        seconds: time that it may take.
    """
    arcs = _useful(problem, relaxation, best - problem.fineness)
    if arcs is None:
        return Answer(None, None, "size")
    return _solve(problem, arcs, best, seconds)


def _useful(problem: Problem, relaxation: Relaxed, limit: int) -> _Arcs | None:
    """The arcs that a plan of at most this cost can use; None if they are too many."""
    slack = limit - relaxation.bound + 1e-6 * max(1.0, abs(relaxation.bound))
    up_to = _before(problem, relaxation.worth)
    ends = [-costs(problem, s) + relaxation.rent[s] for s in range(len(problem.sources))]
    after = np.full(len(up_to[0]), -np.inf)
    for worth in ends:
        after[: len(worth)] = np.maximum(after[: len(worth)], worth)
    found: list[tuple[Ints, int, int, Ints]] = []
    for source, worth in enumerate(ends):
        at = np.flatnonzero(up_to[-1][: len(worth)] + worth >= -slack)
        found.append((at, -1, source, np.full(len(at), -1)))
    for kind in reversed(range(len(problem.units))):
        unit, worth_of = problem.units[kind], relaxation.worth[kind]
        if unit >= len(after):  # too long for any spool
            continue
        after = _more(after[::-1], unit, problem.demand[kind], worth_of)[::-1]
        way = up_to[kind + 1][: len(after) - unit] + worth_of + after[unit:]
        at = np.flatnonzero(way >= -slack)
        found.append((at, kind, -1, at + unit))
        if sum(len(f[0]) for f in found) > MOST_ARCS:
            return None
    start = np.concatenate([f[0] for f in found])
    kind_of = np.concatenate([np.full(len(f[0]), f[1]) for f in found])
    source_of = np.concatenate([np.full(len(f[0]), f[2]) for f in found])
    cost = np.zeros(len(start))
    for source in range(len(ends)):
        here = source_of == source
        cost[here] = costs(problem, source)[start[here]]
    return _Arcs(kind_of, source_of, start, np.concatenate([f[3] for f in found]), cost)


def _before(problem: Problem, worth: Sequence[float]) -> list[Floats]:
    """The most that the first kinds are worth up to each position: after 0, 1, … all of them."""
    room = max(problem.room(i) for i in range(len(problem.sources)))
    best = np.full(room + 1, -np.inf)
    best[0] = 0.0
    tables = [best]
    for kind, unit in enumerate(problem.units):
        tables.append(_more(tables[-1], unit, problem.demand[kind], worth[kind]))
    return tables


def _more(best: Floats, unit: int, most: int, worth: float) -> Floats:
    """The most that can be reached with up to so many pieces of one more kind."""
    reached = best.copy()
    for n in chunks_of(min(most, (len(best) - 1) // unit)):
        moved = reached[: len(reached) - n * unit] + n * worth
        reached[n * unit :] = np.maximum(reached[n * unit :], moved)
    return reached


def _solve(problem: Problem, arcs: _Arcs, best: int, seconds: float) -> Answer:
    """The integer program over these arcs; costs go in as steps of `Problem.fineness`."""
    matrix, least, most = _rows(problem, arcs, best)
    spools = np.array([float(problem.most(i)) for i in range(len(problem.sources))])
    demand = np.array(problem.demand, dtype=float)
    per_arc = np.where(arcs.stop >= 0, demand[arcs.kind], spools[arcs.source])
    upper = np.concatenate([per_arc, demand])
    outcome = solve(Program(_cost(problem, arcs), matrix, least, most, upper), seconds)
    if outcome.end == "none":
        return Answer(None, best, "solved")
    filled = None if outcome.x is None else _paths(problem, arcs, outcome.x)
    if filled is not None and outcome.end == "solved":
        return Answer(filled, problem.total(filled), "solved")
    if outcome.bound is None:
        return Answer(filled, None, "time")
    # Plans that cost as much as the one at hand may use arcs that are left out.
    bound = min(best, problem.round_up(outcome.bound * problem.fineness))
    return Answer(filled, bound, "time")


def _cost(problem: Problem, arcs: _Arcs) -> Floats:
    """Of each arc, and of leaving out a piece of each kind; steps of `Problem.fineness`."""
    left_out = np.full(len(problem.lengths), float(problem.penalty))
    return np.concatenate([arcs.cost, left_out]) / problem.fineness


def _rows(problem: Problem, arcs: _Arcs, best: int) -> tuple[csr_array, Floats, Floats]:
    """What a plan must keep to: the rows, and the least and most of each.

    The unknowns are how many paths use each arc or end, and how many pieces of each kind are left
    out. What comes to a position leaves it; every piece is cut or left out; no more spools than
    there are; and the cost is below that of the plan at hand.
    """
    from scipy.sparse import csr_array, vstack

    kinds, sources, n = len(problem.lengths), len(problem.sources), len(arcs.start)
    places, at = np.unique(np.concatenate([arcs.start, arcs.stop]), return_inverse=True)
    own, inside, begins = np.arange(n), arcs.stop >= 0, arcs.start > 0
    comes, goes = (at[n:][inside], own[inside]), (at[:n][begins], own[begins])

    def matrix(values: Floats, rows: Ints, columns: Ints, height: int) -> csr_array:
        return csr_array((values, (rows, columns)), shape=(height, n + kinds))

    flow = matrix(
        np.concatenate([np.ones(len(comes[0])), -np.ones(len(goes[0]))]),
        np.concatenate([comes[0], goes[0]]),
        np.concatenate([comes[1], goes[1]]),
        len(places),
    )
    cut = matrix(
        np.ones(int(inside.sum()) + kinds),
        np.concatenate([arcs.kind[inside], np.arange(kinds)]),
        np.concatenate([own[inside], np.arange(n, n + kinds)]),
        kinds,
    )
    opened = matrix(np.ones(int((~inside).sum())), arcs.source[~inside], own[~inside], sources)
    cost = csr_array(_cost(problem, arcs)[None, :])
    demand, zero = np.array(problem.demand, dtype=float), np.zeros(len(places))
    spools = np.array([float(problem.most(i)) for i in range(sources)])
    limit = best // problem.fineness - 1 + 1e-6
    return (
        csr_array(vstack([flow, cut, opened, cost])),
        np.concatenate([zero, demand, np.zeros(sources), [-np.inf]]),
        np.concatenate([zero, demand, spools, [limit]]),
    )


def _paths(problem: Problem, arcs: _Arcs, times: Ints) -> list[Filled]:
    """The spools that a whole flow stands for."""
    leaving: defaultdict[int, list[int]] = defaultdict(list)
    left = times[: len(arcs.start)].copy()
    for i in np.flatnonzero(left):
        leaving[int(arcs.start[i])].append(int(i))
    rows = []
    while any(left[i] > 0 for i in leaving[0]):
        position, counts = 0, [0] * len(problem.lengths)
        while True:
            arc = next(i for i in leaving[position] if left[i] > 0)
            left[arc] -= 1
            if arcs.stop[arc] < 0:
                break
            counts[arcs.kind[arc]] += 1
            position = int(arcs.stop[arc])
        if any(counts):
            rows.append((int(arcs.source[arc]), tuple(counts)))
    return collected(rows)
