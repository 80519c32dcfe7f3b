from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from cordwright.cli.demo import demo_plan

if TYPE_CHECKING:
    from tests.cli.conftest import Run


def test_shows_the_cut_list_and_how_to_go_on(run: Run) -> None:
    status, out, err = run("demo")
    assert (status, err) == (0, "")
    assert "Cut\n" in out
    assert "cordwright demo --save my-plan.yaml" in out
    assert Path(out.split("The demo plan is the file ")[1].split("\n")[0].rstrip(".")).is_file()


def test_saves_the_plan_as_it_is(run: Run, tmp_path: Path) -> None:
    target = tmp_path / "mine.yaml"
    status, out, _ = run("demo", "--save", target)
    assert status == 0
    assert f"cordwright cut {target}" in out
    assert target.read_text(encoding="utf-8") == demo_plan().read_text(encoding="utf-8")
    assert run("cut", target)[0] == 0


def test_does_not_overwrite(run: Run, tmp_path: Path) -> None:
    target = tmp_path / "mine.yaml"
    target.write_text("mine", encoding="utf-8")
    status, _, err = run("demo", "--save", target)
    assert status == 2
    assert err.startswith(f"{target}: There is such a file already")
    assert target.read_text(encoding="utf-8") == "mine"


def test_says_why_it_cannot_save(run: Run, tmp_path: Path) -> None:
    status, _, err = run("demo", "--save", tmp_path / "no" / "such" / "directory.yaml")
    assert status == 2
    assert "cannot be written: No such file or directory" in err
