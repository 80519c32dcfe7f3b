"""The page's own code, run by Node."""

from __future__ import annotations

import json
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

import hatch_build

ROOT = Path(__file__).parents[2]
FRONTEND = ROOT / "frontend"


@pytest.fixture(scope="session")
def node() -> tuple[str, ...]:
    """Node, with the page's libraries in place."""
    tools = hatch_build.tools()
    hatch_build.install(FRONTEND, tools)
    return tools.node


Run = Callable[[str, Any], Any]


@pytest.fixture
def run(node: tuple[str, ...], tmp_path: Path) -> Run:
    """Runs a script with a value named `given`; gives what it says with `tell(value)`."""

    def running(script: str, given: Any) -> Any:
        source = FRONTEND / "src"
        entry, bundle = tmp_path / "entry.ts", tmp_path / "bundle.mjs"
        entry.write_text(
            script.replace("SRC", source.as_posix())
            + "\nfunction tell(value: unknown): void {"
            + " process.stdout.write(JSON.stringify(value)); }\n",
            encoding="utf-8",
        )
        subprocess.run(
            [
                *node, str(FRONTEND / "node_modules" / "esbuild" / "bin" / "esbuild"),
                str(entry), "--bundle", "--platform=node", "--format=esm", f"--outfile={bundle}",
                f"--define:given={json.dumps(given)}", "--log-level=error",
            ],
            check=True, cwd=FRONTEND,
        )  # fmt: skip
        done = subprocess.run([*node, str(bundle)], check=True, capture_output=True, text=True)
        return json.loads(done.stdout)

    return running
