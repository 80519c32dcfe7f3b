"""The parts of a lesson as files: steps to read, the booklet, the lesson page, the filming sheet.

Command line and workbench ask for the same parts, and get the same bytes.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from cordwright.piece.risk import DEFAULT_RISK

if TYPE_CHECKING:
    from cordwright.cords.handling import Handling
    from cordwright.knots.atlas import Atlas
    from cordwright.piece.risk import Known
    from cordwright.plan.model import Plan
    from cordwright.teach.booklet import Pictures
    from cordwright.teach.editions import Edition
    from cordwright.teach.pace import Pace
    from cordwright.teach.publish import Taught
    from cordwright.teach.typeset import Paper
    from cordwright.teach.words import Words

Files = Mapping[str, bytes]
"""Files by their names, none of which holds a word of a plan."""


@dataclass(frozen=True, slots=True)
class Asked:
    """Which lesson is asked for.

    Args:
        editions: size editions; at least one.
        words: the language and units.
        left_handed: the mirrored edition.
        pace: the maker's log, if there is one.
        paper: what pages are set on.
        licence: what buyers may do with the booklet.
        version: the booklet's own version, as its maker counts.
        risk: chance that a strand is too short, above 0 and below 0.5.
    """

    editions: Sequence[Edition]
    words: Words
    left_handed: bool = False
    pace: Pace | None = None
    paper: Paper = "a4"
    licence: str = ""
    version: str = "1"
    risk: float = DEFAULT_RISK


@dataclass(frozen=True, slots=True)
class Ready:
    """What the parts are written from: every edition, worked and told.

    Pictures are drawn when they are first asked for.

    Args:
        asked: which lesson it is.
        editions: worked and told.
        atlas: of tight knots.
        known: what swatches told of the cords.
        pictures: draws them.
    """

    asked: Asked
    editions: Sequence[Taught]
    atlas: Atlas
    known: Known | None
    pictures: Callable[[], Pictures]


def ready(
    plan: Plan,
    atlas: Atlas,
    asked: Asked,
    handling: Mapping[str, Handling] | None = None,
    known: Known | None = None,
) -> Ready:
    """Every edition of a plan, worked and told.

    Args:
        plan: the plan.
        atlas: of tight knots.
        asked: which lesson.
        handling: how knots come out in the maker's cord and hands; ideal cord's if None.
        known: what swatches told of the cords; nothing if None.

    Raises:
        CordwrightError: an edition cannot be worked: a size out of its bounds, an unknown name.
    """
    from cordwright.teach.publish import pictures_of, taught
    from cordwright.teach.telling import tell

    worked = taught(
        plan, atlas, asked.editions, asked.words, tell, left_handed=asked.left_handed,
        pace=asked.pace, handling=handling, known=known, risk=asked.risk,
    )  # fmt: skip
    pictures = cache(lambda: pictures_of(worked, atlas, asked.words))
    return Ready(asked, worked, atlas, known, pictures)


def steps(made: Ready) -> Files:
    """The lesson to read, and the same as data."""
    import json

    from cordwright.teach.general import measured
    from cordwright.teach.markdown import markdown
    from cordwright.teach.steps import plain

    files: dict[str, bytes] = {}
    tall = made.pictures().tall_mm or (None,) * len(made.editions)
    for (number, edition), tall_mm in zip(_numbered(made), tall, strict=True):
        lesson, told = edition.version.lesson, edition.version.told
        if tall_mm is not None:  # the length on the booklet's cover; adding up gives another one
            long = measured(made.asked.words, lesson, tall_mm)
            told = replace(told, facts=(long, *told.facts[1:]))
        data = json.dumps(plain(lesson), ensure_ascii=False, indent=1)
        files[f"steps{number}.md"] = markdown(told).encode()
        files[f"steps{number}.json"] = f"{data}\n".encode()
    return files


def booklet(made: Ready) -> Files:
    """All editions in one booklet.

    Raises:
        TypesettingError: its pages cannot be set.
    """
    from cordwright.teach.booklet import Wanted
    from cordwright.teach.publish import booklet_with

    asked = made.asked
    wanted = Wanted(asked.paper, asked.version, asked.licence)
    return {"booklet.pdf": booklet_with(made.pictures(), made.editions, asked.words, wanted)}


def filming(made: Ready) -> Files:
    """A sheet to film by, for every edition: as pages and as Markdown.

    Raises:
        TypesettingError: its pages cannot be set.
    """
    from cordwright.teach.publish import filming_markdown, filming_pdf, sheet_of

    files: dict[str, bytes] = {}
    for number, edition in _numbered(made):
        sheet = sheet_of(edition, made.asked.words, made.asked.paper)
        files[f"filming{number}.pdf"] = filming_pdf(sheet)
        files[f"filming{number}.md"] = filming_markdown(sheet).encode()
    return files


def page(made: Ready) -> Files:
    """All editions in one web page, to fit to one's own cord."""
    from cordwright.teach.page import lesson_page
    from cordwright.teach.pagedata import Published, Sureness

    asked = made.asked
    html = lesson_page(
        made.editions,
        made.atlas,
        asked.words,
        Published(asked.version, asked.licence),
        sureness=Sureness(made.known, asked.risk),
        pictures=made.pictures(),
    )
    return {"lesson.html": html.encode()}


def _numbered(made: Ready) -> Sequence[tuple[str, Taught]]:
    """Editions with what their files' names end in: a number, never words of a plan or option."""
    if len(made.editions) == 1:
        return [("", made.editions[0])]
    return [(f"-{i}", edition) for i, edition in enumerate(made.editions, start=1)]


PARTS: Final[Mapping[str, Callable[[Ready], Files]]] = MappingProxyType(
    {"steps": steps, "booklet": booklet, "page": page, "filming": filming}
)
"""What can be written: by its word, what makes the files, by their names in a folder."""


def preview(made: Ready, ppi: float) -> Mapping[str, tuple[bytes, ...]]:
    """Every PDF's pages as pictures (PNG), by the name of its file.

    They are set from the same template and data as the file, so they are what will be printed.

    Args:
        made: the lesson.
        ppi: pixels an inch.

    Raises:
        TypesettingError: its pages cannot be set.
    """
    from cordwright.teach.booklet import Wanted
    from cordwright.teach.publish import booklet_pages, filming_pages, sheet_of

    asked = made.asked
    wanted = Wanted(asked.paper, asked.version, asked.licence)
    book = booklet_pages(made.pictures(), made.editions, asked.words, wanted, ppi)
    found = {"booklet.pdf": book}
    for number, edition in _numbered(made):
        sheet = sheet_of(edition, asked.words, asked.paper)
        found[f"filming{number}.pdf"] = filming_pages(sheet, ppi)
    return found
