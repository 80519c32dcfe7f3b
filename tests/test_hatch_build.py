"""How the workbench's page is built on installation, and what happens where it cannot be."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
import tarfile
import zipfile
from pathlib import Path

import pytest

import hatch_build
import start
from hatch_build import CannotBuildError, Tools

ROOT = Path(__file__).parents[1]
PARTS = {"index.html", "icon.svg", "libraries.txt"}
NAMED = re.compile(r'(?:src|href)="/((?:app|style)-[A-Z0-9]+\.(?:js|css))"')


def named() -> set[str]:
    """Script and style sheet, as the page names them: with a hash, so that browsers keep them."""
    found = NAMED.findall((ROOT / hatch_build.PAGE / "index.html").read_text(encoding="utf-8"))
    assert len(found) == 2
    return set(found)


def test_the_page_is_built_from_the_present_sources() -> None:
    """Installing built it, or an earlier test; then nothing is built again."""
    hatch_build.build(ROOT)
    page = ROOT / hatch_build.PAGE
    assert {p.name for p in page.iterdir()} >= PARTS | named()
    before = (page / "index.html").stat().st_mtime_ns
    assert hatch_build.build(ROOT) is False
    assert (page / "index.html").stat().st_mtime_ns == before


@pytest.mark.parametrize("target", ["wheel", "sdist"])
def test_what_is_shipped_holds_the_page(target: str, tmp_path: Path) -> None:
    subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-t", target, "-d", str(tmp_path)],
        cwd=ROOT, check=True, capture_output=True,
    )  # fmt: skip
    (made,) = tmp_path.iterdir()
    if target == "wheel":
        with zipfile.ZipFile(made) as packed:
            names = packed.namelist()
    else:
        with tarfile.open(made) as archive:
            names = archive.getnames()
        assert any(n.endswith("/frontend/package-lock.json") for n in names)
        assert any(n.endswith("/hatch_build.py") for n in names)
    held = {n.rpartition("/")[2] for n in names if "cordwright/bench/page/" in n}
    assert held >= PARTS | named()
    assert not [n for n in names if "frontend/node_modules" in n]


def test_a_checkout_that_is_installed_serves_its_own_page() -> None:
    """An editable installation is a path to the sources, beside which the page is."""
    import cordwright

    assert cordwright.__file__ is not None
    assert Path(cordwright.__file__).parent / "bench" / "page" == ROOT / hatch_build.PAGE


def test_the_lock_of_libraries_has_hashes_and_names_no_address() -> None:
    lock = json.loads((ROOT / "frontend" / "package-lock.json").read_text(encoding="utf-8"))
    assert lock["lockfileVersion"] >= 3
    packages = {name: p for name, p in lock["packages"].items() if name}
    assert len(packages) > 20
    for name, package in packages.items():
        assert "resolved" not in package, name
        assert package["integrity"].startswith("sha512-"), name
    assert "://" not in json.dumps([p.get("version") for p in packages.values()])


def test_the_page_is_built_anew_when_a_source_changes(tmp_path: Path) -> None:
    shutil.copytree(
        ROOT / "frontend", tmp_path / "frontend", ignore=shutil.ignore_patterns("node_modules")
    )
    first = hatch_build.fingerprint(tmp_path)
    assert first == hatch_build.fingerprint(ROOT)
    (tmp_path / "frontend" / "node_modules").mkdir()
    (tmp_path / "frontend" / "node_modules" / "other.js").write_text("1", encoding="utf-8")
    assert hatch_build.fingerprint(tmp_path) == first
    (tmp_path / "frontend" / "index.html").write_text("<p>other</p>", encoding="utf-8")
    assert hatch_build.fingerprint(tmp_path) != first


def test_start_installs_again_when_a_source_changes() -> None:
    named = set(start.page_sources())
    assert {ROOT / "hatch_build.py", *hatch_build.sources(ROOT)} == named


def test_node_in_a_package_does_where_the_machine_has_none(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(shutil, "which", lambda _name: None)
    found = hatch_build.tools()
    done = subprocess.run([*found.node, "--version"], capture_output=True, text=True, check=True)
    assert done.stdout.startswith("v")
    done = subprocess.run([*found.npm, "--version"], capture_output=True, text=True, check=True)
    assert done.stdout[0].isdigit()


@pytest.mark.skipif(sys.platform == "win32", reason="writes a shell script")
@pytest.mark.parametrize(("version", "does"), [("v18.19.1", False), ("v20.0.0", True)])
def test_an_old_node_is_left_alone(
    version: str, does: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("node", "npm"):
        program = tmp_path / name
        program.write_text(f"#!/bin/sh\necho {version}\n", encoding="utf-8")
        program.chmod(0o755)
    monkeypatch.setenv("PATH", str(tmp_path))
    found = hatch_build.machine_tools()
    assert (found is not None) is does


def test_without_any_node_it_is_told_what_to_do(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(hatch_build, "machine_tools", lambda: None)
    monkeypatch.setattr(hatch_build, "packaged_tools", lambda: None)
    with pytest.raises(CannotBuildError, match=r"Node 20 or newer .* Install it\s+from nodejs"):
        hatch_build.tools()


def test_without_a_registry_it_is_told_what_to_do(tmp_path: Path) -> None:
    (tmp_path / "package-lock.json").write_text("{}", encoding="utf-8")
    failing = "import sys; sys.exit('npm error code ECONNREFUSED')"
    npm = Tools((), (sys.executable, "-c", failing))
    with pytest.raises(CannotBuildError, match=r"(?s)set one in npm's config.*ECONNREFUSED"):
        hatch_build.install(tmp_path, npm)


def test_libraries_are_fetched_once(tmp_path: Path) -> None:
    (tmp_path / "package-lock.json").write_text("{}", encoding="utf-8")
    making = "import pathlib; pathlib.Path('node_modules').mkdir()"
    hatch_build.install(tmp_path, Tools((), (sys.executable, "-c", making)))
    failing = Tools((), (sys.executable, "-c", "raise SystemExit(1)"))
    hatch_build.install(tmp_path, failing)
    (tmp_path / "package-lock.json").write_text('{"other": 1}', encoding="utf-8")
    with pytest.raises(CannotBuildError):
        hatch_build.install(tmp_path, failing)
