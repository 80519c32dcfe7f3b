"""A lesson, told: every step in the words of a language."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import chain
from typing import TYPE_CHECKING

from cordwright.teach.general import (
    cautions,
    cuts,
    facts,
    finishing,
    headings,
    materials,
    tools,
    using,
)
from cordwright.teach.places import across_seam, groups, run_of, span, strands
from cordwright.teach.plaintext import plain_text
from cordwright.teach.repeats import flat
from cordwright.teach.rows import rows_told
from cordwright.teach.setting import added, set_up
from cordwright.teach.titles import is_first, title_of
from cordwright.teach.told import Line, Told, ToldSection, ToldStep

if TYPE_CHECKING:
    from cordwright.teach.steps import Check, Lesson, Section, Step
    from cordwright.teach.words import Words

OPEN_MM = 5.0
"""Free cord that the plan leaves open is told from here on; less cannot be seen to be free."""

MOST_SHIFTS = 5
"""Repeats on other strands that are listed one by one."""


def tell(lesson: Lesson, words: Words) -> Told:
    """The lesson in words."""
    return Told(
        words.language,
        plain_text(lesson.title),
        plain_text(lesson.about),
        headings(words, lesson),
        facts(words, lesson),
        materials(words, lesson),
        tools(words, lesson),
        cuts(words, lesson),
        {k.id: words.text(f"name-{k.name}") for k in lesson.knots},
        tuple(_section(words, lesson, s) for s in lesson.sections),
        finishing(words, lesson),
        using(words, lesson),
        cautions(words, lesson),
    )


def _section(words: Words, lesson: Lesson, section: Section) -> ToldSection:
    if section.path:
        heading = " / ".join(plain_text(p) for p in section.path)
    else:
        first = section.steps[0].verb == "mount"
        heading = words.text("head-setting-up" if first else "head-work")
    return ToldSection(heading, tuple(_step(words, lesson, s) for s in section.steps))


def _step(words: Words, lesson: Lesson, step: Step) -> ToldStep:
    checks = tuple((c, _check(words, step, c)) for c in step.checks)
    return ToldStep(
        step,
        tuple(_lines(words, lesson, step)),
        checks,
        plain_text(step.note),
        step.figures,
        title_of(words, lesson, step),
    )


def _lines(words: Words, lesson: Lesson, step: Step) -> Iterator[Line]:
    match step.verb:
        case "mount":
            yield from set_up(words, lesson, step)
        case "tie":
            yield from _tie(words, lesson, step)
        case "braid":
            yield from _braid(words, step)
        case "hitch":
            yield from _hitch(words, step)
        case "gather":
            yield _gather(words, step)
        case "free" if step.free is not None:
            where = strands(words, step.places)
            yield words.line("free-cord", length=step.free, strands=where)
        case "pass":
            front, behind = strands(words, step.places), strands(words, step.behind)
            yield words.line("pass-front", front=front, behind=behind)
        case "reorder":
            found = step.rows[0].groups
            order = ", ".join(map(str, step.order))
            where = groups(words, found)
            size = len(step.order)
            yield words.line("reorder-groups", order=order, size=size, n=len(found), where=where)
        case "join":
            yield words.line("join-round")
            if step.places[0] != 1:
                yield words.line("seam-moves", first=str(step.places[0]))
        case "open":
            yield words.line("open-flat", first=str(step.places[0]))
        case "seam":
            yield words.line("seam-moves", first=str(step.places[0]))
        case "add":
            yield from added(words, lesson, step.begun)
        case "leave" | "fringe" | "tail":
            yield _ending(words, step)
        case "again":
            yield _again(words, step)


def _tie(words: Words, lesson: Lesson, step: Step) -> Iterator[Line]:
    if step.free is not None:
        yield words.line("free-above", length=step.free)
    first = step.rows[0].groups
    knot = lesson.knots[first[0].ties[0].knot].name
    what = words.line(f"tied-{knot}", n=step.times)
    if len(step.rows) > 1:
        yield words.line("tie-rows", rows=len(step.rows), what=what)
        yield from rows_told(words, step.rows)
    elif len(first) == 1:
        yield words.line("tie-one", what=what, where=groups(words, first))
    else:
        yield words.line("tie-each", what=what, n=len(first), where=groups(words, first))
    size = len(first[0].places)
    if step.workers and knot != "half-hitch":
        if step.workers != (1, size):
            yield words.line("workers", places=run_of(step.workers))
        elif is_first(lesson, step):
            yield words.line("workers-outer", fillers=size - 2)
    hands = {"square-knot": "hand-working", "half-knot": "hand-spiral", "half-hitch": "hand-hitch"}
    if step.hand != "none" and knot in hands:
        yield words.line(hands[knot], hand=step.hand)
    yield from _between(words, step)


def _between(words: Words, step: Step) -> Iterator[Line]:
    if step.gap is not None and step.times > 1:
        yield words.line("gap-between", length=step.gap)
    if step.row_gap is not None and len(step.rows) > 1:
        yield words.line("gap-rows", length=step.row_gap)
    if step.open is not None and step.open[1].mm >= OPEN_MM:
        low, high = step.open
        shown = span(words, low, high, about=True)
        if low.mm < OPEN_MM:
            shown = words.line("up-to", length=words.quantity(high, about=True))
        yield words.line("open-cord", range=shown)


def _braid(words: Words, step: Step) -> Iterator[Line]:
    found = step.rows[0].groups
    if len(found) == 1:
        where = across_seam(words, found[0].places)
        yield words.line("braid-on", where=where, times=step.times)
    else:
        where = groups(words, found)
        yield words.line("braid-each", n=len(found), where=where, times=step.times)
    yield from _between(words, step)


def _hitch(words: Words, step: Step) -> Iterator[Line]:
    if step.free is not None:
        yield words.line("free-above", length=step.free)
    slant = (
        words.text("slant-steep", degrees=f"{step.slant_deg:g}")
        if step.slant_deg
        else words.text("slant-level")
    )
    side = step.side or "right"
    if step.begun:
        for begun, row in zip(step.begun, step.rows, strict=True):
            yield words.line(
                "hitch-laid",
                cut=begun.cut,
                slant=slant,
                tail=begun.tail,
                side=side,
                n=len(row.groups[0].places),
                strands=strands(words, row.groups[0].places),
            )
    else:
        places = step.rows[0].groups[0].places
        rest = strands(words, places[1:])
        yield words.line(
            "hitch-on",
            holding=str(places[0]),
            side=side,
            slant=slant,
            n=len(places) - 1,
            strands=rest,
        )
        if len(step.rows) > 1:
            yield words.line("hitch-rows", n=len(step.rows) - 1)
    yield from _between(words, step)


def _gather(words: Words, step: Step) -> Line:
    group = step.rows[0].groups[0]
    if step.begun:
        where = strands(words, group.places)
        return words.line("gather-with", cut=step.begun[0].cut, strands=where, turns=step.times)
    wrap = group.places[step.workers[0] - 1]
    held = strands(words, [p for p in group.places if p != wrap])
    return words.line("gather-strand", wrap=str(wrap), strands=held, turns=step.times)


def _ending(words: Words, step: Step) -> Line:
    where = strands(words, step.places)
    lengths = sorted((e.length for e in step.ended), key=lambda length: length.mm)
    shown = span(words, lengths[0], lengths[-1])
    match step.verb, step.trim:
        case "fringe", "slant":
            return words.line("fringe-slant", strands=where, length=shown, side=step.side or "left")
        case "fringe", "point":
            return words.line("fringe-point", strands=where, length=shown)
        case "fringe", "level":
            return words.line("fringe-level", strands=where, length=shown)
        case "fringe", _:
            return words.line("fringe-falls", strands=where, length=shown)
        case "leave", _:
            return words.line("leave-strands", strands=where, length=shown)
    return words.line("tails-trim", strands=where, length=shown)


def _again(words: Words, step: Step) -> Line:
    again = step.again
    if again is None:
        return Line(())
    if again.first == again.last:
        steps = words.line("steps-one", first=str(again.first))
    else:
        key = "steps-two" if again.last == again.first + 1 else "steps-many"
        steps = words.line(key, first=str(again.first), last=str(again.last))
    shifts = again.shifts
    if not any(shifts):
        return words.line("again-same", steps=steps, times=again.times)
    if len(shifts) <= MOST_SHIFTS:
        return words.line("again-on", steps=steps, strands=_on(words, step, again.times))
    return words.line("again-moved", steps=steps, times=again.times, shift=shifts[0])


def _on(words: Words, step: Step, times: int) -> Line:
    """The strands of every repeat, one after the other."""
    worked = tuple(flat(step.inner))
    each = len(worked) // times
    runs, n = [], 0
    for i in range(times):
        places = sorted({p for s in worked[i * each : (i + 1) * each] for p in _places(s)})
        runs.append(run_of(places))
        n += len(places)
    return words.line("strand-places", n=n, places=words.listed(runs))


def _places(step: Step) -> Iterable[int]:
    tied = (g.places for row in step.rows for g in row.groups)
    new = (b.places for b in step.begun)
    return chain(step.places, step.behind, *tied, *new)


def _check(words: Words, step: Step, check: Check) -> Line:
    length = span(words, check.low, check.high, about=True)
    last = tuple(flat([step]))[-1]
    count = len(last.rows[0].groups) if last.rows else 1
    match check.kind:
        case "sinnet" if last.verb == "braid":
            return words.line("check-braid", groups=count, length=length)
        case "sinnet":
            return words.line("check-sinnet", groups=count, length=length)
        case "rows":
            return words.line("check-rows", length=length)
        case "wrap":
            return words.line("check-wrap", length=length)
        case "left" if check.role == "holding":
            return words.line("check-left-holding", n=len(last.rows), length=length)
        case "left":
            return words.line("check-left-working", length=length)
    return words.line("check-depth", length=length)
