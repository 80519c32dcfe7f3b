"""Editions as they are asked for."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.errors import UnitsError
from cordwright.teach.editions import MOST, Edition, parse_edition, parse_editions


def test_an_edition_has_a_name_sizes_and_diameters() -> None:
    found = parse_edition("small: arm=12cm, pot = round(arm / 3, 1 cm) , cord main=3 mm")
    assert found == Edition("small", {"arm": "12cm", "pot": "round(arm / 3, 1 cm)"}, {"main": 3.0})


def test_an_edition_may_be_the_plan_as_it_stands() -> None:
    assert parse_edition("as planned:") == Edition("as planned")


@pytest.mark.parametrize(
    "text",
    ["", ":", "arm=12cm", "small: arm", "small: arm=", "small: a=1cm, a=2cm", "small: =3cm",
     "small: cord main=thick", "n" * 41 + ":", "small: ,"],
)  # fmt: skip
def test_what_is_no_edition_is_refused_with_an_example(text: str) -> None:
    with pytest.raises(UnitsError) as told:
        parse_edition(text)
    assert told.value.remedy or told.value.what


@given(st.text(max_size=80))
def test_any_text_is_an_edition_or_one_clear_error(text: str) -> None:
    try:
        found = parse_edition(text)
    except UnitsError:
        return
    assert found.name


def test_settings_of_the_command_hold_where_an_edition_sets_none() -> None:
    small, plain = parse_editions(["s: arm=1cm", "p:"], {"arm": "9cm", "pot": "8cm"}, {"main": 2.0})
    assert small.sizes == {"arm": "1cm", "pot": "8cm"}
    assert plain.sizes == {"arm": "9cm", "pot": "8cm"}
    assert small.diameters == {"main": 2.0}


def test_too_many_editions_and_equal_names_are_refused() -> None:
    with pytest.raises(UnitsError, match="Two"):
        parse_editions(["a:", "a:"], {}, {})
    with pytest.raises(UnitsError, match="side by side"):
        parse_editions([f"e{i}:" for i in range(MOST + 1)], {}, {})


def test_no_edition_asked_for_is_the_plan() -> None:
    assert parse_editions([], {"arm": "1cm"}, {}) == (Edition("", {"arm": "1cm"}),)
