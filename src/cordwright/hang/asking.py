"""A plan's text with another hook, clearance or pot than it has; everything else stays as it is."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from cordwright.errors import Place, PlanError
from cordwright.plan.read import parse_plan

if TYPE_CHECKING:
    from cordwright.plan.model import Plan
    from cordwright.plan.shelved import ShelfCords

_BLOCK = re.compile(r"(?m)^hang:.*\n(?:[ \t]+\S.*(?:\n|\Z)|[ \t]*\n(?=[ \t]+\S))*")
_WORK = re.compile(r"(?m)^(?:motifs|work):")
_PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._+*/-]*")


def with_hang(
    text: str,
    file: str,
    *,
    hook: str | None = None,
    clear: str | None = None,
    pot: Mapping[str, str] | None = None,
    shelf: ShelfCords | None = None,
) -> str:
    """The text of a plan whose ``hang:`` is written anew where something in it changes.

    Args:
        text: a plan.
        file: the name that errors show.
        hook: height of the hook above the floor, as written.
        clear: least height of the lowest end above the floor.
        pot: the pot that it holds instead of what it holds now: the keys of ``pot:``.
        shelf: gives the cords that the plan may name, if there is a shelf at hand.

    Raises:
        PlanError: the plan has no place for it; or with it, it is no plan.
    """
    plan = parse_plan(text, file, shelf)
    if hook is None and clear is None and pot is None:
        return text
    hang = _present(plan)
    hang.update({k: v for k, v in (("hook", hook), ("clear", clear)) if v is not None})
    if pot is not None:
        hang["holds"] = {"pot": dict(pot)}
    block = "hang:\n" + "".join(f"  {k}: {_flow(v)}\n" for k, v in hang.items())
    if _BLOCK.search(text):
        return _BLOCK.sub(lambda _: block, text, count=1)
    place = _WORK.search(text)
    if place is None:
        raise PlanError(
            "The plan has no line that begins with work:, so hang: cannot be written into it.",
            remedy="write the plan's keys on lines of their own, or add hang: to it yourself",
            place=Place(file),
        )
    return f"{text[: place.start()]}{block}{text[place.start() :]}"


def _present(plan: Plan) -> dict[str, Any]:
    if plan.hang is None:
        return {}
    found: dict[str, Any] = plan.hang.model_dump(mode="json", by_alias=True, exclude_defaults=True)
    return found


def _flow(value: Any) -> str:
    """A value as YAML on one line."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{k}: {_flow(v)}" for k, v in value.items()) + "}"
    if isinstance(value, str) and _PLAIN.fullmatch(value):
        return value
    return json.dumps(value, ensure_ascii=False)
