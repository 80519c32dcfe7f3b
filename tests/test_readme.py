from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

from cordwright.cli import main

if TYPE_CHECKING:
    import pytest

README = (Path(__file__).parents[1] / "README.md").read_text(encoding="utf-8")


def test_the_example_says_what_it_is_shown_to_say(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (plan,) = re.findall(r"```yaml\n(.*?)```", README, re.DOTALL)
    (shown,) = re.findall(r"```text\n(.*?)\n```", README, re.DOTALL)
    (tmp_path / "bookmark.yaml").write_text(plan, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    assert main(["cut", "bookmark.yaml"]) == 0
    assert capsys.readouterr().out.startswith(shown + "\n\n")


def test_every_page_that_is_linked_is_there() -> None:
    for name in re.findall(r"\]\(([^)#:]+)\)", README):
        assert (Path(__file__).parents[1] / name).is_file(), name
