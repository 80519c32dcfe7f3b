from __future__ import annotations

import subprocess
import sys
import tempfile
from pathlib import Path

import click
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.cli.trouble import EXCERPT_COLUMNS, MOST_TOLD, excerpt, run, told
from cordwright.errors import Place, PlanError, WorkError
from cordwright.plan.problems import PlanErrors

Captured = pytest.CaptureFixture[str]


def failing(error: BaseException) -> click.Command:
    @click.command()
    def fails() -> None:
        raise error

    return fails


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    path = tmp_path / "plan.yaml"
    path.write_text("title: Sash\nwork:\n\t- tie: square-nkot\n", encoding="utf-8")
    return path


def test_an_error_is_told_with_its_line_and_a_caret(plan: Path) -> None:
    error = PlanError(
        "'square-nkot' is no knot.", remedy="square-knot", place=Place(str(plan), 3, 9)
    )
    assert told(error).splitlines() == [
        click.style(f"{plan}:3:9: ", bold=True) + "'square-nkot' is no knot.",
        "     3 |  - tie: square-nkot",
        "       |         " + click.style("^", fg="red", bold=True),
        f"  {click.style('try:', fg='green')} square-knot",
    ]


def test_several_errors_are_told_up_to_a_bound(plan: Path) -> None:
    errors = [PlanError(f"Wrong {i}.", place=Place(str(plan), 1, 1)) for i in range(MOST_TOLD + 5)]
    text = told(PlanErrors(errors))
    assert text.count("Wrong ") == MOST_TOLD
    assert text.endswith("... and 5 more.")


def test_long_lines_are_shown_round_the_caret(tmp_path: Path) -> None:
    path = tmp_path / "long.yaml"
    path.write_text("x" * 5000 + "?" + "x" * 5000, encoding="utf-8")
    line, caret = excerpt(Place(str(path), 1, 5001))
    assert line[caret.index("\x1b")] == "?"
    assert len(line) <= EXCERPT_COLUMNS + 10


@given(st.binary(max_size=200), st.integers(-2, 9), st.integers(-2, 300))
def test_any_file_and_place_can_be_excerpted(data: bytes, line: int, column: int) -> None:
    with tempfile.TemporaryDirectory() as directory:
        path = Path(directory) / "any"
        path.write_bytes(data)
        for shown in excerpt(Place(str(path), line, column)):
            assert click.unstyle(shown).isprintable()


@pytest.mark.parametrize("file", ["", "nowhere.yaml", ".", "\0", "--size arm=1"])
def test_a_place_without_a_file_has_no_excerpt(file: str) -> None:
    assert excerpt(Place(file, 1, 1)) == []


def test_wrong_input_ends_with_2(capsys: Captured) -> None:
    assert run(failing(WorkError("Three strands are left.")), []) == 2
    out, err = capsys.readouterr()
    assert (out, err) == ("", "Three strands are left.\n")


def test_wrong_usage_ends_with_2(capsys: Captured) -> None:
    assert run(failing(WorkError("not reached")), ["--nonsense"]) == 2
    assert "--nonsense" in capsys.readouterr().err


def test_a_fault_is_told_in_one_paragraph_with_3(
    capsys: Captured, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("CORDWRIGHT_DEBUG", raising=False)
    assert run(failing(ZeroDivisionError("float division")), []) == 3
    err = capsys.readouterr().err
    assert err.count("\n") == 1
    assert "ZeroDivisionError: float division" in err
    assert "Traceback" not in err


def test_a_fault_has_its_traceback_when_asked(
    capsys: Captured, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("CORDWRIGHT_DEBUG", "1")
    assert run(failing(ZeroDivisionError("float division")), []) == 3
    assert "Traceback" in capsys.readouterr().err


def test_an_interruption_is_quiet(capsys: Captured) -> None:
    assert run(failing(KeyboardInterrupt()), []) == 130
    assert capsys.readouterr().err.strip() == ""


@pytest.mark.skipif(sys.platform == "win32", reason="pipes break in another way there")
@pytest.mark.parametrize("lines", [1, 100_000])
def test_a_reader_that_goes_away_is_no_fault(lines: int) -> None:
    script = (
        "import sys, time, click\nfrom cordwright.cli.trouble import run\n"
        "@click.command()\ndef talk():\n"
        f"    sys.stdin.read()\n    print('a line of output\\n' * {lines})\n"
        "sys.exit(run(talk, []))\n"
    )
    with subprocess.Popen(
        [sys.executable, "-c", script],
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
    ) as talker:  # fmt: skip
        assert talker.stdin
        assert talker.stdout
        assert talker.stderr
        talker.stdout.close()  # before the first line is written
        talker.stdin.close()
        assert talker.stderr.read() == b""
        assert talker.wait(60) == 1
