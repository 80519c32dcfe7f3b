from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from cordwright.cli.text import clean


@given(st.text())
def test_nothing_is_left_that_a_terminal_would_obey(text: str) -> None:
    assert clean(text).isprintable()


@given(st.text(alphabet="abc½ µé"))
def test_ordinary_text_stays_as_it_is(text: str) -> None:
    assert clean(text, keep_ends=True) == text
