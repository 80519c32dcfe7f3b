"""The tables of the booklet: materials, cut lists and sizes, one edition beside the other."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from cordwright.teach.bookdata import CutRow, CutTable, Grid

if TYPE_CHECKING:
    from cordwright.teach.bookdata import Column
    from cordwright.teach.booklet import Version
    from cordwright.teach.labels import Labels
    from cordwright.teach.measures import Measures
    from cordwright.teach.needs import Cut, Size
    from cordwright.teach.steps import Lesson

_UNITS = re.compile(r"(?<![^\W\d_])(mm|cm|m|in|ft)\b")
"""Units after numbers; other letters in a sum are names of sizes."""


def materials_table(versions: Sequence[Version], how: Measures, say: Labels) -> Grid:
    """What cord to have: a row for each kind, its length and weight in every edition."""
    names = list(dict.fromkeys(m.name for v in versions for m in v.lesson.materials))
    several = len(versions) > 1
    heads = [say("col-material"), say("col-about")]
    for v in versions:
        heads.append(v.edition.name if several else say("col-total"))
        heads.append(say("col-weight"))
    rows = []
    for name in names:
        row = [name, ""]
        for v in versions:
            found = next((m for m in v.lesson.materials if m.name == name), None)
            if found is None:
                row += ["", ""]
                continue
            row[1] = row[1] or cord_words(v.lesson, name, how)
            row += [how.length(found.total_mm), how.weight(found.weight_g)]
        rows.append(tuple(row))
    columns: list[Column] = ["short", "words", *["figure"] * (2 * len(versions))]  # type: ignore[list-item]
    return Grid(tuple(heads), tuple(columns), tuple(rows))


def cord_words(lesson: Lesson, name: str, how: Measures) -> str:
    """What a cord is, in the plan's words."""
    m = next(m for m in lesson.materials if m.name == name)
    parts = (how.diameter(m.diameter_mm), m.build, m.fibre, m.colour)
    return ", ".join(p for p in parts if p)


def cut_table(version: Version, how: Measures, say: Labels, *, several: bool) -> CutTable:
    """The cut list of one edition, as `cordwright cut` gives it."""
    heads = ("id", "done", "cord", "length", "spare")
    lesson = version.lesson
    return CutTable(
        tuple(say(f"col-{h}") for h in heads),
        tuple(_cut_row(lesson, cut, how, say) for cut in lesson.cuts),
        title=version.edition.name if several else "",
        notes=(say("cuts-tick"),),
    )


def _cut_row(lesson: Lesson, cut: Cut, how: Measures, say: Labels) -> CutRow:
    fold = say(f"fold-{cut.fold}") if cut.fold_mm is None else _uneven(cut.fold_mm, how, say)
    return CutRow(
        cut.id,
        cut.count,
        f"{cut.count} × {cut.cord}, {how.diameter(_diameter(lesson, cut.cord))}",  # noqa: RUF001
        say.words.text(f"part-{cut.part}"),
        how.to_cut(cut.length_mm),
        f"{fold}; {say('already')}" if cut.already_cut else fold,
        how.length(cut.spare_mm),
    )


def _diameter(lesson: Lesson, cord: str) -> float:
    return next(m.diameter_mm for m in lesson.materials if m.name == cord)


def _uneven(parts: tuple[float, float], how: Measures, say: Labels) -> str:
    return say("fold-uneven", left=how.length(parts[0]), right=how.length(parts[1]))


def sizes_table(versions: Sequence[Version], how: Measures, say: Labels) -> Grid:
    """The plan's sizes, with their value in every edition."""
    several = len(versions) > 1
    values = [v.edition.name if several else say("col-here") for v in versions]
    rows = [
        (size.name, size.about or _sum(size), *(_amount(v.lesson.sizes[i], how) for v in versions))
        for i, size in enumerate(versions[0].lesson.sizes)
    ]
    columns: list[Column] = ["short", "words", *["figure"] * len(versions)]  # type: ignore[list-item]
    heads = (say("col-size"), say("col-about"), *values)
    return Grid(heads, tuple(columns), tuple(rows))


def _sum(size: Size) -> str:
    """What the plan works a size out from, where it says nothing else of it."""
    return f"= {size.written}" if any(c.isalpha() for c in _UNITS.sub("", size.written)) else ""


def _amount(size: Size, how: Measures) -> str:
    if size.mm is not None:
        return how.length(size.mm)
    return f"{size.count:g}" if size.count is not None else ""
