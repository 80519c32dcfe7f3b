from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from tests.cli.conftest import SASH, Run

# The made-up square knot round two fillers is 4 d high, 5 d wide, and takes 16 d: of ten knots in
# 4 mm cord 160 mm, 20 mm and 640 mm.
TIED = ("--knots", "10", "--height", "17 cm", "--width", "22 mm", "--start", "1 m")


@pytest.fixture(autouse=True)
def shelf(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, run: Run) -> None:
    """A shelf of the test's own, with a cord."""
    monkeypatch.setenv("CORDWRIGHT_SHELF", str(tmp_path / "shelf.db"))
    assert run("shelf", "add", "cord", "sand", "--fibre", "cotton", "--diameter", "4mm")[0] == 0


@pytest.fixture
def named(sash: Path) -> Path:
    """A plan that names the cord."""
    text = re.sub(r"main: \{.*\}", "main: {shelf: sand}", SASH)
    sash.write_text(text, encoding="utf-8")
    return sash


def shown(run: Run, *options: str) -> dict[str, dict[str, float]]:
    return dict(json.loads(run("swatch", "show", "sand", "--json", *options)[1])["factors"])


def test_swatches_change_what_is_known(run: Run) -> None:
    before = shown(run)
    assert not before["take_up"]["known"]
    assert "published spread" in run("swatch", "show", "sand")[1]
    for _ in range(3):
        assert run("swatch", "add", "sand", *TIED, "--left", "42 cm")[0] == 0
    after = shown(run)
    assert after["take_up"]["known"]
    assert 580.0 / 640.0 < after["take_up"]["factor"] < before["take_up"]["factor"]
    assert 1.0 < after["height"]["factor"] < 170.0 / 160.0
    assert 1.0 < after["width"]["factor"] < 22.0 / 20.0
    for what in after:
        width = [found[what]["high"] / found[what]["low"] for found in (before, after)]
        assert width[1] < 1.0 + 0.5 * (width[0] - 1.0)
    assert "580 mm" in run("swatch", "list")[1]
    assert "published" not in run("swatch", "show", "sand")[1]


def test_cut_uses_swatches_and_a_chosen_risk(run: Run, named: Path) -> None:
    def cut(*options: str) -> dict[str, object]:
        return dict(json.loads(run("cut", named, "--json", *options)[1]))

    assert "The chance of main comes from how far published figures lie" in run("cut", named)[1]
    blind = cut("--risk", "5")
    for _ in range(3):
        run("swatch", "add", "sand", *TIED, "--left", "42 cm", "--maker", "Ada")
    usual, careful = cut("--maker", "Ada"), cut("--maker", "Ada", "--risk", "1")
    for report, chance in ((blind, 0.95), (usual, 0.95), (careful, 0.99)):
        cords = report["cords"]
        assert isinstance(cords, list)
        assert all(cord["chance"] >= chance - 1e-4 for cord in cords)
    totals = [r["total_mm"] for r in (usual, careful, blind)]
    assert totals == sorted(totals, key=float)  # type: ignore[arg-type]
    parts = usual["spare_parts"]
    assert isinstance(parts, dict)
    assert parts["known_from"] == {"main": "swatches"}
    out = run("cut", named, "--maker", "Ada")[1]
    assert re.search(r"9\d in 100", out)
    assert "The chance of main comes from your swatches" in out
    assert "leaves a risk of 5 in 100" in out


def test_a_finished_piece_teaches(run: Run, named: Path) -> None:
    report = json.loads(run("cut", named, "--json")[1])
    used = f"{report['used_mm'] * 1.1:.0f} mm"
    status, _, err = run("swatch", "log", named, "--cord", "main", "--cut", used, "--left", "0 mm")
    assert (status, err) == (0, "")
    assert shown(run)["take_up"]["factor"] > 1.05
    assert "Trial sash 1" in run("swatch", "list")[1]


@pytest.mark.parametrize(
    ("arguments", "expected"),
    [
        (["add", "sand", *TIED, "--left", "2 m"], "cannot be left of 1 m"),
        (["add", "sand", *TIED, "--left", "99 cm"], "times that of the tight knot"),
        (["add", "snad", *TIED, "--left", "42 cm"], "did you mean 'sand'?"),
        (["add", "sand", *TIED, "--left", "42 cm", "--fillers", "x"], "--fillers"),
        (["add", "sand", "--left", "42 cm"], "--knots"),
        (["show", "rust"], "no cord called 'rust'"),
    ],
)
def test_mistakes_are_told_and_nothing_is_kept(
    run: Run, arguments: list[str], expected: str
) -> None:
    status, out, err = run("swatch", *arguments)
    assert (status, out) == (2, "")
    assert expected in err
    assert "Traceback" not in err
    assert "empty" in run("swatch", "list")[1]


@pytest.mark.parametrize("left", ["90 m", "1 mm"])
def test_left_overs_that_cannot_be(run: Run, named: Path, left: str) -> None:
    options = ("--cord", "main", "--cut", "90 m", "--left", left)
    status, _, err = run("swatch", "log", named, *options)
    assert status == 2
    assert "left" in err


def test_load_draw_and_fit_know_the_shelf(run: Run, named: Path, tmp_path: Path) -> None:
    named.write_text(named.read_text(encoding="utf-8") + "hang: {factor: 8}\n", encoding="utf-8")
    plain = json.loads(run("load", named, "--json")[1])
    for _ in range(3):  # a taller sinnet of less cord: the piece grows lighter for its length
        run("swatch", "add", "sand", *TIED, "--left", "42 cm", "--maker", "Ada")
    status, out, err = run("load", named, "--json", "--maker", "Ada")
    assert (status, err) == (0, "")
    assert json.loads(out)["weight_g"] < plain["weight_g"]
    status, out, err = run("draw", named, "--what", "chart", "--out", tmp_path / "drawn")
    assert (status, err) == (0, "")
    status, out, err = run("fit", named, "--maker", "Ada")
    assert "no shelf is at hand" not in err
    assert "does not say what the piece holds" in err
    for command in (("load", named), ("draw", named), ("fit", named)):
        status, out, err = run(*command, "--shelf", tmp_path / "empty.db")
        assert (status, out) == (2, "")
        assert "There is no cord called 'sand' on the shelf." in err
