"""The plan format as a JSON Schema (2020-12), so that editors complete and check plans."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any, Final

from cordwright.plan.model import Plan

SCHEMA_FILE: Final = Path(__file__).with_name("plan.schema.json")
"""The schema as shipped with the package; ``write_schema`` regenerates it."""
SCHEMA_ID: Final = "urn:cordwright:plan:1"

_ONE_OF: Final = {
    "Mount": ("ring", "rod", "cord", "nothing"),
    "PassStep": ("in_front_of", "behind"),
    "BraidStep": ("length", "times"),
    "GatherStep": ("turns", "height"),
    "Holds": ("pot", "bowl", "sphere", "box"),
}
"""Groups that take exactly one of some keys, as the models check it."""


def plan_schema() -> dict[str, Any]:
    """The schema, from the models; it says everything but how sums and names fit together."""
    schema = _tidied(Plan.model_json_schema(by_alias=True))
    definitions = schema["$defs"]
    definitions["SizeSpec"] = {
        "description": definitions["SizeSpec"]["description"],
        "anyOf": [
            definitions["SizeSpec"]["properties"]["value"],
            {k: v for k, v in definitions["SizeSpec"].items() if k != "description"},
        ],
    }
    for name, keys in _ONE_OF.items():
        definitions[name]["oneOf"] = [{"required": [key]} for key in keys]
    cord = definitions["CordSpec"]
    cord["anyOf"] = [{"required": ["shelf"]}, {"required": cord.pop("required")}]
    nothing = definitions["Mount"]["properties"]["nothing"]
    definitions["Mount"]["properties"]["nothing"] = {"anyOf": [nothing, {"type": "null"}]}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": SCHEMA_ID,
        **schema,
        "title": "Cordwright plan",
    }


def _tidied(part: Any) -> Any:
    """Without ``null`` (an empty key is an error), without titles made from keys."""
    if isinstance(part, list):
        return [_tidied(p) for p in part]
    if not isinstance(part, dict):
        return part
    tidy: dict[str, Any] = {}
    for key, value in part.items():
        if key == "properties":
            tidy[key] = {name: _tidied(v) for name, v in value.items()}
        elif not (key == "title" and isinstance(value, str)) and not (
            key == "default" and value is None
        ):
            tidy["anyOf" if key == "oneOf" else key] = _tidied(value)
    if "patternProperties" in tidy:
        tidy["additionalProperties"] = False
    choices = [c for c in tidy.get("anyOf", ()) if c != {"type": "null"}]
    if choices and len(choices) < len(tidy["anyOf"]):
        own = {k: v for k, v in tidy.items() if k != "anyOf"}
        return {**choices[0], **own} if len(choices) == 1 else {"anyOf": choices, **own}
    return tidy


def schema_text() -> str:
    """The schema as the text of its file."""
    return json.dumps(plan_schema(), indent=2, ensure_ascii=False) + "\n"


def write_schema(*files: Path) -> None:
    """Write the schema into the package, and to any other files, such as the docs' copy."""
    for file in files or (SCHEMA_FILE,):
        file.write_text(schema_text(), encoding="utf-8")
