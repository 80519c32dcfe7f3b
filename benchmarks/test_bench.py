"""How long the workbench takes from a change to its numbers and to its picture.

A client as the page is: it sends a change over HTTP and waits on the live channel, where the
picture comes as the poses of parts that the page has. The change is kept on the disk each time.
Run with ``pytest benchmarks/test_bench.py``; medians and 95 in 100 are under `extra_info`, in
milliseconds.
"""

from __future__ import annotations

import itertools
import json
import time
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest

from cordwright.bench.app import make_app
from cordwright.bench.bench import Bench, Setting
from tests.bench.serving import PATIENCE_S, Page, heard, served

if TYPE_CHECKING:
    from websockets.sync.client import ClientConnection

CHANGES = 25
PIECES = {"oxbow-planter": "sizes.arm", "pellow-planter": "sizes.arm"}


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    folder = tmp_path_factory.mktemp("plans")
    bench = Bench(Setting(folder, folder.parent / "shelf.db"))
    with served(lambda lock: make_app(bench, lock)) as found:
        yield found.open()


class Timed:
    """A piece whose arm is changed again and again.

    Args:
        page: the page.
        channel: its live channel.
        document: the piece as it was begun.
        path: the size that is changed.
        until: what is waited for, ``numbers`` or ``picture``.
    """

    def __init__(
        self,
        page: Page,
        channel: ClientConnection,
        document: dict[str, Any],
        path: str,
        until: str,
    ) -> None:
        self.page, self.channel, self.document = page, channel, document
        self.path, self.until = path, until
        self.lengths = itertools.cycle(range(150, 400))
        self.ms: list[float] = []

    def change(self) -> None:
        """One change, until its numbers or its picture are there."""
        began = time.perf_counter()
        value = f"{next(self.lengths)} mm"
        self.document = self.page.changed(self.document, do="set", path=self.path, value=value)
        revision = self.document["revision"]
        heard(self.channel, self.until, revision=revision)
        self.ms.append(1000.0 * (time.perf_counter() - began))


@pytest.mark.parametrize("until", ["numbers", "picture"])
@pytest.mark.parametrize("piece", PIECES)
def test_change_to_answer(benchmark: Any, page: Page, piece: str, until: str) -> None:
    document = page.begun(f"{piece}-{until}", piece)
    with page.channel(document["name"]) as channel:
        heard(channel, "picture")
        timed = Timed(page, channel, document, PIECES[piece], until)
        benchmark.pedantic(timed.change, rounds=CHANGES, iterations=1, warmup_rounds=3)
    ms = np.array(timed.ms[3:])
    benchmark.extra_info["median_ms"] = round(float(np.median(ms)), 1)
    benchmark.extra_info["in_95_of_100_ms"] = round(float(np.quantile(ms, 0.95)), 1)


def test_try_to_numbers(benchmark: Any, page: Page) -> None:
    document = page.begun("tried", "oxbow-planter")
    trying = itertools.count(1)

    with page.channel("tried") as channel:
        heard(channel, "picture")

        def dragged() -> None:
            number = next(trying)
            change = {"do": "set", "path": "sizes.arm", "value": f"{150 + number} mm"}
            asked = {"kind": "try", "revision": document["revision"], "trying": number}
            channel.send(json.dumps({**asked, "changes": [change]}))
            while True:
                told = json.loads(channel.recv(PATIENCE_S))
                if told["kind"] == "numbers" and told["numbers"]["trying"] == number:
                    return

        benchmark.pedantic(dragged, rounds=CHANGES, iterations=1, warmup_rounds=3)


def test_a_cold_start(benchmark: Any, tmp_path: Path) -> None:
    """From nothing to the list of pieces and a new piece's document."""
    folders = itertools.count()

    def start() -> None:
        folder = tmp_path / str(next(folders))
        bench = Bench(Setting(folder, tmp_path / "shelf.db"))
        with served(lambda lock: make_app(bench, lock)) as page:
            page.open()
            page.begun("first", "oxbow-planter")

    benchmark.pedantic(start, rounds=3, iterations=1)
