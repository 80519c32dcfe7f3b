from __future__ import annotations

import copy
import difflib
from collections.abc import Iterator
from importlib.resources import files
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from cordwright.errors import PlanError
from cordwright.plan import rework
from cordwright.plan.layout import layout, read_path
from cordwright.plan.lines import in_flow
from cordwright.plan.model import Plan
from cordwright.plan.read import parse_plan
from cordwright.plan.write import plan_text
from tests.plan.strategies import plans, steps, texts
from tests.plan.texts import EVERY_STEP, SMALL

EXAMPLES = sorted(
    (e for e in (files("cordwright") / "examples").iterdir() if e.name.endswith(".yaml")),
    key=lambda e: e.name,
)
COMMENTED = [e.read_text(encoding="utf-8") for e in EXAMPLES]
quickly = settings(
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
    deadline=None,
    max_examples=30,
)


def tree(text: str) -> Any:
    return copy.deepcopy(layout(text.removeprefix("\ufeff")).root.plain)


def lists(part: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[str, list[Any]]]:
    """Lists of steps and of cords, with their paths."""
    pairs = part.items() if isinstance(part, dict) else enumerate(part)
    for key, value in pairs:
        here = (*path, key)
        if isinstance(value, list) and key in ("work", "cords"):
            yield ".".join(map(str, here)), value
        if isinstance(value, (dict, list)):
            yield from lists(value, here)


def at(part: Any, path: str) -> Any:
    for word in path.split("."):
        part = part[int(word)] if isinstance(part, list) else part[word]
    return part


def plain(step: dict[str, Any]) -> dict[str, Any]:
    """A step as JSON has it."""
    made = Plan.model_validate({**BASE, "work": [step]})
    dumped = made.model_dump(mode="json", by_alias=True, exclude_defaults=True)
    found: dict[str, Any] = dumped["work"][0]
    return found


BASE: dict[str, Any] = {
    "cordwright": 1,
    "title": "Base",
    "cords": {"main": {"fibre": "cotton", "diameter": "4 mm"},
              "fine": {"fibre": "cotton", "diameter": "2 mm"}},
    "mount": {"nothing": {}, "cords": [{"cord": "main"}]},
    "motifs": {"diamond": {"work": []}},
}  # fmt: skip

some_texts = st.sampled_from([SMALL, EVERY_STEP, *COMMENTED]) | plans.map(plan_text)


def blocks(text: str) -> set[str]:
    """Paths of lists that are written line by line."""
    found = layout(text.removeprefix("\ufeff"))
    return {p for p, _ in lists(tree(text)) if not found.node(read_path(p)).flow}


def comments(text: str) -> list[str]:
    return [line.strip() for line in text.splitlines() if line.strip().startswith("#")]


@given(some_texts, steps, st.data())
@quickly
def test_adding_a_step_changes_just_that_and_taking_it_out_gives_the_old_text(
    text: str, step: dict[str, Any], data: st.DataObject
) -> None:
    step = plain(step)
    path, held = data.draw(st.sampled_from([p for p in lists(tree(text)) if "cords" not in p[0]]))
    index = data.draw(st.integers(0, len(held)))
    changed = rework.add(text, path, index, step)
    meant = tree(text)
    at(meant, path).insert(index, step)
    assert tree(changed) == meant
    assert comments(changed) == comments(text)
    kept = [
        line for line in difflib.ndiff(text.splitlines(), changed.splitlines()) if line[0] == "-"
    ]
    assert len(kept) <= (0 if held and path in blocks(text) else 1)
    if len(held) or index:
        assert rework.remove(changed, f"{path}.{index}") == text


@given(some_texts, st.data())
@quickly
def test_moving_a_step_within_its_list_and_back_gives_the_old_text(
    text: str, data: st.DataObject
) -> None:
    several = [p for p in lists(tree(text)) if len(p[1]) > 1]
    assume(several)
    path, held = data.draw(st.sampled_from(several))
    start = data.draw(st.integers(0, len(held) - 1))
    end = data.draw(st.integers(0, len(held) - 1))
    moved = rework.move(text, f"{path}.{start}", path, end)
    meant = tree(text)
    at(meant, path).insert(end, at(meant, path).pop(start))
    assert tree(moved) == meant
    assert sorted(moved.splitlines()) == sorted(text.splitlines()) or path not in blocks(text)
    assert rework.move(moved, f"{path}.{end}", path, start) == text


