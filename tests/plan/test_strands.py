import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.errors import Place, PlanError
from cordwright.plan.strands import Places, places


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("all", tuple(range(12))),
        ("3", (2,)),
        ("1-4", (0, 1, 2, 3)),
        ("1 - 4", (0, 1, 2, 3)),
        ("1-2, 9-12", (0, 1, 8, 9, 10, 11)),
        ("1 to n", (0, 1, 2, 3)),
        ("n+1 to end", tuple(range(4, 12))),
        ("end", (11,)),
        ("end - 1 to end", (10, 11)),
        ("n * 2", (7,)),
        ("5, 1, 3", (4, 0, 2)),
        ("max(1, 2), 4", (1, 3)),
    ],
)
def test_reads_places(text: str, expected: tuple[int, ...]) -> None:
    assert places(Places.parse(text), 12, {"n": 4.0}) == expected


def test_in_the_round_a_run_goes_over_the_seam() -> None:
    assert places(Places.parse("7 to 2"), 8, {}, round_=True) == (6, 7, 0, 1)
    with pytest.raises(PlanError, match="backwards"):
        places(Places.parse("7 to 2"), 8, {})


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("13", "strands 1 to 12"),
        ("0", "strand 0"),
        ("1-4, 3", "strand 3 twice"),
        ("1 to", "not a place"),
        ("1 to 2 to 3", "not a place"),
        ("1,,2", "missing"),
        ("", "missing"),
        ("n to end", "n"),
        ("2.5", "whole"),
        ("3 cm", "length"),
        ("end / 0", "zero"),
    ],
)
def test_says_what_is_wrong_with_places(text: str, part: str) -> None:
    with pytest.raises(PlanError, match=part):
        places(Places.parse(text), 12, {})


def test_names_the_column_of_the_fault() -> None:
    with pytest.raises(PlanError) as caught:
        places(Places.parse("1-4, 9 to 40", Place("a.yaml", 2, 10)), 12, {})
    assert caught.value.place == Place("a.yaml", 2, 20)


def test_a_list_joins_its_items_in_order() -> None:
    joined = Places.join([Places.parse("7-8"), Places.parse("1")])
    assert places(joined, 8, {}) == (6, 7, 0)
    assert Places.parse(joined.text) == joined
    with pytest.raises(PlanError, match="inside a list"):
        Places.join([Places.parse("all"), Places.parse("1")])
    with pytest.raises(PlanError, match="no strands"):
        Places.join([])


@given(st.lists(st.integers(1, 30), unique=True, min_size=1), st.integers(30, 40))
def test_single_places_come_out_as_written(wanted: list[int], n: int) -> None:
    text = ", ".join(map(str, wanted))
    assert places(Places.parse(text), n, {}) == tuple(i - 1 for i in wanted)


@given(st.integers(1, 20), st.integers(1, 20))
def test_a_run_in_the_round_has_the_strands_between(first: int, last: int) -> None:
    got = places(Places.parse(f"{first} to {last}"), 20, {}, round_=True)
    assert len(got) == (last - first) % 20 + 1
    assert (got[0], got[-1]) == (first - 1, last - 1)


@given(st.text(max_size=40) | st.text("0123456789-, toendall()+", max_size=40))
def test_any_text_is_places_or_a_clear_error(text: str) -> None:
    try:
        found = places(Places.parse(text), 12, {"n": 4.0})
    except PlanError:
        return
    assert len(set(found)) == len(found)
    assert all(0 <= i < 12 for i in found)
