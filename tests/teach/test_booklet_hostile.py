"""Words of a plan are words: nothing in them runs, opens a file or breaks a page."""

from __future__ import annotations

import typing
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from click.testing import CliRunner
from pydantic import BaseModel

from cordwright.cli.app import app
from cordwright.plan.model import Plan
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
    note: {q}
    work:
      - {{tie: square-knot, times: 4, note: {q}}}
      - {{free: drop, note: {q}}}
      - {{tie: overhand, note: {q}}}
"""

FREE = {"title", "about", "fibre", "build", "colour", "section", "note"}
"""Fields of a plan that take any words; a test holds the plan above to having them all."""

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


def free_fields(model: type[BaseModel], seen: set[type]) -> Iterator[str]:
    """Names of a model's fields, and of those within it, that take any words."""
    if model in seen:
        return
    seen.add(model)
    for name, field in model.model_fields.items():
        checked = any("Validator" in type(m).__name__ for m in field.metadata)
        if not checked and _any_words(field.annotation):
            yield field.alias or name
        for inner in _inside(field.annotation):
            if isinstance(inner, type) and issubclass(inner, BaseModel):
                yield from free_fields(inner, seen)


def _any_words(annotation: Any) -> bool:
    """Whether a field is text, or text or nothing, that no validator holds to a pattern."""
    kinds = typing.get_args(annotation) if type(None) in typing.get_args(annotation) else ()
    for kind in kinds or (annotation,):
        of, *metadata = typing.get_args(kind) or (kind,)
        if of is str and not any("Validator" in type(m).__name__ for m in metadata):
            return True
    return False


def _inside(annotation: Any) -> Iterator[Any]:
    yield annotation
    for inner in typing.get_args(annotation):
        yield from _inside(inner)


def test_hostile_words_are_tried_in_every_field_that_takes_words() -> None:
    found = set(free_fields(Plan, set()))
    # The name of a cord on the shelf is looked up there; a lesson never shows it.
    assert found - {"shelf"} == FREE
    assert all(f"{name}:" in PLAN for name in FREE)


@pytest.mark.parametrize("kind", ["typst code", "markup", "path", "markdown", "json", "fluent"])
def test_hostile_options_and_file_names_stay_words(kind: str, tmp_path: Path) -> None:
    words = WORDS[kind].replace("\n", " ")
    plan = plan_with("Plain words", tmp_path)
    name = words.replace("/", "").replace("\\", "")[:60].strip() or "x"
    hostile = plan.rename(tmp_path / f"{name}.yaml")
    edition = f"{words[:40].replace(':', '').strip()}: drop=15cm"
    out = tmp_path / "out"
    asked = (
        *("--out", str(out), "--what", "booklet", "--what", "filming", "--what", "steps"),
        *("--licence", words, "--booklet-version", words[:30], "--edition", edition),
        *("--edition", "other: drop=20cm"),
    )
    done = CliRunner().invoke(app, ["teach", *asked, "--", str(hostile)])
    assert done.exit_code == 0, done.output
    assert sorted(p.name for p in out.iterdir()) == sorted(
        ["booklet.pdf", *(f"{n}-{i}.{x}" for i in (1, 2) for n, x in FILES)]
    )
    pdf = (out / "booklet.pdf").read_bytes()
    assert outside(pdf, "a4") == []
    text = words_of(pdf)
    assert "root:" not in text
    assert _squeezed(showable(words)) in _squeezed(text)


FILES = (("filming", "md"), ("filming", "pdf"), ("steps", "json"), ("steps", "md"))
