"""The workbench for everybody: WCAG 2.2 AA by an engine (axe-core), at every width."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.browser.engine import violations

if TYPE_CHECKING:
    from tests.bench.browser.conftest import Maker

SIZES = {"desk": (1280, 800), "tablet": (820, 1180), "phone": (360, 780)}


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
    page.get_by_role("link", name="Booklet", exact=True).click()
    page.wait_for_selector(".not-yet")
    assert violations(page) == []
