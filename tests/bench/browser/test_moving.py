"""A change is seen on the piece without anything being fetched that the page has already."""

from __future__ import annotations

from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.bench.browser.conftest import PATIENCE_MS
from tests.bench.browser.test_journeys import card, figure

if TYPE_CHECKING:
    from playwright.sync_api import Page

    from tests.bench.browser.conftest import Maker

SEEN = "n => performance.getEntriesByName('change to picture').length >= n"


def asked_for_parts(maker: Maker) -> int:
    return sum("parts.glb" in url for url in maker.asked)


def drawn(page: Page) -> bytes:
    shot: bytes = page.locator(".solid canvas").screenshot()
    return shot


def test_a_step_moves_the_piece_and_fetches_nothing(maker: Maker) -> None:
    page = maker.page()
    maker.begun(page, "Oxbow planter")
    expect(page.locator(".stage-note")).to_have_count(0)
    with page.expect_response(lambda r: "parts.glb" in r.url and "detail=high" in r.url):
        pass  # the fine shapes follow the coarse ones
    before, asked = drawn(page), asked_for_parts(maker)
    knots = figure(page, "Knots").inner_text()
    assert asked == 2
    card(page, "Arms").get_by_role("button", name="More: Arm").click()
    page.wait_for_function(SEEN, arg=1, timeout=PATIENCE_MS)
    assert drawn(page) != before
    card(page, "Arms").get_by_role("button", name="More: Knots").click()
    page.wait_for_function(SEEN, arg=2, timeout=PATIENCE_MS)
    expect(figure(page, "Knots")).not_to_have_text(knots)  # more of those that are there
    assert asked_for_parts(maker) == asked
    # Another ring is another thing, of which the page has no shape yet.
    page.locator(".card.mount .title").click()
    inside = page.get_by_label("Inside", exact=True)
    inside.fill("70 mm")
    inside.press("Enter")
    page.wait_for_function(SEEN, arg=3, timeout=PATIENCE_MS)
    assert asked_for_parts(maker) > asked
