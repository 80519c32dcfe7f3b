"""Steps told once and then said again."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from cordwright.teach.pace import total
from cordwright.teach.recognise import Sign, best_run
from cordwright.teach.steps import Again, Check, Group, Row, Step

if TYPE_CHECKING:
    from cordwright.teach.amounts import Length

MOST_TOLD_MM = 0.5
"""Lengths that differ by less are told alike."""


def sign_of(step: Step) -> Sign | None:
    """What a step is like; None for one that is never said again.

    Everything that the reader is told counts, but not what there is to check, nor the free cord
    that the shape makes.
    """
    if step.verb in ("mount", "again", "join", "open", "seam", "fringe", "tail"):
        return None
    places = list(_places(step))
    base = min(places, default=None)
    off = base or 0
    return Sign(
        (
            step.verb,
            step.shape,
            tuple(row_sign(row, off) for row in step.rows),
            step.times,
            step.hand,
            step.workers,
            *(_mm(x) for x in (step.free, step.gap, step.row_gap)),
            tuple(p - off for p in step.places),
            tuple(p - off for p in step.behind),
            step.order,
            step.side,
            step.slant_deg,
            tuple((b.cut, tuple(p - off for p in b.places), _mm(b.tail)) for b in step.begun),
            tuple((e.place - off, _mm(e.length)) for e in step.ended),
            step.note,
        ),
        base,
    )


def row_sign(row: Row, off: int = 0) -> Hashable:
    """What a row is like, counted from a place."""
    return tuple(_group(g, off) for g in row.groups)


def _group(group: Group, off: int) -> Hashable:
    return (
        tuple(p - off for p in group.places),
        tuple((t.knot, bool(t.over)) for t in group.ties),
        bool(group.lying),
    )


def _mm(length: Length | None) -> int | None:
    return None if length is None else round(length.mm / MOST_TOLD_MM)


def _places(step: Step) -> Iterator[int]:
    for row in step.rows:
        for group in row.groups:
            yield from group.places
    yield from step.places
    yield from step.behind
    for begun in step.begun:
        yield from begun.places


class _Item:
    """A step, or one that says others again; knows what took its place."""

    def __init__(self, step: Step) -> None:
        self.step = step
        self.sign = sign_of(step)
        self.now = self
        self.number = 0
        self.first: _Item | None = None
        self.last: _Item | None = None
        self.shifts: tuple[int, ...] = ()
        self.inner: tuple[Step, ...] = ()

    def standing(self) -> _Item:
        """The item that now stands for this one."""
        item = self
        while item.now is not item:
            item = item.now
        return item


def with_repeats(steps: Sequence[Step], first: int) -> tuple[Step, ...]:
    """Steps of a section with repeats said as such, and numbered.

    Args:
        steps: in order, none of them an ``again``.
        first: number of the first.
    """
    items = [_Item(s) for s in steps]
    while (run := best_run([i.sign for i in items])) is not None:
        end = run.start + run.length
        said = items[end : end + run.saved]
        again = _again(items[run.start], items[end - 1], said, run.shifts)
        items[end : end + run.saved] = [again]
    for number, item in enumerate(items, first):
        item.number = number
    return tuple(_numbered(item) for item in items)


def _again(first: _Item, last: _Item, said: Sequence[_Item], shifts: tuple[int, ...]) -> _Item:
    inner = tuple(flat(i.step for i in said))
    again = _Item(Step("again", 0, first.step.shape, first.step.strands))
    again.inner = inner
    again.first, again.last, again.shifts = first, last, shifts
    again.step = replace(
        again.step, inner=inner, line_up=_line_up(inner), time=total(s.time for s in inner)
    )
    for item in said:
        item.now = again
    return again


def _line_up(inner: Sequence[Step]) -> tuple[str, ...] | None:
    known = [s.line_up for s in inner if s.line_up is not None]
    return known[-1] if known else None


def _numbered(item: _Item) -> Step:
    if item.first is None or item.last is None:
        return replace(item.step, number=item.number)
    first, last = item.first.standing(), item.last.standing()
    inner = item.inner
    return replace(
        item.step,
        number=item.number,
        again=Again(first.number, last.number, len(item.shifts), item.shifts),
        checks=_checks(inner),
        figures=(),
    )


def _checks(inner: Sequence[Step]) -> tuple[Check, ...]:
    """What is checked after the last of the steps, and how deep the work is by then."""
    deep = [c for step in inner[:-1] for c in step.checks if c.kind == "depth"]
    return (*inner[-1].checks, *deep)


def flat(steps: Iterable[Step]) -> Iterator[Step]:
    """Every step that is worked, those said again too."""
    for step in steps:
        if step.verb == "again":
            yield from step.inner
        else:
            yield step
