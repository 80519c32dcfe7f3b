from __future__ import annotations

import sys
from io import StringIO
from typing import TYPE_CHECKING

from cordwright.cli.progress import progress_bar
from tests.cli.test_show import Terminal

if TYPE_CHECKING:
    import pytest


def test_a_log_gets_one_line_a_knot(capsys: pytest.CaptureFixture[str]) -> None:
    with progress_bar() as report:
        for share in (0.0, 0.4, 1.0):
            report("square-knot, 9 fillers", share)
        report("overhand", 0.5)
    out, err = capsys.readouterr()
    assert out == ""
    assert err == "Tightening square-knot, 9 fillers ...\nTightening overhand ...\n"


def test_nothing_is_said_while_nothing_is_tightened(capsys: pytest.CaptureFixture[str]) -> None:
    with progress_bar():
        pass
    assert capsys.readouterr() == ("", "")


def test_a_terminal_gets_a_bar_that_goes_away(monkeypatch: pytest.MonkeyPatch) -> None:
    terminal: StringIO = Terminal()
    monkeypatch.setattr(sys, "stderr", terminal)
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.setenv("COLUMNS", "80")
    with progress_bar() as report:
        report("square-knot", 0.2)
        report("overhand", 0.2)
    shown = terminal.getvalue()
    assert "Tightening overhand" in shown
    assert shown.endswith("\x1b[2K")  # the bar's line is cleared
