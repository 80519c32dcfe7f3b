import time

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cordwright.errors import PlanError
from cordwright.plan.layout import layout
from cordwright.plan.read import parse_plan
from cordwright.plan.yamltree import read_tree
from tests.plan.texts import EVERY_STEP, SMALL

MOST_SECONDS = 20.0  # a bound that a runaway breaks and a busy machine does not


def test_scalars_follow_the_core_schema() -> None:
    text = "[12, -3, 1.5, true, null, ~, on, yes, 1-4, '5', 0x1F, 1e400, .nan, 2001-01-02]"
    assert read_tree(text, "") == [
        12, -3, 1.5, True, None, None, "on", "yes", "1-4", "5", "0x1F", "1e400", ".nan",
        "2001-01-02",
    ]  # fmt: skip


def test_aliases_stand_for_their_anchor() -> None:
    assert read_tree("a: &x [1, 2]\nb: *x", "") == {"a": [1, 2], "b": [1, 2]}


@pytest.mark.parametrize(
    ("text", "line", "part"),
    [
        ("", 1, "empty"),
        ("# nothing\n", 1, "empty"),
        ("a: 1\na: 2\n", 2, "stands twice; first in line 1"),
        ("a: 1\n---\nb: 2\n", 2, "more than one plan"),
        ("a: !!python/object:os.system x\n", 1, "tag"),
        ("a: *x\n", 1, "not defined"),
        ("a: &x [*x]\n", 1, "inside itself"),
        ("<<: {a: 1}\n", 1, "merge"),
        ("? [a]\n: b\n", 1, "a key belongs"),
        ("a: [1, 2\nb: 3\n", 2, "not closed"),
        ("a: {b: 1\nc: 3}}\n", 2, "not"),
        ("a: 'open\n", 2, "quotation mark"),
        ("a:\n\t- b\n", 2, "tab"),
        ("a: b: c\n", 1, "colon"),
        ("a: 1\n  b: 2\n", 2, "colon"),
        ("a:\n  - b\n c: 1\n", 3, "indentation"),
        ('a: "\\q"\n', 1, "backslash"),
        ("a: @b\n", 1, "quotes"),
        ("a: %b\n", 1, "quotes"),
    ],
)
def test_what_is_not_yaml_is_told_with_its_line(text: str, line: int, part: str) -> None:
    with pytest.raises(PlanError) as caught:
        read_tree(text, "a.yaml")
    assert part in str(caught.value)
    assert caught.value.place is not None
    assert caught.value.place.line == line
    assert caught.value.remedy


def _bomb() -> str:
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{i}: &a{i} [{', '.join([f'*a{i - 1}'] * 9)}]" for i in range(1, 40)]
    return "\n".join(lines)


@pytest.mark.parametrize(
    ("text", "part"),
    [
        (_bomb(), "more than 100000 parts"),
        ("[" * 999_000, "200 levels"),
        ("{a: " * 200_000, "200 levels"),
        ("- " * 400_000, "200 levels"),
        ("? " * 400_000, "200 levels"),
        ("a: &a [" + "&b [" * 150 + "]" * 151 + "\nc: " + "[" * 100 + "*a" + "]" * 100, "levels"),
        ("x" * 1_000_001, "1 MB"),
        ("é" * 600_000, "1 MB"),
        ("- 1\n" * 240_000, "more than 100000 parts"),
    ],
)
def test_bombs_are_refused_in_bounded_time(text: str, part: str) -> None:
    start = time.monotonic()
    with pytest.raises(PlanError, match=part):
        parse_plan(text)
    assert time.monotonic() - start < MOST_SECONDS


def test_characters_written_in_halves_are_joined() -> None:
    assert read_tree('"\\ud83e\\uddf6"', "") == "\U0001f9f6"
    with pytest.raises(PlanError, match="does not exist"):
        read_tree('a: "\\ud83e"', "")


