from __future__ import annotations

import json
import tempfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from cordwright.cli import main
from cordwright.piece.report import cut_schema
from tests.cli.conftest import SASH, Run

SCHEMA = Path(__file__).parents[2] / "docs" / "cut-list.schema.json"


def answer(run: Run, *arguments: object) -> dict[str, object]:
    status, out, err = run("cut", *arguments, "--json")
    assert (status, err) == (0, "")
    return dict(json.loads(out))


def test_json_has_what_programs_need(run: Run, sash: Path) -> None:
    found = answer(run, sash)
    assert {"cords", "total_mm", "finished_length_mm", "strands"} <= found.keys()
    assert isinstance(found["cords"], list)
    assert isinstance(found["strands"], list)
    wanted = {"id", "count", "cord", "diameter_mm", "length_mm", "fold_mm", "spare_mm"}
    assert all(wanted <= cord.keys() for cord in found["cords"])
    assert sum(c["count"] * c["length_mm"] for c in found["cords"]) == found["total_mm"]
    assert [s["cord"] for s in found["strands"]] == ["main"] * 8


def test_json_keeps_to_its_published_schema(run: Run, sash: Path) -> None:
    # To write the page anew: json.dumps(cut_schema(), indent=2) and a line end.
    published = json.loads(SCHEMA.read_text(encoding="utf-8"))
    assert published == cut_schema()
    Draft202012Validator(published).validate(answer(run, sash))


def test_thinner_cord_and_shorter_arms_take_less(run: Run, sash: Path) -> None:
    full = answer(run, sash)["total_mm"]
    assert isinstance(full, float)
    for option in (("--diameter", "main=3mm"), ("--size", "arm=10cm"), ("--size", "rows=2")):
        less = answer(run, sash, *option)["total_mm"]
        assert isinstance(less, float)
        assert less < full


def test_people_see_each_cord_and_its_fold(run: Run, sash: Path) -> None:
    status, out, err = run("cut", sash)
    assert (status, err) == (0, "")
    assert "main, 4 mm, single twist, cotton, sand" in out
    assert "fold" in out
    assert " m " in out


def test_people_who_measure_in_inches(run: Run, sash: Path) -> None:
    out = run("cut", sash, "--units", "inch")[1]
    assert " ft" in out
    assert " cm" not in out.split("Cut\n")[1]


@pytest.mark.parametrize(
    ("arguments", "expected"),
    [
        (["--diameter", "mian=3mm"], "no cord called 'mian'"),
        (["--diameter", "main=3"], "--diameter main=3: "),
        (["--diameter", "main=1km"], "main"),
        (["--size", "amr=3 cm"], "no size called 'amr'"),
        (["--size", "arm=90 cm"], "at most 60 cm"),
        (["--size", "arm=1/0"], "zero"),
        (["--size", "arm=__import__('os')"], "arm"),
        (["--size", "arm"], "write it like --size arm=40cm"),
        (["--units", "furlongs"], "furlongs"),
    ],
)
def test_wrong_options_are_told(run: Run, sash: Path, arguments: list[str], expected: str) -> None:
    status, out, err = run("cut", sash, *arguments)
    assert (status, out) == (2, "")
    assert expected in err
    assert "Traceback" not in err


BOMB = "a: &a [x, x, x, x, x, x, x, x, x, x]\n" + "".join(
    f"{b}: &{b} [{', '.join(['*' + a] * 10)}]\n"
    for a, b in zip("abcdefgh", "bcdefghi", strict=True)
)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "[",
        "cordwright: 2",
        BOMB,
        "\x00",
        SASH.replace("times: rows", "times: 1000000000"),
        SASH.replace("times: rows", "times: rows / 0"),
        SASH.replace("free: arm", "free: -arm"),
        SASH.replace("30 cm", "1e400 cm"),
        SASH.replace("30 cm", ".inf"),
        SASH.replace("30 cm", "30 ells"),
        SASH.replace("free: arm", "free: rows"),
        SASH.replace("work:", "wrok:"),
        "[" * 10_000,
        "a: " + "(" * 10_000,
        SASH.replace("times: rows", "times: " + "9**" * 50 + "9"),
    ],
)
def test_bad_plans_end_with_a_message(run: Run, sash: Path, text: str) -> None:
    sash.write_text(text, encoding="utf-8")
    status, out, err = run("cut", sash)
    assert (status, out) == (2, "")
    assert err.startswith(str(sash))
    assert "Traceback" not in err


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(at=st.integers(0, len(SASH)), length=st.integers(0, 30), put=st.text(max_size=12))
def test_any_change_to_a_plan_gives_a_cut_list_or_a_message(
    capsys: pytest.CaptureFixture[str], at: int, length: int, put: str
) -> None:
    changed = SASH[:at] + put + SASH[at + length :]
    with tempfile.TemporaryDirectory() as directory:
        path = Path(directory) / "plan.yaml"
        path.write_bytes(changed.encode("utf-8", "surrogatepass"))
        status = main(["cut", str(path)])
    out, err = capsys.readouterr()
    assert status in (0, 2)
    assert bool(out) == (status == 0)
    assert bool(err) == (status == 2)
