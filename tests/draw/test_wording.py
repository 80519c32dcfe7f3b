from __future__ import annotations

import re

import pytest

from cordwright.draw.caption import name, title
from cordwright.draw.chart_sheet import chart_sheet
from cordwright.draw.ink import FLAX, INKS, MARKS, RIGID
from cordwright.draw.piece_sheet import piece_sheet
from cordwright.draw.tying import tying
from cordwright.draw.wording import ENGLISH, KEYS, Wording, english
from cordwright.knots.atlas import Atlas
from cordwright.knots.spec import KnotName, KnotSpec
from tests.draw.pieces import flat
from tests.examples.conftest import ATLAS

WORD = re.compile(r"[^\W\d_]+")
SPECS = (
    KnotSpec(KnotName.SQUARE_KNOT, 3),
    KnotSpec(KnotName.SQUARE_KNOT, 4, filler_d=2.0),
    KnotSpec(KnotName.HALF_KNOT, 4),
    KnotSpec(KnotName.HALF_HITCH, 3, hand="right"),
    KnotSpec(KnotName.DOUBLE_HALF_HITCH, 2, filler_d=1.5),
    KnotSpec(KnotName.DOUBLE_HALF_HITCH, 2, hand="right", slant_deg=45.0),
    KnotSpec(KnotName.LARKS_HEAD, 2, over="ring", over_d=1.5),
    KnotSpec(KnotName.LARKS_HEAD, 2, over="rod", over_d=4.0, face="reverse"),
    KnotSpec(KnotName.OVERHAND, 1),
    KnotSpec(KnotName.GATHERING, 5, turns=4),
    KnotSpec(KnotName.BRAID, 3),
)
"""Every knot, and every way to name it."""


def keys(asked: set[str]) -> Wording:
    """Words without letters, so that anything else in a picture is seen."""

    def say(key: str, /, **values: str | int) -> str:
        assert KEYS[key] == set(values)
        asked.add(key)
        return "?"

    return Wording(say, lambda mm: f"<{mm:.0f}>", lambda x: f"<{x:g}>")


def test_pictures_say_nothing_but_what_they_are_given() -> None:
    asked: set[str] = set()
    wording = keys(asked)
    piece = flat("weir-meadow-hanging").piece
    plan = piece.plan
    chart = chart_sheet(piece, ATLAS, wording=wording)
    whole = piece_sheet(flat("weir-meadow-hanging"), wording=wording)
    own = [plan.title, plan.about or "", *plan.cords]
    own += [w for c in plan.cords.values() for w in (c.fibre, c.build or "", c.colour or "")]
    own += [s for k in piece.knots for s in k.section]
    own += [s for strand in piece.strands for s in strand.end.section]
    plans = {w for words in own for w in WORD.findall(words)}
    for text in (*chart.texts, *whole.texts):
        assert set(WORD.findall(text.words)) <= plans, text.words
    figures = tying(Atlas(), SPECS[0], wording)
    assert all("<title>?" in s.figure.svg for s in figures)
    assert all("<desc>?</desc>" in s.figure.svg for s in figures)
    for spec in SPECS:
        name(spec, wording)
        title(spec, wording)
    colours = {f"colour-{i.name}" for i in (*INKS, FLAX, RIGID)} | {f"mark-{m.name}" for m in MARKS}
    assert asked | colours | {"strand", "cord"} == set(KEYS)


@pytest.mark.parametrize("spec", SPECS, ids=lambda s: s.name.value)
def test_english_has_every_knots_name(spec: KnotSpec) -> None:
    words = title(spec, english())
    assert words.startswith(name(spec, english()))
    assert "{" not in words
    assert words[0].isupper()


def test_one_is_singular() -> None:
    said = english().say
    assert said("knot-braid", n=3) == "Braid of 3 strands"
    assert said("knot-overhand", n=1, hand="left") == "Overhand knot of 1 strand, left hand"
    for key in set(ENGLISH) - set(KEYS):
        assert key.removesuffix("-one") in KEYS


def test_lengths_are_written_in_the_asked_system() -> None:
    texts = [t.words for t in piece_sheet(flat("tally-fob"), wording=english("inch")).texts]
    assert any(t.endswith(" in") for t in texts)
    assert not any(t.endswith(" cm") for t in texts)


def test_a_bare_piece_has_no_lettering_and_an_open_ground() -> None:
    bare, full = (piece_sheet(flat("tally-fob"), bare=b) for b in (True, False))
    assert "<text" not in bare.svg
    assert 'class="n"' not in bare.svg
    assert 'height="100%"' not in bare.svg
    assert bare.scale == full.scale
    assert bare.width < full.width
    assert bare.height < full.height
    assert bare.svg.count("<use") == full.svg.count("<use")
