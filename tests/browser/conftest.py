"""A browser without a network, for all tests that look at pages."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from tests.browser.chromium import ARGUMENTS, NoBrowserError, browser_path

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """One browser for all tests of a module.

    No longer: while Playwright is up its event loop counts as running, and tests of other modules
    run loops of their own.
    """
    from playwright.sync_api import sync_playwright

    try:
        path = browser_path()
    except NoBrowserError as error:
        if os.environ.get("CI"):
            pytest.fail(str(error))
        pytest.skip(str(error))
    with sync_playwright() as playwright:
        launched = playwright.chromium.launch(executable_path=path, args=list(ARGUMENTS))
        yield launched
        launched.close()


class Open:
    """Opens HTML from a file, each page in a browser without a network of its own.

    Args:
        browser: what opens it.
        folder: where the files are put.
    """

    def __init__(self, browser: Browser, folder: Path) -> None:
        self._browser, self._folder = browser, folder
        self.contexts: list[BrowserContext] = []
        self.asked: list[str] = []
        self.said: list[str] = []

    def __call__(self, html: str, **options: Any) -> Page:
        """The page that shows it."""
        path = self.file(html)
        context = self._browser.new_context(offline=True, **options)
        self.contexts.append(context)
        page = context.new_page()
        page.on("request", lambda r: self.asked.append(r.url))
        page.on("console", lambda m: self.said.append(m.text))
        page.on("pageerror", lambda e: self.said.append(str(e)))
        page.goto(path.as_uri())
        return page

    def file(self, html: str) -> Path:
        """HTML as a file."""
        path = self._folder / f"lesson-{len(list(self._folder.glob('lesson-*')))}.html"
        path.write_text(html, encoding="utf-8")
        return path


@pytest.fixture
def open_page(browser: Browser, tmp_path: Path) -> Iterator[Open]:
    """Opens pages; nothing that they say or ask for goes unseen.

    After the test no page may have asked for anything but its own file, run into an error, or
    written a message.
    """
    pages = Open(browser, tmp_path)
    yield pages
    for context in pages.contexts:
        context.close()
    assert [url for url in pages.asked if not url.startswith(("file:", "data:"))] == []
    assert pages.said == []
