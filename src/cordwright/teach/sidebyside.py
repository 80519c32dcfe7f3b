"""Several editions of a lesson in one text: lengths of the first, those of the others behind.

Where editions differ in lengths only, a line stands once: ``Leave 35 cm / 20 cm / 50 cm free.``
Where they differ in words or counts, the line stands once for each, headed by the edition's name.
"""

from __future__ import annotations

from collections.abc import Sequence

from cordwright.teach.measures import abreast
from cordwright.teach.told import Line, Quantity, Told, ToldStep


def same_steps(lessons: Sequence[Told]) -> bool:
    """Whether all editions have the same sections with the same steps in them."""

    def shape(told: Told) -> list[tuple[str, list[str]]]:
        return [(s.heading, [step.step.verb for step in s.steps]) for s in told.sections]

    return all(shape(told) == shape(lessons[0]) for told in lessons)


def merged(lines: Sequence[Line], names: Sequence[str]) -> tuple[str, ...]:
    """One line of every edition as one text, or, where words differ, one for each.

    Args:
        lines: the line in every edition.
        names: of the editions.
    """
    if len({line.text for line in lines}) == 1:
        return (lines[0].text,)
    if len({_skeleton(line) for line in lines}) > 1:
        return tuple(f"{name}: {line.text}" for name, line in zip(names, lines, strict=True))
    out = []
    for parts in zip(*(line.parts for line in lines), strict=True):
        texts = [p if isinstance(p, str) else p.text for p in parts]
        out.append(abreast(texts))
    return ("".join(out),)


def merged_all(columns: Sequence[Sequence[Line]], names: Sequence[str]) -> tuple[str, ...]:
    """Lines of every edition, in order; where their number differs, each edition's own."""
    if len({len(lines) for lines in columns}) > 1:
        return tuple(
            f"{name}: {line.text}"
            for name, lines in zip(names, columns, strict=True)
            for line in lines
        )
    return tuple(text for row in zip(*columns, strict=True) for text in merged(row, names))


def step_lines(
    steps: Sequence[ToldStep], names: Sequence[str]
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What a step says, and what it asks to check, in all editions."""
    text = merged_all([s.lines for s in steps], names)
    checks = merged_all([[line for _, line in s.checks] for s in steps], names)
    return text, checks


def _skeleton(line: Line) -> tuple[str | None, ...]:
    """The line without its lengths."""
    return tuple(None if isinstance(p, Quantity) else p for p in line.parts)
