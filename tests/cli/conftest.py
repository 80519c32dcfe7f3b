"""Commands on made-up knots: what they show is tested here, not the knots."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import nullcontext
from pathlib import Path

import pytest

from cordwright.cli import atlas_access, main
from cordwright.knots.spec import KnotFigures, KnotName, KnotSpec
from tests.piece.conftest import MadeUpFigures, made_up

SASH = """\
cordwright: 1
title: Trial sash
about: Four cords and two sinnets.
cords:
  main: {fibre: cotton, build: single twist, diameter: 4 mm, colour: sand}
sizes:
  arm: {value: 30 cm, at_most: 60 cm}
  rows: 5
mount:
  rod: {length: 20 cm, thick: 12 mm}
  cords:
    - {cord: main, count: 4}
work:
  - {tie: square-knot, each: 4, times: rows, gap: 5 mm}
  - {free: arm}
  - {tie: half-knot, each: 4, times: 4}
  - {fringe: 12 cm}
"""
ENTRIES = [
    made_up(KnotSpec(KnotName.SQUARE_KNOT, strands=4)),
    made_up(KnotSpec(KnotName.SQUARE_KNOT, strands=5)),
    made_up(KnotSpec(KnotName.DOUBLE_HALF_HITCH, strands=2, slant_deg=45.0)),
    made_up(KnotSpec(KnotName.LARKS_HEAD, strands=2, over="rod", over_d=3.0)),
    made_up(KnotSpec(KnotName.GATHERING, strands=5, turns=4)),
]

Run = Callable[..., tuple[int, str, str]]


def entries() -> list[KnotFigures]:
    return ENTRIES


@pytest.fixture(autouse=True)
def _made_up_knots(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(atlas_access, "figures_source", lambda: nullcontext(MadeUpFigures()))
    monkeypatch.setattr(atlas_access, "entries", entries)


@pytest.fixture
def sash(tmp_path: Path) -> Path:
    """A plan that can be worked."""
    path = tmp_path / "sash.yaml"
    path.write_text(SASH, encoding="utf-8")
    return path


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    """Runs a command; gives its exit status, its output and its messages."""

    def run(*arguments: object) -> tuple[int, str, str]:
        status = main([str(a) for a in arguments])
        return status, *capsys.readouterr()

    return run