@given(st.sampled_from([SMALL, EVERY_STEP, *COMMENTED]), st.data())
@quickly
def test_moving_a_step_to_another_list_moves_just_that(text: str, data: st.DataObject) -> None:
    all_ = [p for p in lists(tree(text)) if p[1] and "cords" not in p[0]]
    path, held = data.draw(st.sampled_from(all_))
    start = data.draw(st.integers(0, len(held) - 1))
    own = f"{path}.{start}"
    others = [p for p, _ in all_ if not f"{p}.".startswith(f"{own}.") and p != path]
    assume(others)
    goal = data.draw(st.sampled_from(others))
    end = data.draw(st.integers(0, len(at(tree(text), goal))))
    moved = rework.move(text, own, goal, end)
    meant = tree(text)
    into, item = at(meant, goal), at(meant, path).pop(start)
    into.insert(end, item)
    assert tree(moved) == meant
    if not in_flow(layout(text.removeprefix("\ufeff")), read_path(goal)):
        assert sorted(comments(moved)) == sorted(comments(text))


@given(some_texts, st.data())
@quickly
def test_copying_puts_the_same_once_more_and_keeps_every_line(
    text: str, data: st.DataObject
) -> None:
    all_ = [p for p in lists(tree(text)) if p[1]]
    assume(all_)
    path, held = data.draw(st.sampled_from(all_))
    start = data.draw(st.integers(0, len(held) - 1))
    end = data.draw(st.integers(0, len(held)))
    copied = rework.copy(text, f"{path}.{start}", path, end)
    meant = tree(text)
    at(meant, path).insert(end, copy.deepcopy(held[start]))
    assert tree(copied) == meant
    assert not [
        x for x in difflib.ndiff(text.splitlines(), copied.splitlines()) if x[0] == "-"
    ] or ("[" in text)


@given(some_texts, st.data())
@quickly
def test_taking_out_takes_just_that(text: str, data: st.DataObject) -> None:
    all_ = [p for p in lists(tree(text)) if p[1]]
    assume(all_)
    path, held = data.draw(st.sampled_from(all_))
    index = data.draw(st.integers(0, len(held) - 1))
    changed = rework.remove(text, f"{path}.{index}")
    meant = tree(text)
    del at(meant, path)[index]
    assert tree(changed) == meant


values = (
    texts
    | st.integers(0, 10**6)
    | st.sampled_from(["35 cm", "arm / 2", 2.5, "no", "null", "- x", "a: b", "#1", "'", '"', "4"])
    | st.dictionaries(st.sampled_from(["cord", "rim", "a b"]), texts, max_size=3)
    | st.lists(st.integers(0, 9), max_size=4)
)


@given(some_texts, values, st.data())
@quickly
def test_a_value_is_what_it_was_put_to_and_nothing_else_changes(
    text: str, value: Any, data: st.DataObject
) -> None:
    paths = ["title", "sizes.new", "tail", "about"]
    paths += [f"{p}.{i}.note" for p, held in lists(tree(text)) for i in range(len(held))]
    paths += [f"cords.{name}.colour" for name in tree(text)["cords"]]
    path = data.draw(st.sampled_from(paths))
    parent, _, key = path.rpartition(".")
    meant = tree(text)
    group = at(meant, parent) if parent else meant
    assume(isinstance(group, dict))
    group[key] = value
    assert tree(rework.put(text, path, value)) == meant


@given(st.sampled_from(COMMENTED), st.data())
@quickly
def test_taking_a_key_out_again_gives_the_old_text(text: str, data: st.DataObject) -> None:
    paths = [f"{p}.{i}.note" for p, held in lists(tree(text)) for i in range(len(held))]
    path = data.draw(st.sampled_from(paths))
    assume("note" not in at(tree(text), path.rpartition(".")[0]))
    assert rework.remove(rework.put(text, path, "A word, or two: #3"), path) == text


