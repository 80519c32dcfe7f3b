"""Scenes under the Khronos group's own validator, whose version a lock file holds."""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import get_args

import pytest

import hatch_build
from cordwright.draw.scene import scene
from cordwright.draw.scene_knots import Detail
from tests.draw.pieces import several

HERE = Path(__file__).parent / "validator"

Validate = Callable[..., "subprocess.CompletedProcess[str]"]


@pytest.fixture(scope="session")
def validate(tmp_path_factory: pytest.TempPathFactory) -> Validate:
    """Runs the validator over files; it is installed once, outside of the checkout."""
    tools = hatch_build.tools()
    home = tmp_path_factory.mktemp("validator")
    for name in ("package.json", "package-lock.json", "validate.mjs"):
        shutil.copy(HERE / name, home)
    hatch_build.install(home, tools)

    def validating(*files: Path) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [*tools.node, "validate.mjs", *map(str, files)],
            cwd=home, capture_output=True, text=True, encoding="utf-8", check=False,
        )  # fmt: skip

    return validating


def test_every_scene_is_without_fault(validate: Validate, tmp_path: Path) -> None:
    """No error, no warning, no hint but that viewers are left to make tangents.

    All examples are looked at in low detail, some of them in high detail too.
    """
    files = []
    for i, (name, what) in enumerate(several()):
        for detail in get_args(Detail)[: 1 if i % 6 else 2]:
            file = tmp_path / f"{name}-{detail}.glb"
            file.write_bytes(scene(what, detail=detail))
            files.append(file)
    done = validate(*files)
    assert done.returncode == 0, done.stdout + done.stderr
    assert done.stdout.count(" 0 errors") == len(files) > len(several())


def test_the_validator_notices_a_scene_that_is_wrong(validate: Validate, tmp_path: Path) -> None:
    good = scene(several()[0][1], detail="low")
    file = tmp_path / "wrong.glb"
    # Triangles of a kind of number that the format does not have.
    file.write_bytes(good.replace(b'"componentType":5123', b'"componentType":5129', 1))
    done = validate(file)
    assert done.returncode == 1
    assert "componentType" in done.stdout
