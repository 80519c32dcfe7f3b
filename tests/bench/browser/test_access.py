"""The workbench for everybody: WCAG 2.2 AA by an engine (axe-core), at every width."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.browser.engine import violations

if TYPE_CHECKING:
    from playwright.sync_api import Page

    from tests.bench.browser.conftest import Maker

SIZES = {"desk": (1280, 800), "tablet": (820, 1180), "phone": (360, 780)}


def looked_at(page: Page) -> None:
    """The engine finds nothing, in light and in dark, and nothing is wider than the screen."""
    page.emulate_media(color_scheme="dark")
    page.wait_for_selector("html[data-theme=dark]")
    assert violations(page, ["color-contrast"]) == []  # all else is the same in both
    page.emulate_media(color_scheme="light")
    page.wait_for_selector("html[data-theme=light]")
    assert violations(page) == []
    widest = page.evaluate("document.documentElement.scrollWidth - innerWidth")
    assert widest <= 0, "it scrolls sideways"


@pytest.mark.parametrize("size", list(SIZES))
def test_the_engine_finds_nothing(maker: Maker, size: str) -> None:
    page = maker.page(SIZES[size], reduced_motion="reduce")
    looked_at(page)
    maker.begun(page, "Pellow planter")
    page.wait_for_selector(".cautions")
    looked_at(page)
    page.locator(".card .title").nth(1).click()
    page.wait_for_selector(".sheet")
    looked_at(page)
    page.get_by_role("button", name="Add a step").click()
    page.wait_for_selector("dialog")
    looked_at(page)
    page.keyboard.press("Escape")
    page.locator(".tabs").get_by_role("button", name="Plan as text").click()
    page.wait_for_selector(".cm-content")
    looked_at(page)
    page.get_by_role("link", name="Booklet", exact=True).click()
    page.wait_for_selector(".not-yet")
    page.get_by_text("Licence, version").click()
    page.get_by_role("button", name="Add an entry").click()
    looked_at(page)
    page.get_by_role("link", name="Supply", exact=True).click()
    page.wait_for_selector(".shelf-kind")
    looked_at(page)
    page.get_by_role("link", name="Cutting plan").click()
    for more in page.locator("form .more summary").all():
        more.click()
    page.get_by_role("button", name="Add what can be bought").click()
    looked_at(page)
