"""How long the workbench takes in a real browser, from a maker's click to what they see.

The page itself marks when a change was asked for, when its numbers and when its picture were on the
screen (frontend/src/state/speed.ts); every change is kept on the disk. ``arrived`` is when they
were at the page: what is left until they are on the screen is the browser's drawing. ``worked`` is
what the server says that they took. Run with ``pytest benchmarks/test_bench_page.py``; medians and
95 in 100 are under `extra_info`, in milliseconds.
"""

from __future__ import annotations

import itertools
import tempfile
import time
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest

import hatch_build
from tests.bench.browser.conftest import ROOT, Maker, browser, launched
from tests.bench.browser.test_large import wall

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

__all__ = ["browser"]

CHANGES = 40
PIECES = ("Oxbow planter", "Pellow planter")
MEASURES = """(name) => performance.getEntriesByName(name)
  .map(m => ({ms: m.duration, ...m.detail}))"""
BUSY = """() => {
  window.busy = [];
  new PerformanceObserver(list => busy.push(...list.getEntries().map(e => e.duration)))
    .observe({type: 'longtask'});
}"""
"""Collects how long the page was deaf to its maker each time, where that was over 50 ms."""


@pytest.fixture
def maker(browser: Browser) -> Iterator[Maker]:
    hatch_build.build(ROOT)
    with tempfile.TemporaryDirectory() as folder, launched(Path(folder) / "plans") as (_, address):
        somebody = Maker(browser, address)
        yield somebody
        for context in somebody.contexts:
            context.close()


def stepped(page: Page, label: str, count: int) -> None:
    """Step a value up and down, waiting each time until the change is seen."""
    for i in range(count):
        page.get_by_role("button", name=f"{'Less' if i % 4 > 1 else 'More'}: {label}").first.click()
        page.wait_for_function(
            "n => performance.getEntriesByName('change to picture').length > n", arg=i
        )


def told(benchmark: Any, page: Page) -> None:
    for seen in ("numbers", "picture"):
        measures = page.evaluate(MEASURES, f"change to {seen}")
        for name, key in (
            (seen, "ms"),
            (f"{seen}_arrived", "arrived"),
            (f"{seen}_worked", "server"),
        ):
            ms = [m[key] for m in measures]
            benchmark.extra_info[f"{name}_median_ms"] = round(float(np.median(ms)), 1)
            benchmark.extra_info[f"{name}_in_95_of_100_ms"] = round(float(np.quantile(ms, 0.95)), 1)


def measured(benchmark: Any, page: Page, label: str, count: int) -> None:
    page.locator(".stage-note").wait_for(state="detached")
    time.sleep(10)  # loads and fit, and the sketches of the first page
    stepped(page, label, 4)
    page.evaluate("performance.clearMeasures()")
    benchmark.pedantic(stepped, (page, label, count), rounds=1, iterations=1)
    told(benchmark, page)


@pytest.mark.parametrize("title", PIECES)
def test_change_to_screen(benchmark: Any, maker: Maker, title: str) -> None:
    page = maker.page()
    maker.begun(page, title)
    measured(benchmark, page, "Arm", CHANGES)


def test_a_wall_hanging_of_a_thousand_knots(benchmark: Any, maker: Maker, tmp_path: Path) -> None:
    (tmp_path / "field.yaml").write_text(wall(50), encoding="utf-8")
    page = maker.page()
    page.set_input_files("input[type=file]", tmp_path / "field.yaml")
    page.wait_for_selector(".cuts tbody tr")
    page.evaluate(BUSY)
    measured(benchmark, page, "Rows", 8)
    benchmark.extra_info["deaf_longest_ms"] = round(max(page.evaluate("busy"), default=0.0))


def test_a_cold_start(benchmark: Any, browser: Browser, tmp_path: Path) -> None:
    """From starting the program until its page can be used."""
    hatch_build.build(ROOT)
    folders = itertools.count()
    with ExitStack() as programs:

        def start() -> None:
            folder = tmp_path / str(next(folders)) / "plans"
            _, address = programs.enter_context(launched(folder))
            page = browser.new_context().new_page()
            page.goto(address)
            page.wait_for_selector(".pieces h1")

        benchmark.pedantic(start, rounds=5, iterations=1)
