"""A wall hanging of more than a thousand knots: numbers first, and the rest can be stopped."""

from __future__ import annotations

from typing import TYPE_CHECKING

from playwright.sync_api import expect

import hatch_build
from cordwright.bench import follow
from cordwright.bench.app import make_app
from cordwright.bench.bench import Bench, Setting
from tests.bench.browser.conftest import ROOT, Maker
from tests.bench.browser.test_journeys import card, figure
from tests.bench.serving import served

if TYPE_CHECKING:
    from pathlib import Path

    import pytest
    from playwright.sync_api import Browser


def wall(rows: int) -> str:
    """The plan of a wall hanging with so many rows of 19 or 20 knots, 80 at most."""
    return f"""\
cordwright: 1
title: Field of a thousand
cords:
  main: {{fibre: cotton, build: single twist, diameter: 4 mm, colour: undyed}}
sizes:
  rows: {{value: {rows}, at_least: 2, at_most: 80, about: rows of knots}}
tail: 15 cm
mount:
  rod: {{length: 80 cm, thick: 20 mm}}
  cords:
    - {{cord: main, count: 40}}
work:
  - section: Field
    work:
      - {{rows: rows, tie: square-knot, each: 4, shift: 2, gap: 8 mm}}
"""


def test_what_takes_long_is_told_stopped_and_gone_on_with(
    browser: Browser, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    hatch_build.build(ROOT)
    monkeypatch.setattr(follow, "PATIENT_S", 0.0)  # however fast this machine is
    (tmp_path / "field.yaml").write_text(wall(70), encoding="utf-8")
    bench = Bench(Setting(tmp_path / "plans", tmp_path / "shelf.db"))
    with served(lambda lock: make_app(bench, lock)) as server:
        maker = Maker(browser, server.lock.address())
        page = maker.page()
        page.set_input_files("input[type=file]", tmp_path / "field.yaml")
        page.wait_for_selector(".cuts tbody tr")
        expect(page.locator(".stage-note")).to_have_count(0)  # the picture is there
        knots = figure(page, "Knots").inner_text()
        more = card(page, "Field").get_by_role("button", name="More: Rows")
        more.click(modifiers=["Shift"])
        expect(figure(page, "Knots")).not_to_have_text(knots)
        told = page.locator(".progress")
        expect(told).to_contain_text("Letting the piece hang")
        seen = "performance.getEntriesByName('change to picture').length"
        assert page.evaluate(seen) == 0  # numbers first
        told.get_by_role("button", name="Stop").click()
        expect(told).to_contain_text("Stopped")
        knots = figure(page, "Knots").inner_text()
        more.click()  # what was stopped is in nobody's way
        expect(figure(page, "Knots")).not_to_have_text(knots)
        told.get_by_role("button", name="Stop").click()
        told.get_by_role("button", name="Go on").click()
        page.wait_for_function(f"() => {seen} > 0")
        expect(told.get_by_role("button", name="Go on")).to_have_count(0)
        assert maker.errors == []
        for context in maker.contexts:
            context.close()
