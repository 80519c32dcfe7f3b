from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from tests.cli.conftest import Run


def test_steps_are_written_into_a_folder(run: Run, sash: Path, tmp_path: Path) -> None:
    status, shown, wrong = run("teach", sash, "--what", "steps", "--out", tmp_path / "lesson")
    assert (status, wrong) == (0, "")
    assert "steps.md" in shown
    assert "# Trial sash" in (tmp_path / "lesson" / "steps.md").read_text(encoding="utf-8")
    data = json.loads((tmp_path / "lesson" / "steps.json").read_text(encoding="utf-8"))
    _, cut, _ = run("cut", sash, "--json")
    assert [c["length_mm"] for c in data["cuts"]] == [
        c["length_mm"] for c in json.loads(cut)["cords"]
    ]


@pytest.mark.parametrize(("language", "word"), [("de", "Kreuzknoten"), ("fr", "nœuds plats")])
def test_options_choose_the_edition(
    run: Run, sash: Path, tmp_path: Path, language: str, word: str
) -> None:
    options = ("--language", language, "--units", "both", "--left-handed", "--size", "rows=3")
    assert run("teach", sash, "--what", "steps", "--out", tmp_path, *options)[0] == 0
    assert word in (tmp_path / "steps.md").read_text(encoding="utf-8")
    assert json.loads((tmp_path / "steps.json").read_text(encoding="utf-8"))["mirrored"]


def test_a_folder_that_cannot_be_written_is_told(run: Run, sash: Path) -> None:
    status, _, wrong = run("teach", sash, "--what", "steps", "--out", sash)
    assert status == 2
    assert "cannot be written" in wrong


def test_a_log_that_is_not_there_is_told(run: Run, sash: Path, tmp_path: Path) -> None:
    status, _, wrong = run("teach", sash, "--pace", tmp_path / "no.csv", "--out", tmp_path)
    assert status == 2
    assert "log cannot be read" in wrong
