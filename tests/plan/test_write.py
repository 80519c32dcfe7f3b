import difflib

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cordwright.errors import PlanError
from cordwright.plan.model import Plan
from cordwright.plan.read import parse_plan
from cordwright.plan.write import edit_plan, plan_text
from tests.plan.strategies import lengths, plans, texts
from tests.plan.texts import EVERY_STEP, SMALL, bent


@given(plans)
@settings(suppress_health_check=[HealthCheck.too_slow], deadline=None)
def test_a_written_plan_reads_back_equal(plan: Plan) -> None:
    read = parse_plan(plan_text(plan))
    assert read == plan
    assert parse_plan(plan_text(read)) == read
    assert plan_text(read) == plan_text(plan)


@pytest.mark.parametrize("text", [SMALL, EVERY_STEP])
def test_written_examples_read_back_equal(text: str) -> None:
    plan = parse_plan(text)
    assert parse_plan(plan_text(plan)) == plan


def test_writes_short_groups_on_one_line_with_the_verb_first() -> None:
    written = plan_text(parse_plan(SMALL))
    assert "\n  - {tie: square-knot, each: 4, times: rows}\n" in written
    assert "\n  arm: 35 cm\n" in written


def test_an_edit_changes_its_values_and_nothing_else() -> None:
    edited = edit_plan(
        SMALL,
        {
            "sizes.arm": "40 cm",
            "sizes.drop": "1 ft",
            "cords.main.diameter": "5 mm",
            "mount.cords.0.count": 4,
            "work.0.each": 8,
            "title": "Oak: a cradle # 2",
        },
    )
    changed = [
        line
        for line in difflib.ndiff(SMALL.splitlines(), edited.splitlines())
        if line.startswith("+")
    ]
    assert changed == [
        '+ title: "Oak: a cradle # 2"',
        "+   main: {fibre: cotton, build: single twist, diameter: 5 mm, colour: sand}",
        "+   arm: 40 cm  # from ring to basket",
        "+   drop: {value: 1 ft, at_least: 10 cm, at_most: 40 cm}",
        "+     - {cord: main, count: 4}",
        "+   - {tie: square-knot, each: 8, times: rows}",
    ]


@given(lengths, texts)
@settings(deadline=None)
def test_an_edit_says_what_it_was_told(arm: str, title: str) -> None:
    if arm in ("arm", "arm / 2", "2 * leg + 1 mm", "max(0, arm - leg)"):
        arm = "7 cm"
    plan = parse_plan(edit_plan("\ufeff" + SMALL, {"sizes.arm": arm, "title": title}))
    assert plan.sizes["arm"].value.text == arm
    assert plan.title == title


@given(st.data())
@settings(deadline=None)
def test_edits_do_not_depend_on_their_order(data: st.DataObject) -> None:
    changes: dict[str, str | int] = {
        "sizes.arm": "40 cm",
        "sizes.rows": 8,
        "tail": "2 in",
        "work.0.each": 8,
    }
    order = data.draw(st.permutations(list(changes)))
    assert edit_plan(SMALL, {k: changes[k] for k in order}) == edit_plan(SMALL, changes)


@pytest.mark.parametrize(
    ("changes", "part"),
    [
        ({"sizes.amr": "1 m"}, "did you mean sizes.arm"),
        ({"sizes": "1 m"}, "no single value"),
        ({"work.9.each": 3}, "no single value"),
        ({"sizes.arm": "long"}, "not a name"),
        ({"sizes.drop": "9 m"}, "at most"),
        ({"sizes.drop": "20 cm", "sizes.drop.value": "30 cm"}, "same value"),
    ],
)
def test_refuses_edits_that_cannot_be(changes: dict[str, str | int], part: str) -> None:
    with pytest.raises(PlanError, match=part):
        edit_plan(SMALL, changes)


@pytest.mark.parametrize(
    ("text", "path", "part"),
    [
        (bent("arm: 35 cm", "arm: &a 35 cm"), "sizes.arm", "used again"),
        (bent("arm: 35 cm", "leg: &a 35 cm\n  arm: *a"), "sizes.arm", "alias"),
        (bent("tail: 10 cm", "about: |\n  A note.\n  More.\ntail: 10 cm"), "about", "lines"),
    ],
)
def test_refuses_edits_that_would_change_more(text: str, path: str, part: str) -> None:
    with pytest.raises(PlanError, match=part):
        edit_plan(text, {path: "1 cm"})
