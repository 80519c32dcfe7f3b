from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from cordwright.hang.fit import fit_schema
from cordwright.plan.read import read_plan
from tests.hang.cradles import net_text

if TYPE_CHECKING:
    from tests.cli.conftest import Run


@pytest.fixture
def cradle(tmp_path: Path) -> Path:
    path = tmp_path / "cradle.yaml"
    path.write_text(net_text(), encoding="utf-8")
    return path


def test_people_see_whether_it_fits_and_where_everything_comes(run: Run, cradle: Path) -> None:
    status, out, err = run("fit", cradle, "--hook", "1.9 m")
    assert (status, err) == (0, "")
    assert "The pot" in out
    assert "fits." in out
    assert "above the floor" in out
    assert "nothing of strength" in out


def test_a_new_plan_is_written_with_what_was_asked(run: Run, cradle: Path, tmp_path: Path) -> None:
    new = tmp_path / "new.yaml"
    arguments = ("--hook", "70 cm", "--diameter", "main=4mm", "--out", new, "--json")
    status, out, err = run("fit", cradle, *arguments)
    assert status == 0
    assert "Trying the plan as it is" in err
    found = json.loads(out)
    assert found.keys() == fit_schema()["properties"].keys()
    assert found["fits"]
    (change,) = found["refit"]["changes"]
    plan = read_plan(new)
    assert plan.sizes["arm"].value.text == change["after"]
    assert plan.hang is not None
    assert plan.hang.hook is not None
    assert plan.hang.hook.text == "70 cm"
    status, _, err = run("fit", cradle, "--out", new)
    assert status == 2
    assert "already" in err


def test_what_is_impossible_writes_nothing(run: Run, cradle: Path, tmp_path: Path) -> None:
    new = tmp_path / "new.yaml"
    status, out, err = run("fit", cradle, "--hook", "50 cm", "--out", new)
    assert status == 2
    assert "at its least, 15 cm" in out
    assert "no plan was written" in err
    assert not new.exists()


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (["--pot", "rim=18cm,base=12cm"], "The pot has no height"),
        (["--pot", "rim=18cm,base=12cm,height=0cm,weight=1kg"], "'height' is zero"),
        (["--pot", "rim=18cm,base=12cm,height=9cm,weight=-1kg"], "weight=-1kg"),
        (["--pot", "rim=18cm,base=12cm,hieght=9cm"], "nothing that is said of a pot"),
        (["--hook", "-1 m"], "--hook -1 m"),
        (["--hook", "0 m"], "lies on the floor"),
        (["--hook", "1 m", "--clear", "2 m"], "Nothing can hang"),
        (["--diameter", "mian=3mm"], "no cord called 'mian'"),
        (["--size", "amr=3cm"], "no size called 'amr'"),
        (["--size", "arm=3m"], "at most"),
        (["--cord", "30 m"], "--out"),
        (["--cord", "much", "--out", "x.yaml"], "--cord much"),
    ],
)
def test_wrong_options_are_told(run: Run, cradle: Path, arguments: list[str], told: str) -> None:
    status, out, err = run("fit", cradle, *arguments)
    assert (status, out) == (2, "")
    assert told in err
    assert "Traceback" not in err


def test_what_hangs_from_nothing_or_holds_nothing_is_told(
    run: Run, sash: Path, tmp_path: Path
) -> None:
    pot = "rim=18cm,base=12cm,height=16cm,weight=1kg"
    assert "does not say what the piece holds" in run("fit", sash)[2]
    assert "flat" in run("fit", sash, "--pot", pot)[2]
    text = sash.read_text(encoding="utf-8")
    loose = tmp_path / "loose.yaml"
    loose.write_text(text.replace("rod: {length: 20 cm, thick: 12 mm}", "nothing: {}"))
    status, _, err = run("fit", loose, "--pot", pot)
    assert status == 2
    assert "nothing that it hangs from" in err
    alone = run("fit", loose)[2]
    assert "nothing that it hangs from" in alone
    assert "these options" not in alone
