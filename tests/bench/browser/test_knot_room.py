"""The knot room as a maker uses it: found, turned, tied, mirrored and measured."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.bench.browser.conftest import PATIENCE_MS, Maker
from tests.bench.browser.test_access import SIZES, looked_at

if TYPE_CHECKING:
    from playwright.sync_api import Locator, Page

expect.set_options(timeout=PATIENCE_MS)


def opened(maker: Maker, knot: str, **options: object) -> Page:
    """The knot room with a knot whose tying has come; nothing moves by itself."""
    page = maker.page(**({"reduced_motion": "reduce"} | options))  # type: ignore[arg-type]
    page.evaluate("knot => { location.hash = `#/knots/${knot}`; }", knot)
    page.wait_for_selector(".knot-steps li")
    return page


def scrubber(page: Page) -> Locator:
    return page.get_by_label("Moment of the tying")


def measure(page: Page, row: str) -> Locator:
    return page.locator(".knot-facts tr", has_text=row).locator("td").last


@pytest.mark.parametrize("size", list(SIZES))
def test_the_engine_finds_nothing(maker: Maker, size: str) -> None:
    page = maker.page(SIZES[size], reduced_motion="reduce")
    page.get_by_role("link", name="Knots").click()
    page.wait_for_selector(".knot-tile")
    looked_at(page)
    page.get_by_role("link", name="Of 2 strands").click()
    page.wait_for_selector(".knot-steps li")
    looked_at(page)


def test_every_knot_is_there_by_its_figure_and_found_by_name(maker: Maker) -> None:
    page = opened(maker, "square-knot")
    tiles = page.locator(".knot-tile")
    expect(tiles).to_have_count(68)
    page.get_by_label("Find a knot by its name").fill("gathering 6 turns")
    expect(tiles).to_have_count(5)
    tiles.first.click()
    expect(page.get_by_role("heading", level=1)).to_have_text(
        "Gathering knot of 6 turns round 4 strands"
    )
    shown = tiles.first.locator("img")
    expect(shown).to_have_js_property("complete", True)
    assert shown.evaluate("img => img.naturalWidth") > 0
    page.get_by_label("Find a knot by its name").fill("granny")
    expect(page.get_by_text("No knot of the atlas is called that.")).to_be_visible()


def test_a_tying_is_scrubbed_by_keys_and_seen_to_move(maker: Maker) -> None:
    page = opened(maker, "square-knot-n4")
    hand = scrubber(page)
    tight = page.locator(".knot-solid").screenshot()
    expect(hand).to_have_attribute("aria-valuetext", "Step 5 of 5: Draw it up evenly.")
    hand.focus()
    page.keyboard.press("Home")
    expect(page.locator("[aria-current=step] strong")).to_have_text("1")
    page.keyboard.press("PageUp")
    expect(page.locator("[aria-current=step] strong")).to_have_text("2")
    before = float(hand.input_value())
    page.keyboard.press("ArrowRight")
    expect(hand).not_to_have_value(str(before))
    assert float(hand.input_value()) == pytest.approx(before + 0.25, abs=0.051)
    expect(page.locator(".knot-now")).to_contain_text("Teal cord")
    assert page.locator(".knot-solid").screenshot() != tight


def test_playing_ends_in_the_tight_knot_and_can_be_halted(maker: Maker) -> None:
    page = opened(maker, "overhand-n1")
    page.get_by_role("button", name="Play the tying").click()
    page.get_by_role("button", name="Pause").click()
    halted = float(scrubber(page).input_value())
    assert halted < float(scrubber(page).get_attribute("max") or 0)
    page.get_by_role("button", name="Play the tying").click()
    expect(page.get_by_role("button", name="Play the tying")).to_be_visible()
    last = page.locator(".knot-steps li").count()
    expect(page.locator("[aria-current=step] strong")).to_have_text(str(last))


def test_nothing_moves_by_itself_for_those_who_want_it_calm(maker: Maker) -> None:
    page = opened(maker, "braid-n3")
    turn = page.get_by_role("button", name="Turn it round once")
    expect(turn).to_have_attribute("aria-pressed", "false")
    lively = opened(maker, "braid-n3", reduced_motion="no-preference")
    turned = lively.get_by_role("button", name="Turn it round once")
    expect(turned).to_have_attribute("aria-pressed", "true")
    lively.locator(".knot-solid").press("ArrowLeft")
    expect(turned).to_have_attribute("aria-pressed", "false")


def test_a_knot_is_mirrored_in_space_and_in_its_figures(maker: Maker) -> None:
    page = opened(maker, "double-half-hitch-n2-slant-45")
    figure = page.locator(".knot-steps img").first
    assert "hand=left" in (figure.get_attribute("src") or "")
    before = page.locator(".knot-solid").screenshot()
    page.get_by_role("button", name="Mirrored").click()
    expect(page.locator(".knot-steps img").first).to_have_attribute(
        "src", "/api/knots/double-half-hitch-n2-slant-45/steps/1.svg?hand=right"
    )
    expect(page.locator(".knot-solid")).to_have_attribute("aria-label", "Double half hitch, slanted"
        " by 45°, to the right. Arrow keys turn and move it, Page Up and Page Down tilt it, plus"
        " and minus come nearer, 0 shows all of it.")  # fmt: skip
    page.wait_for_timeout(300)
    assert page.locator(".knot-solid").screenshot() != before


def test_measures_follow_the_cord_in_millimetres_and_inches(maker: Maker) -> None:
    page = opened(maker, "square-knot-n4")
    expect(measure(page, "Height")).to_have_text("16.0 mm")
    cord = page.get_by_label("Cord", exact=True)
    cord.fill("1/4 in")
    cord.press("Enter")
    expect(measure(page, "Height")).to_have_text("25.4 mm")
    page.get_by_role("button", name="change to inches").click()
    expect(cord).to_have_value("1/4 in")
    expect(measure(page, "Height")).to_have_text("1.00 in")
    cord.fill("much")
    cord.press("Enter")
    expect(cord).to_have_attribute("aria-invalid", "true")
    expect(measure(page, "Height")).to_have_text("1.00 in")


def test_a_step_of_the_plan_leads_to_its_knot_and_back(maker: Maker) -> None:
    page = maker.page(reduced_motion="reduce")
    maker.begun(page, "Pellow planter")
    page.locator(".card .title").nth(3).click()
    link = page.locator(".knot-link").first
    wanted = (link.get_attribute("href") or "").split("/")[2].split("?")[0]
    link.click()
    tile = page.locator(".knot-tile[aria-current]")
    expect(tile).to_have_count(1)
    expect(tile).to_be_in_viewport()
    assert wanted in (tile.get_attribute("href") or "")
    # The piece's own cord is what measures are for.
    expect(page.get_by_label("Cord", exact=True)).not_to_have_value("")
    page.get_by_role("link", name="Piece", exact=True).click()
    # The section is still open, as it was left.
    expect(page.locator(".sheet .knot-link").first).to_be_visible()
