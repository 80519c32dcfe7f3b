from __future__ import annotations

import json
import re
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from tests.cli.conftest import Run


@pytest.fixture(autouse=True)
def _without_pictures(monkeypatch: pytest.MonkeyPatch) -> None:
    """Pictures need real knots; the command's part is what goes into them."""
    from cordwright.teach import publish
    from tests.browser.lessons import blank_pictures

    monkeypatch.setattr(publish, "drawn", lambda *of: blank_pictures(of[1]))


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


@pytest.fixture
def shelved(run: Run, sash: Path, tmp_path: Path) -> tuple[Path, Path]:
    """A plan that names a cord on a shelf, and that shelf; Ada has tied a swatch of it."""
    shelf, named = tmp_path / "shelf.db", tmp_path / "named.yaml"
    text = sash.read_text(encoding="utf-8")
    named.write_text(
        re.sub(r"main: \{.*\}", "main: {shelf: sand}", text, count=1), encoding="utf-8"
    )
    at = ("--shelf", shelf)
    assert (
        run("shelf", "add", "cord", "sand", "--fibre", "cotton", "--diameter", "4mm", *at)[0] == 0
    )
    tied = ("--knots", 10, "--height", "16 cm", "--start", "1 m", "--left", "42 cm")
    assert run("swatch", "add", "sand", *tied, "--maker", "Ada", *at)[0] == 0
    return named, shelf


def test_lengths_are_those_of_cut_for_the_same_shelf_maker_and_risk(
    run: Run, shelved: tuple[Path, Path], tmp_path: Path
) -> None:
    plan, shelf = shelved
    told = []
    for risk in ("1", "20"):
        hands = ("--shelf", shelf, "--maker", "Ada", "--risk", risk)
        assert run("teach", plan, "--what", "steps", "--out", tmp_path, *hands)[0] == 0
        lesson = json.loads((tmp_path / "steps.json").read_text(encoding="utf-8"))["cuts"]
        cut = json.loads(run("cut", plan, "--json", *hands)[1])["cords"]
        for field in ("length_mm", "spare_mm", "fold_mm"):
            assert [c[field] for c in lesson] == [c[field] for c in cut]
        told.append([c["spare_mm"] for c in lesson])
    assert told[0] > told[1]


def test_the_page_is_written_for_the_same_spare(
    run: Run, shelved: tuple[Path, Path], tmp_path: Path
) -> None:
    plan, shelf = shelved
    hands = ("--shelf", shelf, "--maker", "Ada", "--risk", "1")
    how = ("--licence", "For one pair of hands", "--booklet-version", "7")
    assert run("teach", plan, "--what", "page", "--out", tmp_path, *hands, *how)[0] == 0
    html = (tmp_path / "lesson.html").read_text(encoding="utf-8")
    data = json.loads(html.split('id="data">', 1)[1].split("</script>", 1)[0])
    assert data["chances"]["risk"] == 0.01
    assert data["editions"][0]["cuts"]["doubts"]["main"]["dof"] > 8.0  # Ada's swatches
    assert "For one pair of hands" in data["colophon"]
    assert "Edition 7" in data["colophon"][0]
