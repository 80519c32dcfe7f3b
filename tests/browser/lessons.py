"""Lesson pages of the example plans, made once."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from typing import TYPE_CHECKING, Any

from cordwright.piece.cutlist import cut_list
from cordwright.teach.bookdata import Picture
from cordwright.teach.booklet import Pictures, Version
from cordwright.teach.editions import parse_editions
from cordwright.teach.page import page_html
from cordwright.teach.pagedata import Published, Sureness, page_data
from cordwright.teach.pageforms import Source, open_forms, plain_piece
from cordwright.teach.publish import Taught, taught
from cordwright.teach.telling import tell
from cordwright.teach.words import Units, Words
from tests.examples.conftest import ATLAS, plan_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from cordwright.cords.handling import Handling
    from cordwright.piece.cutlist import CutList
    from cordwright.piece.model import Piece
    from cordwright.plan.model import Plan
    from cordwright.units.length import System

SQUARE = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path d="M1 1h7v7z"/></svg>'
"""Stands for every picture where a test is not about pictures."""


@dataclass(frozen=True)
class Made:
    """A lesson page, and what it was made from."""

    editions: tuple[Taught, ...]
    data: dict[str, Any]
    html: str


def blank_pictures(versions: Sequence[Version]) -> Pictures:
    """A square beside every knot."""
    picture = Picture(SQUARE, "a square", 9.0, 9.0)
    besides = [{k.id: picture for k in v.lesson.knots} for v in versions]
    return Pictures(picture, (), (), besides[0], tuple(besides[1:]))


def made(
    plan: Plan,
    *editions: str,
    language: str = "en",
    units: Units = "metric",
    left_handed: bool = False,
    sureness: Sureness | None = None,
    handling: Mapping[str, Handling] | None = None,
) -> Made:
    """The page of a plan, with a square for every picture."""
    words, sure = Words(language, units), sureness or Sureness()
    worked = taught(
        plan,
        ATLAS,
        parse_editions(editions, {}, {}),
        words,
        tell,
        left_handed=left_handed,
        handling=handling,
        known=sure.known,
        risk=sure.risk,
    )
    data = page_data(worked, blank_pictures([w.version for w in worked]), words, Published(), sure)
    return Made(worked, data, page_html(data))


@cache
def example(name: str, units: Units = "metric", language: str = "en") -> Made:
    return made(plan_of(name), units=units, language=language)


def plain(edition: Taught) -> Piece:
    """The piece with sums over diameters and sizes alone."""
    return plain_piece(edition.piece, open_forms(Source(edition.piece, edition.version.edition)))


def cut(
    piece: Piece, values: Mapping[str, float], system: System, sureness: Sureness | None = None
) -> CutList:
    """The program's own cut list of the same piece with other values."""
    sure = sureness or Sureness()
    other = replace(piece, values={**piece.values, **values})
    return cut_list(other, system=system, known=sure.known, risk=sure.risk)
