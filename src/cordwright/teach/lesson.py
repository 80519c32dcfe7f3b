"""A piece, made into a lesson."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import groupby
from typing import TYPE_CHECKING

from cordwright.hang.mounts import lies_level
from cordwright.piece.weight import weight
from cordwright.plan.model import CordMount, RingMount, RodMount
from cordwright.plan.steps import FringeStep, LeaveStep
from cordwright.plan.sums import length
from cordwright.teach import checks, pace
from cordwright.teach.context import Context
from cordwright.teach.make import step_of
from cordwright.teach.mirror import mirrored
from cordwright.teach.needs import Cut, Material, Mount, Size
from cordwright.teach.repeats import with_repeats
from cordwright.teach.steps import Lesson, Section, Step
from cordwright.units.form import Form

if TYPE_CHECKING:
    from cordwright.piece.cutlist import CutList
    from cordwright.piece.model import Piece
    from cordwright.piece.record import Done
    from cordwright.plan.sums import Sum
    from cordwright.teach.amounts import Span


def lesson_of(
    piece: Piece,
    cuts: CutList,
    *,
    size_mm: tuple[float | None, float | None] = (None, None),
    left_handed: bool = False,
    own_pace: pace.Pace | None = None,
) -> Lesson:
    """The lesson of a piece.

    Args:
        piece: as worked with a record of its steps, with the free cord that its shape makes
            (`cordwright.hang.counted`).
        cuts: its cut list.
        size_mm: width and height of a flat piece as worked, where they are known.
        left_handed: the mirrored edition.
        own_pace: how fast its maker works; the common figures if None.

    Raises:
        ValueError: the piece was worked without a record.
    """
    at = Context(piece, cuts, own_pace or pace.Pace())
    if not piece.done:
        raise ValueError("the piece was worked without a record: work(..., record=True)")
    done = piece.done
    sections = _sections(at, done)
    knots = at.kinds()
    parts = _parts(cuts, sections)
    made = Lesson(
        piece.plan.title,
        piece.plan.about,
        mirrored=False,
        values_mm=dict(piece.values),
        mount=_mount(piece),
        materials=tuple(_material(piece, cuts, name) for name in _used(piece)),
        tools=_tools(piece, done),
        cuts=tuple(_cut(piece, cuts, i) for i in range(len(cuts.entries))),
        sizes=_sizes(piece),
        knots=knots,
        sections=sections,
        finished=at.length(cuts.lengths.finished),
        width_mm=size_mm[0],
        height_mm=size_mm[1],
        use=piece.plan.used or "",
        load=_load(piece),
        time=pace.total(parts.values()),
        parts=parts,
        difficulty=pace.difficulty(
            piece, knots, uneven=any(e.fold == "uneven" for e in cuts.entries)
        ),
    )
    return mirrored(made) if left_handed else made


def _sections(at: Context, done: Sequence[Done]) -> tuple[Section, ...]:
    """Setting up, then the plan's sections, their steps numbered through."""
    sections: list[Section] = []
    number = 1
    parts: list[list[Done]] = [[done[0]]]
    parts += [list(found) for _, found in groupby(done[1:], key=lambda d: d.section)]
    for part in parts:
        steps = with_repeats(_steps(at, part), number)
        if steps:
            sections.append(Section(part[0].section, steps))
            number += len(steps)
    return tuple(sections)


def _steps(at: Context, part: Sequence[Done]) -> list[Step]:
    """The steps of one section; the last one with knots says how deep the work now is."""
    made: list[Step] = []
    deep: tuple[int, Done] | None = None
    for done in part:
        for step in step_of(at, done):
            made.append(replace(step, checks=checks.checks_of(at, done, step)))
            if len(done.knots) and done.depths and step.verb != "mount":
                deep = (len(made) - 1, done)
    if deep is not None:
        found = checks.depth_of(at, deep[1])
        if found is not None:
            step = made[deep[0]]
            made[deep[0]] = replace(step, checks=(*step.checks, found))
    return made


def _used(piece: Piece) -> Iterable[str]:
    return dict.fromkeys(cord.cord for cord in piece.cords)


def _material(piece: Piece, cuts: CutList, name: str) -> Material:
    spec = piece.plan.cords[name]
    mm = sum(e.count * e.length_mm for e in cuts.entries if e.cord == name)
    heavy = weight(piece, name, mm)
    return Material(
        name,
        spec.fibre,
        spec.build or "",
        spec.colour or "",
        piece.values[f"d:{name}"],
        mm,
        heavy.g if heavy is not None else None,
    )


def _cut(piece: Piece, cuts: CutList, index: int) -> Cut:
    entry = cuts.entries[index]
    return Cut(
        entry.id,
        entry.count,
        entry.cord,
        entry.length_mm,
        entry.fold,
        entry.fold_mm,
        entry.spare_mm,
        entry.given,
        piece.cords[entry.cords[0]].part,
        tuple(cord + 1 for cord in entry.cords),
    )


def _mount(piece: Piece) -> Mount:
    def mm(asked: Sum) -> float:
        return length(asked, piece.amounts, piece.values).at(piece.values)

    match piece.plan.mount.on:
        case RingMount() as ring:
            inside, wire = mm(ring.inside), mm(ring.wire)
            return Mount("ring", inside_mm=inside, thick_mm=wire, level=lies_level(piece))
        case RodMount() as rod:
            return Mount("rod", thick_mm=mm(rod.thick), length_mm=mm(rod.length))
        case CordMount() as cord:
            return Mount("cord", thick_mm=piece.values[f"d:{cord.cord}"], cord=cord.cord)
        case _:
            return Mount("nothing")


def _sizes(piece: Piece) -> tuple[Size, ...]:
    found = []
    for name, spec in piece.plan.sizes.items():
        amount = piece.amounts[name]
        mm = amount.at(piece.values) if isinstance(amount, Form) else None
        count = None if isinstance(amount, Form) else amount
        found.append(Size(name, mm, count, spec.about or "", spec.value.text))
    return tuple(found)


def _tools(piece: Piece, done: Sequence[Done]) -> tuple[str, ...]:
    """What to have at hand beside cord and mount."""
    tools = ["scissors", "tape-measure"]
    hangs = piece.plan.mount.ring is not None or piece.plan.mount.rod is not None
    tools.append("hook" if hangs else "board")
    if any(isinstance(d.step, FringeStep) for d in done):
        tools.append("comb")
    laid = any(c.part in ("holding", "wrap") for c in piece.cords)
    if laid or any(isinstance(d.step, LeaveStep) for d in done):
        tools.append("needle")
    return tuple(tools)


def _load(piece: Piece) -> str:
    hang = piece.plan.hang
    if hang is None or hang.holds is None:
        return ""
    return type(hang.holds.thing).__name__.lower()


def _parts(cuts: CutList, sections: Iterable[Section]) -> dict[str, Span]:
    steps = [step for section in sections for step in section.steps]
    return {
        "cutting": pace.cutting(e.length_mm for e in cuts.entries for _ in e.cords),
        "tying": pace.total(s.time for s in steps if not s.ended),
        "finishing": pace.total(s.time for s in steps if s.ended),
    }
