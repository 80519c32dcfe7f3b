"""Filling spools one after the other: quick, often best, never proof.

* First-fit and best-fit decreasing (Johnson, Demers, Ullman, Garey & Graham, 'Worst-case
  performance bounds for simple one-dimensional packing algorithms', SIAM J. Computing 3, 1974).
* Spool by spool: of what is still to be cut the subset that leaves the least rest (Eilon &
  Christofides, 'The loading problem', Management Science 17, 1971, and in its form with the
  longest piece always taken, Gupta & Ho, 'A new heuristic algorithm for the one-dimensional
  bin-packing problem', Production Planning & Control 10, 1999; both cited from memory). The
  subset comes from a table of the sums that can be reached, one bit each. A way of cutting that
  can be repeated is repeated: that leaves few set-ups.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import product

from cordwright.supply.problem import Counts, Filled, Problem


def best_filling(problem: Problem) -> list[Filled]:
    """The cheapest of all fillings that this module knows."""
    return min(fillings(problem), key=problem.total)


def fillings(problem: Problem) -> Iterator[list[Filled]]:
    """Every filling that this module knows, each of them whole."""
    for order in _orders(problem):
        yield first_fit_decreasing(problem, order)
        yield best_fit_decreasing(problem, order)
        for longest, saving in product((True, False), (True, False)):
            yield spool_by_spool(problem, order, longest=longest, saving=saving)
    for longest in (True, False):
        yield spool_by_spool(problem, None, longest=longest, saving=True)


def _orders(problem: Problem) -> list[tuple[int, ...]]:
    """Orders in which to take sources: what is at hand first, then one that can be bought."""
    sources = problem.sources
    hand = [i for i, s in enumerate(sources) if s.buy == 0 and s.most is not None]
    bought = [i for i in range(len(sources)) if i not in hand]
    bought.sort(key=lambda i: (sources[i].buy / sources[i].length, -sources[i].length))
    rising = sorted(hand, key=lambda i: sources[i].length)
    tails = [(b, *(o for o in bought if o != b)) for b in bought] or [()]
    return list(dict.fromkeys((*head, *tail) for head in (rising, rising[::-1]) for tail in tails))


def first_fit_decreasing(problem: Problem, order: Sequence[int]) -> list[Filled]:
    """Longest pieces first, each from the first spool that has room.

    Args:
        problem: what to cut.
        order: in which sources are taken; each is used up before the next is begun.
    """
    spools = _Spools(problem, order)
    for kind, n in enumerate(problem.demand):
        unit = problem.units[kind]
        at = 0
        while n and (at < len(spools.room) or spools.open(unit)):
            take = min(n, spools.room[at] // unit)
            if take:
                spools.cut(at, kind, take)
                n -= take
            at += 1
    return spools.filled()


def best_fit_decreasing(problem: Problem, order: Sequence[int]) -> list[Filled]:
    """Longest pieces first, each from the opened spool that it leaves least on.

    Args:
        problem: what to cut.
        order: in which sources are taken; each is used up before the next is begun.
    """
    spools = _Spools(problem, order)
    rooms: list[tuple[int, int]] = []
    for kind, n in enumerate(problem.demand):
        unit = problem.units[kind]
        for _ in range(n):
            at = bisect_left(rooms, (unit, -1))
            if at < len(rooms):
                spool = rooms.pop(at)[1]
            elif spools.open(unit):
                spool = len(spools.room) - 1
                for skipped in range(spools.known, spool):
                    insort(rooms, (spools.room[skipped], skipped))
                spools.known = spool + 1
            else:
                break
            spools.cut(spool, kind, 1)
            insort(rooms, (spools.room[spool], spool))
    return spools.filled()


class _Spools:
    """Spools that are opened one after the other, in a given order of sources."""

    def __init__(self, problem: Problem, order: Sequence[int]) -> None:
        self.problem = problem
        self.order: Iterator[int] = (i for i in order for _ in range(problem.most(i)))
        self.source: list[int] = []
        self.room: list[int] = []
        self.counts: list[list[int]] = []
        self.known = 0

    def open(self, unit: int) -> bool:
        """Open spools until one has room for a piece of so many steps; whether one did."""
        for source in self.order:
            self.source.append(source)
            self.room.append(self.problem.room(source))
            self.counts.append([0] * len(self.problem.demand))
            if self.room[-1] >= unit:
                return True
        return False

    def cut(self, spool: int, kind: int, n: int) -> None:
        """Cut pieces of a kind from an opened spool."""
        self.room[spool] -= n * self.problem.units[kind]
        self.counts[spool][kind] += n

    def filled(self) -> list[Filled]:
        """Every spool that something is cut from."""
        rows = zip(self.source, self.counts, strict=True)
        return collected((source, tuple(counts)) for source, counts in rows if any(counts))


def collected(rows: Iterable[tuple[int, Counts]]) -> list[Filled]:
    """Spools that are cut alike, together."""
    times: dict[tuple[int, Counts], int] = {}
    for row in rows:
        times[row] = times.get(row, 0) + 1
    return [Filled(source, counts, n) for (source, counts), n in times.items()]


def spool_by_spool(
    problem: Problem, order: Sequence[int] | None, *, longest: bool, saving: bool
) -> list[Filled]:
    """Fills each spool as well as what is left to cut allows.

    Args:
        problem: what to cut.
        order: in which sources are taken; None takes, each time, the one that costs least for
            what it holds.
        longest: always cut the longest piece that fits first.
        saving: rather leave a rest that is worth keeping than a shorter one that is lost.
    """
    left = list(problem.demand)
    spools = [problem.most(i) for i in range(len(problem.sources))]
    filled: dict[tuple[int, Counts], int] = {}
    while any(left):
        usable = [i for i in (order or range(len(spools))) if spools[i]]
        if not usable:
            break
        if order is not None:
            usable = usable[:1]
        source, counts = _next(problem, left, usable, longest=longest, saving=saving)
        if not any(counts):
            spools[source] = 0
            continue
        times = min([spools[source], *(m // n for m, n in zip(left, counts, strict=True) if n)])
        key = source, counts
        filled[key] = filled.get(key, 0) + times
        spools[source] -= times
        left = [m - times * n for m, n in zip(left, counts, strict=True)]
    return [Filled(source, counts, n) for (source, counts), n in filled.items()]


def _next(
    problem: Problem, left: Sequence[int], usable: Sequence[int], *, longest: bool, saving: bool
) -> tuple[int, Counts]:
    """The spool to fill next and what to cut from it."""
    ways = []
    sums: dict[tuple[int, ...], _Sums] = {}
    for source in usable:
        room = problem.room(source)
        first = next((k for k, n in enumerate(left) if n and problem.units[k] <= room), None)
        base = [0] * len(left)
        if first is None:
            ways.append(((1, 0.0), source, tuple(base)))
            continue
        base[first] = int(longest)
        rest = [m - n for m, n in zip(left, base, strict=True)]
        if tuple(rest) not in sums:
            largest = max(problem.room(i) for i in usable)
            sums[tuple(rest)] = _Sums.of(problem.units, rest, largest)
        table = sums[tuple(rest)]
        begun = problem.used(base)
        used = _aim(problem, source, table, begun, saving=saving)
        counts = tuple(a + b for a, b in zip(base, table.counts(used - begun), strict=True))
        ways.append(((0, problem.cost(source, used) / max(1, used)), source, counts))
    _, source, counts = min(ways)
    return source, counts


def _aim(problem: Problem, source: int, sums: _Sums, begun: int, *, saving: bool) -> int:
    """How many steps to cut from a spool from which so many are begun."""
    most = sums.reached(problem.room(source) - begun)
    used = begun + most
    length = problem.sources[source].length
    if saving and problem.keep is not None and problem.lost(length - used * problem.step):
        limit = (length - problem.keep) // problem.step - begun
        if limit >= 0 and (kept := sums.reached(limit)) + begun > 0:
            return begun + kept
    return used


@dataclass(frozen=True, slots=True)
class _Sums:
    """The sums that pieces can reach.

    Args:
        chunks: kind and number of the pieces that are taken together, shortest first, so that a
            number of pieces is a sum of chunks.
        weights: steps of each chunk.
        tables: before each chunk and after the last, a bit for every sum that is reached.
    """

    kinds: int
    chunks: tuple[tuple[int, int], ...]
    weights: tuple[int, ...]
    tables: tuple[int, ...]

    @classmethod
    def of(cls, units: Sequence[int], left: Sequence[int], room: int) -> _Sums:
        mask = (1 << (room + 1)) - 1
        chunks, weights, tables = [], [], [1]
        for kind in reversed(range(len(units))):
            for n in chunks_of(min(left[kind], room // units[kind])):
                chunks.append((kind, n))
                weights.append(n * units[kind])
                tables.append((tables[-1] | tables[-1] << weights[-1]) & mask)
        return cls(len(units), tuple(chunks), tuple(weights), tuple(tables))

    def reached(self, limit: int) -> int:
        """The greatest sum that is not above a limit of 0 or more."""
        return (self.tables[-1] & ((1 << (limit + 1)) - 1)).bit_length() - 1

    def counts(self, total: int) -> Counts:
        """Pieces that reach a sum, long ones where there is a choice."""
        counts = [0] * self.kinds
        for i in reversed(range(len(self.chunks))):
            rest = total - self.weights[i]
            if rest >= 0 and self.tables[i] >> rest & 1:
                kind, n = self.chunks[i]
                counts[kind] += n
                total = rest
        return tuple(counts)


def chunks_of(n: int) -> list[int]:
    """Numbers of which some make up every number from 0 to n, and none makes up more.

    >>> chunks_of(10)
    [1, 2, 4, 3]
    """
    chunks = []
    size = 1
    while n > 0:
        chunks.append(min(size, n))
        n -= chunks[-1]
        size *= 2
    return chunks
