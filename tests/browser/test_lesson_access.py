"""The lesson page for everybody: WCAG 2.2 AA by an engine, landmarks, headings, keyboard."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Any

import pytest

from tests.browser.engine import violations
from tests.browser.lessons import example, made
from tests.examples.conftest import plan_of

if TYPE_CHECKING:
    from tests.browser.conftest import Open

SIZES = {"desk": (1280, 900), "tablet": (768, 1024), "phone": (360, 740)}


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", list(SIZES))
def test_the_engine_finds_nothing(open_page: Open, size: str, scheme: str) -> None:
    width, height = SIZES[size]
    lesson = made(plan_of("oxbow-planter"), "small: arm=12cm", "large: arm=30cm", left_handed=True)
    how: dict[str, Any] = {"viewport": {"width": width, "height": height}, "color_scheme": scheme}
    page = open_page(lesson.html, **how, reduced_motion="reduce")
    assert violations(page) == []
    page.fill("#cord-0", "99")  # held, with a message and grave notes
    page.press("#cord-0", "Tab")
    page.check("#done-1")
    page.click("#reset")
    assert violations(page) == []
    page.click("#along-start")
    page.click("button.next")
    assert violations(page) == []


def test_the_engine_finds_what_is_wrong(open_page: Open) -> None:
    """A negative control: a page with a picture without words and grey on grey."""
    page = open_page(
        '<!doctype html><html lang="en"><title>x</title><main><h1>x</h1>'
        '<p style="color:#999;background:#aaa">Grey words on grey.</p><img src="data:,"></main>'
    )
    assert {name for name, _ in violations(page)} >= {"color-contrast", "image-alt"}


@pytest.mark.parametrize("name", ["weir-meadow-hanging", "haverley-bag"])
def test_headings_are_in_order_and_landmarks_are_there(open_page: Open, name: str) -> None:
    page = open_page(example(name, "both", "de").html)
    levels = page.evaluate(
        "[...document.querySelectorAll('h1,h2,h3,h4')].map((h) => Number(h.tagName[1]))"
    )
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(b <= a + 1 for a, b in pairwise(levels))
    for landmark in ("main", "nav", "footer"):
        assert page.locator(landmark).count() == 1
    assert page.evaluate("[...document.images].every((i) => i.alt.length > 0)")
    links = page.evaluate("[...document.links].map((a) => a.getAttribute('href'))")
    assert len(links) > 8
    for link in links:  # all lead to a part of the page itself
        assert link.startswith("#")
        assert page.locator(f"[id='{link[1:]}']").count() == 1


def test_the_keyboard_reaches_the_lesson_and_shows_where_it_is(open_page: Open) -> None:
    page = open_page(example("oxbow-planter").html)
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.className") == "skip"
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.id") == "lesson"
    page.keyboard.press("Tab")
    seen = set()
    for _ in range(40):
        kind, outline = page.evaluate(
            "[document.activeElement.id || document.activeElement.tagName, "
            "getComputedStyle(document.activeElement).outlineStyle]"
        )
        if kind == "BODY":  # past the last of them
            break
        assert outline != "none", kind
        seen.add(kind)
        page.keyboard.press("Tab")
    assert {"units-metric", "cord-0", "size-1", "girth", "drop", "as-planned"} <= seen


def test_forced_colours_and_paper_keep_everything_in_sight(open_page: Open) -> None:
    page = open_page(example("oxbow-planter").html, forced_colors="active")
    assert violations(page) == []
    page.emulate_media(media="print")
    assert not page.is_visible(".starts")
    assert not page.is_visible("nav.contents")
    assert page.is_visible("#fitted")
    assert page.locator("#cuts input").first.is_visible()


def test_what_is_printed_is_fitted_and_stays_on_the_paper(open_page: Open) -> None:
    from io import BytesIO

    from pypdf import PdfReader

    page = open_page(example("oxbow-planter").html)
    page.fill("#cord-0", "5")
    page.press("#cord-0", "Tab")
    cut = page.locator("#cuts tbody b").nth(1).inner_text()
    for paper in ("A4", "Letter"):
        text = " ".join(
            p.extract_text() for p in PdfReader(BytesIO(page.pdf(format=paper))).pages
        ).replace("\u00a0", " ")
        assert cut.replace("\u00a0", " ") in text
        assert "Fitted to: main 5 mm" in text
