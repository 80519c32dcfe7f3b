import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from cordwright.cli.loadview import show_loads
from cordwright.hang.loads import conditions, everything, load_json, load_schema
from cordwright.units.force import weight_n
from tests.hang.conftest import POT, even, planter

SCHEMA = Path(__file__).parents[2] / "docs" / "load.schema.json"
VALIDATOR = jsonschema.Draft202012Validator(load_schema())


def report(hang: dict[str, Any] | None = None, times: float = 1.0, **cord: Any) -> dict[str, Any]:
    piece, told = planter(hang, **cord)
    newtons = weight_n(everything(piece, told).g) * times
    found = load_json(piece, even(piece, newtons) if newtons else {}, told)
    VALIDATOR.validate(json.loads(json.dumps(found, allow_nan=False)))
    return found


def test_the_shipped_schema_is_what_the_models_say() -> None:
    jsonschema.Draft202012Validator.check_schema(load_schema())
    assert json.loads(SCHEMA.read_text(encoding="utf-8")) == load_schema()
    for name, part in {"": load_schema(), **load_schema()["$defs"]}.items():
        for field, about in part.get("properties", {}).items():
            assert about.get("description"), f"{name}.{field}"


def test_the_working_can_be_followed() -> None:
    found = report()
    spot = found["weakest"]
    strength = spot["new_n"]
    for factor in spot["factors"]:
        strength *= factor["share"]
        assert factor["source"]
    assert spot["strength_n"] == pytest.approx(strength)
    assert spot["bumped_n"] == pytest.approx(spot["load_n"] * found["bump"])
    assert spot["factor"] == pytest.approx(strength / spot["bumped_n"]) == found["factor"]
    assert (found["verdict"] == "enough") == (found["factor"] >= found["asked"])
    assert sum(p["g"] for p in found["parts"]) == pytest.approx(found["weight_g"])
    assert "wet" in {f["name"] for f in spot["factors"]}  # a pot is watered
    assert found["cautions"]


def test_a_heavier_load_is_not_enough_and_says_what_is() -> None:
    found = report(times=3.0)
    assert found["verdict"] == "not enough"
    assert {r["kind"] for r in found["remedies"]} == {"thicker", "strands", "lighter"}


def test_the_hook_is_guidance() -> None:
    hang = {"holds": {"pot": POT}, "screw": {"thick": "4 mm", "thread": "30 mm", "wood": "pine"}}
    screw = report(hang)["screw"]
    assert screw["within"] == (screw["load_n"] <= screw["allowed_n"])
    assert screw["allowed_n"] < screw["ultimate_n"]
    assert report()["screw"] is None


def test_dry_things_indoors_keep_the_cord_dry() -> None:
    sphere = {"sphere": {"across": "12 cm", "weight": "400 g"}}
    assert not conditions(planter({"holds": sphere})[1]).wet
    assert conditions(planter({"holds": sphere, "place": "outdoors"})[1]).wet
    bowl = {"across": "20 cm", "high": "9 cm", "weight": "600 g", "with": "water"}
    assert conditions(planter({"holds": {"bowl": bowl}})[1]).wet
    names = {f["name"] for f in report({"holds": sphere})["weakest"]["factors"]}
    assert not names & {"wet", "outdoors"}


def test_a_cord_of_unknown_weight_and_fibre_is_told() -> None:
    found = report(fibre="moon dust")
    assert found["unweighed"] == ["main"]
    assert not found["weakest"]["fibre_known"]


def test_nothing_hangs() -> None:
    piece, told = planter({})
    found = load_json(piece, {}, told)
    assert (found["verdict"], found["factor"], found["weakest"]) == ("nothing hangs", None, None)


@pytest.mark.parametrize("times", [0.0, 1.0, 100.0])
def test_people_see_what_programs_get(times: float, capsys: pytest.CaptureFixture[str]) -> None:
    hang = {"holds": {"pot": POT}, "screw": {"thick": "4 mm", "thread": "30 mm", "wood": "pine"}}
    found = report(hang, times)
    show_loads(found, "metric")
    out = capsys.readouterr().out
    for caution in found["cautions"]:
        assert caution in out
    for remedy in found["remedies"]:
        assert remedy["text"] in out
    assert "guidance only" in out
    if found["weakest"]:
        assert found["weakest"]["place"] in out
        for factor in found["weakest"]["factors"]:
            assert factor["source"] in out
    assert {"nothing hangs": "Nothing", "enough": "Enough", "not enough": "Not enough"}[
        found["verdict"]
    ] in out
