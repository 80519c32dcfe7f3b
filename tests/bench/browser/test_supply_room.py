"""A maker keeps a shelf, enters trials, and has a run of kits cut from it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.bench.browser.conftest import PATIENCE_MS
from tests.browser.engine import violations

if TYPE_CHECKING:
    from playwright.sync_api import Locator, Page

    from tests.bench.browser.conftest import Maker

expect.set_options(timeout=PATIENCE_MS)


def filled(form: Locator, **fields: str) -> None:
    """Fill a form's fields; a field's label begins with its word."""
    for word, text in fields.items():
        form.get_by_label(re.compile(f"^{word.replace('_', ' ')}")).fill(text)


def table(page: Page, heading: str) -> Locator:
    return page.locator(".shelf-kind", has=page.get_by_role("heading", name=heading, exact=True))


def part(page: Page, name: str) -> None:
    page.get_by_role("navigation", name="Of supply").get_by_role("link", name=name).click()


def test_from_an_empty_shelf_to_kits_that_are_cut(maker: Maker) -> None:
    page = maker.page(reduced_motion="reduce")
    maker.begun(page, "Tally fob")
    page.get_by_role("link", name="Supply", exact=True).click()
    # A cord, and a spool of it.
    page.get_by_role("button", name="Add a cord").click()
    form = page.get_by_role("dialog")
    assert violations(page) == []
    filled(form, name="sand 2 mm", fibre="cotton", diameter="2 mm", weight="3 g/m")
    form.get_by_role("button", name="Put it on the shelf").click()
    expect(table(page, "Cords").get_by_role("button", name="sand 2 mm")).to_be_visible()
    page.get_by_role("button", name="Add a spool").click()
    form.get_by_label(re.compile("^cord")).select_option("sand 2 mm")
    filled(form, name="spool 1", length="40 m")
    form.get_by_role("button", name="Put it on the shelf").click()
    expect(table(page, "Spools and left-overs")).to_contain_text("40 m")
    # A trial: what is known of the cord gets surer.
    part(page, "Swatches")
    known = page.locator("section", has_text="What is known of a cord")
    spare = known.locator("strong")
    expect(spare).to_have_text(re.compile(r"\d+ %"))
    before = spare.inner_text()
    trial = page.get_by_role("form", name="A trial")
    filled(trial, height="7.5 cm", strand_before="80 cm", strand_left="45 cm")
    trial.get_by_role("button", name="Keep the trial").click()
    expect(table(page, "Swatches so far")).to_contain_text("square-knot")
    expect(spare).not_to_have_text(before)
    # The plan's cord is the shelf's; three kits are cut, with a bead each, for a price.
    part(page, "Cutting plan")
    wanted = page.get_by_role("form", name="What is planned")
    for source in wanted.get_by_label(re.compile(" is$")).all():
        source.select_option("sand 2 mm")
    expect(page.get_by_text("saved")).to_be_visible()
    wanted.get_by_label("How many kits").fill("3")
    wanted.get_by_text("Fittings, packing, parcel").click()
    wanted.get_by_role("button", name="Add a fitting").click()
    filled(
        wanted.get_by_role("group", name="Fittings, line 1"),
        What="bead",
        Price="0.40",
        Weight="3 g",
    )
    wanted.get_by_text("Price and labels").click()
    wanted.get_by_label("Currency").fill("EUR")
    assert violations(page) == []
    wanted.get_by_role("button", name="Plan the cutting").click()
    expect(page.get_by_role("heading", name=re.compile("^Cut "))).not_to_have_count(0)
    expect(table(page, "In each kit")).to_contain_text("3 g")
    expect(table(page, "Costs, EUR")).to_contain_text("1.20")
    page.get_by_role("button", name="Take it off the shelf").click()
    expect(page.get_by_text("What is cut is off the shelf")).to_be_visible()
    # What the finished piece left over teaches too.
    part(page, "Swatches")
    done = page.get_by_role("form", name="A finished piece")
    filled(done, cut_in_all="2 m", left_over="2.5 m")
    done.get_by_role("button", name="Keep what it used").click()
    expect(done.get_by_role("alert")).to_contain_text("cannot be left")
    # On the shelf there is less; put back, there is all of it again.
    part(page, "Shelf")
    expect(table(page, "Spools and left-overs")).to_contain_text("part-spool")
    page.get_by_role("button", name=re.compile("^Put back")).click()
    expect(table(page, "Spools and left-overs")).to_contain_text("40 m")
