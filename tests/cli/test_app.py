from __future__ import annotations

import re
from pathlib import Path

import click
import pytest

from cordwright.cli.app import app

DOCS = Path(__file__).parents[2] / "docs" / "commands.md"


def _leaves(name: str, command: click.Command) -> dict[str, click.Command]:
    """A command, or all the commands of a group, by what is typed."""
    if not isinstance(command, click.Group):
        return {name: command}
    found: dict[str, click.Command] = {}
    for word, part in command.commands.items():
        found |= _leaves(f"{name} {word}", part)
    return found


LEAVES = {k: v for name, c in app.commands.items() for k, v in _leaves(name, c).items()}
COMMANDS = sorted(LEAVES.items())


@pytest.fixture(scope="module")
def sections() -> dict[str, str]:
    """Each command's part of the page about commands; a group's own goes before each."""
    page = DOCS.read_text(encoding="utf-8")
    parts = re.split(r"(?m)^##+ `cordwright ([a-z]+(?: [a-z]+)*).*`$", page)
    found = dict(zip(parts[1::2], parts[2::2], strict=True))
    groups = {n for n, c in app.commands.items() if isinstance(c, click.Group)}
    return {n: found.get(n.split()[0], "") + t if n.split()[0] in groups else t
            for n, t in found.items() if n not in groups}  # fmt: skip


def test_every_command_is_documented_and_no_other(sections: dict[str, str]) -> None:
    assert sorted(sections) == sorted(LEAVES)


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
