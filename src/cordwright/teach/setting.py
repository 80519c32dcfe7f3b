"""Setting up, and cords that come in later, told."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import TYPE_CHECKING, Literal

from cordwright.teach.amounts import Length
from cordwright.teach.places import run_of, strands
from cordwright.teach.recognise import Sign, best_run
from cordwright.teach.told import Line

if TYPE_CHECKING:
    from cordwright.teach.steps import Begun, Lesson, Step
    from cordwright.teach.words import Words

MOST_TOLD = 4
"""More kinds of cord in a row than these are told as a list."""


def set_up(words: Words, lesson: Lesson, step: Step) -> Iterator[Line]:
    """Which cords are hung on, in order, and how; a repeated order is said as such."""
    for lying in (b for b in step.begun if b.end is not None):
        yield words.line("set-holding-cord", cut=lying.cut, tail=lying.tail)
    runs = _runs([b for b in step.begun if b.end is None], lesson)
    if len(runs) > MOST_TOLD and _alike(runs):
        yield from _in_turn(words, lesson, runs)
        return
    signs = [Sign((_like(run[0], lesson), len(run)), None) for run in runs]
    while signs:
        found = best_run(signs)
        if found is None or found.start:
            until = len(runs) if found is None else found.start
            for run in runs[:until]:
                yield _hung(words, lesson, run)
            runs, signs = runs[until:], signs[until:]
            continue
        for run in runs[: found.length]:
            yield _hung(words, lesson, run)
        end = found.length + found.saved
        times = len(found.shifts)
        yield words.line("set-again", times=times, last=str(runs[end - 1][-1].places[-1]))
        runs, signs = runs[end:], signs[end:]


def _alike(runs: Sequence[Sequence[Begun]]) -> bool:
    """Whether all cords are folded and hung on in one way, however long their parts."""
    first = [run[0] for run in runs]
    return all(len(b.names) > 1 for b in first) and len({b.face for b in first}) == 1


def _in_turn(words: Words, lesson: Lesson, runs: Sequence[Sequence[Begun]]) -> Iterator[Line]:
    """Many different cords as a list; one that comes again is said as such."""
    face = runs[0][0].face
    yield words.line("set-in-turn", face=face) if face else words.line("set-in-turn-pinned")
    found = best_run([Sign((_like(run[0], lesson), len(run)), None) for run in runs])
    end, after = len(runs), len(runs)
    if found is not None and found.start == 0:
        end, after = found.length, found.length + found.saved
    for run in runs[:end]:
        yield _item(words, lesson, run)
    if found is not None and after > end:
        last = str(runs[after - 1][-1].places[-1])
        yield _as_item(words.line("set-items-again", times=len(found.shifts), last=last))
    for run in runs[after:]:
        yield _item(words, lesson, run)


def _item(words: Words, lesson: Lesson, run: Sequence[Begun]) -> Line:
    first = run[0]
    places = run_of([p for b in run for p in b.places])
    if not first.long:
        return _as_item(words.line("set-item", places=places, count=len(run), cut=first.cut))
    left, right = (Length(mm, mm) for mm in sorted(first.parts_mm))
    if _side(first, lesson) == "left":
        left, right = right, left
    return _as_item(
        words.line(
            "set-item-uneven", places=places, count=len(run), cut=first.cut, left=left, right=right
        )
    )


def _as_item(line: Line) -> Line:
    return Line(line.parts, item=True)


def added(words: Words, lesson: Lesson, begun: Sequence[Begun]) -> Iterator[Line]:
    """Cords that are added half-way."""
    for run in _runs(begun, lesson):
        first = run[0]
        where = strands(words, [p for b in run for p in b.places])
        if len(first.names) == 1:
            yield words.line(
                "add-single", count=len(run), cut=first.cut, tail=first.tail, strands=where
            )
        elif first.long:
            short, long = sorted(first.parts_mm)
            yield words.line(
                "add-uneven",
                count=len(run),
                cut=first.cut,
                short=Length(short, short),
                long=Length(long, long),
                side=_side(first, lesson),
                strands=where,
            )
        else:
            yield words.line("add-folded", count=len(run), cut=first.cut, strands=where)


def _runs(begun: Sequence[Begun], lesson: Lesson) -> list[list[Begun]]:
    return [list(run) for _, run in groupby(begun, key=lambda b: _like(b, lesson))]


def _like(begun: Begun, lesson: Lesson) -> tuple[object, ...]:
    side = _side(begun, lesson) if begun.long else ""
    parts = tuple(sorted(begun.parts_mm)) if begun.long else ()
    return (begun.cut, begun.face, side, parts, len(begun.names), round(begun.tail.mm, 1))


def _side(begun: Begun, lesson: Lesson) -> Literal["left", "right"]:
    """On which side the long part hangs; places count from the other side in the mirror."""
    first = begun.long == begun.names[0]
    return "left" if first != lesson.mirrored else "right"


def _hung(words: Words, lesson: Lesson, run: Sequence[Begun]) -> Line:
    first = run[0]
    where = strands(words, [p for b in run for p in b.places])
    if len(first.names) == 1:
        return words.line(
            "set-single", count=len(run), cut=first.cut, tail=first.tail, strands=where
        )
    if not first.long:
        if first.face:
            return words.line(
                "set-larks-head", count=len(run), cut=first.cut, face=first.face, strands=where
            )
        return words.line("set-folded", count=len(run), cut=first.cut, strands=where)
    short, long = (Length(mm, mm) for mm in sorted(first.parts_mm))
    side = _side(first, lesson)
    if first.face:
        return words.line(
            "set-larks-head-uneven",
            count=len(run),
            cut=first.cut,
            short=short,
            long=long,
            face=first.face,
            side=side,
            strands=where,
        )
    return words.line(
        "set-folded-uneven",
        count=len(run),
        cut=first.cut,
        short=short,
        long=long,
        side=side,
        strands=where,
    )
