"""How a booklet is laid on its pages: what belongs together stays so, and it prints in grey."""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence
from functools import cache
from itertools import combinations, pairwise
from typing import TYPE_CHECKING, Any, NamedTuple

import numpy as np
import pypdf
import pypdfium2 as pdfium
import pytest

from cordwright.draw.ink import INKS, PLAIN, Ink
from cordwright.teach.bookdata import filled
from cordwright.teach.booklet import Wanted, booklet
from cordwright.teach.drawn import drawn
from cordwright.teach.labels import Labels
from cordwright.teach.typeset import Paper, typeset
from cordwright.teach.words import Words
from tests.examples.conftest import NAMES
from tests.teach.published import atlas, edition_of, example

if TYPE_CHECKING:
    from cordwright.teach.bookdata import Booklet
    from cordwright.teach.booklet import Pictures
    from cordwright.teach.publish import Taught

PAPERS: tuple[Paper, ...] = ("a4", "letter")
EDITIONS = ("small: arm=15cm", "large: arm=40cm, cord rope=6mm")


class Leaf(NamedTuple):
    """A piece of content in the order of reading: what it is of, and on which page it stands."""

    kind: str
    page: int
    alt: str = ""


@cache
def pictured(name: str, editions: tuple[str, ...]) -> tuple[tuple[Taught, ...], Pictures]:
    worked = edition_of(example(name), "en", "metric", False, editions)
    versions = [e.version for e in worked]
    return worked, drawn([e.piece for e in worked], versions, atlas(), Labels(Words()))


@cache
def book_of(name: str, paper: Paper, editions: tuple[str, ...] = ()) -> tuple[Booklet, bytes]:
    worked, pictures = pictured(name, editions)
    made = booklet([e.version for e in worked], pictures, Labels(Words()), Wanted(paper))
    return made, typeset("booklet", filled(made))


def leaves(pdf: bytes) -> list[Leaf]:
    """The content of a tagged PDF, from its structure tree."""
    reader = pypdf.PdfReader(io.BytesIO(pdf))
    pages = {page.indirect_reference.idnum: i for i, page in enumerate(reader.pages)}  # type: ignore[union-attr]
    root: Any = reader.trailer["/Root"]
    return list(_leaves(root["/StructTreeRoot"]["/K"], pages, "", -1, ""))


def _leaves(node: Any, pages: dict[int, int], kind: str, page: int, alt: str) -> Iterator[Leaf]:
    node = node.get_object() if hasattr(node, "get_object") else node
    if isinstance(node, list):
        for one in node:
            yield from _leaves(one, pages, kind, page, alt)
        return
    if isinstance(node, int):
        yield Leaf(kind, page, alt)
        return
    if "/Pg" in node:
        page = pages[node.raw_get("/Pg").idnum]
    if node.get("/Type") in ("/MCR", "/OBJR"):
        yield Leaf(kind, page, alt)
        return
    said = str(node.get("/S", ""))
    inner = said if said in ("/Figure", "/H1", "/H2", "/H3") else kind
    yield from _leaves(node.get("/K", []), pages, inner, page, str(node.get("/Alt", alt)))


def steps_part(content: Sequence[Leaf], made: Booklet) -> list[Leaf]:
    """From the first step to the picture of the whole piece."""
    tying = [i for i, leaf in enumerate(content) if ", picture " in leaf.alt]
    end = next(i for i, leaf in enumerate(content) if leaf.alt == made.charts[0].figure.alt)
    return list(content[tying[-1] + 1 : end])


def parted(part: Sequence[Leaf]) -> list[Leaf]:
    """Pictures that stand on another page than the words before them."""
    return [b for a, b in pairwise(part) if b.kind == "/Figure" and a.page != b.page]


def orphans(content: Sequence[Leaf]) -> list[Leaf]:
    """Headings that end a page."""
    return [a for a, b in pairwise(content) if a.kind.startswith("/H") and a.page != b.page]


CASES = [
    *((name, PAPERS[i % 2], ()) for i, name in enumerate(NAMES)),
    *(("oxbow-planter", paper, ()) for paper in PAPERS),
    *(("pellow-planter", paper, EDITIONS) for paper in PAPERS),
]


@pytest.mark.parametrize(("name", "paper", "editions"), CASES)
def test_no_figure_is_parted_from_its_step(
    name: str, paper: Paper, editions: tuple[str, ...]
) -> None:
    made, pdf = book_of(name, paper, editions)
    content = leaves(pdf)
    part = steps_part(content, made)
    wanted = [f.alt for section in made.sections for s in section.steps for f in s.figures]
    assert [leaf.alt for leaf in part if leaf.kind == "/Figure"] == wanted
    assert len(wanted) >= 1
    assert parted(part) == []
    assert orphans(content) == []


@pytest.mark.parametrize("paper", PAPERS)
def test_every_tying_picture_stands_above_its_words(paper: Paper) -> None:
    made, pdf = book_of("oxbow-planter", paper)
    content = leaves(pdf)
    tying = [(a, b) for a, b in pairwise(content) if ", picture " in a.alt]
    assert len(tying) == sum(len(knot.steps) for knot in made.knots)
    assert all(a.page == b.page for a, b in tying)


def test_what_is_parted_is_noticed() -> None:
    words, picture = Leaf("", 3), Leaf("/Figure", 4, "A knot.")
    assert parted([words, picture]) == [picture]
    assert orphans([Leaf("/H2", 3), Leaf("", 4)]) == [Leaf("/H2", 3)]


