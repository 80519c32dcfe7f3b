"""The lesson page in a real browser: what it shows, keeps and lets a reader do."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import pytest

from cordwright.teach.words import Words
from tests.browser.lessons import example, made
from tests.examples.conftest import NAMES, plan_of

if TYPE_CHECKING:
    from playwright.sync_api import Page

    from cordwright.teach.told import Line
    from tests.browser.conftest import Open

PHONE = {"viewport": {"width": 360, "height": 740}}


def shown(page: Page, selector: str) -> str:
    """Text of the page with the signs left out that keep words together."""
    return plain(page.locator(selector).inner_text())


def plain(text: str) -> str:
    return text.replace("\u00a0", " ").replace("\u2060", "")


def test_the_steps_of_every_example_are_those_of_the_booklet(open_page: Open) -> None:
    for name in NAMES:
        lesson = example(name)
        page = open_page(lesson.html)
        told = lesson.editions[0].version.told
        for section in told.sections:
            for step in section.steps:
                said = shown(page, f"#step-{step.step.number}")
                lines: list[Line] = [*step.lines, *(line for _, line in step.checks)]
                for line in lines:
                    assert line.text in said, (name, step.step.number)
                assert step.title in said


@pytest.mark.parametrize(("language", "units"), [("de", "both"), ("fr", "inch")])
def test_the_page_speaks_other_languages_and_units(
    open_page: Open, language: str, units: Any
) -> None:
    lesson = example("lantry-wall-planter", units, language)
    page = open_page(lesson.html)
    assert page.locator("html").get_attribute("lang") == language
    said = shown(page, "body")
    told = lesson.editions[0].version.told
    for section in told.sections:
        assert section.heading in said
        for step in section.steps:
            assert all(line.text in said for line in step.lines)
    assert Words(language).text("page-fit-about") in said


def test_units_are_switched_and_kept(open_page: Open) -> None:
    lesson = example("oxbow-planter")
    inch = example("oxbow-planter", "inch")
    page = open_page(lesson.html)
    page.check("#units-inch")
    for mine, other in zip(_lengths(page), inch.editions[0].version.lesson.cuts, strict=True):
        assert mine == Words("en", "inch").length(other.length_mm)
    page.reload()
    assert page.is_checked("#units-inch")
    assert page.input_value("#size-2") == "7.09"  # 18 cm


def _lengths(page: Page) -> list[str]:
    return [plain(t) for t in page.locator("#cuts tbody td[data-head='Length']").all_inner_texts()]


def test_another_cord_changes_the_lengths_and_says_what_gives(open_page: Open) -> None:
    page = open_page(example("oxbow-planter").html)
    before = _lengths(page)
    page.fill("#cord-0", "6")
    page.press("#cord-0", "Tab")
    assert _lengths(page) != before
    notes = shown(page, "#fit-notes")
    assert "50 % thicker than planned" in notes
    assert "the ring has 15.7 cm inside" in notes  # pi times 5 cm
    assert "the row closes" not in notes
    page.fill("#cord-0", "40")
    page.press("#cord-0", "Tab")
    assert page.input_value("#cord-0") == "8"
    assert "This works from 2 mm to 8 mm" in shown(page, "#cord-0-wrong")
    page.fill("#cord-0", "")
    page.press("#cord-0", "Tab")
    assert page.input_value("#cord-0") == "8"
    page.click("#as-planned")
    assert _lengths(page) == before


def test_a_larger_pot_wants_a_larger_net(open_page: Open) -> None:
    page = open_page(example("oxbow-planter").html)
    page.fill("#girth", "60")
    page.press("#girth", "Tab")
    assert "the net may be too tight" in shown(page, "#fit-notes")
    page.fill("#size-1", "60")
    page.press("#size-1", "Tab")
    assert "too tight" not in shown(page, "#fit-notes")
    page.fill("#girth", "40")
    page.press("#girth", "Tab")
    assert "may slip through" in shown(page, "#fit-notes")


def test_the_drop_is_made_up_by_a_size(open_page: Open) -> None:
    page = open_page(example("oxbow-planter").html)
    page.select_option("#drop-by", "s:arm")
    page.fill("#drop", "120")
    page.press("#drop", "Tab")
    assert page.input_value("#drop") == "120"
    assert page.input_value("#size-2") == "34.9"  # 18 cm and what is missing to 120 cm
    assert "1.2 m" in shown(page, "#fit-notes")


def test_a_size_that_changes_counts_is_not_offered(open_page: Open) -> None:
    page = open_page(example("pellow-planter").html)
    said = shown(page, "#sizes")
    assert "arm" in said
    assert "changes how many knots are tied" in said
    fields = page.locator("#fit .field label").all_inner_texts()
    assert not any("(arm)" in f for f in fields)


def test_ticks_are_kept_until_they_are_taken_away(open_page: Open) -> None:
    page = open_page(example("oxbow-planter").html)
    page.locator("#cuts input").first.check()
    page.check("#done-2")
    page.reload()
    assert page.locator("#cuts input").first.is_checked()
    assert page.is_checked("#done-2")
    assert shown(page, ".progress-words").startswith("1 of ")
    page.click("#reset")
    page.click("#reset-no")
    assert page.is_checked("#done-2")
    page.click("#reset")
    page.click("#reset-yes")
    assert not page.is_checked("#done-2")
    assert not page.locator("#cuts input").first.is_checked()


def test_rows_are_ticked_one_by_one_and_then_the_step(open_page: Open) -> None:
    lesson = example("haverley-bag")
    steps = [s for x in lesson.data["editions"][0]["sections"] for s in x["steps"]]
    step = next(s for s in steps if s["ticks"])
    page = open_page(lesson.html)
    rows = page.locator(f"#step-{step['number']} .rows input")
    assert rows.count() == step["ticks"]
    for i in range(step["ticks"]):
        rows.nth(i).check()
    assert page.is_checked(f"#done-{step['number']}")


def test_a_browser_that_keeps_nothing_still_shows_the_lesson(open_page: Open) -> None:
    html = example("oxbow-planter").html
    page = open_page("<!doctype html><title>x</title>")
    page.add_init_script(
        "Object.defineProperty(globalThis, 'localStorage', {get() { throw new Error('no'); }})"
    )
    page.goto(open_page.file(html).as_uri())
    page.check("#done-1")
    assert "does not keep ticks" in shown(page, "#kept")


def test_what_is_kept_may_be_broken(open_page: Open) -> None:
    lesson = example("oxbow-planter")
    page = open_page(lesson.html)
    broken = {
        "cuts": {"e0": "x"},
        "values": {"e0": {"s:arm": "1", "d:main": -4}},
        "units": "ells",
        "edition": 99,
        "at": {"e0": 1e9},
        "girths": 7,
        "steps": {"e0": [None, {}, 3]},
    }
    page.evaluate(
        "([key, text]) => localStorage.setItem(key, text)",
        [f"cordwright-lesson-{lesson.data['mark']}", json.dumps(broken)],
    )
    page.reload()
    assert page.is_checked("#done-3")
    assert page.is_checked("#units-metric")
    page.evaluate("(key) => localStorage.setItem(key, '{')",
                  f"cordwright-lesson-{lesson.data['mark']}")  # fmt: skip
    page.reload()
    assert page.locator("h1").inner_text() == "Oxbow planter"


def test_tying_along_with_taps_and_keys(open_page: Open) -> None:
    lesson = example("oxbow-planter")
    count = sum(len(s["steps"]) for s in lesson.data["editions"][0]["sections"])
    page = open_page(lesson.html, **PHONE)
    page.click("#along-start")
    assert f"Step 1 of {count}" in shown(page, "#along h1")
    page.click("button.next")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("Space")  # the heading has the focus, not a button
    assert f"Step 4 of {count}" in shown(page, "#along h1")
    assert page.evaluate("document.activeElement.tagName") == "H1"
    page.keyboard.press("ArrowLeft")
    assert f"Step 3 of {count}" in shown(page, "#along h1")
    page.keyboard.press("Escape")
    assert page.is_checked("#done-3")
    assert not page.is_checked("#done-4")
    page.reload()
    page.click("#along-start")
    assert f"Step 3 of {count}" in shown(page, "#along h1")  # the place is kept
    for _ in range(count):
        page.keyboard.press("ArrowRight")
    assert "last step" in shown(page, "#along h1")


def test_the_screen_is_kept_on_while_tying(open_page: Open) -> None:
    page = open_page(example("oxbow-planter").html)
    page.evaluate("""() => {
      globalThis.locks = [];
      const lock = () => ({release() { locks.push("off"); }});
      Object.defineProperty(navigator, "wakeLock", {configurable: true,
        value: {async request(kind) { locks.push(kind); return lock(); }}});
    }""")
    page.click("#along-start")
    page.wait_for_function("locks.length === 1")
    page.click("button.leave")
    assert page.evaluate("locks") == ["screen", "off"]


def test_buttons_for_wet_hands_are_large(open_page: Open) -> None:
    page = open_page(example("oxbow-planter").html, **PHONE)
    page.click("#along-start")
    for name, least in (("next", 200), ("back", 80)):
        box = page.locator(f"button.{name}").bounding_box()
        assert box is not None
        assert box["height"] >= 80
        assert box["width"] >= least
        assert box["y"] + box["height"] <= 740


def test_editions_stand_side_by_side_to_choose_from(open_page: Open) -> None:
    lesson = made(plan_of("oxbow-planter"), "tall: arm=35cm", "thick: cord main=6 mm, knots=3")
    page = open_page(lesson.html)
    for i, edition in enumerate(lesson.editions):
        page.check(f"#edition-{i}")
        cuts = edition.version.lesson.cuts
        assert _lengths(page) == [Words("en").length(c.length_mm) for c in cuts]
        said = shown(page, "#steps")
        for section in edition.version.told.sections:
            assert all(line.text in said for s in section.steps for line in s.lines)
        page.check("#done-1") if i == 0 else None
    assert not page.is_checked("#done-1")  # ticks belong to one edition
    page.reload()
    assert page.is_checked("#edition-1")


def test_left_handed_folds_are_told_as_the_reader_sees_them(open_page: Open) -> None:
    lesson = made(plan_of("pellow-planter"), left_handed=True)
    page = open_page(lesson.html)
    folds = page.locator("#cuts tbody td[data-head='Fold']").all_inner_texts()
    words = Words("en")
    for cut, fold in zip(lesson.editions[0].version.lesson.cuts, folds, strict=True):
        if cut.fold_mm is not None:
            left, right = map(words.length, cut.fold_mm)
            assert plain(fold) == f"{left} left, {right} right"
    assert "Left-handed edition" in shown(page, "body")


def test_cords_that_part_from_each_other_are_told_one_by_one(open_page: Open) -> None:
    """Cords of one mark that are cut differently in other sizes, or fold otherwise."""
    lesson = example("pellow-planter")
    page = open_page(lesson.html)
    told = page.evaluate("""() => {
      const {lesson} = cordwright;
      lesson.fit = {...lesson.fit, entryOf: ["X", "Y", ...lesson.fit.entryOf.slice(2)]};
      const step = lesson.edition.sections[0].steps[0];
      return [step.marks, step.cords];
    }""")
    assert sorted(n for cords in told[0] for n in cords) == list(range(6))
    assert [n for n, _ in told[1]] == list(range(6))
    page.evaluate("""() => {
      const {lesson} = cordwright;
      const kept = lesson.measure;
      lesson.measure = () => {
        kept();
        lesson.fit.entryOf = ["X", "Y", ...lesson.fit.entryOf.slice(2)];
      };
      lesson.rebuild();
    }""")
    said = shown(page, "#step-1")
    assert "strands 1\N{EN DASH}2: cord X" in said
    assert "strands 3\N{EN DASH}4: cord Y" in said


def test_nothing_overflows_a_narrow_screen_or_large_letters(open_page: Open) -> None:
    wide = """() => {
      const limit = document.documentElement.clientWidth;
      return [...document.querySelectorAll("body *")].filter((e) => {
        const box = e.getBoundingClientRect();
        return box.right > limit + 1 && box.width > 0 && !e.closest(".chart, .unseen, thead");
      }).map((e) => e.outerHTML.slice(0, 120));
    }"""
    for name, language in (("pellow-planter", "de"), ("weir-meadow-hanging", "fr")):
        page = open_page(example(name, "both", language).html, **PHONE)
        assert page.evaluate(wide) == []
        page.evaluate("document.documentElement.style.fontSize = '200%'")
        assert page.evaluate(wide) == []
        page.click("#along-start")
        assert page.evaluate(wide) == []


def test_targets_are_large_enough(open_page: Open) -> None:
    page = open_page(example("haverley-bag").html, **PHONE)
    small = page.evaluate("""() => [...document.querySelectorAll("button, input, select, a")]
      .filter((e) => e.checkVisibility() && !e.closest("p a") && !e.matches(".skip"))
      .map((e) => [e.outerHTML.slice(0, 80), e.getBoundingClientRect()])
      .filter(([, box]) => box.width < 24 || box.height < 24).map(([html]) => html)""")
    assert small == []


def test_every_word_of_the_page_is_used() -> None:
    import re
    from importlib.resources import files

    from cordwright.teach.page import SCRIPTS
    from cordwright.teach.pagewords import FILLED, PLAIN

    web = files("cordwright.teach") / "web"
    script = "\n".join((web / f"{name}.js").read_text(encoding="utf-8") for name in SCRIPTS)
    for key in {*PLAIN, *FILLED} - {"skip", "needs-script"}:
        family = re.sub(r"-(metric|inch|both|ring|rod|row)$", "-", key)
        assert any(form in script for form in (f".{key}", f'"{key}"', f"`{family}$")), key
