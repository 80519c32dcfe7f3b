"""What an accessibility engine finds wrong with a page in a browser."""

from __future__ import annotations

from collections.abc import Sequence
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from playwright.sync_api import Page

TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
ENGINE = Path(str(files("axe_playwright_python"))) / "axe.min.js"


def violations(page: Page, rules: Sequence[str] | None = None) -> list[tuple[str, str]]:
    """What the accessibility engine (axe-core) finds wrong, with the first place of each.

    Args:
        page: as it is shown now.
        rules: only these, as in color-contrast; all if None.
    """
    if not page.evaluate("'axe' in window"):
        page.evaluate(ENGINE.read_text(encoding="utf-8"))
    only = {"type": "rule", "values": rules} if rules else {"type": "tag", "values": TAGS}
    found = page.evaluate("(only) => axe.run({runOnly: only})", only)["violations"]
    return [(v["id"], v["nodes"][0]["html"]) for v in found]
