"""What is said of repeats, and that hostile words come out as text."""

from __future__ import annotations

import html
import re
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from cordwright.errors import CordwrightError
from cordwright.hang.counted import as_worked, counted
from cordwright.piece.cutlist import cut_list
from cordwright.piece.work import work
from cordwright.plan.read import parse_plan
from cordwright.teach.lesson import lesson_of
from cordwright.teach.markdown import escaped, markdown
from cordwright.teach.pace import KNOTS
from cordwright.teach.pacelog import entries, pace_of, read_pace
from cordwright.teach.recognise import Sign, best_run
from cordwright.teach.telling import tell
from cordwright.teach.words import Words
from tests.examples.conftest import ATLAS, piece_of, plan_of
from tests.teach.conftest import lesson, worked

HOSTILE = (
    "<script>alert(1)</script> *b* [x](http://a.example) #eval(1) $x$ `c` \\\\u0000 www.a.example"
)


def said(name: str, number: int) -> list[str]:
    told = tell(lesson(name), Words())
    steps = {s.step.number: s for part in told.sections for s in part.steps}
    return [line.text for line in steps[number].lines]


def test_steps_on_other_strands_are_said_as_a_repeat() -> None:
    shown = said("pellow-planter", 6)
    assert shown == ["Do steps 2 to 5 again in the same way, on strands 5\u20138 and 9\u201312."]


def test_the_same_steps_on_the_same_strands_are_said_as_a_repeat() -> None:
    assert said("cobble-belt", 5) == ["Do steps 2 to 4 again, 23 more times."]


def test_alternating_rows_are_said_as_the_first_two() -> None:
    assert "Rows 3 to 12: as rows 1 and 2." in said("haverley-bag", 11)


def test_narrowing_rows_are_said_as_one() -> None:
    shown = said("lantry-wall-planter", 2)
    assert any(s.startswith("Rows 2 to 6: in every row leave 2 more strands") for s in shown)


@given(st.lists(st.sampled_from("abc"), max_size=24))
def test_a_run_is_a_run(letters: list[str]) -> None:
    run = best_run([Sign(x) for x in letters])
    if run is None:
        assert all(a != b for a, b in pairwise(letters))
        return
    first = letters[run.start : run.start + run.length]
    assert letters[run.start : run.start + run.length + run.saved] == first * (1 + len(run.shifts))


def test_the_lesson_wants_a_record_of_the_steps() -> None:
    piece = piece_of("tally-fob")
    with pytest.raises(ValueError, match="without a record"):
        lesson_of(piece, cut_list(piece))


def test_the_lesson_has_the_sizes_of_its_piece() -> None:
    piece = work(plan_of("tally-fob"), ATLAS, sizes={"knots": "9"}, record=True)
    made = lesson_of(piece, cut_list(piece))
    assert {s.name: s.count for s in made.sizes}["knots"] == 9
    assert max(s.times for part in made.sections for s in part.steps) == 9


def test_cuts_of_the_lesson_are_the_cut_list() -> None:
    piece = worked("oxbow-planter")
    cuts = cut_list(piece)
    made = lesson_of(piece, cuts)
    assert [(c.id, c.count, c.length_mm, c.fold_mm) for c in made.cuts] == [
        (e.id, e.count, e.length_mm, e.fold_mm) for e in cuts.entries
    ]


def test_hostile_words_come_out_as_text() -> None:
    quoted = HOSTILE.replace('"', "'")
    plan = parse_plan(
        "cordwright: 1\n"
        f'title: "{quoted}"\nabout: "{quoted}"\n'
        "cords:\n"
        f'  main: {{fibre: "{quoted[:58]}", build: "{quoted[:58]}", diameter: 4 mm, '
        f'colour: "{quoted[:58]}"}}\n'
        f'sizes: {{arm: {{value: 10 cm, about: "{quoted}"}}}}\n'
        "mount: {rod: {length: 20 cm, thick: 12 mm}, cords: [{cord: main, count: 2}]}\n"
        f'work: [{{section: "{quoted}", '
        f'work: [{{tie: square-knot, times: 3, note: "{quoted}"}}]}}]\n'
    )
    piece = counted(as_worked(work(plan, ATLAS, record=True)))
    made = lesson_of(piece, cut_list(piece))
    for language in ("en", "de", "fr"):
        shown = markdown(tell(made, Words(language)))
        page = MarkdownIt("gfm-like", {"linkify": False}).render(shown)
        assert not re.search(r"<(script|a|img|code|b|i)\b", page)
        text = html.unescape(re.sub(r"<[^>]+>", "", page))
        assert text.count("<script>alert(1)</script> *b* [x](http://a.example) #eval(1)") >= 4


@given(st.text(st.characters(min_codepoint=32, max_codepoint=0x24F), max_size=40))
def test_markdown_shows_every_text_as_it_is(text: str) -> None:
    text = " ".join(text.split())
    page = MarkdownIt("commonmark").render(f"- x {escaped(text)}\n- {escaped(text)} x\n")
    items = re.findall(r"<li>(.*?)</li>", page)
    assert [html.unescape(i) for i in items] == [f"x {text}".strip(), f"{text} x".lstrip()]


def test_a_log_gives_the_pace(tmp_path: Path) -> None:
    path = tmp_path / "log.csv"
    path.write_text("day,knot,count,minutes\n1,square-knot,30,5\n2,square-knot,30,10\n")
    pace = read_pace(path)
    assert pace.of("square-knot").likely_s == 15.0
    assert (pace.of("square-knot").low_s, pace.of("square-knot").high_s) == (10.0, 20.0)
    assert pace.of("half-knot") == KNOTS["half-knot"]
    assert pace.own == {"square-knot"}
    piece = worked("tally-fob")
    usual, own = (lesson_of(piece, cut_list(piece), own_pace=p) for p in (None, pace))
    assert own.time.likely_s == pytest.approx(usual.time.likely_s + 7 * (15.0 - 14.0))


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("", "no column 'knot'"),
        ("knot,count\n", "no column 'minutes'"),
        ("knot,count,minutes\ngranny,3,4\n", "'granny' is no knot"),
        ("knot,count,minutes\nbraid,0,4\n", "not a number above 0"),
        ("knot,count,minutes\nbraid,nan,4\n", "not a number above 0"),
        ("knot,count,minutes\nbraid\n", "not a number above 0"),
    ],
)
def test_a_log_that_cannot_be_is_told(text: str, what: str) -> None:
    with pytest.raises(CordwrightError, match=what):
        pace_of(entries(text, Path("log.csv")))