def test_every_page_has_its_number_of_how_many() -> None:
    _, pdf = book_of("oxbow-planter", "a4")
    pages = pypdf.PdfReader(io.BytesIO(pdf)).pages
    for i, page in enumerate(pages[1:], start=2):
        assert f"{i} / {len(pages)}" in page.extract_text()


def test_pictures_of_several_sizes_are_to_one_scale() -> None:
    made, pdf = book_of("pellow-planter", "a4", EDITIONS)
    assert [p.title for p in made.pieces] == ["small", "large"]
    assert made.pieces[0].figure.height_mm < made.pieces[1].figure.height_mm
    alts = [leaf.alt for leaf in leaves(pdf) if leaf.kind == "/Figure"]
    assert all(alts.count(p.figure.alt) >= 1 for p in made.pieces)
    titles = [chart.title for chart in made.charts]
    assert {"The whole piece, small", "The whole piece, large"} <= set(titles)
    assert {"Chart, small", "Chart, large"} <= set(titles)


# ---- in grey


def luminance(grey: float) -> float:
    """Relative luminance of a grey from 0 to 255 (WCAG 2.2, relative luminance)."""
    c = grey / 255.0
    return c / 12.92 if c <= 0.04045 else float(((c + 0.055) / 1.055) ** 2.4)


def contrast(one: float, other: float) -> float:
    """Contrast ratio of two greys (WCAG 2.2, contrast ratio)."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


@cache
def printed(name: str) -> Any:
    """(n, 5) int: red, green, blue and grey of all pages with tying pictures, and how often."""
    _, pdf = book_of(name, "a4")
    content = leaves(pdf)
    document: Any = pdfium.PdfDocument(pdf)
    found = []
    for number in sorted({leaf.page for leaf in content if ", picture " in leaf.alt}):
        page = document[number]
        rgb = page.render(scale=4, rev_byteorder=True).to_numpy()[:, :, :3].astype(np.int64)
        grey = page.render(scale=4, grayscale=True).to_numpy().reshape(rgb.shape[:2])
        found.append(((rgb[..., 0] * 256 + rgb[..., 1]) * 256 + rgb[..., 2]) * 256 + grey)
    document.close()
    codes, counts = np.unique(np.concatenate([f.ravel() for f in found]), return_counts=True)
    parts = [codes >> shift & 255 for shift in (24, 16, 8, 0)]
    return np.stack([*parts, counts], axis=1)


def grey_of(name: str, colour: str) -> float | None:
    """The grey that a colour prints as; None where hardly anything of it is printed."""
    pixels = printed(name)
    wanted = [int(colour[i : i + 2], 16) for i in (1, 3, 5)]
    there = pixels[np.abs(pixels[:, :3] - wanted).max(axis=1) <= 3]
    if there[:, 4].sum() < 30:
        return None
    return float(np.average(there[:, 3], weights=there[:, 4]))


def marked_apart(name: str, ink: Ink) -> bool:
    """Whether an ink's mark is printed, and can be seen on the cord in grey."""
    fill, mark = grey_of(name, ink.fill), grey_of(name, ink.mark_colour)
    if ink.mark == PLAIN or fill is None or mark is None:
        return False
    return contrast(fill, mark) >= 1.7


@pytest.mark.parametrize("name", ["oxbow-planter", "pellow-planter"])
def test_cords_differ_in_grey_by_lightness_or_by_their_marks(name: str) -> None:
    used = [ink for ink in INKS if grey_of(name, ink.fill) is not None]
    assert {"terracotta", "teal"} <= {ink.name for ink in used}
    for one, other in combinations(used, 2):
        a, b = grey_of(name, one.fill), grey_of(name, other.fill)
        assert a is not None
        assert b is not None
        by_mark = one.mark != other.mark and (marked_apart(name, one) or marked_apart(name, other))
        assert contrast(a, b) >= 1.5 or by_mark, (one.name, other.name)


@pytest.mark.parametrize("name", ["oxbow-planter", "pellow-planter"])
def test_every_cord_stands_off_from_paper_in_grey(name: str) -> None:
    for ink in INKS:
        fill, edge = grey_of(name, ink.fill), grey_of(name, ink.edge)
        if fill is not None:
            assert max(contrast(g, 255.0) for g in (fill, edge) if g is not None) >= 3.0, ink.name


def test_words_on_paper_read_in_grey() -> None:
    """4.5 to 1 for words, as WCAG 2.2 asks of text (1.4.3), in every page of a booklet."""
    _, pdf = book_of("oxbow-planter", "a4")
    document: Any = pdfium.PdfDocument(pdf)
    for number in range(1, len(document)):
        page = document[number]
        text = page.get_textpage()
        rendered = page.render(scale=4, grayscale=True)
        shown = rendered.to_numpy().reshape(rendered.height, -1)
        for i in range(0, text.count_chars(), 7):
            if not text.get_text_range(i, 1).strip():
                continue
            left, bottom, right, top = text.get_charbox(i)
            box = shown[
                int((page.get_height() - top) * 4) : int((page.get_height() - bottom) * 4) + 1,
                int(left * 4) : int(right * 4) + 1,
            ]
            if min(box.shape) >= 12:  # smaller signs are blurred away at this scale
                assert contrast(float(box.min()), float(box.max())) >= 4.5
    document.close()
