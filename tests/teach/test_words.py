"""Catalogues: complete, alike in all languages, all of it used, and every lesson told from them."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest
from fluent.syntax import FluentParser, ast
from fluent.syntax.visitor import Visitor

import cordwright
from cordwright.errors import CordwrightError
from cordwright.hang.verdict import CAUTIONS as VERDICT_CAUTIONS
from cordwright.teach.amounts import Length
from cordwright.teach.general import CAUTIONS
from cordwright.teach.measures import Measures
from cordwright.teach.telling import tell
from cordwright.teach.told import Line, Quantity, Told
from cordwright.teach.words import LANGUAGES, LOCALES, Units, Words
from tests.teach.conftest import NAMES, lesson

PACKAGE = Path(cordwright.__file__).parent
UNITS = {"min", "g", "h", "in", "po", "pi"}


def may_be_alike(text: str) -> bool:
    """Whether a text may be the same in two languages: units, and one word such as 'Film'."""
    return len(set(re.findall(r"[^\W\d_]+", text)) - UNITS) < 2


class _Found(Visitor):
    """Arguments and text of one message."""

    def __init__(self) -> None:
        self.arguments: set[str] = set()
        self.texts: list[str] = []

    def visit_VariableReference(self, node: ast.VariableReference) -> None:  # noqa: N802
        self.arguments.add(node.id.name)

    def visit_TextElement(self, node: ast.TextElement) -> None:  # noqa: N802
        self.texts.append(node.value)


@cache
def messages(language: str) -> dict[str, _Found]:
    found: dict[str, _Found] = {}
    for path in sorted((LOCALES / language).glob("*.ftl")):
        for entry in FluentParser().parse(path.read_text(encoding="utf-8")).body:
            assert not isinstance(entry, ast.Junk), (path, entry.content)
            if isinstance(entry, ast.Message):
                assert entry.id.name not in found, "said twice"
                found[entry.id.name] = _Found()
                found[entry.id.name].visit(entry)
    return found


def test_every_language_has_its_folder_and_no_other() -> None:
    assert {p.name for p in LOCALES.iterdir() if p.is_dir()} == set(LANGUAGES)


@pytest.mark.parametrize("language", LANGUAGES[1:])
def test_every_message_is_there_with_the_same_arguments(language: str) -> None:
    ours, english = messages(language), messages("en")
    assert ours.keys() == english.keys()
    for key, found in english.items():
        assert ours[key].arguments == found.arguments, key


@pytest.mark.parametrize("language", LANGUAGES[1:])
def test_no_text_is_left_in_english(language: str) -> None:
    for key, found in messages(language).items():
        said, english = "".join(found.texts).strip(), "".join(messages("en")[key].texts).strip()
        assert said != english or may_be_alike(said), key


def test_every_message_is_used() -> None:
    source = "\n".join(p.read_text(encoding="utf-8") for p in sorted(PACKAGE.rglob("teach/*.py")))
    whole = set(re.findall(r'"([a-z][a-z-]*)"', source))
    begun = set(re.findall(r'f"([a-z][a-z-]*-)\{', source))
    unused = {
        key
        for key in messages("en")
        if key not in whole and not any(key.startswith(start) for start in begun)
    }
    assert unused == set()


def lines(told: Told) -> list[str]:
    around = (*told.facts, *told.materials, *told.tools, *told.cuts.values())
    end = (*told.finishing, *told.using, *told.cautions)
    steps = [s for part in told.sections for s in part.steps]
    done = [line for s in steps for line in (*s.lines, *(c for _, c in s.checks))]
    return [line.text for line in (*around, *done, *end)]


@pytest.mark.parametrize("units", ["metric", "inch", "both"])
@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("name", NAMES)
def test_every_example_can_be_told_in_every_language(
    name: str, language: str, units: Units
) -> None:
    for left_handed in (False, True):
        made = lesson(name, left_handed)
        told = tell(made, Words(language, units))
        for text in lines(told):
            assert text.strip()
            assert not re.search(r"[{}\ue000\ue001]|\bNone\b", text), text
            assert not re.search(r"(?i)\b(safe|rated|guarantee)", text), text
        assert [s.step.number for part in told.sections for s in part.steps] == list(
            range(1, 1 + sum(len(part.steps) for part in told.sections))
        )
        assert all(step.lines for part in told.sections for step in part.steps)


def test_cautions_are_those_of_the_account_of_loads() -> None:
    """All but the one that is about the pulls in that account: a lesson tells none."""
    words = Words()
    about_all = tuple(text for text in VERDICT_CAUTIONS if "pull that is told here" not in text)
    assert tuple(words.text(key) for key in CAUTIONS) == about_all
    assert len(about_all) == len(VERDICT_CAUTIONS) - 1


def test_lengths_are_written_as_the_language_does() -> None:
    assert Words("en").length(1245.0) == "1.245 m"
    assert Words("de").length(1245.0) == "1,245 m"
    assert Words("fr", "inch").length(1066.8) == "3 pi 6 po"
    assert Words("de", "both").length(184.0) == "18,4 cm (7 1/4 Zoll)"
    assert Words("de").thick(1.5) == "1,5 mm"


@pytest.mark.parametrize("language", LANGUAGES)
def test_one_and_several_are_told_apart(language: str) -> None:
    words = Words(language)
    one, two = (words.text("tied-square-knot", n=n) for n in (1, 2))
    assert "2" in two
    assert "1" not in one
    assert one != two.replace("2", "1")


def test_a_line_knows_its_lengths() -> None:
    length = Length(184.2, 4.2, {"s:arm": 1.0})
    line = Words().line("free-cord", length=length, strands=Line(("strand 1",)))
    (quantity,) = (p for p in line.parts if isinstance(p, Quantity))
    assert quantity.length is length
    assert quantity.text in line.text


def test_a_plan_cannot_pass_words_off_as_ours() -> None:
    hostile = "\ue0000\ue001 { $length } \u202e\x1b[31m\n# x"
    line = Words().line("material", length=Length(10.0), name=hostile, kind="", thick="4 mm")
    assert [type(p) for p in line.parts].count(Quantity) == 1
    assert "{ $length } [31m # x" in line.text.replace("\u201d", "")


@pytest.mark.parametrize("units", ["metric", "inch", "both"])
def test_cords_are_told_as_long_in_words_as_in_the_cut_list(units: Units) -> None:
    words = Words("en", units)
    made = lesson("cobble-belt")
    told = tell(made, words)
    for cut in made.cuts:
        assert Measures(words).to_cut(cut.length_mm) in told.cuts[cut.id].text
    both = tell(made, Words("en", "both")).cuts["A"].text
    assert "17 ft 9 in" in both  # 5.4 m is 17 ft 8.6 in: never less


def test_an_unknown_language_or_message_is_told() -> None:
    with pytest.raises(CordwrightError, match="no words"):
        Words("xx")
    with pytest.raises(CordwrightError, match="missing"):
        Words().text("nothing-like-it")
