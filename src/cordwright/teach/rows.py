"""Rows, told one by one until they repeat or narrow evenly."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from cordwright.teach.places import groups
from cordwright.teach.recognise import Sign, best_run
from cordwright.teach.repeats import row_sign

if TYPE_CHECKING:
    from cordwright.teach.steps import Row
    from cordwright.teach.told import Line
    from cordwright.teach.words import Words

LEAST_EVEN = 3
"""Rows that narrow or widen alike, from which on they are told as one."""


def rows_told(words: Words, rows: Sequence[Row]) -> Iterator[Line]:
    """Every row of a step."""
    found = best_run([Sign(row_sign(r)) for r in rows])
    if found is None:
        yield from _plain(words, rows, 1)
        return
    told = found.start + found.length
    end = told + found.saved
    left = len(rows) - end
    # A pattern broken off half-way is still the pattern.
    partly = 0 < left < found.length and all(
        row_sign(rows[end + i]) == row_sign(rows[found.start + i]) for i in range(left)
    )
    end += left if partly else 0
    yield from _plain(words, rows[:told], 1)
    yield _again(words, told + 1, end, found.start + 1, told)
    yield from _plain(words, rows[end:], end + 1)


def _again(words: Words, start: int, end: int, first: int, last: int) -> Line:
    """Rows start to end are as rows first to last, all counted from 1."""
    if first == last and end > start:
        return words.line("row-as", **{"from": str(start)}, to=str(end), first=str(first))
    n = 1 if start == end else 2
    shown = {"from": str(start), "to": str(end), "first": str(first), "last": str(last)}
    key = "rows-again-two" if last == first + 1 else "rows-again"
    return words.line(key, n=n, **shown)


def _plain(words: Words, rows: Sequence[Row], number: int) -> Iterator[Line]:
    i = 0
    while i < len(rows):
        yield words.line(
            "row-on",
            row=number + i,
            n=len(rows[i].groups),
            where=groups(words, rows[i].groups),
        )
        even, step = _even(rows, i)
        if even >= LEAST_EVEN:
            key = "rows-shrink" if step > 0 else "rows-grow"
            yield words.line(
                key,
                **{"from": str(number + i + 1)},
                to=str(number + i + even),
                strands=abs(step),
                last=len(rows[i + even].groups),
            )
            i += even
        i += 1


def _even(rows: Sequence[Row], start: int) -> tuple[int, int]:
    """How many rows below this one leave equally more out at each side, and how many strands."""
    ends = [(r.groups[0].places[0], r.groups[-1].places[-1]) for r in rows[start:]]
    if len(ends) < 2:
        return 0, 0
    step = ends[1][0] - ends[0][0]
    count = 0
    for (left, right), (next_left, next_right) in pairwise(ends):
        if not step or next_left - left != step or right - next_right != step:
            break
        count += 1
    return count, step
