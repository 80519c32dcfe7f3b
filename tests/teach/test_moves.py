"""What is said below tying pictures is what happens in them."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from itertools import pairwise

import pytest

from cordwright.draw.crossings import crossings
from cordwright.draw.curves import lengths
from cordwright.draw.tying import Step, tying
from cordwright.knots.canonical import key
from cordwright.knots.spec import KnotName, KnotSpec
from cordwright.teach.labels import Labels
from cordwright.teach.moves import told_moves
from cordwright.teach.threads import own_ways
from cordwright.teach.words import LANGUAGES, Words
from tests.draw.knotpictures import HANDED, SPECS
from tests.teach.published import atlas

K = KnotName
EVERY = tuple(
    dict.fromkeys(
        (
            *SPECS,
            *HANDED,
            KnotSpec(K.HALF_HITCH, 2),
            *(KnotSpec(K.OVERHAND, n, hand="right") for n in (3, 5, 6, 8, 12, 16)),
            KnotSpec(K.GATHERING, 8, turns=6),
            KnotSpec(K.GATHERING, 3, turns=2),
            KnotSpec(K.LARKS_HEAD, 2, over_d=1.0),
        )
    )
)
MOST_LETTERS = 170
ARROWS = ("arrow", "Pfeil", "fl\N{LATIN SMALL LETTER E WITH GRAVE}che")


@cache
def steps_of(spec: KnotSpec) -> tuple[Step, ...]:
    return tying(atlas(), spec)


def told(spec: KnotSpec, language: str = "en") -> list[str]:
    return told_moves(spec, steps_of(spec), Labels(Words(language)))


@pytest.mark.parametrize("spec", EVERY, ids=lambda s: f"{key(s)} {s.hand}")
def test_every_picture_of_every_knot_is_told_in_every_language(spec: KnotSpec) -> None:
    for language in LANGUAGES:
        words = told(spec, language)
        assert len(words) == len(steps_of(spec))
        assert all(text.strip().endswith(".") for text in words)
        assert not any(re.search(r"[:,] ?\.", text) for text in words)
        assert max(map(len, words)) <= MOST_LETTERS
        assert not any(arrow in text for text in words for arrow in ARROWS)
        assert all(a != b for a, b in pairwise(words))


@pytest.mark.parametrize("hand", ["left", "right"])
@pytest.mark.parametrize("strands", [1, 2, 3, 4, 8])
def test_an_overhand_knot_goes_through_its_loop_from_one_side_to_the_other(
    strands: int, hand: str
) -> None:
    spec = KnotSpec(K.OVERHAND, strands, hand="left" if hand == "left" else "right")
    does = [own for step in own_ways(steps_of(spec)) for own in step]
    assert [own.what for own in does] == ["loop", "past", "into", "out"]
    into, out = does[2:]
    assert into.front != out.front  # else it would lie on its loop, and there would be no knot
    assert f"All {strands} strands together" in told(spec)[0] or strands == 1


def test_what_lies_on_its_loop_is_not_through_it() -> None:
    steps = steps_of(KnotSpec(K.OVERHAND, 1))
    laid = steps[-2]
    tube = laid.figure.tubes[0]
    found = sorted(max(c.over_at, c.under_at) for c in crossings((tube,)))
    lifted = tube.points.copy()
    lifted[lengths(lifted) > (found[-2] + found[-1]) / 2, 2] += (
        50.0  # the end stays in front where it leaves the loop
    )
    over = replace(laid, figure=replace(laid.figure, tubes=(replace(tube, points=lifted),)))
    does = [own for step in own_ways((*steps[:-2], over, steps[-1])) for own in step]
    assert [own.front for own in does[-2:]] == [True, True]


@pytest.mark.parametrize("turns", [2, 4, 6])
def test_a_gathering_knot_says_every_turn_once(turns: int) -> None:
    spec = KnotSpec(K.GATHERING, 5, turns=turns)
    first, *wound, last = told(spec)
    assert "loop that points down" in first
    said: list[int] = []
    for found in re.finditer(r"Turns? (\d+)(?: to (\d+))?:", " ".join(wound)):
        said += range(int(found[1]), 1 + int(found[2] or found[1]))
    assert said == list(range(1, turns + 1))
    ends = [text.endswith("Put the end through the loop, from the front.") for text in wound]
    assert ends == [False] * (len(wound) - 1) + [True]
    assert "under the turns" in last


def test_the_first_move_of_a_gathering_knot_makes_the_loop() -> None:
    steps = steps_of(KnotSpec(K.GATHERING, 5, turns=4))
    cord = next(
        i for i, (a, b) in enumerate(zip(steps[0].shown, steps[1].shown, strict=True)) if a != b
    )
    heights = steps[0].figure.tubes[cord].points[:, 1]
    assert min(heights[0], heights[-1]) - heights.min() > 5.0  # down, and up again
