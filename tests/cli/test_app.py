from __future__ import annotations

import re
from pathlib import Path

import click
import pytest

from cordwright.cli.app import app

DOCS = Path(__file__).parents[2] / "docs" / "commands.md"
COMMANDS = sorted(app.commands.items())


@pytest.fixture(scope="module")
def sections() -> dict[str, str]:
    """Each command's part of the page about commands."""
    parts = re.split(r"(?m)^## `cordwright (\w+).*`$", DOCS.read_text(encoding="utf-8"))
    return dict(zip(parts[1::2], parts[2::2], strict=True))


def test_every_command_is_documented_and_no_other(sections: dict[str, str]) -> None:
    assert sorted(sections) == sorted(app.commands)


@pytest.mark.parametrize(("name", "command"), COMMANDS)
def test_every_option_is_documented_and_no_other(
    sections: dict[str, str], name: str, command: click.Command
) -> None:
    there = {o for p in command.params if isinstance(p, click.Option) for o in p.opts}
    listed = set(re.findall(r"(?m)^\* `(--[a-z-]+)", sections[name]))
    assert listed == there


@pytest.mark.parametrize(("name", "command"), COMMANDS)
def test_every_choice_is_documented(
    sections: dict[str, str], name: str, command: click.Command
) -> None:
    for parameter in command.params:
        if isinstance(parameter.type, click.Choice):
            for choice in parameter.type.choices:
                assert re.search(rf"\b{choice}\b", sections[name])


@pytest.mark.parametrize(("name", "command"), COMMANDS)
def test_every_option_has_help(name: str, command: click.Command) -> None:
    assert command.help, name
    assert all(p.help for p in command.params if isinstance(p, click.Option))
