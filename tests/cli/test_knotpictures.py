from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

import pytest

from cordwright.cli import atlas_access
from cordwright.knots.atlas import Atlas
from cordwright.knots.spec import KnotName, KnotSpec

if TYPE_CHECKING:
    from tests.cli.conftest import Run

SPECS = [
    KnotSpec(KnotName.SQUARE_KNOT, 4),
    KnotSpec(KnotName.SQUARE_KNOT, 3),
    KnotSpec(KnotName.LARKS_HEAD, 2, over="rod", over_d=3.0),
]


@pytest.fixture(autouse=True)
def _few_true_knots(monkeypatch: pytest.MonkeyPatch, _made_up_knots: None) -> None:
    atlas = Atlas()
    monkeypatch.setattr(atlas_access, "entries", lambda: [atlas.figures(s) for s in SPECS])


def test_one_knot_is_drawn_with_its_steps(run: Run, tmp_path: Path) -> None:
    out = tmp_path / "new" / "pictures"
    status, said, _ = run("knots", "square-knot", "--fillers", 2, "--draw", "--out", out)
    assert status == 0
    names = sorted(p.name for p in out.iterdir())
    steps = [f"square-knot-n4-step-{n}.svg" for n in range(1, 6)]
    assert names == [*steps, "square-knot-n4.svg"]
    assert "Wrote 6 files" in said
    for path in out.iterdir():
        assert ET.parse(path).getroot().tag.endswith("svg")  # noqa: S314


def test_the_right_hand_is_drawn_when_asked_for(run: Run, tmp_path: Path) -> None:
    arguments = ("knots", "square-knot", "--fillers", 1, "--draw", "--out", tmp_path)
    assert run(*arguments, "--hand", "right")[0] == 0
    assert (tmp_path / "square-knot-n3-right.svg").exists()


def test_several_knots_come_with_a_sheet(run: Run, tmp_path: Path) -> None:
    status, _, _ = run("knots", "--draw", "--out", tmp_path)
    assert status == 0
    page = (tmp_path / "sheet.html").read_text(encoding="utf-8")
    for path in tmp_path.glob("*-*.svg"):
        assert f'src="{path.name}"' in page
    sheet = ET.parse(tmp_path / "sheet.svg").getroot()  # noqa: S314
    figures = sheet.findall("{*}svg")
    assert len(figures) == len(SPECS)
    names = " ".join(t.text or "" for t in sheet.findall("{*}text"))
    for figure in figures:
        assert figure.findtext("{*}title", "") in names
    size = [float(v) for v in sheet.attrib["viewBox"].split()[2:]]
    ends = [
        [float(f.attrib[at]) + float(f.attrib[by]) for at, by in (("x", "width"), ("y", "height"))]
        for f in figures
    ]
    assert all(x < size[0] and y < size[1] for x, y in ends)
    assert all(x < float(g.attrib["x"]) for (x, _), g in zip(ends, figures[1:], strict=False))
    assert (tmp_path / "sheet.png").read_bytes().startswith(b"\x89PNG")


def test_a_folder_that_cannot_be_written_is_told(run: Run, tmp_path: Path) -> None:
    taken = tmp_path / "file"
    taken.write_text("no folder")
    out = taken / "below"
    status, _, told = run("knots", "larks-head", "--draw", "--out", out)
    assert status != 0
    assert "--out" in told
