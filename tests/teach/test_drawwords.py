"""Words in pictures: every key in every language, hands swapped where pictures are mirrored."""

from __future__ import annotations

import re

import pytest

from cordwright.draw.chart_sheet import chart_sheet
from cordwright.draw.wording import KEYS
from cordwright.teach.drawwords import wording
from cordwright.teach.words import LANGUAGES, Words
from tests.examples.conftest import ATLAS
from tests.teach.conftest import worked
from tests.teach.test_words import messages

COUNTS = {"n": 3, "turns": 6, "number": 2, "of": 5, "times": 4, "first": 1, "last": 9}


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_key_of_pictures_has_words_with_its_values_and_no_other_has(language: str) -> None:
    ours = {k.removeprefix("draw-"): v for k, v in messages(language).items() if k[:5] == "draw-"}
    assert ours.keys() == KEYS.keys()
    for key, names in KEYS.items():
        assert ours[key].arguments == names, key


@pytest.mark.parametrize("language", LANGUAGES)
def test_words_of_pictures_work_out(language: str) -> None:
    say = wording(Words(language)).say
    for key, names in KEYS.items():
        values: dict[str, str | int] = {
            n: "left" if n == "hand" else COUNTS.get(n, "seven") for n in names
        }
        said = say(key, **values)
        assert said
        assert not re.search(r"[{}]", said)


def test_hands_are_swapped_for_mirrored_pictures() -> None:
    right, left = wording(Words()), wording(Words(), left_handed=True)
    assert "left hand" in right.say("knot-half-knot", n=2, hand="left")
    assert "right hand" in left.say("knot-half-knot", n=2, hand="left")


@pytest.mark.parametrize(("language", "word"), [("de", "Kreuzknoten"), ("fr", "Nœud plat")])
def test_a_chart_is_worded_in_its_language(language: str, word: str) -> None:
    chart = chart_sheet(worked("oxbow-planter"), ATLAS, wording=wording(Words(language)))
    shown = " ".join(text.words for text in chart.texts)
    assert word in shown
    assert "Square knot" not in shown
    assert "leave" not in shown
    assert "18 cm" in shown