@pytest.mark.parametrize("text", COMMENTED)
def test_windows_line_ends_and_byte_order_marks_stay(text: str) -> None:
    there = "\ufeff" + text.replace("\n", "\r\n")
    changed = rework.add(there, "work", 0, {"section": "New", "work": [{"free": "2 cm"}]})
    assert changed == "\ufeff" + rework.add(
        text, "work", 0, {"section": "New", "work": [{"free": "2 cm"}]}
    ).replace("\n", "\r\n")


def test_comments_above_a_step_go_with_it_and_all_others_stay() -> None:
    text = """\
# of the plan
cordwright: 1
title: T
cords: {main: {fibre: jute, diameter: 3 mm}}
mount: {nothing: {}, cords: [{cord: main}]}
work:
  # of the first
  - free: 1 cm  # beside it
      # deeper: still of the first

  # of the second
  # in two lines
  - {free: 2 cm}
# at the end
"""
    moved = rework.move(text, "work.1", "work", 0)
    assert (
        moved[moved.index("work:") :]
        == """\
work:

  # of the second
  # in two lines
  - {free: 2 cm}
  # of the first
  - free: 1 cm  # beside it
      # deeper: still of the first
# at the end
"""
    )
    without = rework.remove(text, "work.0")
    assert comments(without) == [
        "# of the plan",
        "# of the second",
        "# in two lines",
        "# at the end",
    ]
    assert rework.move(moved, "work.0", "work", 1) == text


def test_a_size_with_bounds_keeps_them() -> None:
    text = COMMENTED[[e.name for e in EXAMPLES].index("oxbow-planter.yaml")]
    changed = rework.put(text, "sizes.arm", "20 cm")
    assert "arm: {value: 20 cm, at_least: 5 cm, at_most: 50 cm," in changed
    assert parse_plan(changed).sizes["arm"].about == parse_plan(text).sizes["arm"].about


def test_a_list_that_runs_empty_is_written_so_and_filled_again() -> None:
    text = "work:  # here\n  - section: A\n    work:  # there\n      # why\n      - free: 1 cm\n"
    emptied = rework.remove(text, "work.0.work.0")
    assert emptied == "work:  # here\n  - section: A\n    work: []  # there\n"
    assert rework.add(emptied, "work.0.work", 0, {"free": "2 cm"}).endswith(
        "    work:  # there\n      - {free: 2 cm}\n"
    )


@pytest.mark.parametrize(
    ("call", "part"),
    [
        (lambda: rework.put(SMALL, "", 1), "whole plan"),
        (lambda: rework.put(SMALL, "sizes.arm.x.y", 1), "nothing at"),
        (lambda: rework.put(SMALL, "work.99", 1), "nothing at"),
        (lambda: rework.remove(SMALL, "work.99"), "nothing at"),
        (lambda: rework.remove(SMALL, "tails"), "nothing at"),
        (lambda: rework.add(SMALL, "sizes", 0, 1), "no list"),
        (lambda: rework.add(SMALL, "work", 99, 1), "no place 99"),
        (lambda: rework.move(SMALL, "work.0", "work.0.work", 0), "into itself"),
        (lambda: rework.move(SMALL, "work.0", "work", 99), "no place 99"),
        (lambda: rework.move(SMALL, "title", "work", 0), "no item"),
        (lambda: rework.copy(SMALL, "title", "work", 0), "no item"),
        (lambda: rework.put("a: &x 1\nb: *x\n", "a", 2), "used again"),
        (lambda: rework.put("a: &x 1\nb: *x\n", "b", 2), "alias"),
        (lambda: rework.remove("a: &x 1\nb: *x\n", "a"), "used again"),
        (lambda: rework.add("work:\n  - - a\n    - b\n", "work.0", 0, "c"), "a line|so"),
        (lambda: rework.put(SMALL, "tail", float("nan")), "cannot be changed"),
    ],
)
def test_what_cannot_be_done_is_said(call: Any, part: str) -> None:
    with pytest.raises(PlanError, match=part):
        call()
