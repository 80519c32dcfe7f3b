"""Several editions of a lesson in one text: lengths of the first, those of the others behind.

Where editions differ in lengths or counts only, a line stands once: ``Leave 35 cm / 20 cm free.``
Where they differ in words, the line stands once for each, headed by the edition's name.
"""

from __future__ import annotations

import re
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
        counted = _counts_abreast([line.text for line in lines])
        if counted is not None:
            return (counted,)
        return tuple(f"{name}: {line.text}" for name, line in zip(names, lines, strict=True))
    joined = (_ranges(line) for line in lines)
    return ("".join(abreast(texts) for texts in zip(*joined, strict=True)),)


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
) -> tuple[tuple[str, ...], tuple[str, ...], tuple[str, ...]]:
    """What a step says, its list if it has one, and what it asks to check, in all editions."""
    text = merged_all([[x for x in s.lines if not x.item] for s in steps], names)
    items = merged_all([[x for x in s.lines if x.item] for s in steps], names)
    checks = merged_all([[line for _, line in s.checks] for s in steps], names)
    return text, items, checks


def _ranges(line: Line) -> list[str]:
    """Its parts; a length that runs to another stands with it, as in ``12 cm to 15 cm``."""
    parts, texts = line.parts, [p if isinstance(p, str) else p.text for p in line.parts]
    told: list[str] = []
    i = 0
    while i < len(parts):
        size = 3 if i + 2 < len(parts) and _is_range(parts[i], parts[i + 1]) else 1
        told.append("".join(texts[i : i + size]))
        i += size
    return told


def _is_range(first: str | Quantity, between: str | Quantity) -> bool:
    """Whether a length is followed by the one short word that makes a range of it."""
    if not isinstance(first, Quantity) or not isinstance(between, str):
        return False
    return between.strip().isalpha() and len(between.strip()) <= MOST_TO


MOST_TO = 3


def _counts_abreast(texts: Sequence[str]) -> str | None:
    """One text for several that differ in counts alone; None for others.

    >>> _counts_abreast(["Tie 4 rows.", "Tie 6 rows."])
    'Tie 4 / 6 rows.'
    """
    columns = [text.split(" ") for text in texts]
    if len({len(words) for words in columns}) > 1:
        return None
    told = []
    for words in zip(*columns, strict=True):
        if len(set(words)) > 1 and not all(_COUNT.fullmatch(word) for word in words):
            return None
        told.append(abreast(words))
    return " ".join(told)


_COUNT = re.compile("[0-9]+")


def _skeleton(line: Line) -> tuple[str | None, ...]:
    """The line without its lengths."""
    return tuple(None if isinstance(p, Quantity) else p for p in line.parts)
