"""The lesson page as a file: its size, its data, and what the reader may change."""

from __future__ import annotations

import json

import pytest

from cordwright.hang.counted import as_worked, counted
from cordwright.piece.cutlist import cut_list
from cordwright.teach.editions import parse_editions
from cordwright.teach.page import SCRIPTS, STYLES, lesson_page
from cordwright.teach.pageforms import Source
from cordwright.teach.publish import taught
from cordwright.teach.telling import tell
from cordwright.teach.words import Words
from tests.browser.lessons import cut, example, plain
from tests.examples.conftest import ATLAS, NAMES, plan_of

PLANTERS = ("oxbow-planter", "pellow-planter", "lantry-wall-planter")
MOST_BYTES = 1_500_000


@pytest.mark.parametrize("name", PLANTERS)
def test_a_planters_page_is_small_and_whole(name: str) -> None:
    words = Words()
    worked = taught(plan_of(name), ATLAS, parse_editions([], {}, {}), words, tell)
    html = lesson_page(worked, ATLAS, words)
    assert len(html.encode()) < MOST_BYTES
    data = json.loads(html.split('id="data">', 1)[1].split("</script>", 1)[0])
    assert len(data["figures"]) == len(set(data["figures"]))  # every picture once
    assert all(k["steps"] for k in data["knots"])
    assert len(data["charts"]) == 1


def test_every_file_of_the_page_is_in_it() -> None:
    from importlib.resources import files

    found = {p.name for p in (files("cordwright.teach") / "web").iterdir() if p.is_file()}
    listed = {f"{s}.js" for s in SCRIPTS} | {f"{s}.css" for s in STYLES} | {"lesson.html"}
    assert found == listed


@pytest.mark.parametrize("name", NAMES)
def test_sums_without_the_shape_are_worth_the_same(name: str) -> None:
    edition = example(name).editions[0]
    piece = plain(edition)
    assert not any(s.startswith("h:") for s in piece.values)
    mine, whole = cut_list(piece), cut_list(edition.piece)
    assert [e.length_mm for e in mine.entries] == [e.length_mm for e in whole.entries]
    assert [e.fold_mm for e in mine.entries] == [e.fold_mm for e in whole.entries]


@pytest.mark.parametrize("name", ["oxbow-planter", "pellow-planter", "lantry-wall-planter"])
def test_within_bounds_sums_are_the_plan_worked_again(name: str) -> None:
    """In the round, where the shape is not solved for: every size alone, at both of its bounds."""
    made = example(name)
    edition = made.data["editions"][0]
    source = Source(made.editions[0].piece, made.editions[0].version.edition)
    piece = plain(made.editions[0])
    sizes = [s for s in edition["sizes"] if "symbol" in s]
    assert sizes
    for size in sizes:
        for mm in (size["low"], size["high"]):
            other = source.again({size["symbol"]: mm})
            assert other is not None
            true = cut_list(counted(as_worked(other)))
            told = cut(piece, {size["symbol"]: mm}, "metric")
            assert [e.length_mm for e in told.entries] == pytest.approx(
                [e.length_mm for e in true.entries]
            )


def test_sizes_say_what_may_be_changed() -> None:
    oxbow = {s["name"]: s for s in example("oxbow-planter").data["editions"][0]["sizes"]}
    assert oxbow["pot"]["low"] == 360.0
    assert oxbow["pot"]["high"] == 700.0
    assert oxbow["knots"]["count"] == 6
    assert "symbol" not in oxbow["net"]  # it follows from the pot
    pellow = {s["name"]: s for s in example("pellow-planter").data["editions"][0]["sizes"]}
    assert pellow["arm"]["fixed"]  # a braid's rounds are counted from it


def test_cords_say_where_counts_would_change() -> None:
    oxbow = example("oxbow-planter").data["editions"][0]["cords"][0]
    assert (oxbow["low"], oxbow["high"]) == (2.0, 8.0)
    assert oxbow["same"] == [2.0, 8.0]  # every count of that plan is given
    rope = example("pellow-planter").data["editions"][0]["cords"][0]
    assert 4.0 < rope["same"][0] < 5.0 < rope["same"][1] < 6.0
