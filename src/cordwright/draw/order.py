"""Cutting cords into runs that can be painted one over another, as few as will do.

Samples that lie both above one thing and below another make cycles possible. So cords are cut first
wherever they go from above to below; what still runs in a circle is halved; then neighbouring
runs are joined again wherever no circle comes of it.
"""

from __future__ import annotations

import heapq
from collections import defaultdict
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Ints = NDArray[np.int64]

HALVINGS = 200
"""How often runs in a circle are halved before the depth of their middles decides."""

Graph = dict[int, set[int]]


def painting_order(
    lower: Ints, upper: Ints, cord: Ints, depth: Floats, speed: Floats
) -> tuple[tuple[int, int], ...]:
    """Runs of samples, from back to front.

    Args:
        lower: (m,) int: samples that are covered.
        upper: (m,) int: the samples that cover them.
        cord: (n,) int, ascending: the cord of each sample; samples stand in order along it.
        depth: (n,) float: how near each sample is to the viewer.
        speed: (n,) float: how long the cord's picture is there against the cord; joints lie
            where it is largest, if they have the choice.

    Returns:
        First and last sample of each run; between them they hold every sample once.
    """
    starts = _acyclic(_cut(lower, upper, cord, speed), lower, upper, cord)
    run = np.searchsorted(starts, np.arange(len(cord)), side="right") - 1
    above = _graph(run, lower, upper)
    joined = _joined(above, len(starts), cord[starts])
    firsts = np.flatnonzero(np.diff(joined, prepend=-1))
    ends = np.append(starts[firsts[1:]], len(cord)) - 1
    ranges = dict(
        zip(
            joined[firsts].tolist(),
            zip(starts[firsts].tolist(), ends.tolist(), strict=True),
            strict=True,
        )
    )
    middle = {k: float(depth[a : b + 1].mean()) for k, (a, b) in ranges.items()}
    merged: Graph = defaultdict(set)
    for a, bs in above.items():
        merged[int(joined[a])] |= {int(joined[b]) for b in bs}
    return tuple(ranges[k] for k in _sorted(middle, merged))


def _cut(lower: Ints, upper: Ints, cord: Ints, speed: Floats) -> Ints:
    """(k,) int: first samples of runs that are all above, all below, or all in between."""
    kind = np.zeros(len(cord), dtype=np.int64)
    kind[upper] |= 1
    kind[lower] |= 2
    flagged = np.flatnonzero(kind)
    a, b = flagged[:-1], flagged[1:]
    change = (kind[a] != kind[b]) & (cord[a] == cord[b])
    between = [_best(int(i), int(j), speed) for i, j in zip(a[change], b[change], strict=True)]
    new_cord = np.flatnonzero(np.diff(cord, prepend=-1))
    return np.unique(np.concatenate([new_cord, between])).astype(np.int64)


def _best(a: int, b: int, speed: Floats) -> int:
    """A joint after sample ``a``, at ``b`` at the latest.

    It lies where the picture is longest; if that is the same, in the middle of what is free.
    """
    choice = np.arange(a + 1, b + 1)
    middle = np.abs(choice - (a + b + 1) / 2) / len(choice)
    return int(choice[np.argmin(middle - 4.0 * np.round(speed[choice], 1))])


def _acyclic(starts: Ints, lower: Ints, upper: Ints, cord: Ints) -> Ints:
    """Runs halved until none is above itself by way of others."""
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components

    for _ in range(HALVINGS):
        run = np.searchsorted(starts, np.arange(len(cord)), side="right") - 1
        a, b = run[lower], run[upper]
        count = len(starts)
        graph = coo_array((np.ones(len(a)), (a, b)), shape=(count, count)).tocsr()
        _, group = connected_components(graph, connection="strong")
        sizes = np.diff(np.append(starts, len(cord)))
        circling = (np.bincount(group)[group] > 1) & (sizes > 1)
        circling[a[(a == b)]] |= sizes[a[a == b]] > 1
        if not circling.any():
            break
        # The longest of each circle: short runs are near their crossing already.
        longest: dict[int, int] = {}
        for r in np.flatnonzero(circling):
            g = int(group[r])
            if g not in longest or sizes[r] > sizes[longest[g]]:
                longest[g] = int(r)
        halves = [starts[r] + sizes[r] // 2 for r in longest.values()]
        starts = np.unique(np.concatenate([starts, halves])).astype(np.int64)
    return starts


def _graph(run: Ints, lower: Ints, upper: Ints) -> Graph:
    """For each run those that lie on it."""
    pairs = np.unique(np.stack([run[lower], run[upper]], axis=1), axis=0)
    above: Graph = defaultdict(set)
    for a, b in pairs.tolist():
        if a != b:
            above[a].add(b)
    return above


def _joined(above: Graph, count: int, cord: Ints) -> Ints:
    """(count,) int: for each run the first one of those it is painted with."""
    now: Graph = defaultdict(set)
    for a, bs in above.items():
        now[a] = set(bs)
    under: Graph = defaultdict(set)
    for a, bs in now.items():
        for b in bs:
            under[b].add(a)
    head = np.arange(count)
    for r in range(1, count):
        first = int(head[r - 1])
        if cord[r] != cord[r - 1] or _reaches(now, first, r) or _reaches(now, r, first):
            continue
        head[r] = first
        for b in now.pop(r, set()):
            now[first].add(b)
            under[b].discard(r)
            under[b].add(first)
        for a in under.pop(r, set()):
            now[a].discard(r)
            now[a].add(first)
            under[first].add(a)
    return head


def _reaches(above: Graph, start: int, goal: int) -> bool:
    """Whether ``goal`` lies above ``start``, directly or by way of others."""
    seen, open_ = {start}, [start]
    while open_:
        for b in above.get(open_.pop(), ()):
            if b == goal:
                return True
            if b not in seen:
                seen.add(b)
                open_.append(b)
    return False


def _sorted(depth: dict[int, float], above: Graph) -> list[int]:
    """Runs from back to front; where nothing else decides, by the depth of their middles."""
    waiting = dict.fromkeys(depth, 0)
    for bs in above.values():
        for b in bs:
            waiting[b] += 1
    ready = [(depth[r], r) for r, n in waiting.items() if n == 0]
    heapq.heapify(ready)
    order: list[int] = []
    while len(order) < len(depth):
        if not ready:
            # Cords that pass through one another can run in circles whatever is cut.
            stuck = min((depth[r], r) for r, n in waiting.items() if n > 0)
            ready.append(stuck)
            waiting[stuck[1]] = 0
        _, r = heapq.heappop(ready)
        order.append(r)
        waiting[r] = -1
        for b in above.get(r, ()):
            if waiting[b] > 0:
                waiting[b] -= 1
                if waiting[b] == 0:
                    heapq.heappush(ready, (depth[b], b))
    return order
