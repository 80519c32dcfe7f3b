"""What an accessibility engine finds wrong with a page in a browser."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from playwright.sync_api import Page

TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
ENGINE = Path(str(files("axe_playwright_python"))) / "axe.min.js"


def violations(page: Page) -> list[tuple[str, str]]:
    """What the accessibility engine (axe-core) finds wrong, with the first place of each."""
    page.evaluate(ENGINE.read_text(encoding="utf-8"))
    found = page.evaluate("(tags) => axe.run({runOnly: tags})", TAGS)["violations"]
    return [(v["id"], v["nodes"][0]["html"]) for v in found]
