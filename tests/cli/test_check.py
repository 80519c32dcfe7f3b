from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.conftest import SASH, Run


def test_a_good_plan(run: Run, sash: Path) -> None:
    status, out, err = run("check", sash)
    assert (status, err) == (0, "")
    assert out.startswith("Trial sash: the plan can be worked (4 cords, 8 strands, 22 knots).")


def test_a_good_plan_in_json(run: Run, sash: Path) -> None:
    status, out, _ = run("check", sash, "--json")
    answer = json.loads(out)
    assert status == 0
    assert (answer["ok"], answer["errors"], answer["strands"]) == (True, [], 8)


def test_warnings_have_their_place(run: Run, sash: Path) -> None:
    sash.write_text(SASH.replace("each: 4, times: 4", "each: 3, times: 4"), encoding="utf-8")
    status, out, _ = run("check", sash)
    assert status == 0
    assert f"{sash}:16:" in out
    warnings = json.loads(run("check", sash, "--json")[1])["warnings"]
    assert [(w["file"], w["line"]) for w in warnings] == [(str(sash), 16)]


def test_everything_that_is_wrong_is_told_with_its_place(run: Run, sash: Path) -> None:
    bad = SASH.replace("square-knot", "square-nkot").replace("free: arm", "free: amr")
    sash.write_text(bad, encoding="utf-8")
    status, out, err = run("check", sash)
    assert (status, out) == (2, "")
    assert f"{sash}:14:11: " in err
    assert "square-knot" in err
    assert "  - {tie: square-nkot, each: 4, times: rows, gap: 5 mm}" in err


def test_what_is_wrong_in_json(run: Run, sash: Path) -> None:
    sash.write_text(SASH.replace("each: 4", "each: 40"), encoding="utf-8")
    status, out, err = run("check", sash, "--json")
    answer = json.loads(out)
    assert (status, answer["ok"]) == (2, False)
    assert answer["errors"][0]["line"] == 14
    assert answer["errors"][0]["what"] in err


@pytest.mark.parametrize("name", ["nowhere.yaml", ".", "x" * 5000])
def test_what_is_no_file_is_told(run: Run, tmp_path: Path, name: str) -> None:
    status, out, err = run("check", f"{tmp_path}/{name}")
    assert (status, out) == (2, "")
    assert "\n  try: " in err
