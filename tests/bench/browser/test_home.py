"""The first page: all pieces, their past, and what to begin with."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.bench.browser.conftest import PATIENCE_MS

if TYPE_CHECKING:
    from playwright.sync_api import Page

    from tests.bench.browser.conftest import Maker

expect.set_options(timeout=PATIENCE_MS)


def home(page: Page) -> None:
    page.get_by_role("link", name="Cordwright: all pieces").click()
    page.wait_for_selector(".pieces h1")


def test_a_piece_is_renamed_taken_back_deleted_and_brought_back(maker: Maker) -> None:
    page = maker.page(reduced_motion="reduce")
    maker.begun(page, "Ferry sling")
    first = page.get_by_role("textbox").first
    label = first.get_attribute("aria-label") or ""
    before = first.input_value()
    page.get_by_role("button", name=re.compile("^More: ")).first.click()
    expect(page.get_by_role("textbox").first).not_to_have_value(before)
    home(page)
    page.get_by_role("button", name="Rename Ferry sling").click()
    page.get_by_label("Its title").fill("Sling for Sedge")
    page.keyboard.press("Enter")
    tile = page.locator("a.tile", has_text="Sling for Sedge")
    expect(tile).to_be_visible()
    page.get_by_role("button", name="Past states of Sling for Sedge").click()
    states = page.locator(".past li")
    expect(states).to_have_count(3)
    expect(states.last).to_contain_text("Begun from")
    states.last.get_by_role("button").click()
    expect(page.locator("a.tile", has_text="Ferry sling")).to_be_visible()
    page.get_by_role("button", name="Delete Ferry sling").click()
    expect(page.locator("a.tile", has_text="Ferry sling")).to_have_count(0)
    page.get_by_text("Deleted pieces").click()
    page.get_by_role("button", name="Bring back Ferry sling").click()
    page.locator("a.tile", has_text="Ferry sling").click()
    expect(page.get_by_role("textbox").first).to_have_value(before)
    assert label == (page.get_by_role("textbox").first.get_attribute("aria-label") or "")


def test_examples_are_seen_and_a_file_of_ones_own_is_opened(maker: Maker) -> None:
    page = maker.page(reduced_motion="reduce")
    sketches = page.locator("button.with-picture img")
    tiles = page.locator("button.with-picture").count()
    assert tiles >= 12
    sketches.nth(1).evaluate("image => image.decode()")  # drawn one after the other
    plan = "cordwright: 1\ntitle: Own fob\ncords:\n  main: {fibre: cotton, diameter: 2 mm}\n"
    plan += "mount:\n  nothing:\n  cords:\n    - {cord: main, count: 2}\n"
    plan += "work:\n  - {tie: square-knot, times: 5}\n  - {fringe: 6 cm}\n"
    file = {"name": "own fob.yaml", "mimeType": "text/yaml", "buffer": plan.encode()}
    page.get_by_label("Or open a plan file").set_input_files(file)  # type: ignore[arg-type]
    expect(page.locator(".piece-name")).to_contain_text("Own fob")
    expect(page.locator(".cuts tbody tr")).not_to_have_count(0)
