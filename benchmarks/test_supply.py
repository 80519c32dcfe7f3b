"""How long a cutting plan takes, how good it is then, and how much memory it takes."""

from __future__ import annotations

import resource
import sys
import tracemalloc
from collections.abc import Callable
from decimal import Decimal
from random import Random
from typing import Any

import pytest

from cordwright.supply.cutting import CuttingPlan, Need, Rules, cutting_plan
from cordwright.supply.stock import PutUp, Spool, Stock

MOST_GAP = 0.01
MOST_BYTES = 300_000_000


def needs(seed: int, kits: int = 1) -> list[Need]:
    """40 kinds of length, 0.7 m to 4.5 m, some 200 pieces for each kit."""
    random = Random(seed)  # noqa: S311 - the same every time
    return [
        Need(f"N{i}", random.randrange(140, 900) * 5.0, kits * random.randint(1, 9))
        for i in range(40)
    ]


def part_spools(seed: int, share: float) -> tuple[Spool, ...]:
    """Left-overs of 3 m to 25 m, with this share of what one kit needs."""
    random = Random(seed)  # noqa: S311 - the same every time
    wanted = share * sum(n.length_mm * n.count for n in needs(seed))
    spools: list[Spool] = []
    while sum(s.length_mm for s in spools) < wanted:
        spools.append(Spool(str(len(spools)), "main", random.randrange(300, 2500) * 10.0))
    return tuple(spools)


NEW = (
    PutUp("short", "main", 50_000.0, Decimal("12.50")),
    PutUp("long", "main", 100_000.0, Decimal(20)),
)
STOCKS: dict[str, Callable[[int], Stock]] = {
    "put-ups of 5 m": lambda _: Stock((), (PutUp("new", "main", 5_000.0),)),
    "put-ups of 100 m": lambda _: Stock((), NEW),
    "part-spools": lambda seed: Stock(part_spools(seed, 1.3)),
    "part-spools and put-ups": lambda seed: Stock(part_spools(seed, 0.7), NEW),
}


@pytest.mark.parametrize("stock", STOCKS)
@pytest.mark.parametrize("seed", range(3))
def test_forty_kinds(benchmark: Any, stock: str, seed: int) -> None:
    given = STOCKS[stock](seed)
    plan = benchmark.pedantic(
        cutting_plan, (needs(seed), given, Rules(seconds=10.0)), rounds=1, iterations=1
    )
    benchmark.extra_info.update(gap=plan.gap, end=plan.end, spools=len(plan.spools))
    assert plan.enough
    assert plan.proved or plan.gap < MOST_GAP


@pytest.mark.parametrize("metres", [10, 100])
def test_a_hundred_kits(benchmark: Any, metres: int) -> None:
    stock = Stock((), (PutUp("new", "main", 1000.0 * metres, Decimal(10)),))
    plan = benchmark.pedantic(
        cutting_plan, (needs(5, kits=100), stock, Rules(seconds=10.0)), rounds=1, iterations=1
    )
    benchmark.extra_info.update(gap=plan.gap, end=plan.end, spools=len(plan.spools))
    assert plan.proved or plan.gap < MOST_GAP


def hundred_of_10_m() -> CuttingPlan:
    stock = Stock((), (PutUp("new", "main", 10_000.0, Decimal(10)),))
    return cutting_plan(needs(5, kits=100), stock, Rules(seconds=10.0))


def test_memory(benchmark: Any) -> None:
    """Python's own memory, by tracemalloc, which slows it down several times."""
    tracemalloc.start()
    cutting_plan(needs(1, kits=100), Stock(part_spools(1, 1.3), NEW), Rules(seconds=3.0))
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    benchmark.extra_info.update(peak_bytes=peak)
    benchmark.pedantic(part_spools, (1, 1.3), rounds=1, iterations=1)
    assert peak < MOST_BYTES


@pytest.mark.skipif(sys.platform != "linux", reason="the unit of ru_maxrss differs")
def test_memory_of_the_solver(benchmark: Any) -> None:
    """The most that one process of HiGHS, or any other child of this one, ever took."""
    plan = benchmark.pedantic(hundred_of_10_m, rounds=1, iterations=1)
    peak = 1024 * resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss
    benchmark.extra_info.update(peak_bytes=peak, gap=plan.gap)
    assert peak < MOST_BYTES
