"""A phone in the maker's network follows the lesson, with the code and nothing else."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

import hatch_build
from cordwright.bench import tiealong
from cordwright.bench.app import make_app
from cordwright.bench.bench import Bench, Setting
from tests.bench.browser.conftest import PATIENCE_MS, ROOT, Maker
from tests.bench.serving import served
from tests.browser.engine import violations

if TYPE_CHECKING:
    from playwright.sync_api import Browser

expect.set_options(timeout=PATIENCE_MS)


@pytest.fixture
def address(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[str]:
    """Of a workbench for which loopback stands in for the network."""
    hatch_build.build(ROOT)
    monkeypatch.setattr(tiealong, "lan_address", lambda: "127.0.0.1")
    bench = Bench(Setting(tmp_path / "plans", tmp_path / "shelf.db"))
    with served(lambda lock: make_app(bench, lock)) as page:
        yield page.lock.address()


def test_a_phone_ties_along(browser: Browser, address: str) -> None:
    maker = Maker(browser, address)
    desk = maker.page(reduced_motion="reduce")
    maker.begun(desk, "Tally fob")
    desk.get_by_role("link", name="Booklet", exact=True).click()
    desk.locator(".lesson-shown").get_by_role("button", name="Make the booklet").click()
    desk.get_by_role("button", name="Tie along").click()
    desk.get_by_role("button", name="Turn it on").click()
    code = desk.locator(".tie-along .code")
    expect(code).to_have_text(re.compile(r"\d{4} \d{4}"))
    shown = code.inner_text()
    lent = desk.locator(".tie-along .large").first.inner_text()
    phone = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True).new_page()
    phone.set_default_timeout(PATIENCE_MS)
    phone.goto(lent)
    assert violations(phone) == []
    phone.get_by_label("The code").fill("1234")
    phone.get_by_role("button", name="Open the lesson").tap()
    expect(phone.get_by_role("alert")).to_contain_text("not the code")
    phone.get_by_label("The code").fill(shown)
    phone.get_by_role("button", name="Open the lesson").tap()
    expect(phone.get_by_role("heading", level=1)).to_contain_text("Tally fob")
    assert phone.evaluate("document.documentElement.scrollWidth") <= 390
    phone.locator("#along-start").tap()
    step = phone.locator("#along h1")
    expect(step).to_contain_text("Step 1 of")
    phone.keyboard.press("ArrowRight")
    expect(step).to_contain_text("Step 2 of")
    expect(code).to_have_text("used up")
    desk.get_by_role("button", name="Turn it off").click()
    expect(desk.get_by_role("button", name="Turn it on")).to_be_visible()
    phone.context.close()
    desk.context.close()
    assert maker.errors == []
