"""The workbench for everybody: WCAG 2.2 AA by an engine (axe-core), at every width."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Page

    from tests.bench.browser.conftest import Maker

TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
ENGINE = Path(str(files("axe_playwright_python"))) / "axe.min.js"
SIZES = {"desk": (1280, 800), "tablet": (820, 1180), "phone": (360, 780)}


def violations(page: Page) -> list[tuple[str, str]]:
    """What the engine finds wrong, with the first place of each."""
    page.evaluate(ENGINE.read_text(encoding="utf-8"))
    found = page.evaluate("(tags) => axe.run({runOnly: tags})", TAGS)["violations"]
    return [(v["id"], v["nodes"][0]["html"]) for v in found]


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", list(SIZES))
def test_the_engine_finds_nothing(maker: Maker, size: str, scheme: str) -> None:
    page = maker.page(SIZES[size], color_scheme=scheme, reduced_motion="reduce")
    assert violations(page) == []
    maker.begun(page, "Pellow planter")
    page.wait_for_selector(".cautions")
    assert violations(page) == []
    page.locator(".card .title").nth(1).click()
    page.wait_for_selector(".sheet")
    assert violations(page) == []
    page.get_by_role("button", name="Add a step").click()
    page.wait_for_selector("dialog")
    assert violations(page) == []
    page.keyboard.press("Escape")
    page.locator(".tabs").get_by_role("button", name="Plan as text").click()
    page.wait_for_selector(".cm-content")
    assert violations(page) == []
    page.get_by_role("link", name="Lesson").click()
    page.wait_for_selector(".lesson img")
    assert violations(page) == []
