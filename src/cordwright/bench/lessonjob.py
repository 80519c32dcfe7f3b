"""Making a lesson, in a worker: its files, and its pages as pictures."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from cordwright.bench.jobs import Kept
    from cordwright.bench.lessonmodels import LessonRequest
    from cordwright.teach.parts import Asked, Ready

PPI: Final = 110.0
"""Pixels an inch of pages that are looked at: a page of A4 is 909 wide, sharp on a screen."""

SAID: Final[Mapping[str, str]] = {
    "steps": "Writing the steps",
    "booklet": "Drawing the pictures and setting the booklet",
    "page": "Putting the lesson page together",
    "filming": "Setting the filming sheet",
}


@dataclass(frozen=True, slots=True)
class Made:
    """A lesson.

    Args:
        files: by their names.
        pages: pictures (PNG) of the pages of PDFs, by the PDF's name.
    """

    files: Mapping[str, bytes]
    pages: Mapping[str, tuple[bytes, ...]]


@dataclass(frozen=True, slots=True)
class Teach:
    """Make the lesson of a plan.

    Args:
        text: the plan.
        asked: which lesson.
    """

    text: str
    asked: LessonRequest

    def run(self, kept: Kept) -> Made:
        """The lesson.

        Raises:
            CordwrightError: the plan or an edition cannot be worked, or its pages cannot be set.
        """
        from cordwright.supply.atwork import hands_of
        from cordwright.teach import parts

        wanted = asked_for(self.asked)
        kept.tell("Working the editions", 0.0)
        plan = kept.plan(self.text)
        handling, known = hands_of(plan, kept.shelf, self.asked.maker, kept.atlas)
        made = parts.ready(plan, kept.atlas, wanted, handling, known)
        return _made(kept, made)


def asked_for(asked: LessonRequest) -> Asked:
    """A request in the words of the room that teaches.

    Raises:
        UnitsError: an edition cannot be read.
    """
    from cordwright.teach.editions import parse_editions
    from cordwright.teach.pacelog import Entry, pace_of
    from cordwright.teach.parts import Asked
    from cordwright.teach.words import Words

    log = tuple(Entry(e.knot.value, e.count, 60.0 * e.minutes) for e in asked.pace)
    return Asked(
        parse_editions(asked.editions, {}, {}),
        Words(asked.language, asked.units),
        left_handed=asked.left_handed,
        pace=pace_of(log) if log else None,
        paper=asked.paper,
        licence=asked.licence,
        version=asked.version,
        risk=asked.risk / 100.0,
    )


def _made(kept: Kept, made: Ready) -> Made:
    from cordwright.teach import parts

    files: dict[str, bytes] = {}
    whole = len(parts.PARTS) + 2
    for number, (name, part) in enumerate(parts.PARTS.items(), start=1):
        kept.tell(SAID[name], number / whole)
        files |= part(made)
    kept.tell("Drawing the pages to be seen", 1.0 - 1.0 / whole)
    return Made(files, parts.preview(made, PPI))
