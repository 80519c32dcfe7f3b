"""The API against its own description."""

from __future__ import annotations

import json
import subprocess
import sys
from typing import TYPE_CHECKING, Any

import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, settings
from schemathesis.checks import CHECKS, load_all_checks

from cordwright.bench.app import bare_app
from cordwright.bench.openapi import description

if TYPE_CHECKING:
    from tests.bench.serving import Page

DESCRIBED = description(bare_app())
load_all_checks()
SCHEMA = schemathesis.openapi.from_dict(DESCRIBED)
PROMISES: list[Any] = [
    CHECKS.get_one(name)
    for name in ("not_a_server_error", "status_code_conformance", "response_schema_conformance",
                 "content_type_conformance")
]  # fmt: skip


def test_it_is_printed_without_a_server() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "cordwright.bench.openapi"], capture_output=True, check=True
    )
    assert json.loads(done.stdout) == DESCRIBED


def references(part: Any) -> set[str]:
    """Every schema that something refers to."""
    if isinstance(part, dict):
        own = {part["$ref"]} if isinstance(part.get("$ref"), str) else set()
        return own.union(*map(references, part.values()))
    return set().union(*map(references, part)) if isinstance(part, list) else set()


def test_whatever_it_refers_to_is_in_it() -> None:
    known = {f"#/components/schemas/{name}" for name in DESCRIBED["components"]["schemas"]}
    assert references(DESCRIBED) <= known


def test_the_live_channel_is_described_too() -> None:
    schemas = DESCRIBED["components"]["schemas"]
    for name in ("ServerMessage", "ClientMessage"):
        kinds = set(schemas[name]["discriminator"]["mapping"])
        assert len(kinds) == len(schemas[name]["oneOf"]) >= 3


def test_every_door_and_every_value_says_what_it_is() -> None:
    for doors in DESCRIBED["paths"].values():
        for door in doors.values():
            assert door["description"]
    told = ("Document", "Part", "Value", "Size", "Numbers", "Picture", "Hanging", "Problem")
    for name in told:
        assert DESCRIBED["components"]["schemas"][name]["description"]


@pytest.mark.usefixtures("prepared")
@SCHEMA.parametrize()
@settings(
    max_examples=5,
    deadline=None,
    suppress_health_check=list(HealthCheck),
    phases=[Phase.explicit, Phase.generate],
    derandomize=True,
)
def test_it_answers_as_it_says(case: schemathesis.Case[Any], page: Page) -> None:
    if "name" in case.path_parameters and len(str(case.body)) % 2:
        case.path_parameters["name"] = "held to it"
    answer = case.call(
        base_url=page.own,
        headers={"Origin": page.own, "Sec-Fetch-Site": "same-origin"},
        cookies=dict(page.cookies),
    )
    case.validate_response(answer, checks=PROMISES)


@pytest.fixture
def prepared(page: Page) -> None:
    if page.get("/api/pieces/held to it").status_code == 404:
        page.begun("held to it")
