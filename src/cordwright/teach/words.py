"""Words in a language: Project Fluent's messages, one folder of catalogues for each language.

Lengths go into messages marked, so that a line still knows where they stand (`Line.parts`).
Everything else that goes in comes out as text: Fluent does not read its arguments as messages.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import cache, lru_cache
from pathlib import Path
from typing import Final, Literal

from fluent.runtime import FluentBundle, FluentResource

from cordwright.errors import CordwrightError
from cordwright.teach.amounts import Length
from cordwright.teach.plaintext import CLOSE, OPEN, plain_text
from cordwright.teach.told import Line, Quantity
from cordwright.units.length import INCH_MM, format_length

LOCALES: Final = Path(__file__).parent / "locale"
LANGUAGES: Final = ("en", "de", "fr")
Units = Literal["metric", "inch", "both"]
Value = str | int | float | Length | Quantity | Line

_MARK = re.compile(f"{OPEN}([0-9]+){CLOSE}")


@cache
def bundle(language: str) -> FluentBundle:
    """All messages of a language.

    Raises:
        CordwrightError: the language is not one of ours.
    """
    if language not in LANGUAGES:
        raise CordwrightError(
            f"There are no words for the language '{language[:20]}'.",
            remedy=f"choose one of {', '.join(LANGUAGES)}",
        )
    found = FluentBundle([language], use_isolating=False)
    for path in sorted((LOCALES / language).glob("*.ftl")):
        found.add_resource(FluentResource(path.read_text(encoding="utf-8")))
    return found


class Words:
    """What is said, in a language and its units.

    Args:
        language: one of `LANGUAGES`.
        units: metric, inches, or inches in brackets behind metric.
    """

    def __init__(self, language: str = "en", units: Units = "metric") -> None:
        self.language = language
        self.units = units
        self._bundle = bundle(language)

    def text(self, key: str, **values: Value) -> str:
        """A message as plain text."""
        return self.line(key, **values).text

    def line(self, key: str, **values: Value) -> Line:
        """A message as a line; strings are made fit for one line, lengths are told in the units.

        Raises:
            CordwrightError: the catalogue does not have the message, or not with these values: a
                fault of the catalogue.
        """
        marked: list[Quantity] = []
        given = {name: self._given(value, marked) for name, value in values.items()}
        # Numbers that are equal may have plurals of their own: 1 is one thing, 1.0 is not.
        named = tuple((name, type(value), value) for name, value in given.items())
        return _split(_said(self.language, key, named), marked)

    def _given(self, value: Value, marked: list[Quantity]) -> str | int | float:
        if isinstance(value, Length):
            value = self.quantity(value)
        if isinstance(value, Quantity):
            value = Line((value,))
        if isinstance(value, Line):
            shown = ""
            for part in value.parts:
                if isinstance(part, str):
                    shown += part
                else:
                    shown += f"{OPEN}{len(marked)}{CLOSE}"
                    marked.append(part)
            return shown
        return plain_text(value) if isinstance(value, str) else value

    def quantity(self, length: Length, *, about: bool = False) -> Quantity:
        """A length as it is told; ``about`` rounds it to what is worth checking."""
        return Quantity(self.length(length.mm, about=about), length, about)

    def length(self, mm: float, *, about: bool = False) -> str:
        """Millimetres, told in the units and with the language's decimal sign and unit names."""
        if self.units == "both":
            metric, inch = (self._told(mm, s, about=about) for s in ("metric", "inch"))
            return self._plain("both-units", {"metric": metric, "inch": inch})
        return self._told(mm, self.units, about=about)

    def number(self, value: float) -> str:
        """A plain number, to four figures, with the language's decimal sign."""
        return f"{value:.4g}".replace(".", self._plain("decimal-sign", {}))

    def thick(self, mm: float) -> str:
        """A cord's or wire's diameter: the trade gives it in mm everywhere."""
        return f"{self.number(mm)} mm"

    def _told(self, mm: float, system: str, *, about: bool) -> str:
        if system == "inch":
            told = format_length(_near(mm, _ABOUT_INCH) if about else mm, "inch")
            for unit in ("in", "ft"):
                told = re.sub(rf"\b{unit}\b", self._plain(f"unit-{unit}", {}), told)
            return told
        told = format_length(_near(mm, _ABOUT_METRIC) if about else mm, "metric")
        return told.replace(".", self._plain("decimal-sign", {}))

    def _plain(self, key: str, values: Mapping[str, str]) -> str:
        value = self._bundle.get_message(key).value
        assert value is not None  # noqa: S101 - a test holds every catalogue to these messages
        said, _ = self._bundle.format_pattern(value, dict(values))
        return str(said)

    def listed(self, parts: Sequence[str | Line]) -> Line:
        """Several things in a row: a, b and c."""
        lines = [p if isinstance(p, Line) else Line((p,)) for p in parts]
        if len(lines) < 2:
            return lines[0] if lines else Line(())
        first: list[str | Quantity] = []
        for i, line in enumerate(lines[:-1]):
            first += [", ", *line.parts] if i else line.parts
        return self.line("list-and", first=Line(tuple(first)), last=lines[-1])


_ABOUT_METRIC = ((100.0, 1.0), (1000.0, 5.0), (3000.0, 10.0), (float("inf"), 50.0))
_ABOUT_INCH = ((100.0, INCH_MM / 4), (1000.0, INCH_MM / 2), (float("inf"), INCH_MM))
"""Up to so many mm, lengths that are checked are told to so many mm."""


@lru_cache(maxsize=8192)
def _said(language: str, key: str, values: tuple[tuple[str, type, str | int | float], ...]) -> str:
    """A message with its values filled in; lessons say most of theirs over and over.

    Raises:
        CordwrightError: as in `Words.line`.
    """
    messages = bundle(language)
    message = messages.get_message(key) if messages.has_message(key) else None
    if message is None or message.value is None:
        raise CordwrightError(f"The words '{key}' are missing in '{language}'.")
    said, errors = messages.format_pattern(message.value, {name: v for name, _, v in values})
    if errors:
        raise CordwrightError(f"The words '{key}' do not work out: {errors[0]}.")
    return str(said)


def _near(mm: float, steps: Sequence[tuple[float, float]]) -> float:
    step = next(step for limit, step in steps if abs(mm) <= limit)
    return round(mm / step) * step


def _split(said: str, marked: Sequence[Quantity]) -> Line:
    parts: list[str | Quantity] = []
    at = 0
    for found in _MARK.finditer(said):
        if found.start() > at:
            parts.append(said[at : found.start()])
        parts.append(marked[int(found[1])])
        at = found.end()
    if at < len(said):
        parts.append(said[at:])
    return Line(tuple(parts))
