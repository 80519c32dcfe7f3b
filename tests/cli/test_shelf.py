from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.conftest import SASH, Run


@pytest.fixture(autouse=True)
def shelf(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A shelf of the test's own."""
    path = tmp_path / "shelf" / "shelf.db"
    monkeypatch.setenv("CORDWRIGHT_SHELF", str(path))
    return path


def sand(run: Run) -> None:
    given = ("--fibre", "cotton", "--diameter", "4mm", "--colour", "sand")
    assert run("shelf", "add", "cord", "sand", *given)[0] == 0


def test_cord_comes_and_goes(run: Run) -> None:
    sand(run)
    assert "'sand 1' is on the shelf" in run("shelf", "put", "sand", "50m", "--price", "20 EUR")[1]
    assert "has 45.65 m left" in run("shelf", "take", "sand 1", "4.35m")[1]
    out = run("shelf", "list")[1]
    assert "Spools and left-overs" in out
    assert "45650 mm" in out
    found = json.loads(run("shelf", "show", "sand", "--json")[1])
    assert [x["price"] for x in found["length"]] == ["18.26 EUR"]
    assert found["cord"][0]["colour"] == "sand"
    assert run("shelf", "remove", "length", "sand 1")[0] == 0
    assert run("shelf", "remove", "cord", "sand")[0] == 0
    assert "empty" in run("shelf", "list")[1]


def test_fittings_are_counted(run: Run) -> None:
    run("shelf", "add", "ring", "brass", "--inside", "5cm", "--wire", "6mm", "--count", "2")
    assert "There are 5 of 'brass' now" in run("shelf", "put", "brass", "3")[1]
    assert "There are 1 of 'brass' left" in run("shelf", "take", "brass", "4")[1]
    status, out, err = run("shelf", "take", "brass", "4")
    assert (status, out) == (2, "")
    assert "There are 1 of 'brass', not 4" in err


@pytest.mark.parametrize(
    ("arguments", "expected"),
    [
        (["add", "cord", "x", "--fibre", "jute"], "--diameter: A cord needs its diameter"),
        (["add", "cord", "x", "--fibre", "jute", "--diameter", "4"], "no unit"),
        (["add", "ring", "x", "--fibre", "jute"], "A ring has no fibre"),
        (["add", "pen", "x"], "pen"),
        (["put", "snad", "5m"], "did you mean 'sand'?"),
        (["put", "sand", "5"], "no ring, rod or pot called 'sand'"),
        (["take", "sand 1", "5m"], "no length called 'sand 1'"),
        (["show", "x"], "Nothing on the shelf is called 'x'"),
        (["import", "nowhere.csv"], "nowhere.csv: The table cannot be read"),
        (["list", "--shelf", "."], "cannot be"),
    ],
)
def test_mistakes_are_told(run: Run, arguments: list[str], expected: str) -> None:
    sand(run)
    status, out, err = run("shelf", *arguments)
    assert (status, out) == (2, "")
    assert expected in err
    assert "Traceback" not in err


def test_tables_go_out_and_in(run: Run, tmp_path: Path) -> None:
    sand(run)
    run("shelf", "put", "sand", "50m")
    table, other = tmp_path / "t.csv", tmp_path / "other.db"
    assert run("shelf", "export", table)[0] == 0
    assert "there already" in run("shelf", "export", table)[2]
    assert "2 things" in run("shelf", "import", table, "--shelf", other)[1]
    lists = [json.loads(run("shelf", "list", "--json", *o)[1]) for o in ([], ["--shelf", other])]
    assert lists[0] == lists[1]
    table.write_text(table.read_text(encoding="utf-8").replace("4 mm", "4"), encoding="utf-8")
    err = run("shelf", "import", table)[2]
    assert f"{table}:2:" in err
    assert "cord,sand" in err
    table.write_text("what,name\nring,a\nrod,b\n", encoding="utf-8")
    err = run("shelf", "import", table)[2]
    assert "A ring needs its inside" in err
    assert "A rod needs its length" in err


def test_backup_and_check(run: Run, tmp_path: Path, shelf: Path) -> None:
    sand(run)
    copy = tmp_path / "copy.db"
    assert run("shelf", "backup", copy)[0] == 0
    assert "whole" in run("shelf", "check", "--shelf", copy)[1]
    assert json.loads(run("shelf", "check", "--json")[1]) == {"ok": True, "problems": []}
    copy.write_bytes(b"rubbish" * 1000)
    status, _, err = run("shelf", "check", "--shelf", copy)
    assert status == 2
    assert "backup" in err
    assert shelf.exists()


def test_a_plan_names_a_cord_on_the_shelf(run: Run, sash: Path) -> None:
    sand(run)
    named = "{shelf: sand, build: single twist}"
    text = SASH.replace("{fibre: cotton, build: single twist, diameter: 4 mm, colour: sand}", named)
    whole = json.loads(run("cut", sash, "--json")[1])
    sash.write_text(text, encoding="utf-8")
    assert run("check", sash)[0] == 0
    assert json.loads(run("cut", sash, "--json")[1]) == whole
    sash.write_text(text.replace("shelf: sand", "shelf: sadn"), encoding="utf-8")
    status, _, err = run("cut", sash)
    assert status == 2
    assert f"{sash}:5:" in err
    assert "did you mean sand?" in err


@pytest.mark.parametrize(
    ("data", "line", "column"),
    [
        (b"what,name\ncord,caf\xe9\n", 2, 9),
        ("what,name\ncord,\N{EURO SIGN}".encode() + b"\xff", 2, 7),
        ("what,name".encode("utf-16"), 1, 1),
    ],
)
def test_tables_in_another_encoding(
    run: Run, tmp_path: Path, data: bytes, line: int, column: int
) -> None:
    (tmp_path / "t.csv").write_bytes(data)
    status, out, err = run("shelf", "import", tmp_path / "t.csv")
    assert (status, out) == (2, "")
    assert f"t.csv:{line}:{column}: The table is not text in UTF-8." in err
