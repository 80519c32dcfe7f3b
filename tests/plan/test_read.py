import os
from pathlib import Path

import pytest

from cordwright.errors import PlanError
from cordwright.plan.model import (
    GatherStep,
    MountRepeat,
    NewCord,
    NothingMount,
    RingMount,
    RowsStep,
    TieStep,
)
from cordwright.plan.problems import PlanErrors
from cordwright.plan.read import parse_plan, read_plan
from tests.plan.texts import EVERY_STEP, SMALL, bent


def test_reads_a_plan() -> None:
    plan = parse_plan(SMALL)
    tie = plan.work[0]
    assert isinstance(tie, TieStep)
    assert tie.times.text == "rows"
    assert isinstance(plan.mount.on, RingMount)
    assert plan.cords["main"].diameter_mm == 4.0
    assert plan.sizes["drop"].at_most is not None


def test_reads_every_step() -> None:
    plan = parse_plan(EVERY_STEP)
    assert isinstance(plan.mount.on, NothingMount)
    assert isinstance(plan.work[2], RowsStep)
    assert any(isinstance(s, GatherStep) and isinstance(s.with_, NewCord) for s in plan.work)
    assert len(plan.work) == 22


MOUNTED = "    - {cord: main, count: 8}"
RUN = """    - repeat: rows
      cords:
        - {cord: main, count: 2}
        - {cord: main}"""


def test_reads_a_repeated_run_of_cords() -> None:
    (run,) = parse_plan(bent(MOUNTED, RUN)).mount.cords
    assert isinstance(run, MountRepeat)
    assert run.repeat.text == "rows"
    assert [cord.count.text for cord in run.cords] == ["2", "1"]


@pytest.mark.parametrize(
    ("old", "new", "part"),
    [
        ("count: 2", "cuont: 2", "'cuont' is not a key of a mounted cord"),
        ("cord: main, count: 2", "count: 2", "The mounted cord has no 'cord'"),
        ("cord: main, count: 2", "cord: mian, count: 2", "no cord called 'mian'"),
        ("count: 2", "count: rwos", "uses 'rwos'"),
        ("repeat: rows", "repeat: rows\n      count: 2", "not a key of a repeated run of cords"),
        ("repeat: rows", "repeat: 4 cm", "whole number"),
        ("{cord: main}", "{repeat: 2, cords: []}", "'repeat' is not a key of a mounted cord"),
    ],
)
def test_a_repeated_run_of_cords_is_held_to_its_keys(old: str, new: str, part: str) -> None:
    with pytest.raises(PlanError, match=part):
        parse_plan(bent(MOUNTED, RUN.replace(old, new)))


def test_steps_and_sums_know_their_place() -> None:
    tie = parse_plan(SMALL, "a.yaml").work[0]
    assert isinstance(tie, TieStep)
    assert str(tie.where) == "a.yaml:22:5"
    assert str(tie.times.place) == "a.yaml:22:40"


def test_places_are_no_part_of_equality() -> None:
    assert parse_plan(SMALL, "a") == parse_plan("\n\n" + SMALL, "b")
    assert hash(parse_plan(SMALL).work[0]) == hash(parse_plan("\n" + SMALL).work[0])
    assert parse_plan(SMALL) != parse_plan(bent("each: 4, times", "each: 8, times"))


