"""A maker has the lesson made, looks at every page, and takes it home."""

from __future__ import annotations

import zipfile
from pathlib import Path
from typing import TYPE_CHECKING

from tests.browser.engine import violations

if TYPE_CHECKING:
    from playwright.sync_api import Page

    from tests.bench.browser.conftest import Maker


def made(maker: Maker, page: Page) -> None:
    maker.begun(page, "Tally fob")
    page.get_by_role("link", name="Booklet", exact=True).click()
    page.wait_for_selector(".not-yet")
    page.get_by_role("button", name="Make the booklet").first.click()
    page.wait_for_selector(".printed img")


def test_pages_are_seen_before_they_are_printed(maker: Maker, tmp_path: Path) -> None:
    page = maker.page(reduced_motion="reduce")
    made(maker, page)
    assert violations(page) == []
    first = page.locator(".printed img").first
    first.evaluate("image => image.decode()")
    assert first.evaluate("image => image.naturalWidth") > 800
    page.locator(".printed button").first.press("Enter")
    page.get_by_role("button", name="Page after").click()
    assert page.locator("dialog h2").inner_text().startswith("Page 2 of ")
    page.keyboard.press("Escape")
    page.get_by_role("button", name="Downloads").click()
    with page.expect_download() as found:
        page.get_by_role("link", name="Download everything").click()
    saved = tmp_path / "lesson.zip"
    found.value.save_as(saved)
    with zipfile.ZipFile(saved) as archive:
        assert archive.read("booklet.pdf").startswith(b"%PDF-")


def test_the_lesson_page_works_in_its_frame_and_reaches_nothing(maker: Maker) -> None:
    page = maker.page(reduced_motion="reduce")
    made(maker, page)
    page.get_by_role("button", name="Lesson page").click()
    frame = page.frame_locator(".lesson-page")
    frame.get_by_role("heading", level=1).wait_for()
    inner = next(f for f in page.frames if "/lessons/" in f.url)
    assert inner.evaluate("origin") == "null"
    reached = inner.evaluate("fetch('/api/pieces').then(() => 'reached', () => 'refused')")
    assert reached == "refused"
    maker.errors.clear()  # the browser tells of what it has refused


def test_a_lesson_of_an_older_state_says_so(maker: Maker) -> None:
    page = maker.page((360, 780), color_scheme="dark", reduced_motion="reduce")
    made(maker, page)
    assert violations(page) == []
    page.get_by_role("link", name="Piece", exact=True).click()
    page.get_by_role("button", name="Undo").wait_for()
    page.locator(".card .title").first.click()
    page.locator(".sheet .stepper .step").last.click()
    page.wait_for_selector('button[aria-label="Undo"]:not(:disabled)')
    page.get_by_role("link", name="Booklet", exact=True).click()
    page.wait_for_selector(".stale")
