from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from cordwright.cli.describe import describe
from cordwright.cli.knots import take_up_by_role
from tests.cli.conftest import ENTRIES, Run

SCHEMA = Path(__file__).parents[2] / "docs" / "knots.schema.json"


def names(out: str) -> list[tuple[str, int, str]]:
    return [(e["name"], e["fillers"], e["hand"]) for e in json.loads(out)]


def test_all_knots(run: Run) -> None:
    status, out, _ = run("knots", "--json")
    assert status == 0
    assert len(json.loads(out)) == len(ENTRIES)


def test_json_has_what_programs_need(run: Run) -> None:
    (entry,) = json.loads(run("knots", "square-knot", "--fillers", 3, "--json")[1])
    wanted = ("name", "fillers", "height_d", "width_d", "depth_d", "take_up_d", "overlap_d")
    assert all(key in entry for key in wanted)
    assert entry["take_up_d"] == {"working": 16.5, "filler": 4.0}


def test_json_keeps_to_its_schema(run: Run) -> None:
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    Draft202012Validator(schema).validate(json.loads(run("knots", "--json")[1]))
    fields = schema["items"]["properties"]
    assert sorted(schema["items"]["required"]) == sorted(fields)
    assert all(field["description"] for field in fields.values())


def test_only_those_asked_for(run: Run) -> None:
    out = run("knots", "square-knot", "--json")[1]
    assert names(out) == [("square-knot", 2, "left"), ("square-knot", 3, "left")]
    out = run("knots", "--fillers", 4, "--json")[1]
    assert names(out) == [("gathering", 4, "left")]


def test_either_hand_of_every_shape(run: Run) -> None:
    out = run("knots", "square-knot", "--hand", "right", "--json")[1]
    assert names(out) == [("square-knot", 2, "right"), ("square-knot", 3, "right")]


def test_others_are_made_on_demand(run: Run) -> None:
    out = run("knots", "square-knot", "--fillers", 7, "--hand", "right", "--json")[1]
    assert names(out) == [("square-knot", 7, "right")]
    (entry,) = json.loads(run("knots", "gathering", "--turns", 9, "--strands", 4, "--json")[1])
    assert (entry["turns"], entry["fillers"]) == (9, 3)


def test_like_knots_stand_together_in_rising_order(run: Run) -> None:
    listed = [(e["name"], e["strands"]) for e in json.loads(run("knots", "--json")[1])]
    assert listed == sorted(listed)


def test_people_see_a_table(run: Run) -> None:
    out = run("knots")[1]
    assert "square-knot, left, 2 fillers" in out
    assert "double-half-hitch, left, 1 filler, slant 45°" in out
    assert "larks-head, 2 strands, face over a rod of 3 d" in out
    assert "gathering, 4 fillers, 4 turns" in out


@pytest.mark.parametrize(
    ("arguments", "expected"),
    [
        (["square-nkot"], "did you mean square-knot?"),
        (["bowline-on-a-bight-of-wire"], "there are "),
        (["square-knot", "--fillers", "3", "--strands", "9"], "not both"),
        (["square-knot", "--fillers", "99"], "cannot be tied"),
        (["overhand", "--strands", "3"], "has no overhand"),
        (["--turns", "77"], "name the knot"),
        (["square-knot", "--fillers", "many"], "many"),
    ],
)
def test_what_cannot_be_had_is_told(run: Run, arguments: list[str], expected: str) -> None:
    status, out, err = run("knots", *arguments)
    assert (status, out) == (2, "")
    assert expected in err


def test_take_up_is_the_mean_of_a_role() -> None:
    uneven = replace(ENTRIES[0], take_up_d=(15.0, 4.0, 4.0, 18.0))
    assert take_up_by_role(uneven) == {"working": 16.5, "filler": 4.0}


def test_thicker_fillers_are_named() -> None:
    assert describe(replace(ENTRIES[0].spec, filler_d=1.5)).endswith("fillers of 1.5 d")