@pytest.mark.parametrize(
    ("old", "new", "line", "column", "part"),
    [
        ("arm / 2", "arm / 0", 9, 17, "divides by zero"),
        ("arm / 2", "amr / 2", 9, 13, "did you mean arm"),
        ("35 cm", "35 cm + 2", 7, 14, "a length and a number"),
        ("tail: 10 cm", "tail: 10", 11, 7, "10 cm"),
        ("tail: 10 cm", "tail: 10,5 cm", 11, 9, "point"),
        ("tail: 10 cm", "tail: rows", 11, 7, "a length is needed"),
        ("tail: 10 cm", "tail: [1]", 11, 7, "not a list"),
        ("tail: 10 cm", "tail:", 11, 1, "empty"),
        ("tail: 10 cm", "where: 3", 11, 1, "not a key"),
        ("square-knot, each: 4, gap", "squareknot, each: 4, gap", 20, 28, "square-knot"),
        ("{tie:", "{tei:", 22, 6, "did you mean tie"),
        ("each: 4, times", "eahc: 4, times", 22, 24, "did you mean each"),
        ("times: rows", "gather: all", 22, 33, "second verb"),
        ("times: rows", "times: arm", 22, 40, "a whole number is needed"),
        ("times: rows", "on: 1-2, 4", 22, 42, "[ ]"),
        ("times: rows", "hand: rihgt", 22, 39, "did you mean right"),
        ("times: rows", "hand: [left]", 22, 39, "does not fit"),
        ("title:", "titel:", 1, 1, "no 'title'"),
        ("main:", "to:", 4, 3, "meaning of its own"),
        ("count: 8", "count: 2.5", 15, 27, "not a whole number"),
        ("count: 8", "count: -1", 15, 27, "from 0"),
        ("count: 8", "count: 99999999999999999999", 15, 27, "15 digits"),
        ("count: 8", "count: true", 15, 27, "yes or no"),
        ("count: 8", "count: .nan", 15, 27, "no meaning"),
        ("count: 8", "count: 8, tail: 3 cm", 15, 7, "fold: none"),
        ("{cord: main", "{cord: mian", 15, 7, "did you mean main"),
        ("wire: 6 mm", "wyre: 6 mm", 13, 9, "no 'wire'"),
        ("ring:", "ringg:", 13, 3, "did you mean ring"),
        ("ring: {inside: 50 mm, wire: 6 mm}", "nothing: {}\n  rod: {length: 1 m, thick: 1 cm}",
         13, 3, "two holders"),
        ("4 mm", "400 mm", 4, 56, "0.1 mm to 100 mm"),
        ("4 mm", "4", 4, 56, "a length is needed"),
        ("4 mm", "4 mm, weight: heavy", 4, 70, "9.5 g/m"),
        ("cordwright: 1", "cordwright: 2", 1, 13, "format 1"),
        ("on: 1-8", "on: 1 to nn", 23, 31, "not a name"),
        ("with: {n: 6}", "with: {k: 6}", 23, 41, "takes no 'k'"),
        ("motif: diamond, on", "motif: dimond, on", 23, 5, "did you mean diamond"),
        ("each: 4, gap: gap", "each: 4, gap: gop", 20, 55, "did you mean gap"),
        ("rows: n / 2", "motif: diamond}\n      - {rows: n / 2", 18, 5, "circle"),
        ("fringe: half_arm", "fringe: half_arm, trim: point", 24, 5, "rise"),
        ("fringe: half_arm", "hitch: left, slant: 70", 24, 26, "0 to 60"),
        ("fringe: half_arm", "hitch: left, slant: .inf", 24, 26, "0 to 60"),
        ("fringe: half_arm", "hitch: left, tail: 1 cm", 24, 5, "cord:"),
        ("fringe: half_arm", "pass: 1-2", 24, 5, "behind: 5-8"),
        ("fringe: half_arm", "braid: 5, times: 2", 24, 13, "braid"),
        ("fringe: half_arm", "braid: 3", 24, 5, "length: 12 cm or times"),
        ("fringe: half_arm", "reorder: [1, 3]", 24, 5, "once"),
        ("fringe: half_arm", "gather: all, turns: 3, with: {crod: main}", 24, 36, "did you mean"),
        ("fringe: half_arm", "add: 2, cord: man, after: end", 24, 5, "did you mean main"),
        ("- {fringe: half_arm}", "- fringe", 24, 5, "a verb with a colon"),
        ("- {fringe: half_arm}", "- {on: all}", 24, 5, "no verb"),
        ("work:\n  - {tie", "work: 3\nx:\n  - {tie", 21, 7, "needs a list"),
    ],
)  # fmt: skip
def test_an_error_names_line_column_and_remedy(
    old: str, new: str, line: int, column: int, part: str
) -> None:
    with pytest.raises(PlanError) as caught:
        parse_plan(bent(old, new), "a.yaml")
    errors = caught.value.errors if isinstance(caught.value, PlanErrors) else (caught.value,)
    assert part in str(caught.value)
    assert f"a.yaml:{line}:{column}" in [str(e.place) for e in errors]
    assert all(e.remedy for e in errors)


def test_tells_all_errors_at_once_in_the_order_of_the_file() -> None:
    text = bent("times: rows", "tmes: rows").replace("wire: 6 mm", "wire: 6")
    with pytest.raises(PlanErrors) as caught:
        parse_plan(text)
    assert [e.place.line for e in caught.value.errors if e.place] == [13, 22]
    assert caught.value.what == caught.value.errors[0].what
    assert str(caught.value).count("try:") == 2


def test_many_errors_are_cut_short() -> None:
    with pytest.raises(PlanErrors) as caught:
        parse_plan(SMALL + "  - {tie: granny}\n" * 100)
    assert "… and 80 more." in str(caught.value)


def test_reads_a_file(tmp_path: Path) -> None:
    file = tmp_path / "plan.yaml"
    file.write_text(SMALL, encoding="utf-8-sig")
    assert read_plan(file) == parse_plan(SMALL)


@pytest.mark.parametrize("data", [b"\xff\xfe\x00", b"title: \xe9", b"\x89PNG\r\n"])
def test_refuses_what_is_not_utf_8(tmp_path: Path, data: bytes) -> None:
    file = tmp_path / "plan.yaml"
    file.write_bytes(data)
    with pytest.raises(PlanError, match="UTF-8"):
        read_plan(file)


def test_refuses_a_file_that_is_too_large(tmp_path: Path) -> None:
    file = tmp_path / "plan.yaml"
    file.write_text("é" * 600_000, encoding="utf-8")
    with pytest.raises(PlanError, match="1 MB"):
        read_plan(file)


def test_refuses_what_is_not_a_file(tmp_path: Path) -> None:
    with pytest.raises(PlanError, match="directory"):
        read_plan(tmp_path)
    with pytest.raises(PlanError, match="no such file"):
        read_plan(tmp_path / "none.yaml")
    with pytest.raises(PlanError, match="not a file"):
        read_plan("/dev/null")
    with pytest.raises(PlanError, match="cannot be read"):
        read_plan(tmp_path / ("x" * 5000))
    with pytest.raises(PlanError, match=r"no such file|cannot be read"):
        read_plan("a\0b")


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may read all")
def test_refuses_a_file_that_may_not_be_read(tmp_path: Path) -> None:
    file = tmp_path / "plan.yaml"
    file.write_text(SMALL)
    file.chmod(0)
    with pytest.raises(PlanError, match="may not be read"):
        read_plan(file)
