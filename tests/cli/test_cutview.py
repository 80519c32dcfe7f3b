from __future__ import annotations

import json
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from cordwright.cli.cutview import ENDS, FOLDS, MOST_NAMES, PARTS, USES
from cordwright.piece.report import cut_schema
from cordwright.units.length import format_length
from tests.cli.conftest import SASH

if TYPE_CHECKING:
    from tests.cli.conftest import Run

EXAMPLES = sorted(Path(str(files("cordwright") / "examples")).glob("*.yaml"))


@pytest.mark.parametrize("plan", EXAMPLES, ids=lambda p: p.stem)
def test_people_see_what_programs_get(run: Run, plan: Path) -> None:
    report = json.loads(run("cut", plan, "--json")[1])
    status, out, err = run("cut", plan)
    assert (status, err) == (0, "")
    table = out.split("\nCut\n")[1].split("\n\n")[0].splitlines()
    for cord in report["cords"]:
        (row,) = (line for line in table if line.split()[:1] == [cord["id"]])
        assert f" {cord['count']}  {cord['cord']}, " in row
        assert format_length(cord["length_mm"], "metric") in row
        assert format_length(cord["spare_mm"], "metric") in row
        for part in cord["fold_mm"] or ():
            assert format_length(part, "metric") in row
    assert f"Finished length {format_length(report['finished_length_mm'], 'metric')} " in out
    for warning in report["warnings"]:
        assert warning["what"] in out
    assert all(section in out for s in report["sections"] for section in s["path"])


def test_many_strands_alike_are_counted(run: Run, sash: Path) -> None:
    text = SASH.replace("count: 4", "count: 24").replace("half-knot", "square-knot")
    sash.write_text(text, encoding="utf-8")
    out = run("cut", sash)[1]
    row = next(line for line in out.splitlines() if line.startswith("1L, "))
    assert row.count(",") == MOST_NAMES - 1
    assert " more " in row


def test_a_cord_of_unknown_weight(run: Run, sash: Path) -> None:
    sash.write_text(SASH.replace("cotton", "spider silk"), encoding="utf-8")
    assert "not known" in run("cut", sash)[1]


def test_there_are_words_for_everything_that_a_report_can_say() -> None:
    defined = cut_schema()["$defs"]
    cord, strand = defined["CordReport"]["properties"], defined["StrandReport"]["properties"]
    assert PARTS.keys() == set(cord["part"]["enum"])
    assert FOLDS.keys() == set(cord["fold"]["enum"]) - {"uneven"}
    assert ENDS.keys() == set(strand["ends"]["enum"])
    assert USES.keys() == set(defined["Use"]["enum"])
