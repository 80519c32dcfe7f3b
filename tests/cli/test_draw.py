from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from cordwright.cli import atlas_access
from tests.examples.conftest import ATLAS, FOLDER

if TYPE_CHECKING:
    from cordwright.knots.atlas import Atlas
    from tests.cli.conftest import Run

FOB = FOLDER / "tally-fob.yaml"


@contextmanager
def real() -> Iterator[Atlas]:
    yield ATLAS


@pytest.fixture(autouse=True)
def _tight_knots(monkeypatch: pytest.MonkeyPatch) -> None:
    # Pictures need the knots' curves, which made-up knots have not.
    monkeypatch.setattr(atlas_access, "atlas", real)


def test_writes_everything_into_one_folder(run: Run, tmp_path: Path) -> None:
    folder = tmp_path / "new" / "folder"
    status, out, err = run("draw", FOB, "--out", folder)
    assert (status, err) == (0, "")
    names = {p.name for p in folder.iterdir()}
    knots = {
        n
        for n in names
        if n.startswith(
            ("tally-fob-larks-head-", "tally-fob-square-knot-n5", "tally-fob-gathering-n")
        )
    }
    rest = names - knots
    assert rest == {"tally-fob-piece.svg", "tally-fob-chart.svg", "tally-fob-scene.glb"}
    assert all(f"{folder / n}" in out for n in rest)
    assert f"{len(knots)} pictures of its knots" in out
    tight = {n for n in knots if "-step-" not in n}
    assert len(tight) == 3
    for name in tight:
        assert sum(n.startswith(name.removesuffix(".svg") + "-step-") for n in knots) >= 3


def test_png_beside_every_picture(run: Run, tmp_path: Path) -> None:
    assert run("draw", FOB, "--out", tmp_path, "--what", "piece, strand=3L", "--png")[0] == 0
    names = {p.name for p in tmp_path.iterdir()}
    assert names == {f"tally-fob-{k}.{e}" for k in ("piece", "strand-3L") for e in ("svg", "png")}


def test_other_sizes_and_units_show(run: Run, tmp_path: Path) -> None:
    run("draw", FOB, "--out", tmp_path, "--what", "piece")
    usual = (tmp_path / "tally-fob-piece.svg").read_text(encoding="utf-8")
    options = ("--size", "knots=12", "--diameter", "core=2mm", "--units", "inch")
    run("draw", FOB, "--out", tmp_path, "--what", "piece", *options)
    other = (tmp_path / "tally-fob-piece.svg").read_text(encoding="utf-8")
    assert other.count("<use") == usual.count("<use") + 5
    assert " in</text>" in other


def test_low_detail_makes_a_smaller_scene(run: Run, tmp_path: Path) -> None:
    sizes = []
    for detail in ("high", "low"):
        run("draw", FOB, "--out", tmp_path, "--what", "scene", "--detail", detail)
        sizes.append((tmp_path / "tally-fob-scene.glb").stat().st_size)
    assert sizes[1] < 0.6 * sizes[0]


@pytest.mark.parametrize(
    ("arguments", "expected"),
    [
        (["--what", "pieces"], "'pieces' is nothing that can be drawn"),
        (["--what", ""], "nothing that can be drawn"),
        (["--what", "strand"], "strand=3L"),
        (["--what", "piece=2"], "nothing that can be drawn"),
        (["--what", "piece,strand=9"], "no strand '9'"),
        (["--size", "knots"], "write it like --size arm=40cm"),
        (["--size", "knots=99"], "at most 30"),
        (["--detail", "finest"], "finest"),
    ],
)
def test_wrong_options_are_told_before_anything_is_written(
    run: Run, tmp_path: Path, arguments: list[str], expected: str
) -> None:
    status, out, err = run("draw", FOB, "--out", tmp_path / "d", *arguments)
    assert (status, out) == (2, "")
    assert expected in err
    assert not (tmp_path / "d").exists()


def test_a_folder_that_cannot_be_made_is_told(run: Run, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    status, out, err = run("draw", FOB, "--out", tmp_path / "file" / "d", "--what", "chart")
    assert (status, out) == (2, "")
    assert "cannot be written" in err
