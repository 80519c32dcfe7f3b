from __future__ import annotations

import json
import re
import sys
from io import BytesIO, StringIO, TextIOWrapper

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.cli.show import Column, Screen, show_json

COLUMNS = [Column("cords", "right"), Column("of which"), Column("length", "right")]
ROWS = [["8", "main, 4 mm, cotton, sand", "4.85 m"], ["12", "fine", "85 cm"]]


class Terminal(StringIO):
    def isatty(self) -> bool:
        return True


def shown_in_terminal(monkeypatch: pytest.MonkeyPatch, width: int, **environment: str) -> str:
    terminal = Terminal()
    for name in ("NO_COLOR", "FORCE_COLOR", "TTY_COMPATIBLE"):
        monkeypatch.delenv(name, raising=False)
    for name, value in {"TERM": "xterm-256color", "COLUMNS": str(width), **environment}.items():
        monkeypatch.setenv(name, value)
    monkeypatch.setattr(sys, "stdout", terminal)
    screen = Screen()
    screen.heading("Cut")
    screen.table(COLUMNS, ROWS)
    return terminal.getvalue()


def test_in_a_pipe_columns_line_up_in_plain_text(capsys: pytest.CaptureFixture[str]) -> None:
    Screen().table(COLUMNS, ROWS)
    assert capsys.readouterr().out.splitlines() == [
        "cords  of which                  length",
        "    8  main, 4 mm, cotton, sand  4.85 m",
        "   12  fine                       85 cm",
    ]


def test_in_a_pipe_no_line_is_broken(capsys: pytest.CaptureFixture[str]) -> None:
    Screen().line("word " * 100)
    assert capsys.readouterr().out == "word " * 99 + "word\n"


def test_in_a_terminal_there_is_colour_and_a_rule(monkeypatch: pytest.MonkeyPatch) -> None:
    shown = shown_in_terminal(monkeypatch, 80)
    assert "\x1b[1m" in shown
    assert "─" in shown


def test_no_colour_if_none_is_wanted(monkeypatch: pytest.MonkeyPatch) -> None:
    assert "\x1b[3" not in shown_in_terminal(monkeypatch, 80, NO_COLOR="1")


@pytest.mark.parametrize("width", [16, 20, 40, 60, 200])
def test_every_figure_is_whole_in_any_terminal(monkeypatch: pytest.MonkeyPatch, width: int) -> None:
    shown = shown_in_terminal(monkeypatch, width, NO_COLOR="1")
    assert "4.85 m" in shown
    assert "85 cm" in shown
    shown = re.sub(r"\x1b\[\d*m", "", shown)
    assert max(len(line.rstrip()) for line in shown.splitlines()) <= width


@given(st.text(min_size=1))
def test_text_from_a_plan_cannot_move_the_cursor(text: str) -> None:
    with pytest.MonkeyPatch.context() as patch:
        output = StringIO()
        patch.setattr(sys, "stdout", output)
        Screen().table([Column("name")], [[text]])
    assert all(line.isprintable() for line in output.getvalue().split("\n"))


@pytest.mark.parametrize("encoding", ["utf-8", "ascii", "cp1252"])
def test_json_is_whole_in_any_encoding(monkeypatch: pytest.MonkeyPatch, encoding: str) -> None:
    buffer = BytesIO()
    monkeypatch.setattr(sys, "stdout", TextIOWrapper(buffer, encoding=encoding, errors="replace"))
    show_json({"title": "Größe ½ 結び"})
    sys.stdout.flush()
    assert json.loads(buffer.getvalue().decode(encoding)) == {"title": "Größe ½ 結び"}
