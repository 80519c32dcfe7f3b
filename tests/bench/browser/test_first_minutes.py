"""The first five minutes of somebody new, as docs/first-five-minutes.md tells them."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import pypdfium2 as pdfium
from playwright.sync_api import expect

from tests.bench.browser.conftest import PATIENCE_MS, ROOT
from tests.bench.browser.test_journeys import card, figure

if TYPE_CHECKING:
    from playwright.sync_api import Page

    from tests.bench.browser.conftest import Maker

expect.set_options(timeout=PATIENCE_MS)


def lengths(page: Page) -> list[str]:
    """How long every cord is cut, as the bench shows it."""
    return page.locator(".cuts tbody tr td:nth-child(3)").all_inner_texts()


def test_start_change_and_print(maker: Maker, tmp_path: Path) -> None:
    page = maker.page(reduced_motion="reduce")
    # Start: a piece that comes with Cordwright, seen before it is chosen.
    sketch = page.locator("button.tile", has_text="Pellow planter").locator("img")
    expect(sketch).to_be_visible()
    maker.begun(page, "Pellow planter")
    expect(page.get_by_text("saved")).to_be_visible()
    # Change a length: the cut list follows.
    before = lengths(page)
    card(page, "Arms").get_by_role("button", name="More: Arm").click()
    expect(page.locator(".cuts tbody tr td:nth-child(3)").first).not_to_have_text(before[0])
    # Change the cord: thicker cord, more of it.
    used = figure(page, "Cord in it").inner_text()
    page.get_by_role("button", name="On a ring").click()
    page.get_by_role("button", name="More: Thickness").first.click()
    expect(figure(page, "Cord in it")).not_to_have_text(used)
    # Change the pot: whether it sits is said again.
    depth = figure(page, "Its rim, below the top").inner_text()
    page.get_by_label("Height", exact=True).fill("18 cm")
    page.get_by_label("Height", exact=True).press("Enter")
    expect(figure(page, "Its rim, below the top")).not_to_have_text(depth)
    page.get_by_role("button", name="All sections").click()
    shown = lengths(page)
    # Print: where to is said beside the cut list; every page is seen before.
    page.get_by_role("link", name="To print").click()
    page.locator(".lesson-shown").get_by_role("button", name="Make the booklet").click()
    expect(page.get_by_role("progressbar", name="The booklet is being made")).to_be_visible()
    expect(page.locator(".printed img").first).to_be_visible()
    with page.expect_download() as found:
        page.get_by_role("link", name="Download (PDF)").click()
    saved = tmp_path / "booklet.pdf"
    found.value.save_as(saved)
    book = pdfium.PdfDocument(saved)
    words = " ".join(sheet.get_textpage().get_text_range() for sheet in book)
    assert len(book) == page.locator(".printed li").count()
    assert all(length in words for length in shown), (shown, words)


def test_what_the_page_for_newcomers_names_is_there() -> None:
    told = (ROOT / "docs" / "first-five-minutes.md").read_text(encoding="utf-8")
    named = {n for n in re.findall(r"\*\*(.+?)\*\*", told) if not n.endswith(".")}
    assert {"Pellow planter", "Make the booklet", "Open to print", "Undo"} <= named
    sources = [*(ROOT / "frontend" / "src").rglob("*.ts*"), *(ROOT / "src").rglob("*.yaml")]
    words = "\n".join(path.read_text(encoding="utf-8") for path in sources)
    assert {name for name in named if name not in words} == set()
