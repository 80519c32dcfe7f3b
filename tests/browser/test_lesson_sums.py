"""The page's own arithmetic against the program's, over random cords, sizes and units."""

from __future__ import annotations

import random
from typing import TYPE_CHECKING, Any

import pytest

from cordwright.cords.handling import Handling
from cordwright.cords.swatch_model import Trial, Work, learn
from cordwright.cords.swatch_prior import published_prior
from cordwright.piece.risk import Known
from cordwright.teach.pagedata import Sureness
from cordwright.units.length import format_length, round_up
from tests.browser.lessons import Made, cut, example, made, plain
from tests.examples.conftest import plan_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Page

    from cordwright.piece.cutlist import CutList
    from tests.browser.conftest import Open

NAMES = (
    "oxbow-planter", "pellow-planter", "lantry-wall-planter", "haverley-bag", "weir-meadow-hanging",
    "cobble-belt", "tally-fob", "millrace-mat",
)  # fmt: skip
EACH = 60
SPARE_MM = 1e-4
"""Spare is found by halving, to a few millionths of a mm; lengths to cut must be equal."""

FIT = """(asked) => asked.map(({values, system}) => {
  const {lesson, fittedEdition, partsOf} = cordwright;
  const fit = fittedEdition(lesson.data, lesson.edition, values, system);
  return {
    entries: fit.entries.map((e) => [e.id, e.cord, e.length, e.fold, e.foldMm, e.given, e.cords]),
    spare: fit.entries.map((e) => e.spare),
    parts: fit.cords.map(partsOf),
    total: fit.total,
  };
})"""


def _asked(lesson: Made, seed: str) -> Iterator[dict[str, Any]]:
    """Random values within what the page lets a reader choose."""
    chance = random.Random(seed)  # noqa: S311 - the same cases every time
    edition = lesson.data["editions"][0]
    ranges = {x["symbol"]: x for x in (*edition["cords"], *edition["sizes"]) if "symbol" in x}
    for number in range(EACH):
        values = list(edition["values"])
        for i, symbol in enumerate(edition["symbols"]):
            if number and symbol in ranges and chance.random() < 0.8:
                values[i] = chance.uniform(ranges[symbol]["low"], ranges[symbol]["high"])
                values[i] = round(values[i], 1) if chance.random() < 0.5 else values[i]
        yield {"values": values, "system": chance.choice(["metric", "inch"])}


def _entries(cuts: CutList) -> list[list[Any]]:
    return [
        [e.id, e.cord, e.length_mm, e.fold, e.fold_mm and list(e.fold_mm), e.given, list(e.cords)]
        for e in cuts.entries
    ]


def _compared(open_page: Open, lesson: Made, seed: str, sureness: Sureness) -> None:
    page = open_page(lesson.html)
    asked = list(_asked(lesson, seed))
    found = page.evaluate(FIT, asked)
    symbols = lesson.data["editions"][0]["symbols"]
    piece = plain(lesson.editions[0])
    for one, told in zip(asked, found, strict=True):
        values = dict(zip(symbols, one["values"], strict=True))
        cuts = cut(piece, values, one["system"], sureness)
        assert told["entries"] == _entries(cuts), one
        assert told["parts"] == [list(c.parts_mm) for c in cuts.cords]
        assert told["total"] == pytest.approx(cuts.total_mm, abs=1e-6)
        spare = [e.spare_mm for e in cuts.entries]
        assert told["spare"] == pytest.approx(spare, abs=SPARE_MM)


@pytest.mark.parametrize("name", NAMES)
def test_the_page_cuts_what_the_program_cuts(open_page: Open, name: str) -> None:
    _compared(open_page, example(name), name, Sureness())


def test_it_does_so_for_a_makers_own_hands_and_risk(open_page: Open) -> None:
    """Two cords, one of them and the maker known from swatches; an odd number of them too."""
    plan = plan_of("weir-meadow-hanging")
    trials = [
        Trial(Work("Ada", "field", {"square-knot": 1.0}, 24.0), 0.11, 0.01),
        Trial(Work("Ada", "field", {"double-half-hitch": 0.4, "square-knot": 0.6}, 40.0), 0.06),
        Trial(Work("Ada", "other", {"double-half-hitch": 1.0}, 12.0), -0.04, 0.02),
    ]
    known = Known(learn(published_prior(), trials), {"field": "field"}, "Ada")
    handling = {"field": Handling(1.04, 1.08), "band": Handling(0.97, 1.02)}
    sureness = Sureness(known, 0.01)
    lesson = made(plan, sureness=sureness, handling=handling)
    _compared(open_page, lesson, "Ada", sureness)


LENGTHS = [0.0, 0.4, 0.5, 1.5, 2.5, 9.49, 9.5, 10.0, 12.5, 63.5, 914.4, 999.4, 999.5, 1000.0, 3e4]


@pytest.mark.parametrize("language", ["en", "de", "fr"])
def test_the_page_writes_measures_as_the_program_does(open_page: Open, language: str) -> None:
    lesson = example("tally-fob", language=language)
    chance = random.Random(language)  # noqa: S311
    lengths = LENGTHS + [chance.uniform(0.0, 1e4) for _ in range(300)]
    lengths += [chance.randrange(0, 40000) * 25.4 / 8 for _ in range(300)]
    page = open_page(lesson.html)
    told = page.evaluate(
        """(lengths) => lengths.map((mm) => {
          const signs = cordwright.lesson.data.signs;
          return [["metric", "inch", "both"].map((u) => cordwright.lengthText(mm, u, signs)),
            ["metric", "inch", "both"].map((u) => cordwright.lengthText(mm, u, signs, true)),
            cordwright.cutText(mm, "both", signs),
            cordwright.thickText(Math.floor(mm / 10) / 100, signs),
            ["metric", "inch", "both"].map((u) => cordwright.weightText(mm / 7, u, signs))];
        })""",
        lengths,
    )
    from cordwright.teach.measures import Measures
    from cordwright.teach.words import Units, Words

    systems: tuple[Units, ...] = ("metric", "inch", "both")
    words = [Words(language, units) for units in systems]
    for mm, (plain_told, about_told, to_cut, thick, heavy) in zip(lengths, told, strict=True):
        assert plain_told == [w.length(mm) for w in words]
        assert about_told == [w.length(mm, about=True) for w in words]
        assert to_cut == Measures(words[2]).to_cut(mm)
        assert thick == words[0].thick(mm // 10 / 100)
        assert heavy == [Measures(w).weight(mm / 7) for w in words]


def test_rounding_goes_wrong_where_halves_are_rounded_up(open_page: Open) -> None:
    """A negative control: JavaScript's own rounding is not the program's."""
    page = open_page(example("tally-fob").html)
    assert page.evaluate("Math.round(2.5)") == 3
    assert format_length(12.5, "metric") == "1.2 cm"
    assert round_up(1000.0000001, "metric") == 1000.0


def test_the_chances_are_those_of_the_program(open_page: Open) -> None:
    from scipy.special import ndtr, stdtr

    page: Page = open_page(example("tally-fob").html)
    asked = [[dof, t / 4] for dof in (1, 2, 5, 8, 9, 30) for t in range(-24, 25)]
    told = page.evaluate("(all) => all.map(([d, t]) => cordwright.studentChance(d, t))", asked)
    assert told == pytest.approx([float(stdtr(d, t)) for d, t in asked], abs=1e-13)
    normal = [z / 4 for z in range(-24, 25)]
    told = page.evaluate("(all) => all.map((z) => cordwright.normalChance(z))", normal)
    assert told == pytest.approx([float(ndtr(z)) for z in normal], abs=1e-13)
