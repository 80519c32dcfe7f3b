"""Words of a plan are words: nothing in them runs, opens a file or breaks a page."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from cordwright.teach.fonts import STAND_IN, showable
from tests.teach.published import bare, booklet_of, outside, sheet_of, words_of

if TYPE_CHECKING:
    from cordwright.teach.typeset import Paper

PLAN = """
cordwright: 1
title: {t}
about: {q}
cords:
  main: {{fibre: {s}, build: {s}, diameter: 4 mm, colour: {s}}}
sizes:
  drop: {{value: 20 cm, about: {q}}}
mount:
  ring: {{inside: 50 mm, wire: 6 mm}}
  cords: [{{cord: main, count: 2}}]
work:
  - section: {t}
    work:
      - {{tie: square-knot, times: 4, note: {q}}}
      - {{free: drop}}
      - {{tie: overhand, note: {q}}}
"""

WORDS = {
    "typst code": '#panic("ran") #read("/etc/passwd") $x$ *b* _i_ @ref <label> \\u{41} [x] // c',
    "markup": "<script>alert(1)</script> &amp; &lt;b&gt; ]]> <svg onload=x> <image href='/x'/>",
    "path": "../../../../etc/passwd C:\\\\Windows file:///etc/passwd",
    "markdown": "# head **b** [a](javascript:x) ```` ~~~ | a | b | ![i](x) <!-- -->",
    "fluent": "{ $title } { -term } { 1 -> [one] x *[other] y }",
    "json": '","data":{"x":1}} \\" \\n \\u0041',
    "long word": "Donaudampfschiff" * 30,
    "many words": "many words " * 300,
    "right to left": "סל תלוי للنبات and 12 cm",
    "emoji": "Fern 🌿 cradle 🪢 漢字",
    "controls": "bell, escape and a turned end\u202e\u200f\u2067\u00ad x",
}


def plan_with(words: str, tmp_path: Path) -> Path:
    path = tmp_path / "plan.yaml"
    text = PLAN.format(q=_quoted(words), t=_quoted(words[:120]), s=_quoted(words[:60]))
    path.write_text(text, encoding="utf-8")
    return path


def _quoted(words: str) -> str:
    return "'" + words.strip().replace("'", "''") + "'"


CASES = [(kind, "a4") for kind in WORDS] + [("long word", "letter"), ("many words", "letter")]


@pytest.mark.parametrize(("kind", "paper"), CASES)
def test_hostile_words_come_out_as_words(kind: str, paper: Paper, tmp_path: Path) -> None:
    path = plan_with(WORDS[kind], tmp_path)
    pdf = booklet_of(path, paper)
    text = words_of(pdf)
    assert outside(pdf, paper) == []
    if kind not in ("right to left", "controls", "markup"):
        assert _squeezed(showable(WORDS[kind])) in _squeezed(text)
    if kind == "emoji":
        assert STAND_IN in text
    assert "root:" not in text  # what a file named in them would have held


@pytest.mark.parametrize("kind", list(WORDS))
def test_hostile_words_stay_words_in_the_filming_sheet(kind: str, tmp_path: Path) -> None:
    from cordwright.teach import publish

    sheet = sheet_of(plan_with(WORDS[kind], tmp_path))
    pdf = publish.filming_pdf(sheet)
    assert outside(pdf, "a4") == []
    assert "root:" not in words_of(pdf)
    text = publish.filming_markdown(sheet)
    before, _, fenced = text.partition("text\n")
    assert "<script" not in before.replace("\\<", "")
    assert fenced.rstrip().endswith(before.rsplit("\n", 1)[-1])  # the fence closes at the end only


def _squeezed(text: str) -> str:
    """Letters alone: where lines end differs from column to column."""
    return bare(text).replace(" ", "").replace("-", "").replace("\u2010", "")
