"""Changes from the wire made on a plan's text, and said in words for the history."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cordwright.bench.changes import (
    Add,
    Change,
    ChangeCord,
    ChangeHolds,
    ChangeMount,
    Copy,
    Move,
    Remove,
    SetValue,
    Several,
)
from cordwright.errors import PlanError
from cordwright.plan import rework
from cordwright.plan.flow import flow_text
from cordwright.plan.layout import BOM, layout
from cordwright.plan.problems import shortened

if TYPE_CHECKING:
    from pydantic import JsonValue

HOLDERS = ("ring", "rod", "cord", "nothing")


def rewritten(text: str, change: Change) -> str:
    """The text with a change made.

    Raises:
        PlanError: it cannot be made.
    """
    match change:
        case Several():
            for each in change.changes:
                text = rewritten(text, each)
            return text
        case SetValue():
            return rework.put(text, change.path, change.value)
        case Add():
            return rework.add(text, change.path, change.index, change.value)
        case Move():
            return rework.move(text, change.path, change.to, change.index)
        case Copy():
            return rework.copy(text, change.path, change.to, change.index)
        case Remove():
            return rework.remove(text, change.path)
        case ChangeMount():
            return _mounted(text, change.mount)
        case ChangeHolds():
            return _holding(text, change.holds)
        case ChangeCord():
            return rework.put(text, f"cords.{_key(change.name)}", change.cord)


def _mounted(text: str, mount: dict[str, JsonValue]) -> str:
    """On something else: the new holder above the cords, the old one taken out."""
    ((kind, value),) = mount.items()
    if kind not in HOLDERS:
        raise PlanError(
            f"Nothing can be mounted on '{shortened(kind)}'.",
            remedy="choose ring, rod, cord or nothing",
        )
    known = [h for h in HOLDERS if _has(text, ("mount", h))]
    text = rework.put(text, f"mount.{kind}", value)
    for old in known:
        if old != kind:
            text = rework.remove(text, f"mount.{old}")
    return text


def _holding(text: str, holds: dict[str, JsonValue] | None) -> str:
    if holds is None:
        return rework.remove(text, "hang.holds") if _has(text, ("hang", "holds")) else text
    if not _has(text, ("hang",)):
        return rework.put(text, "hang", {"holds": holds})
    return rework.put(text, "hang.holds", holds)


def _has(text: str, path: tuple[str, ...]) -> bool:
    node = layout(text.removeprefix(BOM)).root
    for part in path:
        item = node.item(part)
        if item is None:
            return False
        node = item.value
    return True


def _key(name: str) -> str:
    if "." in name:
        raise PlanError(f"'{shortened(name)}' cannot be a name.", remedy="use letters and digits")
    return name


def said(change: Change) -> str:
    """What a change does, in words, for the history."""
    match change:
        case Several():
            first = said(change.changes[0])
            more = len(change.changes) - 1
            return f"{first} and {more} more" if more else first
        case SetValue():
            return f"{_last(change.path)} set to {shortened(flow_text(change.value), 40)}"
        case Add():
            return f"Added {shortened(flow_text(change.value), 40)}"
        case Move():
            return f"Moved {change.path}"
        case Copy():
            return f"Copied {change.path}"
        case Remove():
            return f"Took out {change.path}"
        case ChangeMount():
            return f"Mounted on {shortened(next(iter(change.mount)), 20)}"
        case ChangeHolds():
            held = "nothing" if change.holds is None else shortened(next(iter(change.holds)), 20)
            return f"Holds {held}"
        case ChangeCord():
            return f"Cord {shortened(change.name, 40)} changed"


def _last(path: str) -> str:
    """The name of what a path leads to, with that of what it is in."""
    parts = [p for p in path.split(".") if not p.isdecimal()]
    return shortened(" ".join(parts[-2:] if parts[:1] == ["sizes"] else parts[-1:]), 40)
