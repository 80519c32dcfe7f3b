"""How long the workbench takes in a real browser, from a maker's click to what they see.

The page itself marks when a change was asked for, when its numbers and when its picture were on the
screen (frontend/src/state/speed.ts); every change is kept on the disk. Run with ``pytest
benchmarks/test_bench_page.py``; medians and 95 in 100 are under `extra_info`, in milliseconds.
"""

from __future__ import annotations

import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest

import hatch_build
from tests.bench.browser.conftest import ROOT, Maker, browser, launched

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

__all__ = ["browser"]

CHANGES = 40
PIECES = ("Oxbow planter", "Pellow planter")
MEASURES = """(name) => performance.getEntriesByName(name)
  .map(m => ({ms: m.duration, ...m.detail}))"""


@pytest.fixture
def maker(browser: Browser) -> Iterator[Maker]:
    hatch_build.build(ROOT)
    with tempfile.TemporaryDirectory() as folder, launched(Path(folder) / "plans") as (_, address):
        somebody = Maker(browser, address)
        yield somebody
        for context in somebody.contexts:
            context.close()


def stepped(page: Page, label: str, until: str, count: int) -> None:
    """Step a value up and down, waiting each time until the change is seen."""
    for i in range(count):
        page.get_by_role("button", name=f"{'Less' if i % 4 > 1 else 'More'}: {label}").first.click()
        page.wait_for_function(
            "([name, n]) => performance.getEntriesByName(name).length > n",
            arg=[f"change to {until}", i],
        )


def told(benchmark: Any, name: str, ms: list[float]) -> None:
    benchmark.extra_info[f"{name}_median_ms"] = round(float(np.median(ms)), 1)
    benchmark.extra_info[f"{name}_in_95_of_100_ms"] = round(float(np.quantile(ms, 0.95)), 1)


@pytest.mark.parametrize("title", PIECES)
def test_change_to_screen(benchmark: Any, maker: Maker, title: str) -> None:
    page = maker.page()
    maker.begun(page, title)
    page.locator(".stage-note").wait_for(state="detached")
    time.sleep(8)
    stepped(page, "Arm", "picture", 4)
    page.evaluate("performance.clearMeasures()")
    benchmark.pedantic(stepped, (page, "Arm", "picture", CHANGES), rounds=1, iterations=1)
    for seen in ("numbers", "picture"):
        told(benchmark, seen, [m["ms"] for m in page.evaluate(MEASURES, f"change to {seen}")])
