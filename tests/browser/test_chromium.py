"""Where the tests' browser comes from."""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING

import pytest

from tests.browser import chromium

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


@pytest.fixture(autouse=True)
def _asked_anew() -> Iterator[None]:
    chromium.browser_path.cache_clear()
    yield
    chromium.browser_path.cache_clear()


def test_a_named_browser_comes_first(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    own = tmp_path / "browser"
    own.touch()
    monkeypatch.setenv("CORDWRIGHT_CHROMIUM", str(own))
    assert chromium.browser_path() == str(own)


def test_a_named_browser_must_be_there(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("CORDWRIGHT_CHROMIUM", str(tmp_path / "none"))
    with pytest.raises(chromium.NoBrowserError, match="not there"):
        chromium.browser_path()


def test_without_any_the_reason_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("CORDWRIGHT_CHROMIUM", raising=False)
    monkeypatch.setattr(shutil, "which", lambda _: None)
    with pytest.raises(chromium.NoBrowserError, match="install one"):
        chromium.browser_path()
