from __future__ import annotations

import csv
import io
from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.errors import SupplyError
from cordwright.supply.kits import CordPart, Kit, Parcel, papers
from cordwright.supply.papers import as_csv, as_html, as_markdown, as_text
from cordwright.supply.pricing import Item

KIT = Kit(
    "Reed <b>cradle</b> | 2",
    "=Studio & Sons",
    (CordPart("A", "main, 4 mm, cotton", 4350.0, 8), CordPart("B", "fine, 2 mm, cotton", 900.0, 1)),
    (Item("ring", None, 1, None, "5 cm inside"),),
    (Item("box", None, 1),),
    412.3,
)
SHEETS = papers(KIT, 3, "metric")


class Texts(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.tags: set[str] = set()
        self.texts: list[str] = []

    def handle_starttag(self, tag: str, attrs: object) -> None:  # noqa: ARG002 - the base's
        self.tags.add(tag)

    def handle_data(self, data: str) -> None:
        self.texts.append(data)


def test_parts_for_one_kit_and_for_all() -> None:
    parts, packing, labels = SHEETS
    assert parts.rows[0] == ("A", "main, 4 mm, cotton", "4.35 m", "8", "24")
    assert parts.rows[2] == ("", "ring, 5 cm inside", "", "1", "3")
    assert packing.rows[0][1:] == ("8", "4.35 m", "main, 4 mm, cotton; bundled as A")
    assert [row[3] for row in packing.rows][-1] == "weighs about 412 g"
    assert papers(KIT, 1, "inch")[1].rows[-1][3] == "weighs about 14.5 oz"
    assert [row[2] for row in labels.rows] == ["kit 1 of 3", "kit 2 of 3", "kit 3 of 3"]
    assert labels.rows[0][3] == "9 cords, 1 ring"


@given(st.text(max_size=30), st.text(max_size=30))
def test_html_keeps_words_as_words(title: str, studio: str) -> None:
    kit = Kit(title, studio, KIT.cords, KIT.things, KIT.wrapping, None)
    page = Texts()
    page.feed(as_html(papers(kit, 1, "metric")))
    known = {"html", "head", "meta", "title", "style", "body", "section", "h1", "table"}
    assert page.tags == known | {
        "thead",
        "tbody",
        "tr",
        "th",
        "td",
        "i",
        "div",
        "article",
        "h2",
        "p",
    }


def test_html_shows_what_was_written() -> None:
    page = Texts()
    page.feed(as_html(SHEETS))
    assert "Reed <b>cradle</b> | 2" in page.texts


def test_labels_are_cards_and_boxes_can_be_ticked() -> None:
    page = as_html(SHEETS)
    assert page.count("<article>") == 3
    assert page.count('aria-label="to tick"') == len(SHEETS[1].rows)
    assert page.count("<table>") == 2


def test_csv_is_read_back_and_holds_no_formula() -> None:
    rows = list(csv.reader(io.StringIO(as_csv(SHEETS))))
    assert ["Labels", "Reed <b>cradle</b> | 2", "'=Studio & Sons", "kit 1 of 3"] in [
        row[:4] for row in rows
    ]


def test_markdown_escapes_bars_and_tags() -> None:
    text = as_markdown(SHEETS)
    assert r"Reed \<b\>cradle\</b\> \| 2" in text


def test_text_has_every_row() -> None:
    lines = as_text(SHEETS).splitlines()
    assert sum(line.startswith("[ ]") for line in lines) == 5


@pytest.mark.parametrize("kits", [0, 1001])
def test_impossible_runs(kits: int) -> None:
    with pytest.raises(SupplyError):
        papers(KIT, kits, "metric")


def test_parcels() -> None:
    # A box of 30 x 20 x 10 cm holds 6 litres: 1.2 kg at 200 g a litre.
    parcel = Parcel(300.0, 250.0, 350.0, 100.0, (300.0, 200.0, 100.0))
    assert parcel.gross_g == 400.0
    assert parcel.volumetric_g(200.0) == pytest.approx(1200.0)
    assert Parcel(None, None, None, 1.0).gross_g is None
    assert Parcel(1.0, 1.0, 1.0, 1.0).volumetric_g(200.0) is None
