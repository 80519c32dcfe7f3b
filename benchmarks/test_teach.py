"""How long it takes to print what teaches a planter: `pytest benchmarks/test_teach.py`."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import cordwright
from cordwright.knots.atlas import Atlas
from cordwright.plan.read import read_plan
from cordwright.teach import publish
from cordwright.teach.booklet import Wanted
from cordwright.teach.editions import parse_editions
from cordwright.teach.page import lesson_page
from cordwright.teach.telling import tell
from cordwright.teach.words import Words

if TYPE_CHECKING:
    from pytest_benchmark.fixture import BenchmarkFixture

PLANTER = Path(cordwright.__file__).parent / "examples" / "pellow-planter.yaml"


def test_a_planters_booklet_from_plan_to_pdf(benchmark: BenchmarkFixture) -> None:
    """Warm: fonts are open and the knots' tying pictures were drawn before; wanted: under 2 s."""
    atlas, words = Atlas(), Words("en", "metric")

    def made() -> bytes:
        plan = read_plan(PLANTER)
        worked = publish.taught(plan, atlas, parse_editions([], {}, {}), words, tell)
        return publish.booklet_pdf(worked, atlas, words, Wanted())

    made()
    pdf = benchmark(made)
    assert pdf.startswith(b"%PDF")


def test_a_planters_lesson_page_from_plan_to_html(benchmark: BenchmarkFixture) -> None:
    """Warm, as above; wanted: under 1 s."""
    atlas, words = Atlas(), Words("en", "metric")

    def made() -> str:
        plan = read_plan(PLANTER)
        worked = publish.taught(plan, atlas, parse_editions([], {}, {}), words, tell)
        return lesson_page(worked, atlas, words)

    made()
    assert benchmark(made).startswith("<!doctype html>")


def test_a_planters_filming_sheet(benchmark: BenchmarkFixture) -> None:
    atlas, words = Atlas(), Words("en", "metric")
    worked = publish.taught(read_plan(PLANTER), atlas, parse_editions([], {}, {}), words, tell)

    def made() -> bytes:
        return publish.filming_pdf(publish.sheet_of(worked[0], words, "a4"))

    assert benchmark(made).startswith(b"%PDF")
