"""The booklet, read back as a PDF."""

from __future__ import annotations

import io
import json
import re
from pathlib import Path
from typing import Any

import pypdf
import pytest
from click.testing import CliRunner

from cordwright.cli.app import app
from cordwright.teach.typeset import PAPERS_MM, Paper
from cordwright.teach.words import Units, Words
from tests.teach.published import booklet_of, example, outside, words_of

PLANTER = example("pellow-planter")


def reader(pdf: bytes) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(pdf))


def objects(pdf: bytes) -> list[dict[str, Any]]:
    """Every dictionary in the file."""
    found = reader(pdf)
    size = int(str(found.trailer["/Size"]))
    made: list[Any] = [found.get_object(number) for number in range(1, size)]
    return [{str(k): m[k] for k in m} for m in made if isinstance(m, dict)]


def catalogue(pdf: bytes) -> dict[str, Any]:
    root: Any = reader(pdf).trailer["/Root"]
    return dict(root)


def cut_json(path: Path, units: str) -> dict[str, Any]:
    done = CliRunner().invoke(app, ["cut", str(path), "--json", "--units", units])
    assert done.exit_code == 0, done.output
    answer: dict[str, Any] = json.loads(done.stdout)
    return answer


@pytest.mark.parametrize("units", ["metric", "inch"])
@pytest.mark.parametrize("name", ["pellow-planter", "hollin-tieback"])
def test_every_number_of_the_cut_list_is_that_of_the_cut_command(name: str, units: Units) -> None:
    text = words_of(booklet_of(example(name), units=units))
    words = Words("en", units)
    for cord in cut_json(example(name), units)["cords"]:
        row = re.search(
            rf"\b{cord['id']} {cord['count']} . {cord['cord']}, .*?(?=\b[A-Z] \d+ . \w|Tick a box)",
            text,
        )
        assert row is not None, cord["id"]
        assert words.length(cord["length_mm"]) in row[0]
        assert words.length(cord["spare_mm"]) in row[0]
        for part in cord["fold_mm"] or ():
            assert words.length(part) in row[0]


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("language", ["en", "de", "fr"])
def test_it_is_tagged_has_language_title_and_bookmarks(paper: Paper, language: str) -> None:
    pdf = booklet_of(PLANTER, paper, language, "both")
    root = catalogue(pdf)
    assert root["/MarkInfo"]["/Marked"] is not False
    assert root["/Lang"] == language
    assert root["/StructTreeRoot"]
    assert b"pdfuaid:part" in reader(pdf).xmp_metadata.stream.get_data()  # type: ignore[union-attr]
    assert reader(pdf).metadata.title == "Pellow planter"  # type: ignore[union-attr]
    assert len(reader(pdf).outline) >= 7
    width, height = PAPERS_MM[paper]
    for page in reader(pdf).pages:
        sides = sorted((float(page.mediabox.width), float(page.mediabox.height)))
        assert sides == pytest.approx([width * 72 / 25.4, height * 72 / 25.4], abs=0.5)
    assert outside(pdf, paper) == []


def test_the_contents_lead_to_the_pages_that_they_name() -> None:
    """Every link says where it leads; the heading stands on that page."""
    read = reader(booklet_of(example("tally-fob")))
    numbers = {page.indirect_reference.idnum: i for i, page in enumerate(read.pages)}  # type: ignore[union-attr]
    links = [a.get_object() for page in read.pages for a in page.get("/Annots") or ()]
    assert len(links) > 8
    for link in links:
        told = re.search(r"\u201c(.+)\u201d page (\d+)", str(link["/Contents"]))
        assert told is not None
        page = numbers[list.__getitem__(link["/Dest"], 0).idnum]  # else it is looked up
        assert page == int(told[2]) - 1
        assert told[1] in read.pages[page].extract_text()


def fonts_of(pdf: bytes) -> dict[str, Any]:
    """Every font that a page or a picture in it uses."""
    return {
        str(made["/FontName"]): made
        for made in objects(pdf)
        if made.get("/Type") == "/FontDescriptor"
    }


def test_all_fonts_are_ours_and_embedded() -> None:
    found = fonts_of(booklet_of(PLANTER))
    assert found
    ours = ("SourceSansPro", "SourceSerifPro", "LibertinusSerif", "DejaVuSansMono")
    for name, made in found.items():
        assert name.split("+")[-1].startswith(ours), name
        assert {"/FontFile", "/FontFile2", "/FontFile3"} & made.keys(), name


def test_every_picture_has_words() -> None:
    figures = [made for made in objects(booklet_of(PLANTER)) if made.get("/S") == "/Figure"]
    assert len(figures) > 20
    assert all(str(f["/Alt"]).strip() for f in figures)


def test_the_same_plan_gives_the_same_bytes() -> None:
    assert booklet_of(PLANTER) == booklet_of(PLANTER)


def test_nothing_promises_that_a_piece_holds() -> None:
    for language, words in (
        ("en", ("safe", "rated", "guarantee")),
        ("de", ("sicher", "garantiert")),
        ("fr", ("sans danger", "garanti")),
    ):
        text = words_of(booklet_of(PLANTER, language=language)).lower()
        assert not [w for w in words if re.search(rf"\b{w}", text)]


def test_the_left_handed_edition_says_so_and_mirrors_its_folds() -> None:
    right, left = words_of(booklet_of(PLANTER)), words_of(booklet_of(PLANTER, left_handed=True))
    assert "Left-handed edition" in left
    assert "Left-handed edition" not in right
    assert right != left


def test_editions_stand_side_by_side() -> None:
    asked = ("small: arm=15cm", "large: arm=40cm")
    text = words_of(booklet_of(PLANTER, editions=asked))
    assert "small / large" in text
    assert "15 cm" in text
    assert "40 cm" in text
    for edition in asked:
        _, _, size = edition.partition("arm=")
        done = CliRunner().invoke(app, ["cut", str(PLANTER), "--json", "--size", f"arm={size}"])
        for cord in json.loads(done.stdout)["cords"]:
            assert Words("en").length(cord["length_mm"]) in text
