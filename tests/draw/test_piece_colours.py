from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.draw.piece_colours import WORDS, linear, rgb_of
from tests.examples.conftest import NAMES, plan_of


@given(st.text(max_size=60))
def test_any_words_give_a_colour_and_always_the_same(words: str) -> None:
    assert re.fullmatch("#[0-9a-f]{6}", rgb_of(words))
    assert rgb_of(words) == rgb_of(words)


@pytest.mark.parametrize(
    ("words", "as_"),
    [("Sand", "sand"), ("rust red", "red"), ("ink blue", "blue"), ("", "undyed"), (None, "undyed")],
)
def test_words_that_makers_use(words: str | None, as_: str) -> None:
    assert rgb_of(words) == WORDS[as_]


def test_dark_is_darker_and_light_is_lighter() -> None:
    dark, plain, light = (sum(linear(rgb_of(w))) for w in ("dark moss", "moss", "light moss"))
    assert dark < plain < light


def test_the_examples_colours_are_known() -> None:
    for name in NAMES:
        for cord in plan_of(name).cords.values():
            assert rgb_of(cord.colour) in WORDS.values(), cord.colour


def test_linear_light_is_that_of_the_standard() -> None:
    # IEC 61966-2-1: mid grey 188 is half of the light.
    assert linear("#bcbcbc")[0] == pytest.approx(0.5, abs=0.004)
    assert linear("#000000") == (0.0, 0.0, 0.0)
    assert linear("#ffffff") == pytest.approx((1.0, 1.0, 1.0))
