"""The cutting plan: from which spool each length is cut, without a join.

First spools are filled one by one (`cordwright.supply.filling`), then a bound says how much better
any plan could be (`cordwright.supply.bounds`, `cordwright.supply.columns`), and where the two
differ the best plan is looked for exactly (`cordwright.supply.exact`). When time runs out, the best
plan so far stands, with the bound.

What is made small is the cost, said as cord: rests that are lost, purchases, and a set-up for
every spool that is opened (`cordwright.supply.problem`).
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from time import monotonic
from typing import Literal

from cordwright.errors import SupplyError
from cordwright.supply.bounds import by_amount
from cordwright.supply.filling import best_filling
from cordwright.supply.problem import (
    TICKS_PER_MM,
    Filled,
    Problem,
    Source,
    problem,
    ticks_down,
)
from cordwright.supply.stock import LONGEST_MM, PutUp, Spool, Stock
from cordwright.supply.tidying import tidied

MOST_PIECES = 100_000

End = Literal["proved", "time", "size"]
"""Why the search ended: the plan is proved best; time ran out; the exact program is too large."""


@dataclass(frozen=True, slots=True)
class Need:
    """Equal lengths that are to be cut.

    Args:
        id: what they are called, as in the cut list.
        length_mm: of each, above 0.
        count: how many.
    """

    id: str
    length_mm: float
    count: int = 1

    def __post_init__(self) -> None:
        if not (math.isfinite(self.length_mm) and 0.0 < self.length_mm <= LONGEST_MM):
            raise SupplyError(
                f"{self.id} is to be {self.length_mm:g} mm long, which cannot be cut.",
                remedy=f"lengths are above 0 and up to {LONGEST_MM / 1e6:g} km",
            )
        if self.count < 0:
            raise SupplyError(f"{self.count} of {self.id} are wanted.", remedy="0 or more")


@dataclass(frozen=True, slots=True)
class Rules:
    """How a maker wants to cut.

    Args:
        keep_mm: the least rest that is worth keeping; None if none is.
        setup_mm: how much cord opening one more spool is worth: as much may be lost to save it.
        seconds: time for the search for a better plan, about; 0 only fills and takes the quick
            bound.
    """

    keep_mm: float | None = 500.0
    setup_mm: float = 10.0
    seconds: float = 10.0

    def __post_init__(self) -> None:
        limits = ((self.keep_mm or 0.0, "rest to keep"), (self.setup_mm, "set-up"))
        for value, what in (*limits, (self.seconds, "time")):
            if not (math.isfinite(value) and 0.0 <= value <= LONGEST_MM):
                raise SupplyError(f"The {what} is {value:g}.", remedy="give 0 or more")


@dataclass(frozen=True, slots=True)
class Piece:
    """Equal pieces from one spool.

    Args:
        id: of what is needed.
        length_mm: that each is cut to.
        count: how many.
    """

    id: str
    length_mm: float
    count: int


@dataclass(frozen=True, slots=True)
class CutSpool:
    """One spool, cut.

    Args:
        source: which spool at hand, or which put-up to buy.
        number: of this spool among those that are bought of one put-up, from 1.
        pieces: what is cut from it, longest first.
        rest_mm: what is left.
        kept: whether the rest goes back on the shelf.
    """

    source: Spool | PutUp
    number: int
    pieces: tuple[Piece, ...]
    rest_mm: float
    kept: bool

    @property
    def bought(self) -> bool:
        """Whether it is bought for this."""
        return isinstance(self.source, PutUp)

    @property
    def cut_mm(self) -> float:
        """All pieces together."""
        return self.source.length_mm - self.rest_mm

    @property
    def lost_mm(self) -> float:
        """The rest, if it is not kept."""
        return 0.0 if self.kept else self.rest_mm

    @property
    def price_per_mm(self) -> Decimal | None:
        """What a millimetre of it costs, if that is known."""
        price = self.source.price
        return None if price is None else price / Decimal(repr(self.source.length_mm))


@dataclass(frozen=True, slots=True)
class CuttingPlan:
    """What to cut from which spool.

    Args:
        spools: that are opened, each with what is cut from it.
        missing: what could not be cut.
        cost_mm: rests lost, purchases and set-ups, said as cord; what is missing not counted.
        bound_mm: no plan that cuts as much costs less.
        first_fit_mm: cost of first-fit decreasing, to compare with; None if that leaves pieces out
            which this plan cuts.
        end: why the search ended.
    """

    spools: tuple[CutSpool, ...]
    missing: tuple[Piece, ...]
    cost_mm: float
    bound_mm: float
    first_fit_mm: float | None
    end: End

    @property
    def enough(self) -> bool:
        """Whether everything is cut."""
        return not self.missing

    @property
    def proved(self) -> bool:
        """Whether no plan can be better: cut more, or cost less."""
        return self.end == "proved"

    @property
    def cut_mm(self) -> float:
        """All pieces together."""
        return sum(p.length_mm * p.count for s in self.spools for p in s.pieces)

    @property
    def lost_mm(self) -> float:
        """All rests that are not kept."""
        return sum(s.lost_mm for s in self.spools)

    @property
    def kept_mm(self) -> float:
        """All rests that are."""
        return sum(s.rest_mm for s in self.spools if s.kept)

    @property
    def set_ups(self) -> int:
        """How often a length is measured anew: different lengths, over all spools."""
        return sum(len({p.length_mm for p in s.pieces}) for s in self.spools)

    @property
    def gap(self) -> float:
        """How much a better plan could save at most: its part of all cord, cut, lost or bought."""
        whole = self.cut_mm + self.cost_mm
        return (self.cost_mm - self.bound_mm) / whole if whole else 0.0


def cutting_plan(needs: Iterable[Need], stock: Stock, rules: Rules | None = None) -> CuttingPlan:
    """Makes the cutting plan for one kind of cord.

    Args:
        needs: what is to be cut.
        stock: of that cord (`Stock.of`). Spools at hand are used before any is bought.
        rules: how to cut.

    Raises:
        SupplyError: more than `MOST_PIECES` are wanted.

    >>> plan = cutting_plan(
    ...     [Need("A", 3000.0, 2), Need("B", 2000.0, 2)],
    ...     Stock((Spool("1", "main", 5000.0), Spool("2", "main", 5100.0))),
    ... )
    >>> [(s.source.id, [(p.id, p.count) for p in s.pieces], s.rest_mm) for s in plan.spools]
    [('2', [('A', 1), ('B', 1)], 100.0), ('1', [('A', 1), ('B', 1)], 0.0)]
    >>> plan.proved, plan.cost_mm
    (True, 120.0)
    """
    rules = rules or Rules()
    wanted = [n for n in needs if n.count]
    if sum(n.count for n in wanted) > MOST_PIECES:
        raise SupplyError(
            f"More than {MOST_PIECES} pieces of one cord are to be cut.",
            remedy="plan fewer kits at a time",
        )
    groups = _alike(stock)
    if not wanted or not groups:
        missing = tuple(Piece(n.id, n.length_mm, n.count) for n in wanted)
        return CuttingPlan((), missing, 0.0, 0.0, None if missing else 0.0, "proved")
    counts: defaultdict[float, int] = defaultdict(int)
    for need in wanted:
        counts[need.length_mm] += need.count
    task = problem(counts, list(groups), keep_mm=rules.keep_mm, setup_mm=rules.setup_mm)
    filled, bound, end = _search(task, rules.seconds)
    return _told(task, tidied(task, filled), bound, end, wanted, list(groups.values()))


def _alike(stock: Stock) -> dict[Source, list[Spool | PutUp]]:
    """Spools of equal length together, longest first, and every put-up with its cost as cord.

    A put-up costs as much cord as its price buys where cord is cheapest, and its length at least.
    """
    groups: dict[Source, list[Spool | PutUp]] = {}
    by_length: defaultdict[int, list[Spool | PutUp]] = defaultdict(list)
    for spool in stock.spools:
        by_length[ticks_down(spool.length_mm)].append(spool)
    for length, alike in sorted(by_length.items(), reverse=True):
        if length > 0:
            groups[Source(length, len(alike))] = alike
    rates = [p.price / Decimal(repr(p.length_mm)) for p in stock.put_ups if p.price]
    for put_up in stock.put_ups:
        length = ticks_down(put_up.length_mm)
        mm = Decimal(repr(put_up.length_mm))
        if put_up.price is not None and rates:
            mm = max(mm, put_up.price / min(rates))
        source = Source(length, put_up.most, math.ceil(mm * TICKS_PER_MM))
        if length > 0 and put_up.most != 0:
            groups.setdefault(source, []).append(put_up)
    return groups


def _search(task: Problem, seconds: float) -> tuple[list[Filled], int, End]:
    """The best plan that is found, a bound for every plan, and why the search ended."""
    until = monotonic() + seconds
    filled = best_filling(task)
    cost = task.total(filled)
    bound = min(cost, by_amount(task))
    if bound >= cost:
        return filled, cost, "proved"
    if seconds <= 0:
        return filled, bound, "time"
    from cordwright.supply.columns import relaxed
    from cordwright.supply.exact import better
    from cordwright.supply.rounding import whole

    solution = relaxed(task, filled, cost, lambda: monotonic() < until)
    bound = min(cost, max(bound, task.round_up(solution.bound)))
    if bound >= cost:
        return filled, cost, "proved"
    rounded = whole(task, solution, lambda: until - monotonic())
    if task.total(rounded) < cost:
        filled, cost = rounded, task.total(rounded)
        if bound >= cost:
            return filled, cost, "proved"
    left = until - monotonic()
    if not solution.solved or left <= 0:
        return filled, bound, "time"
    answer = better(task, solution, cost, left)
    if answer.filled is not None and task.total(answer.filled) < cost:
        filled, cost = answer.filled, task.total(answer.filled)
    bound = min(cost, max(bound, answer.bound or 0))
    if bound >= cost:
        return filled, cost, "proved"
    return filled, bound, "size" if answer.end == "size" else "time"


def _told(
    task: Problem,
    filled: Sequence[Filled],
    bound: int,
    end: End,
    wanted: Sequence[Need],
    groups: Sequence[list[Spool | PutUp]],
) -> CuttingPlan:
    """The answer in millimetres, with the names of spools and pieces."""
    from cordwright.supply.filling import first_fit_decreasing

    names = _Names(task, wanted)
    spools: list[CutSpool] = []
    used: defaultdict[int, int] = defaultdict(int)
    for f in sorted(filled, key=lambda f: (f.source, [-n for n in f.counts])):
        for _ in range(f.times):
            group = groups[f.source]
            source = group[used[f.source]] if isinstance(group[0], Spool) else group[0]
            used[f.source] += 1
            spools.append(_spool(task, f, source, used[f.source], names.pieces(f.counts)))
    missing = task.left_out(filled)
    cost = sum(f.times * task.cost(f.source, task.used(f.counts)) for f in filled)
    order = sorted(
        range(len(task.sources)), key=lambda i: (task.sources[i].buy > 0, -task.sources[i].length)
    )
    first = first_fit_decreasing(task, order)
    comparable = sum(task.left_out(first)) == sum(missing)
    penalties = task.penalty * sum(missing)
    return CuttingPlan(
        tuple(spools),
        names.pieces(missing),
        cost / TICKS_PER_MM,
        min(cost, max(0, bound - penalties)) / TICKS_PER_MM,
        (task.total(first) - penalties) / TICKS_PER_MM if comparable else None,
        end,
    )


def _spool(
    task: Problem, filled: Filled, source: Spool | PutUp, number: int, pieces: tuple[Piece, ...]
) -> CutSpool:
    rest = task.sources[filled.source].length - task.used(filled.counts) * task.step
    return CutSpool(
        source,
        number if isinstance(source, PutUp) else 1,
        pieces,
        max(0.0, source.length_mm - sum(p.length_mm * p.count for p in pieces)),
        kept=rest > 0 and task.lost(rest) == 0,
    )


class _Names:
    """Hands out pieces by name: those of one length in the order in which they were asked for."""

    def __init__(self, task: Problem, wanted: Sequence[Need]) -> None:
        self.task = task
        # A kind has the lengths that are rounded up to it: the next ones down, longest first.
        self.left: list[list[Piece]] = [[] for _ in task.lengths]
        for need in sorted(wanted, key=lambda n: -n.length_mm):
            kind = max(
                k
                for k, length in enumerate(task.lengths)
                if length >= need.length_mm * TICKS_PER_MM - 1e-6
            )
            self.left[kind].append(Piece(need.id, task.lengths[kind] / TICKS_PER_MM, need.count))

    def pieces(self, counts: Sequence[int]) -> tuple[Piece, ...]:
        """The next pieces of each kind."""
        return tuple(p for kind, n in enumerate(counts) for p in self._take(kind, n))

    def _take(self, kind: int, n: int) -> Iterable[Piece]:
        while n:
            first = self.left[kind][0]
            take = min(n, first.count)
            yield Piece(first.id, first.length_mm, take)
            n -= take
            rest = first.count - take
            self.left[kind][:1] = [Piece(first.id, first.length_mm, rest)] if rest else []
