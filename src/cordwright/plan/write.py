"""Writes plans: a whole plan as text, or single values changed in a maker's own text."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from io import StringIO
from typing import TYPE_CHECKING, Any

from cordwright.errors import Place, PlanError
from cordwright.plan.problems import nearest, shortened
from cordwright.plan.read import parse_plan
from cordwright.plan.steps import VERBS
from cordwright.plan.yamltree import read_plain, yaml_events

if TYPE_CHECKING:
    from cordwright.plan.model import Plan
    from cordwright.plan.shelved import ShelfCords

Path = tuple[str | int, ...]
Value = str | int | float


@dataclass(frozen=True, slots=True)
class _Span:
    """Where a scalar stands in the text; ``fixed`` says why it cannot be replaced."""

    start: int
    end: int
    fixed: str = ""


def edit_plan(
    text: str,
    changes: Mapping[str, Value],
    file: str = "<text>",
    shelf: ShelfCords | None = None,
) -> str:
    """Change values of a plan and leave every other character of it as it is.

    Args:
        text: a plan.
        changes: new value of each path, such as ``sizes.arm``, ``cords.main.diameter``,
            ``mount.cords.0.count`` (list items count from 0) or ``title``. The key must be in
            the plan already; a size with bounds keeps them.
        file: the name that errors show.
        shelf: gives the cords that the plan may name, if there is a shelf at hand.

    Raises:
        PlanError: the text is not a plan, a path is not in it or is not a single value, or the
            changed text is not a plan.
    """
    parse_plan(text, file, shelf)
    offset = len(text) - len(text.removeprefix("\ufeff"))
    spans = dict(_spans(text.removeprefix("\ufeff")))
    edits = sorted(
        ((*_target(path, spans, file), value) for path, value in changes.items()),
        key=lambda edit: -edit[1].start,
    )
    if len({target for target, _, _ in edits}) < len(edits):
        raise PlanError("Two changes are for the same value.", remedy="give one of them")
    for _, span, value in edits:
        text = text[: span.start + offset] + _scalar(value) + text[span.end + offset :]
    parse_plan(text, file, shelf)
    return text


def _target(path: str, spans: Mapping[Path, _Span], file: str) -> tuple[Path, _Span]:
    parts: Path = tuple(int(p) if p.isdecimal() else p for p in path.split("."))
    if len(parts) == 2 and parts[0] == "sizes" and (*parts, "value") in spans:
        parts = (*parts, "value")
    if parts not in spans:
        known = [".".join(map(str, p)) for p in spans]
        raise PlanError(
            f"The plan has no single value at '{shortened(path)}'.",
            remedy=nearest(path, known),
            place=Place(file),
        )
    if spans[parts].fixed:
        raise PlanError(
            f"The value at '{shortened(path)}' {spans[parts].fixed}.",
            remedy="change it in an editor",
            place=Place(file),
        )
    return parts, spans[parts]


def _spans(text: str) -> Iterator[tuple[Path, _Span]]:
    """Every scalar value of a text that is known to be a plan, with its path."""
    from ruamel.yaml import events

    open_: list[list[Any]] = []  # [is a list, next index or key, whether a key is due]

    def path() -> Path:
        return tuple(level[1] for level in open_)

    def step() -> None:
        if open_ and open_[-1][0]:
            open_[-1][1] += 1
        elif open_:
            open_[-1][2] = True

    for event in yaml_events(text):
        match event:
            case events.ScalarEvent() if open_ and not open_[-1][0] and open_[-1][2]:
                open_[-1][1], open_[-1][2] = str(event.value), False
            case events.ScalarEvent():
                yield path(), _Span(event.start_mark.index, event.end_mark.index, _fixed(event))
                step()
            case events.AliasEvent():
                yield path(), _Span(0, 0, "is an alias (*) of another")
                step()
            case events.SequenceStartEvent():
                open_.append([True, 0, False])
            case events.MappingStartEvent():
                open_.append([False, "", True])
            case events.SequenceEndEvent() | events.MappingEndEvent():
                open_.pop()
                step()
            case _:
                pass


def _fixed(event: Any) -> str:
    if event.anchor is not None:
        return "is used again elsewhere (&)"
    if event.style in ("|", ">") or event.start_mark.line != event.end_mark.line:
        return "runs over several lines"
    return ""


_PLAIN = re.compile(r"[A-Za-z0-9(.](?:[A-Za-z0-9 .+*/()%_½¼¾-]*[A-Za-z0-9.)%½¼¾])?")


def _scalar(value: Value) -> str:
    """A value as YAML that reads back as the same value, block or flow."""
    if not isinstance(value, str):
        return str(value)
    if _is_plain(value):
        return value
    return json.dumps(value, ensure_ascii=not value.isprintable())


def _is_plain(text: str) -> bool:
    """Whether a text needs no quotes, in a block or in { } and [ ]."""
    return bool(_PLAIN.fullmatch(text)) and isinstance(read_plain(text), str)


def plan_text(plan: Plan) -> str:
    """The plan as the text of a plan file; reading it gives an equal plan."""
    from ruamel.yaml import YAML

    data = plan.model_dump(mode="json", by_alias=True, exclude_defaults=True)
    data["sizes"] = {n: _bare(s) for n, s in data.get("sizes", {}).items()}
    yaml = YAML(typ="rt", pure=True)
    yaml.width = 10_000
    yaml.indent(mapping=2, sequence=4, offset=2)
    stream = StringIO()
    yaml.dump(_arranged(data), stream)
    return stream.getvalue()


def _bare(size: dict[str, Any]) -> Any:
    return size["value"] if set(size) == {"value"} else size


_MAY_BE_EMPTY = frozenset({"hang", "keeps", "nothing", "work"})


def _arranged(data: Any) -> Any:
    """Small groups on one line, the verb of a step first, and nothing that is empty."""
    from ruamel.yaml.comments import CommentedMap, CommentedSeq
    from ruamel.yaml.scalarstring import DoubleQuotedScalarString

    if isinstance(data, list):
        items = CommentedSeq(_arranged(v) for v in data)
        if not any(isinstance(v, (dict, list)) for v in items):
            items.fa.set_flow_style()
        return items
    if isinstance(data, str) and not _is_plain(data):
        return DoubleQuotedScalarString(data)
    if not isinstance(data, dict):
        return data
    verb = next((v for v in VERBS if v in data), None) if "title" not in data else None
    keys = sorted(data, key=lambda k: (k != verb, k == "note", k == "work"))
    filled = {k: data[k] for k in keys if data[k] not in ({}, []) or k in _MAY_BE_EMPTY}
    group = CommentedMap((k, _arranged(v)) for k, v in filled.items())
    texts = sum(len(str(v)) for v in filled.values())
    if filled and texts < 60 and not any(isinstance(v, (dict, list)) for v in filled.values()):
        group.fa.set_flow_style()
    return group
