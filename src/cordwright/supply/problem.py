"""Cutting as a problem in whole numbers: kinds of length, kinds of source, what a spool costs.

One-dimensional cutting stock with several stock lengths in limited number (Gilmore & Gomory, 'A
linear programming approach to the cutting-stock problem', Operations Research 9, 1961). Every
length is a whole number of ticks of 1/20 mm, which holds both millimetres and quarters of an inch
exactly. Pieces are rounded up to ticks and spools down; all pieces are whole multiples of a
common step, so that the programs that go over every position of a spool go over few of them.

A spool that is opened costs, in ticks of cord:

* what it costs to buy, said as cord (`Source.buy`); nothing if it is at hand;
* a set-up, for fetching, measuring anew and putting away;
* its rest, if that is shorter than what is worth keeping. A longer rest costs nothing.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

TICKS_PER_MM = 20
"""1/20 mm: a quarter of an inch is 127 of them."""

MOST_POSITIONS = 200_000
"""Positions along the longest spool; above that pieces are rounded up to a coarser step."""

_STEPS = (1, 20, 40, 100, 200, 400, 1000, 2000)  # ticks: 0.05 mm, then 1, 2, 5, 10 … 100 mm

Counts = tuple[int, ...]
"""How many pieces of each kind, in the problem's order of kinds."""


@dataclass(frozen=True, slots=True)
class Source:
    """Spools that are alike.

    Args:
        length: ticks of cord on each.
        most: how many there are; None if any number can be had.
        buy: what each costs to buy, as ticks of cord.
    """

    length: int
    most: int | None
    buy: int = 0


@dataclass(frozen=True, slots=True)
class Filled:
    """Spools that are cut alike.

    Args:
        source: index of their source in the problem.
        counts: pieces from each spool.
        times: how many spools.
    """

    source: int
    counts: Counts
    times: int = 1


@dataclass(frozen=True)
class Problem:
    """What to cut and from what.

    Args:
        lengths: of each kind of piece, ticks, falling, each a multiple of ``step``.
        demand: how many of each kind.
        sources: spools.
        keep: the least rest worth keeping, ticks; None if no rest is.
        setup: cost of opening a spool, ticks of cord.
        step: greatest length that measures every piece, ticks.
    """

    lengths: tuple[int, ...]
    demand: Counts
    sources: tuple[Source, ...]
    keep: int | None
    setup: int
    step: int

    @property
    def need(self) -> int:
        """All pieces together, ticks."""
        return sum(n * mm for n, mm in zip(self.demand, self.lengths, strict=True))

    @property
    def units(self) -> tuple[int, ...]:
        """Lengths of the pieces in steps."""
        return tuple(length // self.step for length in self.lengths)

    def room(self, source: int) -> int:
        """Whole steps on a spool of this source."""
        return self.sources[source].length // self.step

    def most(self, source: int) -> int:
        """How many spools of this source can be of use.

        Of those that can be had in any number no two stay so empty that one would do: buying it
        costs more than any rest. So every two of them hold more than one spool's room.
        """
        given = self.sources[source]
        pieces = sum(self.demand)
        if given.most is not None:
            return min(given.most, pieces)
        room = max(1, self.room(source)) * self.step
        return min(pieces, 2 * self.need // room + 1) if given.buy >= given.length else pieces

    def lost(self, rest: int) -> int:
        """The part of a rest that is lost: all of it, or nothing if it is worth keeping."""
        return 0 if self.keep is not None and rest >= self.keep else rest

    def cost(self, source: int, used: int) -> int:
        """Cost in ticks of a spool from which so many steps are cut."""
        given = self.sources[source]
        return given.buy + self.setup + self.lost(given.length - used * self.step)

    def used(self, counts: Sequence[int]) -> int:
        """Steps that these pieces take together."""
        return sum(n * unit for n, unit in zip(counts, self.units, strict=True))

    @cached_property
    def fineness(self) -> int:
        """A number of ticks of which every possible cost is a multiple."""
        sources = [x for s in self.sources for x in (s.length, s.buy)]
        return math.gcd(self.step, self.setup, *sources) or 1

    @cached_property
    def penalty(self) -> int:
        """Cost of a piece that is not cut: more than cutting it could ever cost.

        If every piece fits a spool that can be had in any number, that is one more of those; if
        not, all that there is.
        """
        whole = [s.buy + self.setup + s.length for s in self.sources]
        endless = [
            cost
            for i, (s, cost) in enumerate(zip(self.sources, whole, strict=True))
            if s.most is None and self.room(i) >= max(self.units)
        ]
        worst = min(endless or [sum(self.most(i) * cost for i, cost in enumerate(whole))])
        return (worst // self.fineness + 1) * self.fineness

    def total(self, filled: Sequence[Filled]) -> int:
        """Cost of a filling, with the penalty for every piece that it leaves out."""
        spools = sum(f.times * self.cost(f.source, self.used(f.counts)) for f in filled)
        return spools + self.penalty * sum(self.left_out(filled))

    def left_out(self, filled: Sequence[Filled]) -> Counts:
        """Pieces of each kind that a filling does not cut."""
        return tuple(
            n - sum(f.times * f.counts[k] for f in filled) for k, n in enumerate(self.demand)
        )

    def round_up(self, bound: float) -> int:
        """The least possible cost that is not below a bound, which floats made."""
        slack = 1e-6 * max(1.0, abs(bound))
        return max(0, math.ceil((bound - slack) / self.fineness)) * self.fineness


def ticks_up(mm: float) -> int:
    """Whole ticks, not fewer than the length has."""
    return math.ceil(mm * TICKS_PER_MM - 1e-6)


def ticks_down(mm: float) -> int:
    """Whole ticks, not more than the length has."""
    return math.floor(mm * TICKS_PER_MM + 1e-6)


def problem(
    needs: Mapping[float, int],
    sources: Sequence[Source],
    *,
    keep_mm: float | None,
    setup_mm: float,
) -> Problem:
    """The problem in whole numbers.

    Args:
        needs: how many pieces of each length in mm, each above 0.
        sources: spools, ticks.
        keep_mm: the least rest worth keeping; None if no rest is.
        setup_mm: how much cord opening one more spool is worth.
    """
    longest = max((s.length for s in sources), default=0)
    for grain in _STEPS:
        found: dict[int, int] = {}
        for mm, n in needs.items():
            length = -(-ticks_up(mm) // grain) * grain
            found[length] = found.get(length, 0) + n
        step = math.gcd(*found) if found else 1
        if longest // step <= MOST_POSITIONS:
            break
    kinds = sorted(found.items(), reverse=True)
    return Problem(
        tuple(length for length, _ in kinds),
        tuple(n for _, n in kinds),
        tuple(replace(s, buy=round(s.buy / step) * step) for s in sources),
        None if keep_mm is None else ticks_up(keep_mm),
        ticks_up(setup_mm),
        step,
    )
