import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from jsonschema import Draft202012Validator

from cordwright.plan.model import VERBS, Plan
from cordwright.plan.schema import SCHEMA_FILE, plan_schema, schema_text, write_schema
from cordwright.plan.yamltree import read_tree
from tests.plan.strategies import plan_data
from tests.plan.texts import EVERY_STEP, SMALL, bent

DOCS_COPY = Path(__file__).parents[2] / "docs" / "plan.schema.json"
VALIDATOR = Draft202012Validator(plan_schema())


def faults(text: str) -> list[str]:
    return [error.message for error in VALIDATOR.iter_errors(read_tree(text, ""))]


def test_the_shipped_schema_is_what_the_models_say() -> None:
    Draft202012Validator.check_schema(plan_schema())
    assert SCHEMA_FILE.read_text(encoding="utf-8") == schema_text()
    assert DOCS_COPY.read_text(encoding="utf-8") == schema_text()


def test_writes_the_schema(tmp_path: Path) -> None:
    write_schema(tmp_path / "a.json", tmp_path / "b.json")
    assert json.loads((tmp_path / "b.json").read_text()) == plan_schema()


@pytest.mark.parametrize("text", [SMALL, EVERY_STEP])
def test_plans_that_read_are_valid(text: str) -> None:
    assert faults(text) == []


@given(plan_data)
@settings(suppress_health_check=[HealthCheck.too_slow], deadline=None, max_examples=50)
def test_random_plans_are_valid(data: dict[str, Any]) -> None:
    Plan.model_validate(data)
    assert list(VALIDATOR.iter_errors(data)) == []


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("{tie:", "{tei:"),
        ("each: 4, times", "eahc: 4, times"),
        ("square-knot, each: 4, times", "granny, each: 4, times"),
        ("wire: 6 mm", "wire: 6"),
        ("main:", "1main:"),
        ("ring: {inside: 50 mm, wire: 6 mm}", "nothing: {}\n  rod: {length: 1 m, thick: 1 cm}"),
        ("tail: 10 cm", "tail:"),
        ("count: 8", "count: -1"),
        ("fringe: half_arm", "braid: 3"),
        ("cordwright: 1", "cordwright: 2"),
    ],
)
def test_an_editor_marks_what_the_reader_refuses(old: str, new: str) -> None:
    assert faults(bent(old, new))


def test_every_verb_has_its_step_with_a_description() -> None:
    definitions = plan_schema()["$defs"]
    for verb, kind in VERBS.items():
        step = definitions[kind.__name__]
        assert verb in step["properties"]
        assert step.get("required", []) or any(
            choice["required"] == [verb] for choice in step["anyOf"]
        )
        assert all(
            "description" in value or "$ref" in value for value in step["properties"].values()
        )
