from __future__ import annotations

from collections.abc import Mapping

import pytest
from jsonschema import Draft202012Validator

from cordwright.errors import Place, PlanError
from cordwright.plan.read import parse_plan
from cordwright.plan.schema import plan_schema

PLAN = """\
cordwright: 1
title: Trial
cords:
  main: {CORD}
mount: {nothing: {}, cords: [{cord: main, count: 4}]}
work: []
"""
SHELF = {"sand 4mm": {"fibre": "cotton", "diameter": "4 mm", "weight": "9.5 g/m", "colour": "sand"}}


def shelf() -> Mapping[str, Mapping[str, str]]:
    return SHELF


def plan(cord: str) -> str:
    return PLAN.replace("CORD", cord)


def test_the_shelf_fills_in_what_the_plan_does_not_say() -> None:
    found = parse_plan(plan("shelf: sand 4mm, colour: rust"), "p.yaml", shelf).cords["main"]
    assert (found.shelf, found.fibre, found.diameter_mm) == ("sand 4mm", "cotton", 4.0)
    assert (found.colour, found.weighed_g_per_m, found.strength) == ("rust", 9.5, None)


def test_the_shelf_is_only_asked_if_it_is_needed() -> None:
    def refuse() -> Mapping[str, Mapping[str, str]]:
        raise AssertionError

    assert (
        parse_plan(plan("fibre: jute, diameter: 3 mm"), "p.yaml", refuse).cords["main"].shelf
        is None
    )


@pytest.mark.parametrize(
    ("known", "cord", "what", "remedy"),
    [
        (shelf, "shelf: sand 4 mm", "no cord called 'sand 4 mm'", "did you mean sand 4mm?"),
        (dict, "shelf: sand 4mm", "no cord called", "add it with cordwright shelf add cord"),
        (None, "shelf: sand 4mm", "no shelf is at hand", "fibre and diameter"),
    ],
)
def test_cords_that_are_not_there(known: object, cord: str, what: str, remedy: str) -> None:
    with pytest.raises(PlanError, match=what) as error:
        parse_plan(plan(cord), "p.yaml", known)  # type: ignore[arg-type]
    assert remedy in error.value.remedy
    assert error.value.place == Place("p.yaml", 4, 17)


def test_a_slip_in_what_the_shelf_says_is_told_at_the_plans_line() -> None:
    with pytest.raises(PlanError) as error:
        parse_plan(plan("shelf: a"), "p.yaml", lambda: {"a": {"fibre": "jute", "diameter": "9 km"}})
    assert error.value.place is not None
    assert error.value.place.line == 4


@pytest.mark.parametrize(
    ("cord", "right"),
    [
        ({"shelf": "sand"}, True),
        ({"fibre": "jute", "diameter": "3 mm"}, True),
        ({"fibre": "jute"}, False),
        ({"shelf": "sand", "fibre": "jute"}, True),
    ],
)
def test_editors_are_told_the_same(cord: dict[str, str], right: bool) -> None:
    given = {
        "cordwright": 1,
        "title": "Trial",
        "cords": {"main": cord},
        "mount": {"nothing": {}, "cords": [{"cord": "main"}]},
        "work": [],
    }
    assert Draft202012Validator(plan_schema()).is_valid(given) == right
