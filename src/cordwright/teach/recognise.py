"""Repeats, recognised: a run of like things that follows itself is told as 'again'.

Things are alike if their signs are equal. A sign may have a place that it counts from, its base:
then like things may stand further on, as long as all of a run move on together.
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from typing import NamedTuple

LONGEST = 48
"""Longest run that is looked for; nobody keeps more steps in mind."""
MOST_ITEMS = 4_000
"""From so many things on only short runs are looked for, so that time stays in bounds."""
SHORT = 4


class Sign(NamedTuple):
    """What a thing is like.

    Args:
        like: equal for like things.
        base: the place it counts from; None if it has none.
    """

    like: Hashable
    base: int | None = None


class Run(NamedTuple):
    """A run of things and its repeats.

    Args:
        start: index of its first thing.
        length: how many things it has.
        shifts: how far further on each repeat stands.
    """

    start: int
    length: int
    shifts: tuple[int, ...]

    @property
    def saved(self) -> int:
        """How many things need not be told."""
        return self.length * len(self.shifts)


def best_run(signs: Sequence[Sign | None]) -> Run | None:
    """The run whose repeats save most; the first and shortest of several.

    Args:
        signs: of things in order; None is like nothing.

    >>> best_run([Sign("a"), Sign("b"), Sign("a"), Sign("b"), Sign("a")])
    Run(start=0, length=2, shifts=(0,))
    >>> best_run([Sign("a", 1), Sign("a", 5), Sign("a", 9)])
    Run(start=0, length=1, shifts=(4, 8))
    """
    best: Run | None = None
    longest = min(LONGEST if len(signs) <= MOST_ITEMS else SHORT, len(signs) // 2)
    for length in range(1, longest + 1):
        start = 0
        while start + 2 * length <= len(signs):
            run = Run(start, length, _shifts(signs, start, length))
            if run.shifts and (best is None or (-run.saved, run.start) < (-best.saved, best.start)):
                best = run
            start += max(1, run.saved)
    return best


def _shifts(signs: Sequence[Sign | None], start: int, length: int) -> tuple[int, ...]:
    shifts: list[int] = []
    at = start + length
    while at + length <= len(signs):
        shift = _shift(signs, start, at, length)
        if shift is None:
            break
        shifts.append(shift)
        at += length
    return tuple(shifts)


def _shift(signs: Sequence[Sign | None], a: int, b: int, length: int) -> int | None:
    """How far further on the run at b stands than the one at a; None if it is another."""
    shift: int | None = None
    for i in range(length):
        one, other = signs[a + i], signs[b + i]
        if one is None or other is None or one.like != other.like:
            return None
        if one.base is None or other.base is None:
            continue
        if shift is not None and other.base - one.base != shift:
            return None
        shift = other.base - one.base
    return shift or 0
