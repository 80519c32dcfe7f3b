"""A workbench that runs, on a folder of its own, and a page that has opened it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from cordwright.bench.app import make_app
from cordwright.bench.bench import Bench, Setting
from tests.bench.serving import Page, served


@pytest.fixture(scope="session")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("plans")


@pytest.fixture(scope="session")
def page(folder: Path) -> Iterator[Page]:
    """The page of a running workbench."""
    bench = Bench(Setting(folder, folder.parent / "shelf.db"))
    with served(lambda lock: make_app(bench, lock)) as found:
        yield found.open()
