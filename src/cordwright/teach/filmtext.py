"""The text under a film: what to have and what to cut, in both systems, and the chapter marks."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from cordwright.teach.booktables import cord_words
from cordwright.teach.filming import Film, clock
from cordwright.teach.general import mount_lines, tools
from cordwright.teach.measures import Measures
from cordwright.teach.words import Words

if TYPE_CHECKING:
    from cordwright.teach.labels import Labels
    from cordwright.teach.steps import Lesson


def description(plan: Film, lesson: Lesson, say: Labels) -> Iterator[str]:
    """Lines of plain text; an empty one between parts."""
    how = Measures(Words(say.language, "both"))
    yield lesson.title
    if lesson.about:
        yield lesson.about
    yield ""
    yield say("materials")
    for m in lesson.materials:
        yield f"- {m.name}: {cord_words(lesson, m.name, how)}, {how.length(m.total_mm)}"
    for line in (*mount_lines(how.words, lesson.mount), *tools(how.words, lesson)):
        yield f"- {line.text}"
    yield ""
    yield say("cuts")
    for cut in lesson.cuts:
        if cut.fold_mm is not None:
            left, right = (how.length(mm) for mm in cut.fold_mm)
            fold = say("fold-uneven", left=left, right=right)
        else:
            fold = say(f"fold-{cut.fold}")
        name = f"{cut.id}: {cut.count} × {cut.cord}"  # noqa: RUF001 - the sign for times
        yield f"{name}, {how.to_cut(cut.length_mm)}; {fold}"
    yield ""
    yield say("chapters")
    for chapter in plan.chapters:
        title = chapter.title or say("steps" if chapter.kind == "step" else f"shot-{chapter.kind}")
        yield f"{clock(chapter.begins_s)} {title}"
