"""Booklets of example plans, made once."""

from __future__ import annotations

import io
import itertools
from collections.abc import Iterator, Sequence
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, cast

import pypdf
import pypdfium2 as pdfium

from cordwright.knots.atlas import Atlas
from cordwright.plan.read import read_plan
from cordwright.teach import publish
from cordwright.teach.booklet import Wanted
from cordwright.teach.editions import parse_editions
from cordwright.teach.fonts import BREAK, END_ISOLATE, ISOLATE
from cordwright.teach.telling import tell
from cordwright.teach.typeset import PAPERS_MM, Paper
from cordwright.teach.words import Units, Words

if TYPE_CHECKING:
    from cordwright.teach.filmsheet import Sheet

EXAMPLES = Path(__file__).parents[2] / "src" / "cordwright" / "examples"


@cache
def atlas() -> Atlas:
    return Atlas()


@cache
def edition_of(
    path: Path,
    language: str = "en",
    units: Units = "metric",
    left_handed: bool = False,
    editions: Sequence[str] = (),
) -> tuple[publish.Taught, ...]:
    words = Words(language, units)
    asked = parse_editions(editions, {}, {})
    return publish.taught(read_plan(path), atlas(), asked, words, tell, left_handed=left_handed)


def booklet_of(
    path: Path,
    paper: Paper = "a4",
    language: str = "en",
    units: Units = "metric",
    left_handed: bool = False,
    editions: Sequence[str] = (),
) -> bytes:
    worked = edition_of(path, language, units, left_handed, tuple(editions))
    return publish.booklet_pdf(worked, atlas(), Words(language, units), Wanted(paper))


def sheet_of(path: Path, paper: Paper = "a4", language: str = "en") -> Sheet:
    return publish.sheet_of(edition_of(path, language)[0], Words(language), paper)


def example(name: str) -> Path:
    return EXAMPLES / f"{name}.yaml"


def bare(text: str) -> str:
    """Words of a page without the marks that are not seen, on one line."""
    for mark in (BREAK, ISOLATE, END_ISOLATE, "\u00ad"):
        text = text.replace(mark, "")
    return " ".join(text.split())


def words_of(pdf: bytes) -> str:
    """All text of a PDF."""
    pages = pypdf.PdfReader(io.BytesIO(pdf)).pages
    return bare("\n".join(page.extract_text() for page in pages))


def outside(pdf: bytes, paper: Paper) -> list[str]:
    """Characters whose box lies outside of the page, or in its outermost 5 mm.

    A page may lie on its side.
    """
    edge = 5.0
    found = []
    for number, c, box, size in _characters(pdf):
        width, height = PAPERS_MM[paper] if size[0] < size[1] else PAPERS_MM[paper][::-1]
        left, bottom, right, top = (v * 25.4 / 72.0 for v in box)
        if c.strip() and (
            left < edge or bottom < edge or right > width - edge or top > height - edge
        ):
            found.append(f"page {number}: {c!r} at {left:.0f} to {right:.0f}, {bottom:.0f} mm")
    return found


Box = tuple[float, float, float, float]


def _characters(pdf: bytes) -> Iterator[tuple[int, str, Box, tuple[float, float]]]:
    document: Any = pdfium.PdfDocument(pdf)
    for number in range(len(document)):
        text, size = document[number].get_textpage(), document[number].get_size()
        for i in range(text.count_chars()):
            yield number + 1, text.get_text_range(i, 1), cast("Box", text.get_charbox(i)), size
    document.close()


def overlapping(rows: Sequence[tuple[float, float]]) -> bool:
    """Whether any two spans share more than an end."""
    ordered = sorted(rows)
    return any(a[1] > b[0] + 0.1 for a, b in itertools.pairwise(ordered))