@pytest.mark.parametrize("text", ["'" + "\n" * 900_000, "\n" * 900_000, "a\n" * 400_000])
def test_long_scalars_are_refused_in_bounded_time(text: str) -> None:
    start = time.monotonic()
    with pytest.raises(PlanError):
        parse_plan(text)
    assert time.monotonic() - start < MOST_SECONDS


def test_nested_work_up_to_the_bound_reads() -> None:
    text = SMALL.split("work:\n  - {tie: square-knot, each: 4, times")[0]
    deep = "work: " + "[{repeat: 1, work: " * 98 + "[{tie: overhand}]" + "}]" * 98 + "\n"
    plan = parse_plan(text + deep)
    assert plan == parse_plan(text + deep)


yaml_bits = st.lists(
    st.sampled_from([
        "cordwright: 1", "title: x", "work:", "sizes:", "cords:", "mount:", "main:", "- ", "  ",
        "\n", "[", "]", "{", "}", ": ", ", ", "'", '"', "&a ", "*a", "!!int ", "|", ">", "?",
        "tie: square-knot", "repeat: 1000000000", "35 cm", "arm / 0", "\t", "#", "---", "1e999",
        "9" * 30, "null", "true", "\\U00110000", '"\\UFFFFFFFF"', "\x85", "\u2028", "%YAML 9.9",
    ]),
    max_size=60,
).map("".join)  # fmt: skip


@given(st.text(max_size=300) | yaml_bits)
@settings(max_examples=300, suppress_health_check=[HealthCheck.too_slow], deadline=None)
def test_any_text_is_a_plan_or_a_clear_error(text: str) -> None:
    with pytest.raises(PlanError) as caught:
        parse_plan(text, "a.yaml")
    assert str(caught.value).startswith("a.yaml")


@given(st.sampled_from([SMALL, EVERY_STEP]), st.data())
@settings(max_examples=300, suppress_health_check=[HealthCheck.too_slow], deadline=None)
def test_a_plan_with_a_fault_is_a_plan_or_a_clear_error(text: str, data: st.DataObject) -> None:
    start = data.draw(st.integers(0, len(text)))
    gone = data.draw(st.integers(0, 30))
    put = data.draw(st.text(max_size=10) | st.sampled_from(["*", "&", "{", "-1", "1e9", "null"]))
    try:
        parse_plan(text[:start] + put + text[start + gone :])
    except PlanError:
        return


trees = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=10),
    lambda t: st.lists(t, max_size=5) | st.dictionaries(st.text(max_size=8), t, max_size=5),
    max_leaves=20,
)


@given(
    st.sampled_from([
        "title", "cords", "sizes", "tail", "mount", "motifs", "work", "about", "cordwright",
    ]),
    trees,
)  # fmt: skip
@settings(max_examples=300, suppress_health_check=[HealthCheck.too_slow], deadline=None)
def test_any_value_of_a_key_is_fine_or_a_clear_error(key: str, value: object) -> None:
    import json

    head = {"cordwright": 1, "title": "x", "cords": {"main": {"fibre": "jute", "diameter": "4 mm"}},
            "mount": {"nothing": {}, "cords": [{"cord": "main"}]}, "work": []}  # fmt: skip
    try:
        parse_plan(json.dumps({**head, key: value}))
    except PlanError:
        return


def test_a_text_is_parsed_once_for_its_layout_and_its_values(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    from ruamel.yaml import YAML

    text = "a: 1\nb: [2, three]\n# only this test has this text\n"
    layout(text)
    monkeypatch.delattr(YAML, "parse")
    assert read_tree(text, "") == {"a": 1, "b": [2, "three"]}
    with pytest.raises(AttributeError):
        read_tree(f"{text}\n", "")


def test_a_text_that_breaks_off_is_no_text_that_was_read() -> None:
    """A reader that stops at a mistake leaves nothing behind that would pass for all of it."""
    text = "a: 1\nb: [2\nc: 3\n"
    for _ in range(2):
        with pytest.raises(PlanError):
            read_tree(text, "")
