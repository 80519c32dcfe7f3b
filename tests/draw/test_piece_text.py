from __future__ import annotations

import itertools

from hypothesis import given
from hypothesis import strategies as st

from cordwright.draw.piece_text import ASCENT, DESCENT, Text, shortened, stacked, width


def test_widths_are_the_fonts() -> None:
    # Digits of Source Sans Pro are all 497/1000 of the size wide, by its hmtx table.
    assert abs(width("1234", 10.0) - 4 * 4.97) < 0.05
    assert width("Arms", 3.0, "bold") > width("Arms", 3.0)
    assert width("", 3.0) == 0.0


@given(st.text(max_size=30), st.floats(1.0, 40.0))
def test_shortened_words_fit(words: str, most: float) -> None:
    cut = shortened(words, most, 3.0)
    assert width(cut, 3.0) <= most or cut == "…"


@given(st.lists(st.floats(0.0, 50.0), min_size=1, max_size=20))
def test_stacked_texts_do_not_overlap(places: list[float]) -> None:
    texts = [Text(f"{i} cm", 0.0, y, 3.0) for i, y in enumerate(places)]
    moved = stacked(texts, 0.0, 30.0, 0.5)
    boxes = sorted((t.box for t in moved), key=lambda b: b.top)
    assert all(a.bottom <= b.top + 1e-6 for a, b in itertools.pairwise(boxes))
    assert boxes[0].top >= -1e-6
    assert [t.words for t in moved] == [t.words for t in texts]


def test_upright_text_has_an_upright_box() -> None:
    box = Text("96 cm", 10.0, 50.0, 4.0, anchor="middle", upwards=True).box
    assert box.right - box.left == 4.0 * (ASCENT + DESCENT)
    assert abs((box.top + box.bottom) / 2 - 50.0) < 1e-9


def test_lettering_keeps_its_width_in_any_font() -> None:
    text = Text("a < b\n", 0.0, 0.0, 3.0)
    assert f'textLength="{text.width:.2f}"' in text.svg()
    assert "a &lt; b " in text.svg()
