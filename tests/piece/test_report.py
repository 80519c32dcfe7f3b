import json
from collections.abc import Callable
from typing import Any

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.piece.cutlist import cut_list
from cordwright.piece.model import Piece
from cordwright.piece.report import cut_json, cut_schema

Steps = st.SearchStrategy[list[dict[str, Any]]]
Worked = Callable[..., Piece]
VALIDATOR = jsonschema.Draft202012Validator(cut_schema())


@given(data=st.data())
def test_the_report_keeps_to_its_schema_and_adds_up(
    data: st.DataObject, worked: Worked, steps: Steps
) -> None:
    piece = worked(data.draw(steps))
    report = json.loads(json.dumps(cut_json(piece, cut_list(piece)), allow_nan=False))
    VALIDATOR.validate(report)
    total = sum(c["count"] * c["length_mm"] for c in report["cords"])
    assert report["total_mm"] == pytest.approx(total)
    assert report["total_mm"] == pytest.approx(sum(k["cut_mm"] for k in report["kinds"]))
    assert report["used_mm"] == pytest.approx(sum(s["used_mm"] for s in report["strands"]))
    assert report["used_mm"] == pytest.approx(sum(report["uses_mm"].values()))
    assert report["used_mm"] == pytest.approx(sum(s["used_mm"] for s in report["sections"]))
    for cord in report["cords"]:
        parts = cord["used_mm"] + cord["spare_mm"] + cord["rounding_mm"]
        assert parts == pytest.approx(cord["length_mm"])
        assert cord["spare_knots_mm"] + cord["spare_free_mm"] == pytest.approx(cord["spare_mm"])
        if cord["fold_mm"] is not None:
            assert sum(cord["fold_mm"]) == pytest.approx(cord["length_mm"])
        used = sum(value_of(f, report["values_mm"]) for f in cord["forms"])
        assert used == pytest.approx(cord["used_mm"])
    for strand in report["strands"]:
        assert value_of(strand["form"], report["values_mm"]) == pytest.approx(strand["used_mm"])
        assert strand["over_mm"] >= -1e-6
    numbers = sorted(n for c in report["cords"] for n in c["numbers"])
    assert numbers == list(range(1, len(piece.cords) + 1))
    names = [s["id"] for s in report["strands"]]
    assert len(set(names)) == len(names) == len(piece.strands)


def value_of(form: dict[str, Any], values: dict[str, float]) -> float:
    return float(form["mm"] + sum(k * values[s] for s, k in form["terms"].items()))


def test_what_a_weight_is_made_of(worked: Worked) -> None:
    piece = worked([{"tie": "overhand"}])
    kind = cut_json(piece, cut_list(piece))["kinds"][0]
    assert kind["weight_low_g"] <= kind["weight_g"] <= kind["weight_high_g"]
    # solid cotton of 4 mm would weigh 19 g a metre (1.52 g/cm3): a cord holds air too
    assert 0.2 * 19.1 < 1000.0 * kind["weight_g"] / kind["cut_mm"] < 19.1
    cords = {"main": {"fibre": "moon dust", "diameter": "4 mm"}}
    piece = worked([{"tie": "overhand"}], cords=cords)
    assert cut_json(piece, cut_list(piece))["kinds"][0]["weight_g"] is None


def test_every_field_of_the_schema_says_what_it_means() -> None:
    schema = cut_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    for name, part in {"": schema, **schema["$defs"]}.items():
        for field, about in part.get("properties", {}).items():
            assert about.get("description"), f"{name}.{field}"


def test_warnings_are_told_with_their_place(worked: Worked) -> None:
    piece = worked([{"tie": "square-knot", "each": 3}])
    warnings = cut_json(piece, cut_list(piece))["warnings"]
    assert warnings[0]["what"].startswith("2 strands are left over")
    assert set(warnings[0]) == {"what", "file", "line", "column"}
