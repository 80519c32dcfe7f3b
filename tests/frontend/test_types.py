from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from tests.frontend.conftest import FRONTEND

MODULES = FRONTEND / "node_modules"
OPTIONS = ["--alphabetize=true", "--root-types=true", "--root-types-no-schema-prefix=true"]
"""As in the script `types` of package.json."""


def test_the_page_keeps_to_its_types(node: tuple[str, ...]) -> None:
    compiler = MODULES / "typescript" / "bin" / "tsc"
    done = subprocess.run(
        [*node, str(compiler), "--noEmit"],
        cwd=FRONTEND, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert (done.returncode, done.stdout) == (0, "")


def test_the_types_are_those_of_the_api(node: tuple[str, ...], tmp_path: Path) -> None:
    """To write them anew: see frontend/README.md."""
    described = tmp_path / "openapi.json"
    done = subprocess.run(
        [sys.executable, "-m", "cordwright.bench.openapi"], capture_output=True, check=True
    )
    described.write_bytes(done.stdout)
    program = MODULES / "openapi-typescript" / "bin" / "cli.js"
    made = tmp_path / "types.d.ts"
    subprocess.run(
        [*node, str(program), str(described), "-o", str(made), *OPTIONS],
        cwd=FRONTEND, check=True, capture_output=True,
    )  # fmt: skip
    kept = FRONTEND / "src" / "api" / "types.d.ts"
    assert made.read_text(encoding="utf-8") == kept.read_text(encoding="utf-8")
    script = (FRONTEND / "package.json").read_text(encoding="utf-8")
    assert " ".join(OPTIONS) in script
