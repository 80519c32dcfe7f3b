"""Few distinct lengths: cutting many cords alike where that costs little cord.

Lengths may only be raised. Sorted by length, the cords fall into runs that are all cut to the
longest of their run; among all ways to make k runs the one with the least extra cord is found
exactly, by dynamic programming, for k = 1, 2, … until the extra cord is within the allowance.

With x the sorted lengths, N and S the running counts and sums of lengths, a run from i to j costs
``x[j] * (N[j] - N[i]) - (S[j] - S[i])`` (N and S from before i to j): for each j a minimum over
lines in x[j], kept as a lower envelope, so that each k takes time proportional to the lengths.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import accumulate


def few_lengths(lengths: Sequence[float], allowance: float) -> dict[float, float]:
    """To what length each length is raised.

    Args:
        lengths: of each cord, any unit, repeated as often as they occur.
        allowance: extra cord allowed, as a part of all cord.

    Returns:
        The fewest distinct lengths whose extra cord is within the allowance, and among as few
        those with the least extra cord, as a mapping from each length.

    >>> few_lengths([1000.0, 1000.0, 995.0, 400.0], 0.03)
    {400.0: 400.0, 995.0: 1000.0, 1000.0: 1000.0}
    """
    counted = sorted(Counter(lengths).items())
    xs = [x for x, _ in counted]
    counts = [0.0, *accumulate(n for _, n in counted)]
    sums = [0.0, *accumulate(x * n for x, n in counted)]
    best = [0.0] + [float("inf")] * len(xs)
    begins: list[list[int]] = []
    while xs:
        best, begin = _one_more(best, xs, counts, sums)
        begins.append(begin)
        if best[-1] <= allowance * sums[-1] or len(begins) == len(xs):
            break
    return _raised(xs, begins)


def _one_more(
    best: Sequence[float], xs: Sequence[float], counts: Sequence[float], sums: Sequence[float]
) -> tuple[list[float], list[int]]:
    """With one run more: for each j the least extra cord, and where the last run begins."""
    cost = [float("inf")]
    begin = [0]
    lines: list[tuple[float, float, int]] = []  # slope, value at 0, where the run begins
    first = 0
    for j, x in enumerate(xs, start=1):
        if best[j - 1] < float("inf"):
            _keep(lines, (-counts[j - 1], best[j - 1] + sums[j - 1], j - 1), first)
        if not lines:
            cost.append(float("inf"))
            begin.append(0)
            continue
        first = min(first, len(lines) - 1)
        while first + 1 < len(lines) and _at(lines[first + 1], x) <= _at(lines[first], x):
            first += 1
        cost.append(max(0.0, _at(lines[first], x) + x * counts[j] - sums[j]))
        begin.append(lines[first][2])
    return cost, begin


def _at(line: tuple[float, float, int], x: float) -> float:
    return line[0] * x + line[1]


def _keep(lines: list[tuple[float, float, int]], new: tuple[float, float, int], first: int) -> None:
    """Adds a line of smaller slope to the envelope, dropping those it makes needless."""
    while len(lines) >= first + 2:
        (a, b, _), (c, d, _) = lines[-2:]
        if (new[1] - b) * (a - c) > (d - b) * (a - new[0]):
            break
        lines.pop()
    lines.append(new)


def _raised(xs: Sequence[float], begins: Sequence[Sequence[int]]) -> dict[float, float]:
    raised = {}
    end = len(xs)
    for begin in reversed(begins):
        start = begin[end]
        raised.update(dict.fromkeys(xs[start:end], xs[end - 1]))
        end = start
    return dict(sorted(raised.items()))
