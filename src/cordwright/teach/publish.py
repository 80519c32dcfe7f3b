"""From a plan to printed pages: each edition worked, told, drawn and set."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from cordwright.piece.risk import DEFAULT_RISK
from cordwright.teach.bookdata import filled
from cordwright.teach.booklet import Version, Wanted, booklet
from cordwright.teach.drawn import drawn
from cordwright.teach.filming import film
from cordwright.teach.filmsheet import Sheet, film_sheet, markdown
from cordwright.teach.labels import Labels
from cordwright.teach.lesson import lesson_of
from cordwright.teach.typeset import pictured, typeset

if TYPE_CHECKING:
    from cordwright.cords.handling import Handling
    from cordwright.knots.atlas import Atlas
    from cordwright.piece.model import Piece
    from cordwright.piece.risk import Known
    from cordwright.plan.model import Plan
    from cordwright.teach.booklet import Pictures
    from cordwright.teach.editions import Edition
    from cordwright.teach.pace import Pace
    from cordwright.teach.steps import Lesson
    from cordwright.teach.told import Told
    from cordwright.teach.typeset import Paper
    from cordwright.teach.words import Words
    from cordwright.units.length import System

Teller = Callable[["Lesson", "Words"], "Told"]
"""What puts a lesson into words."""


@dataclass(frozen=True, slots=True)
class Taught:
    """One edition of a plan: the piece as worked, with its lesson, told."""

    piece: Piece
    version: Version


def taught(
    plan: Plan,
    atlas: Atlas,
    editions: Sequence[Edition],
    words: Words,
    tell: Teller,
    *,
    left_handed: bool = False,
    pace: Pace | None = None,
    handling: Mapping[str, Handling] | None = None,
    known: Known | None = None,
    risk: float = DEFAULT_RISK,
) -> tuple[Taught, ...]:
    """Every edition, worked and told.

    Args:
        plan: the plan.
        atlas: of tight knots.
        editions: which.
        words: the language and units.
        tell: what puts a lesson into words.
        left_handed: the mirrored lesson.
        pace: how fast its maker works.
        handling: how knots come out in the maker's cord and hands; ideal cord's if None.
        known: what swatches told of the cords; nothing if None.
        risk: chance that a strand is too short, above 0 and below 0.5.

    Raises:
        CordwrightError: an edition cannot be worked: a size out of its bounds, an unknown name.
    """
    from cordwright.hang.counted import as_worked, counted
    from cordwright.piece.cutlist import cut_list
    from cordwright.piece.work import work

    system: System = "inch" if words.units == "inch" else "metric"
    found = []
    for edition in editions:
        adding_up = work(
            plan,
            atlas,
            sizes=edition.sizes,
            diameters=edition.diameters,
            handling=handling,
            record=True,
        )
        shape = as_worked(adding_up)
        piece = counted(shape)
        lesson = lesson_of(
            piece,
            cut_list(piece, system=system, known=known, risk=risk),
            size_mm=(shape.width_mm, shape.height_mm),
            left_handed=left_handed,
            own_pace=pace,
        )
        found.append(Taught(piece, Version(edition, lesson, tell(lesson, words))))
    return tuple(found)


def booklet_pdf(editions: Sequence[Taught], atlas: Atlas, words: Words, wanted: Wanted) -> bytes:
    """The booklet of all editions.

    Raises:
        TypesettingError: its pages cannot be set.
    """
    return booklet_with(pictures_of(editions, atlas, words), editions, words, wanted)


def pictures_of(editions: Sequence[Taught], atlas: Atlas, words: Words) -> Pictures:
    """All pictures of a booklet and a page of these editions."""
    return drawn([e.piece for e in editions], [e.version for e in editions], atlas, Labels(words))


def booklet_with(
    pictures: Pictures, editions: Sequence[Taught], words: Words, wanted: Wanted
) -> bytes:
    """The booklet of all editions, with pictures that are drawn already.

    Raises:
        TypesettingError: its pages cannot be set.
    """
    versions, say = [e.version for e in editions], Labels(words)
    return typeset("booklet", filled(booklet(versions, pictures, say, wanted)))


def booklet_pages(
    pictures: Pictures, editions: Sequence[Taught], words: Words, wanted: Wanted, ppi: float
) -> tuple[bytes, ...]:
    """The booklet's pages as pictures (PNG), to be seen before they are printed.

    Args:
        pictures: as drawn already.
        editions: worked and told.
        words: the language and units.
        wanted: paper, version and licence.
        ppi: pixels an inch.

    Raises:
        TypesettingError: its pages cannot be set.
    """
    versions, say = [e.version for e in editions], Labels(words)
    return pictured("booklet", filled(booklet(versions, pictures, say, wanted)), ppi)


def sheet_of(edition: Taught, words: Words, paper: Paper) -> Sheet:
    """The filming sheet of one edition."""
    version = edition.version
    plan = film(version.lesson, version.told)
    return film_sheet(plan, version.lesson, Labels(words), paper, version.edition.name)


def filming_pdf(sheet: Sheet) -> bytes:
    """The filming sheet as pages.

    Raises:
        TypesettingError: its pages cannot be set.
    """
    return typeset("filming", filled(sheet))


def filming_pages(sheet: Sheet, ppi: float) -> tuple[bytes, ...]:
    """The filming sheet's pages as pictures (PNG).

    Raises:
        TypesettingError: its pages cannot be set.
    """
    return pictured("filming", filled(sheet), ppi)


def filming_markdown(sheet: Sheet) -> str:
    """The filming sheet as Markdown."""
    return markdown(sheet)
