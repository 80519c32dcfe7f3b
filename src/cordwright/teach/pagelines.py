"""Told lines as the page takes them: words, and what changes with the measures of the reader.

A line is a list. A string in it is text; everything else is one of these:

- ``{"q": form, "a": true}``: a length; ``a`` where it is told rounded, to be checked by eye;
- ``{"r": [form, …], "a": true}``: from the least to the most of these;
- ``{"left": [[cord, half, form], …]}``: the same of what strands have left: their part of their
  cord less what they have used;
- ``{"cut": cord}``: the mark of a cord in the cut list;
- ``{"part": [cord, "short" | "long"]}``: the shorter or longer part of a folded cord.

Cords count from 0. To find marks of the cut list again, the lesson is told once more with signs in
their place (`marked`).
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final

from cordwright.teach.mirror import name as other_half
from cordwright.teach.pageforms import plain_form
from cordwright.teach.told import Line, Quantity
from cordwright.units.form import Form

if TYPE_CHECKING:
    from cordwright.teach.amounts import Length
    from cordwright.teach.pagecuts import Forms
    from cordwright.teach.steps import Begun, Check, Lesson, Step
    from cordwright.teach.told import ToldStep

Part = str | dict[str, Any]

_OPEN, _CLOSE = (
    "\N{MATHEMATICAL LEFT WHITE TORTOISE SHELL BRACKET}",
    ("\N{MATHEMATICAL RIGHT WHITE TORTOISE SHELL BRACKET}"),
)
_SIGN: Final = re.compile(f"{_OPEN}([A-Z]+){_CLOSE}")


def marked(lesson: Lesson) -> Lesson:
    """The lesson with signs round the marks of cuts, to find them in what is told."""

    def step(s: Step) -> Step:
        begun = tuple(replace(b, cut=f"{_OPEN}{b.cut}{_CLOSE}") for b in s.begun)
        return replace(s, begun=begun, inner=tuple(step(i) for i in s.inner))

    sections = tuple(replace(s, steps=tuple(step(x) for x in s.steps)) for s in lesson.sections)
    return replace(lesson, sections=sections)


class Lines:
    """Turns told lines of one lesson into what the page takes.

    Args:
        lesson: that they tell, marked.
        forms: where sums are put.
        opens: sums of what the shape decides.
    """

    def __init__(self, lesson: Lesson, forms: Forms, opens: Mapping[str, Form]) -> None:
        self._lesson, self._forms, self._opens = lesson, forms, opens

    def plain(self, line: Line) -> list[Part]:
        """A line without marks of cuts."""
        return [p if isinstance(p, str) else self._length(p) for p in line.parts]

    def all(self, lines: Iterable[Line]) -> list[list[Part]]:
        """Several of them."""
        return [self.plain(line) for line in lines]

    def form(self, length: Length) -> int:
        """Where a length's sum stands in the table."""
        form = Form(length.fixed_mm, dict(length.terms))
        return self._forms.of(plain_form(form, self._opens))

    def step(self, told: ToldStep) -> list[list[Part]]:
        """What a step says."""
        step = told.step
        ranges = [step.open] if step.open is not None else []
        ended = sorted((e.length for e in step.ended), key=lambda length: length.mm)
        found = []
        for line in told.lines:
            parts = list(line.parts)
            for low, high in ranges:
                parts = self._ranged(parts, (low, high))
            if ended:
                parts = self._ranged(parts, ended)
            found.append(self._told(parts, step.begun))
        return found

    def check(self, check: Check, line: Line) -> list[Part]:
        """What a step asks to check."""
        rests = [self._rest(r.name, r.used) for r in check.rests]
        instead: Part | None = {"left": rests} if rests else None
        return self._told(self._ranged(list(line.parts), (check.low, check.high), instead), ())

    def _rest(self, name: str, used: Length) -> list[Any]:
        own = other_half(name) if self._lesson.mirrored else name
        return [int(own.rstrip("LR")) - 1, int(own.endswith("R")), self.form(used)]

    def _length(self, quantity: Quantity) -> Part:
        told: dict[str, Any] = {"q": self.form(quantity.length)}
        return {**told, "a": True} if quantity.about else told

    def _ranged(
        self, parts: Sequence[Any], lengths: Sequence[Length], instead: Part | None = None
    ) -> list[Any]:
        """Parts with a told range, from the first to the last of these lengths, as one."""
        for i, part in enumerate(parts):
            if not isinstance(part, Quantity) or part.length != lengths[0]:
                continue
            after = parts[i + 2] if i + 2 < len(parts) else None
            end = i + 1
            if isinstance(after, Quantity) and after.length == lengths[-1] != lengths[0]:
                end = i + 3
            forms = list(dict.fromkeys(self.form(x) for x in lengths))
            told = instead or ({"r": forms} if len(forms) > 1 else {"q": forms[0]})
            assert isinstance(told, dict)  # noqa: S101 - a part that is no text
            return [*parts[:i], {**told, "a": True} if part.about else told, *parts[end:]]
        return list(parts)

    def _told(self, parts: Sequence[Any], begun: Sequence[Begun]) -> list[Part]:
        told: list[Part] = []
        cords: list[Begun] = []
        for part in parts:
            if isinstance(part, str):
                cords += self._named(part, begun, told)
            elif isinstance(part, Quantity):
                told.append(_part_of(part, cords) or self._length(part))
            else:
                told.append(part)
        return told

    def _named(self, text: str, begun: Sequence[Begun], told: list[Part]) -> list[Begun]:
        """Adds text to a line, its marks of cuts as such; the cords that are named in it."""
        found = []
        for i, piece in enumerate(_SIGN.split(text)):
            if i % 2:
                sign = f"{_OPEN}{piece}{_CLOSE}"
                cord = next(b for b in begun if b.cut == sign)
                found.append(cord)
                told.append({"cut": cord.number - 1})
            elif piece:
                told.append(piece)
        return found


def _part_of(quantity: Quantity, cords: Sequence[Begun]) -> Part | None:
    """The part of a folded cord that a length is, if it is one."""
    length = quantity.length
    if length.terms:
        return None
    for cord in cords:
        short, long = min(cord.parts_mm), max(cord.parts_mm)
        if short != long and length.mm in (short, long):
            return {"part": [cord.number - 1, "short" if length.mm == short else "long"]}
    return None
