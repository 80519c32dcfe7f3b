"""What a maker does at the workbench, from an empty bench on."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.bench.browser.conftest import PATIENCE_MS, Maker, free_port, launched

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Locator, Page

FOCUSED = """() => {
  const it = document.activeElement;
  return it.getAttribute("aria-label") ?? it.labels?.[0]?.textContent ?? it.textContent;
}"""
"""What the focus is on, as it is called."""

expect.set_options(timeout=PATIENCE_MS)


def card(page: Page, title: str) -> Locator:
    return page.locator(".card", has=page.locator(".title", has_text=title))


def figure(page: Page, label: str) -> Locator:
    row = page.locator(".figures > div", has=page.locator("dt", has_text=re.compile(f"^{label}$")))
    return row.locator("dd")


def test_from_an_empty_mount_to_a_piece(maker: Maker) -> None:
    page = maker.page()
    maker.begun(page, "Ring")
    mounted = figure(page, "Knots").inner_text()
    page.get_by_role("button", name="Add a section").click()
    choice = page.get_by_role("button", name="Square knots Sinnets")
    choice.locator("img").evaluate("figure => figure.decode()")  # chosen by its figure
    choice.click()
    expect(page.get_by_role("heading", name="Square knots", level=2)).to_be_visible()
    expect(figure(page, "Knots")).not_to_have_text(mounted)
    before = figure(page, "Knots").inner_text()
    page.get_by_role("button", name="More: Times").click()
    expect(figure(page, "Knots")).not_to_have_text(before)
    page.get_by_role("button", name="Undo").click()
    expect(figure(page, "Knots")).to_have_text(before)
    titles = page.locator(".card .title strong")
    for tool in ("Copy", "Move up", "Move up"):
        page.get_by_role("button", name=tool, exact=True).click()
        page.wait_for_timeout(2000)  # a click before the last one is answered takes the old place
    page.get_by_role("button", name="All sections").click()
    expect(titles).to_have_text(["On a ring", "Square knots", "Beginning", "Square knots"])
    card(page, "Square knots").first.locator(".title").click()
    page.get_by_role("button", name="Take out", exact=True).click()
    expect(titles).to_have_text(["On a ring", "Beginning", "Square knots"])


def test_a_length_is_stepped_typed_and_dragged(maker: Maker) -> None:
    page = maker.page()
    maker.begun(page, "Oxbow planter")
    arm = card(page, "Arms").get_by_label("Arm", exact=True)
    expect(arm).to_have_value("18 cm")
    card(page, "Arms").get_by_role("button", name="More: Arm").click()
    expect(arm).to_have_value("19 cm")
    arm.fill("7 in")
    arm.press("Enter")
    expect(arm).to_have_value("17.8 cm")
    cut = page.locator(".cuts tbody tr").first.locator("td").nth(1)
    before = cut.inner_text()
    grip = page.get_by_role("slider", name="Lower edge of Arms")
    grip.hover()
    box = grip.bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x, y + 60, steps=6)
    expect(cut).not_to_have_text(before)
    page.mouse.up()
    expect(arm).not_to_have_value("17.8 cm")
    page.get_by_role("button", name="Undo").click()
    expect(arm).to_have_value("17.8 cm")
    page.get_by_role("button", name="Undo").click()
    expect(arm).to_have_value("19 cm")
    page.get_by_role("button", name="Redo").click()
    expect(arm).to_have_value("17.8 cm")


def test_a_length_that_is_none_stays_to_be_mended(maker: Maker) -> None:
    page = maker.page()
    maker.begun(page, "Oxbow planter")
    arm = card(page, "Arms").get_by_label("Arm", exact=True)
    arm.fill("18 cmm")
    arm.press("Enter")
    expect(arm).to_have_value("18 cmm")
    expect(page.locator(".notice, .problems").first).to_be_visible()


def test_the_pot_is_changed_and_taken_away(maker: Maker) -> None:
    page = maker.page()
    maker.begun(page, "Pellow planter")
    expect(page.locator(".block h2", has_text="The pot")).to_be_visible()
    page.locator(".card.mount .title").click()
    page.get_by_label("It holds", exact=True).select_option("sphere")
    expect(page.locator(".block h2", has_text="The pot")).to_have_count(0)
    page.get_by_label("It holds", exact=True).select_option("none")
    expect(page.get_by_label("Across")).to_have_count(0)


def test_a_mistake_in_the_text_is_told_where_it_is(maker: Maker) -> None:
    page = maker.page()
    maker.begun(page, "Tally fob")
    page.locator(".tabs").get_by_role("button", name="Plan as text").click()
    page.locator(".cm-content").click()
    page.keyboard.press("Control+Home")
    page.keyboard.type("knots: 3\n")
    told = page.locator(".problems")
    expect(told).to_contain_text("knots")
    expect(told).to_contain_text("Line 1 of the text")
    expect(page.locator(".cm-lintRange-error").first).to_be_visible()
    for _ in range("knots: 3\n".count("") - 1):
        page.keyboard.press("Backspace")
    expect(told).to_have_count(0)


def test_two_pages_show_the_same(maker: Maker) -> None:
    one = maker.page()
    maker.begun(one, "Oxbow planter")
    other = maker.page()
    other.goto(one.url)
    arm = card(other, "Arms").get_by_label("Arm", exact=True)
    expect(arm).to_have_value("18 cm")
    card(one, "Arms").get_by_role("button", name="Less: Arm").click()
    expect(arm).to_have_value("17 cm")
    card(other, "Arms").get_by_role("button", name="Less: Arm").click()
    expect(card(one, "Arms").get_by_label("Arm", exact=True)).to_have_value("16 cm")


def test_what_is_typed_never_undoes_what_another_page_did(maker: Maker) -> None:
    one = maker.page()
    maker.begun(one, "Oxbow planter")
    one.locator(".tabs").get_by_role("button", name="Plan as text").click()
    one.locator(".cm-content").click()
    one.keyboard.press("Control+Home")
    other = maker.page()
    other.goto(one.url)
    arm = card(other, "Arms").get_by_label("Arm", exact=True)
    expect(arm).to_have_value("18 cm")
    one.keyboard.type("# mine\n")
    expect(one.get_by_text("saved")).to_be_visible()
    expect(one.locator(".problems")).to_have_count(0)
    # Typing goes on while the other page changes something.
    card(other, "Arms").get_by_role("button", name="Less: Arm").click()
    mine = card(one, "Arms").get_by_label("Arm", exact=True)
    while mine.input_value() == "18 cm":
        one.keyboard.type("#")
    clash = one.get_by_text("changed elsewhere while you typed")
    one.wait_for_timeout(1000)
    if clash.count():  # else all was saved before the change came
        one.get_by_role("button", name="Take what it is now").click()
    expect(one.locator(".cm-content")).to_contain_text("17 cm")
    expect(mine).to_have_value("17 cm")
    expect(arm).to_have_value("17 cm")


def test_a_strand_lights_up_from_the_list_and_on_the_piece(maker: Maker) -> None:
    page = maker.page()
    maker.begun(page, "Oxbow planter")
    expect(page.locator(".stage-note")).to_have_count(0)  # the picture is there
    row = page.locator(".cuts tbody tr").first
    plain = page.locator(".solid").screenshot()
    row.get_by_role("button").focus()
    expect(row).to_have_class("on")
    page.wait_for_timeout(300)
    assert page.locator(".solid").screenshot() != plain  # lit on the piece
    page.get_by_role("img", name=re.compile("hanging")).focus()
    expect(row).not_to_have_class("on")
    box = page.locator(".solid").bounding_box()
    assert box is not None
    label = page.locator(".strand-label")
    for share in range(20, 60, 2):
        # Somewhere on the way down its middle there is cord.
        page.mouse.move(
            box["x"] + box["width"] / 2 + share % 3, box["y"] + box["height"] * share / 100
        )
        page.wait_for_timeout(150)
        if label.count():
            break
    expect(label).to_contain_text("left over")
    expect(page.locator(".cuts tbody tr.on")).to_have_count(1)  # and lit in the list


def tabbed(page: Page, name: str, key: str = "Tab") -> None:
    """Go on by a key until the focus is on what is called so."""
    for _ in range(90):
        page.keyboard.press(key)
        if (page.evaluate(FOCUSED) or "").strip().startswith(name):
            return
    raise AssertionError(f"{name} is not reached")


def test_by_keyboard_alone_from_an_empty_mount_to_the_booklet(maker: Maker, tmp_path: Path) -> None:
    page = maker.page(reduced_motion="reduce")
    tabbed(page, "Ringfor planters")  # as name and use stand in one button
    page.keyboard.press("Enter")
    page.wait_for_selector(".cuts tbody tr")
    tabbed(page, "Add a section")
    page.keyboard.press("Enter")
    page.wait_for_selector("dialog")
    tabbed(page, "Square knots")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="Square knots", level=2)).to_be_focused()
    tabbed(page, "Times")
    times = page.get_by_label("Times", exact=True)
    page.keyboard.press("ArrowUp")
    expect(times).to_have_value("7")
    page.keyboard.press("Control+z")
    expect(times).to_have_value("6")
    tabbed(page, "Lower edge of Square knots")
    page.keyboard.press("ArrowDown")
    expect(times).to_have_value("7")
    tabbed(page, "Booklet", "Shift+Tab")
    page.keyboard.press("Enter")
    page.wait_for_selector(".not-yet")
    tabbed(page, "Make the booklet")
    page.keyboard.press("Enter")
    page.wait_for_selector(".printed img")
    tabbed(page, "Download (PDF)")
    with page.expect_download() as found:
        page.keyboard.press("Enter")
    found.value.save_as(tmp_path / "booklet.pdf")
    assert (tmp_path / "booklet.pdf").read_bytes().startswith(b"%PDF-")


def test_inches_everywhere(maker: Maker) -> None:
    page = maker.page()
    maker.begun(page, "Oxbow planter")
    page.get_by_role("button", name=re.compile("change to inches")).click()
    expect(figure(page, "Length")).to_have_text(re.compile(r"ft|in$"))
    arm = card(page, "Arms").get_by_label("Arm", exact=True)
    expect(arm).to_have_value("7 in")
    text = page.locator(".right").inner_text()
    assert not re.search(r"\d (mm|cm|m|kg|g)\b", text.split("Cautions")[0]), text


def test_a_phone_has_one_column_and_no_sideways_scrolling(maker: Maker) -> None:
    page = maker.page((360, 780), has_touch=True)
    maker.begun(page, "Oxbow planter")
    wide = page.evaluate("document.documentElement.scrollWidth")
    assert wide <= 360
    stage, cards = page.locator(".stage").bounding_box(), page.locator(".sections").bounding_box()
    assert stage is not None
    assert cards is not None
    assert stage["y"] + stage["height"] <= cards["y"] + 1


def test_killed_and_started_again_nothing_is_lost(browser: Browser, tmp_path: Path) -> None:
    folder, port = tmp_path / "plans", free_port()
    with launched(folder, port) as (program, address):
        somebody = Maker(browser, address)
        page = somebody.page()
        somebody.begun(page, "Oxbow planter")
        arm = card(page, "Arms").get_by_label("Arm", exact=True)
        card(page, "Arms").get_by_role("button", name="More: Arm").click()
        expect(arm).to_have_value("19 cm")
        program.kill()
        told = page.get_by_role("alert").first
        expect(told).to_contain_text("does not answer")
    with launched(folder, port) as (_, address):
        # The old page is refused by the new start, and says what to do.
        expect(told).to_contain_text("earlier start of the workbench")
        fresh = page.context.new_page()
        fresh.goto(address)
        fresh.locator("a.tile", has_text="Oxbow planter").first.click()
        expect(card(fresh, "Arms").get_by_label("Arm", exact=True)).to_have_value("19 cm")
        # In the same browser it can then go on as well, and undo what was done before.
        expect(page.get_by_role("alert")).to_have_count(0)
        page.get_by_role("button", name="Undo").click()
        expect(arm).to_have_value("18 cm")
        expect(card(fresh, "Arms").get_by_label("Arm", exact=True)).to_have_value("18 cm")
        page.context.close()
