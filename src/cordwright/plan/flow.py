"""Values as YAML: on one line, or as a block of lines."""

from __future__ import annotations

import json
import re
from typing import Any, Final

from cordwright.plan.yamltree import read_plain

WIDEST: Final = 88
"""Characters that a group or list has on one line at most."""

_PLAIN = re.compile(r"[A-Za-z0-9(.](?:[A-Za-z0-9 .+*/()%_½¼¾-]*[A-Za-z0-9.)%½¼¾])?")


def is_plain(text: str) -> bool:
    """Whether a text needs no quotes, in a block or in { } and [ ]."""
    return bool(_PLAIN.fullmatch(text)) and isinstance(read_plain(text), str)


def flow_text(value: Any) -> str:
    """A value on one line, which reads back as the same value, in a block or in { } and [ ].

    >>> flow_text({"tie": "square-knot", "on": [1, 2], "note": "Mind: tight!"})
    '{tie: square-knot, on: [1, 2], note: "Mind: tight!"}'
    """
    if isinstance(value, dict):
        return (
            "{" + ", ".join(f"{flow_text(str(k))}: {flow_text(v)}" for k, v in value.items()) + "}"
        )
    if isinstance(value, (list, tuple)):
        return "[" + ", ".join(map(flow_text, value)) + "]"
    if isinstance(value, str):
        if is_plain(value):
            return str(value)
        return json.dumps(value, ensure_ascii=not value.isprintable())
    if value is None or isinstance(value, bool):
        return json.dumps(value)
    return str(value)


def fits_one_line(value: Any) -> bool:
    """Whether a value is better written on one line than as a block."""
    if not isinstance(value, (dict, list, tuple)):
        return True
    return not _has_steps(value) and len(flow_text(value)) <= WIDEST


def _has_steps(value: Any) -> bool:
    """Whether there is a list of groups in it, or steps may come into it."""
    if isinstance(value, dict):
        return "work" in value or any(_has_steps(v) for v in value.values())
    if isinstance(value, (list, tuple)):
        return any(isinstance(v, dict) or _has_steps(v) for v in value)
    return False


def block_lines(value: Any) -> list[str]:
    """A value as lines of a block, the outermost one without indentation."""
    if fits_one_line(value) or not value:
        return [flow_text(value)]
    found: list[str] = []
    if isinstance(value, dict):
        for key, part in value.items():
            inner = block_lines(part)
            name = f"{flow_text(str(key))}:"
            if fits_one_line(part) or not part:
                found.append(f"{name} {inner[0]}")
            else:
                found += [name, *(f"  {line}" for line in inner)]
        return found
    for part in value:
        first, *rest = block_lines(part)
        found += [f"- {first}", *(f"  {line}" for line in rest)]
    return found
