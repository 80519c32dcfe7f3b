"""A lesson as Markdown: readable as it stands, and in anything that sets Markdown.

Every word is escaped, ours and the plan's alike, so that only the marks put in here are marks.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from cordwright.teach.told import Line

if TYPE_CHECKING:
    from cordwright.teach.told import Told, ToldStep

_MARKS = re.compile(r"([\\`*_\[\]<>&#|~$@{}!])")
_LINKS = re.compile(r"(?i)(https?|ftp|mailto|xmpp):|\bwww\.")
_START = re.compile(r"^(\s*)([-+=>]|[0-9]{1,9}(?=[.)](?:\s|$)))")


def escaped(text: str) -> str:
    r"""Text that Markdown shows just as it is.

    >>> escaped("# a *b* <i>"), escaped("1. x"), escaped("www.example.org")
    ('\\# a \\*b\\* \\<i\\>', '1\\. x', 'www\\.example.org')
    """
    safe = _MARKS.sub(r"\\\1", text)
    safe = _LINKS.sub(lambda m: f"{m[0][:-1]}\\{m[0][-1]}", safe)
    start = _START.match(safe)
    if start is None:
        return safe
    if start[2].isdigit():
        return f"{safe[: start.end()]}\\{safe[start.end() :]}"
    return f"{start[1]}\\{safe[start.start(2) :]}"


def markdown(told: Told) -> str:
    """The whole lesson."""
    return "\n".join(_blocks(told)) + "\n"


def _blocks(told: Told) -> Iterator[str]:
    heads = told.headings
    yield f"# {escaped(told.title)}"
    yield ""
    if told.about:
        yield from (escaped(told.about), "")
    yield from _list(heads["facts"], told.facts)
    yield from _list(heads["materials"], told.materials)
    yield from _list(heads["tools"], told.tools)
    yield from _list(
        heads["cuts"], (Line((f"{name}: ", *line.parts)) for name, line in told.cuts.items())
    )
    yield from _list(heads["knots"], (Line((n,)) for n in dict.fromkeys(told.knots.values())))
    for section in told.sections:
        yield from (f"## {escaped(section.heading)}", "")
        for step in section.steps:
            yield from _step(told, step)
    yield from _list(heads["end"], (*told.finishing, *told.using))
    yield from _list(heads["cautions"], told.cautions)


def _list(heading: str, lines: Iterable[Line]) -> Iterator[str]:
    found = [f"- {escaped(line.text)}" for line in lines]
    if found:
        yield from (f"## {escaped(heading)}", "", *found, "")


def _step(told: Told, step: ToldStep) -> Iterator[str]:
    number = f"{step.step.number}. "
    inside = " " * len(number)
    yield f"{number}**{escaped(step.title)}**"
    for line in step.lines:
        if not line.item:
            yield ""
        yield f"{inside}{'* ' if line.item else ''}{escaped(line.text)}"
    if step.checks:
        checks = " ".join(escaped(line.text) for _, line in step.checks)
        yield ""
        yield f"{inside}*{escaped(told.headings['check'])}:* {checks}"
    if step.note:
        yield ""
        yield f"{inside}*{escaped(told.headings['note'])}:* {escaped(step.note)}"
    yield ""
