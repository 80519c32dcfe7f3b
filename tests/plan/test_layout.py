from __future__ import annotations

from collections.abc import Iterator
from importlib.resources import files
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings

from cordwright.errors import PlanError
from cordwright.plan.layout import Item, Node, layout, read_path, written
from cordwright.plan.write import plan_text
from cordwright.plan.yamltree import read_tree
from tests.plan.strategies import plans
from tests.plan.texts import EVERY_STEP, SMALL

if TYPE_CHECKING:
    from cordwright.plan.model import Plan

EXAMPLES = sorted(
    (e for e in (files("cordwright") / "examples").iterdir() if e.name.endswith(".yaml")),
    key=lambda e: e.name,
)
TEXTS = [SMALL, EVERY_STEP, *(e.read_text(encoding="utf-8") for e in EXAMPLES)]


def items(node: Node) -> Iterator[Item]:
    for item in node.items:
        yield item
        yield from items(item.value)


@pytest.mark.parametrize("text", TEXTS)
def test_a_layout_holds_what_the_reader_reads(text: str) -> None:
    assert layout(text).root.plain == read_tree(text, "plan")


@given(plans)
@settings(suppress_health_check=[HealthCheck.too_slow], deadline=None, max_examples=30)
def test_a_layout_of_a_written_plan_holds_what_the_reader_reads(plan: Plan) -> None:
    text = plan_text(plan)
    assert layout(text).root.plain == read_tree(text, "plan")


@pytest.mark.parametrize("text", TEXTS)
def test_every_part_of_a_text_reads_as_itself(text: str) -> None:
    found = layout(text)
    for item in items(found.root):
        if item.value.kind == "value" and not item.value.fixed:
            own = text[item.value.start : item.value.end]
            assert layout(f"it: {own}").root.plain["it"] == item.value.plain
        if isinstance(item.key, str):
            assert text[item.start :].startswith(item.key)


def test_a_path_is_read_as_it_is_written() -> None:
    for path in ("work.1.work.0.times", "sizes.arm", "title"):
        assert written(read_path(path)) == path


def test_a_path_to_nothing_names_what_is_near() -> None:
    with pytest.raises(PlanError, match=r"did you mean sizes\.arm"):
        layout(SMALL).node(("sizes", "amr"))


@pytest.mark.parametrize("text", ["", "- a", "a: [", "{", "a: *b", "\t: x", "x: " + "[" * 300])
def test_a_text_that_is_no_plan_has_no_layout(text: str) -> None:
    with pytest.raises(PlanError):
        layout(text)
