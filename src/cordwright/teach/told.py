"""A lesson told in one language: lines of plain text, with their lengths marked.

Nothing here is markup. Every line may hold words of the plan: whoever prints it must escape it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from cordwright.teach.amounts import Length  # noqa: TC001
from cordwright.teach.steps import Check, Figure, Step  # noqa: TC001


@dataclass(frozen=True, slots=True)
class Quantity:
    """A length within a line.

    Args:
        text: as it is told, in the edition's units.
        length: the length, with its exact sum, so that a page can tell it for other cord.
        about: whether it is told rounded, as something to check against.
    """

    text: str
    length: Length
    about: bool = False


@dataclass(frozen=True, slots=True)
class Line:
    """One line (or paragraph) of text, in parts.

    Args:
        parts: in order.
        item: whether it is one of a list that the lines before it announce.
    """

    parts: tuple[str | Quantity, ...]
    item: bool = False

    @property
    def text(self) -> str:
        """All of it."""
        return "".join(p if isinstance(p, str) else p.text for p in self.parts)


@dataclass(frozen=True, slots=True)
class ToldStep:
    """One step.

    Args:
        step: the step.
        lines: what to do.
        checks: what to look at before going on.
        note: the maker's own words, if there are any.
        figures: pictures that belong beside it.
        title: in a word or three, what it is about.
    """

    step: Step
    lines: tuple[Line, ...]
    checks: tuple[tuple[Check, Line], ...]
    note: str
    figures: tuple[Figure, ...]
    title: str = ""


@dataclass(frozen=True, slots=True)
class ToldSection:
    """A part of the work with its heading."""

    heading: str
    steps: tuple[ToldStep, ...]


@dataclass(frozen=True, slots=True)
class Told:
    """A lesson in words.

    Args:
        language: its code, ``en``, ``de`` or ``fr``.
        title, about: the plan's words.
        headings: of every part, by key: ``materials``, ``tools``, ``cuts``, ``knots``, ``checks``,
            ``note``, ``end``, ``cautions`` and so on.
        facts: size, time, difficulty; one line each.
        materials, tools: one line each.
        cuts: by id of the cut.
        knots: the name of every knot kind, by its id.
        sections: setting up first.
        finishing: what to do at the end.
        using: how to hang, carry or wear it; empty where the plan says none of these.
        cautions: what goes with a load; empty where nothing can be hung or carried.
    """

    language: str
    title: str
    about: str
    headings: Mapping[str, str]
    facts: tuple[Line, ...]
    materials: tuple[Line, ...]
    tools: tuple[Line, ...]
    cuts: Mapping[str, Line]
    knots: Mapping[int, str]
    sections: tuple[ToldSection, ...]
    finishing: tuple[Line, ...]
    using: tuple[Line, ...]
    cautions: tuple[Line, ...]
