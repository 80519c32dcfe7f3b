"""What a step is about, in a word or three; and where a knot comes for the first time."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cordwright.teach.repeats import flat

if TYPE_CHECKING:
    from collections.abc import Iterator

    from cordwright.teach.steps import Lesson, Step
    from cordwright.teach.words import Words

BY_VERB = frozenset(
    ("mount", "free", "pass", "reorder", "join", "open", "seam", "add", "leave", "fringe", "tail",
     "again")
)  # fmt: skip
"""Steps that are called by what is done; others by the knot that is tied."""


def title_of(words: Words, lesson: Lesson, step: Step) -> str:
    """A step's title."""
    if step.verb in BY_VERB:
        return words.text(f"title-{step.verb}")
    name = _knot(lesson, step)
    if name == "gathering":
        return words.text("title-gathering")
    groups = [g for row in step.rows for g in row.groups]
    n = len(groups) if name == "braid" else sum(len(g.ties) for g in groups)
    return words.text(f"title-{name}", n=n)


def is_first(lesson: Lesson, step: Step) -> bool:
    """Whether no step before this one ties its kind of knot round as many strands."""
    wanted = (_knot(lesson, step), len(step.rows[0].groups[0].places))
    for other in _tying(lesson):
        if (_knot(lesson, other), len(other.rows[0].groups[0].places)) == wanted:
            return other.number == step.number
    return False


def _tying(lesson: Lesson) -> Iterator[Step]:
    for section in lesson.sections:
        yield from (s for s in flat(section.steps) if s.verb == "tie")


def _knot(lesson: Lesson, step: Step) -> str:
    return lesson.knots[step.rows[0].groups[0].ties[0].knot].name
