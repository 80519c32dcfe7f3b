"""Writes plans: a whole plan as text, or single values changed in a maker's own text."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from io import StringIO
from typing import TYPE_CHECKING, Any

from cordwright.errors import Place, PlanError
from cordwright.plan.flow import flow_text, is_plain
from cordwright.plan.layout import BOM, Node, Path, layout, read_path
from cordwright.plan.problems import nearest, shortened
from cordwright.plan.read import parse_plan
from cordwright.plan.steps import VERBS

if TYPE_CHECKING:
    from cordwright.plan.model import Plan
    from cordwright.plan.shelved import ShelfCords

Value = str | int | float


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
    offset = len(text) - len(text.removeprefix(BOM))
    spans = dict(_spans(layout(text.removeprefix(BOM)).root))
    edits = sorted(
        ((*_target(path, spans, file), value) for path, value in changes.items()),
        key=lambda edit: -edit[1].start,
    )
    if len({target for target, _, _ in edits}) < len(edits):
        raise PlanError("Two changes are for the same value.", remedy="give one of them")
    for _, span, value in edits:
        text = text[: span.start + offset] + flow_text(value) + text[span.end + offset :]
    parse_plan(text, file, shelf)
    return text


def _target(path: str, spans: Mapping[Path, Node], file: str) -> tuple[Path, Node]:
    parts = read_path(path)
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


def _spans(node: Node, where: Path = ()) -> Iterator[tuple[Path, Node]]:
    """Every single value below a node, with its path."""
    for item in node.items:
        if item.value.kind in ("value", "alias"):
            yield (*where, item.key), item.value
        else:
            yield from _spans(item.value, (*where, item.key))


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
    if isinstance(data, str) and not is_plain(data):
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
