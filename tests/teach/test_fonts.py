"""What the pages can show of a maker's words."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.teach import fonts
from cordwright.teach.bookdata import filled
from cordwright.teach.typeset import TypesettingError, typeset
from tests.teach.books import book


def test_every_character_that_is_let_through_has_a_font_in_every_face() -> None:
    """Typst writes no PDF/UA with a character that no font shows: setting is the proof."""
    known = sorted(fonts._known())
    lines = tuple(" ".join(known[i : i + 40]) for i in range(0, len(known), 40))
    typeset("booklet", filled(book(title="All of them", before=lines, tools=lines)))
    for line in lines:
        typeset("booklet", filled(book(title=line[:70])))


def test_a_character_without_a_font_is_refused_by_the_typesetter() -> None:
    data = filled(book(title="A leaf"))
    data["about"] = "\U0001f33f"
    with pytest.raises(TypesettingError, match="could not be displayed"):
        typeset("booklet", data)


@given(st.text(max_size=60))
def test_nothing_but_known_characters_comes_out(words: str) -> None:
    shown = fonts.showable(words)
    assert all(c in fonts._known() or c == " " for c in shown)
    assert fonts.showable(shown) == shown


@given(st.text(max_size=200))
def test_words_that_are_prepared_break_anywhere_if_long_and_keep_their_letters(words: str) -> None:
    out = fonts.prepared(words)
    bare = [c for c in out if c not in (fonts.BREAK, fonts.ISOLATE, fonts.END_ISOLATE)]
    assert "".join(bare) == fonts.showable(words)
    runs = out.replace(fonts.BREAK, " ").split()
    assert all(len([c for c in r if not unicodedata.combining(c)]) < fonts.LONG_WORD for r in runs)


def test_words_that_turn_the_direction_are_left_out() -> None:
    assert fonts.showable("left\u202eright\u2066!") == "leftright!"
    assert fonts.prepared("שלום").startswith(fonts.ISOLATE)


def test_what_is_lost_is_known() -> None:
    assert fonts.lost("knot \U0001faa2")
    assert not fonts.lost("knot □ и ñ")
