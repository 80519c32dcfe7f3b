from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

import start


@pytest.fixture
def silent_pip(monkeypatch: pytest.MonkeyPatch) -> list[list[str]]:
    """Lets nothing be installed; gives what was asked of pip."""
    asked: list[list[str]] = []
    monkeypatch.setattr(start, "install", lambda pip, what: asked.append([*pip, *what]))
    return asked


def test_an_old_python_is_told_what_to_do(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "version_info", (3, 9, 1))
    assert start.main(["demo"]) == 1
    assert "wants Python 3.11 or newer; this is 3.9.1" in capsys.readouterr().err


@pytest.mark.parametrize(("arguments", "status"), [(["help"], 0), (["--help"], 0), (["build"], 2)])
def test_anything_else_shows_the_commands(
    arguments: list[str], status: int, capsys: pytest.CaptureFixture[str]
) -> None:
    assert start.main(arguments) == status
    assert "start.py demo" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("arguments", "asked"),
    [([], []), (["run"], []), (["run", "cut", "x.yaml"], ["cut", "x.yaml"]), (["demo"], ["demo"])],
)
def test_what_is_run(
    arguments: list[str], asked: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """With nothing asked for, the program opens its workbench."""
    called: list[list[str]] = []

    def call(command: list[str]) -> int:
        called.append(command)
        return 0

    monkeypatch.setattr(start, "prepare", lambda _venv, dev: "" if dev else "python")
    monkeypatch.setattr(start, "call", call)
    assert start.main(arguments) == 0
    assert called == [["python", "-m", "cordwright", *asked]]


def test_the_environment_can_be_named(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.delenv("CORDWRIGHT_VENV", raising=False)
    assert start.environment() == start.ROOT / ".venv"
    monkeypatch.setenv("CORDWRIGHT_VENV", str(tmp_path))
    assert start.environment() == tmp_path


def test_installs_from_the_lock_once(tmp_path: Path, silent_pip: list[list[str]]) -> None:
    python = start.prepare(tmp_path / "venv", dev=False)
    assert [what for what in silent_pip if "--require-hashes" in what]
    assert [what for what in silent_pip if "-e" in what]
    assert str(start.DEV_LOCK) not in [word for what in silent_pip for word in what]
    silent_pip.clear()
    assert start.prepare(tmp_path / "venv", dev=False) == python
    assert silent_pip == []
    start.prepare(tmp_path / "venv", dev=True)
    assert str(start.DEV_LOCK) in [word for what in silent_pip for word in what]


def test_a_failed_installation_is_tried_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("CORDWRIGHT_VENV", str(tmp_path / "venv"))
    monkeypatch.setattr(start, "call", lambda command: int("install" in command))
    for _ in range(2):
        assert start.main(["demo"]) == 1
        assert "pip could not install" in capsys.readouterr().err


def test_without_pip_inside_pip_works_from_outside(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", str(tmp_path)], check=True)
    python = tmp_path / ("Scripts/python.exe" if sys.platform == "win32" else "bin/python")
    assert start.pip_for(python) == [sys.executable, "-m", "pip", "--python", str(python)]
    monkeypatch.setattr(start, "PIP_WITH_PYTHON_OPTION", (9999, 0))
    with pytest.raises(start.CannotStartError, match="no pip was found"):
        start.pip_for(python)


def test_a_broken_environment_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    python = tmp_path / ("Scripts/python.exe" if sys.platform == "win32" else "bin/python")
    python.parent.mkdir()
    python.write_text("#!/bin/sh\nexit 9\n", encoding="utf-8")
    python.chmod(0o755)
    monkeypatch.setenv("CORDWRIGHT_VENV", str(tmp_path))
    assert start.main(["run"]) == 1
    assert "does not work; delete it" in capsys.readouterr().err
