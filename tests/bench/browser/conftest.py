"""The workbench as a maker has it: a program of its own, seen in a real browser."""

from __future__ import annotations

import re
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

import hatch_build
from tests.browser.conftest import browser

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page

__all__ = ["browser"]

ROOT = Path(__file__).parents[3]
PATIENCE_MS = 90_000


def free_port() -> int:
    """A port that nobody has: several workers launch programs at the same time."""
    with socket.socket() as any_port:
        any_port.bind(("127.0.0.1", 0))
        found: int = any_port.getsockname()[1]
    return found


@contextmanager
def launched(folder: Path, port: int | None = None) -> Iterator[tuple[subprocess.Popen[str], str]]:
    """The program on a folder of plans, and the address that opens it."""
    program = subprocess.Popen(
        [
            sys.executable, "-m", "cordwright", "bench", "--no-browser", "--folder", str(folder),
            "--shelf", str(folder.parent / "shelf.db"), "--port", str(port or free_port()),
        ],
        stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, encoding="utf-8",
    )  # fmt: skip
    try:
        assert program.stdout is not None
        said = ""
        while not (found := re.search(r"http://\S+", said)):
            line = program.stdout.readline()
            assert line, said
            said += line
        yield program, found[0]
    finally:
        program.terminate()
        program.wait(60)
        if program.stdout is not None:
            program.stdout.close()


@pytest.fixture(scope="session")
def workbench(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a workbench with its page, for all tests of a worker."""
    hatch_build.build(ROOT)
    with launched(tmp_path_factory.mktemp("maker") / "plans") as (_, address):
        yield address


class Maker:
    """Somebody at the workbench, in a browser that asks nobody else.

    Args:
        browser: what they use.
        address: that opens the workbench.
    """

    def __init__(self, browser: Browser, address: str) -> None:
        self._browser, self.address = browser, address
        self.own = address.partition("/?")[0]
        self.contexts: list[BrowserContext] = []
        self.asked: list[str] = []
        self.errors: list[str] = []

    def page(self, size: tuple[int, int] = (1280, 800), **options: Any) -> Page:
        """A page of the workbench, with all pieces."""
        viewport = {"width": size[0], "height": size[1]}
        how: dict[str, Any] = {"viewport": viewport, "locale": "en-GB", **options}
        context = self._browser.new_context(**how)
        self.contexts.append(context)
        page = context.new_page()
        page.set_default_timeout(PATIENCE_MS)
        page.on("request", lambda r: self.asked.append(r.url))
        page.on("pageerror", lambda e: self.errors.append(str(e)))
        page.on("console", lambda m: self._heard(m.text))
        page.goto(self.address)
        page.wait_for_selector(".pieces h1")
        return page

    def _heard(self, text: str) -> None:
        if "Content Security Policy" in text:
            self.errors.append(text)

    def begun(self, page: Page, title: str) -> None:
        """Begin with a piece that comes with Cordwright, or an empty mount."""
        page.locator("button.tile", has_text=title).first.click()
        page.wait_for_selector(".bench .card .title")
        page.wait_for_selector(".cuts tbody tr")


@pytest.fixture
def maker(browser: Browser, workbench: str) -> Iterator[Maker]:
    """Somebody at the workbench; afterwards no page may have failed or asked anybody else."""
    somebody = Maker(browser, workbench)
    yield somebody
    for context in somebody.contexts:
        context.close()
    assert [u for u in somebody.asked if not u.startswith((somebody.own, "blob:"))] == []
    assert somebody.errors == []
