"""Small pictures of the plans that come with Cordwright."""

from __future__ import annotations

import asyncio
import struct
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from cordwright.bench.desk import Desk
from cordwright.bench.folder import FolderError
from cordwright.bench.sketches import PIXELS, Sketches

if TYPE_CHECKING:
    from tests.bench.serving import Page


def test_a_sketch_is_drawn_once_and_kept(page: Page, folder: Path) -> None:
    answer = page.get("/api/examples/tally-fob.png")
    assert answer.status_code == 200
    assert answer.headers["content-type"] == "image/png"
    wide, high = struct.unpack(">II", answer.content[16:24])
    assert abs(max(wide, high) - PIXELS) <= 1
    kept = list((folder / ".cordwright" / "sketches").glob("tally-fob-*.png"))
    assert [k.read_bytes() for k in kept] == [answer.content]


def test_a_sketch_that_is_kept_needs_no_worker(
    page: Page, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    drawn = page.get("/api/examples/tally-fob.png").content

    async def kept() -> bytes:
        return await Sketches(folder / ".cordwright" / "sketches").of("tally-fob")

    async def failing(_desk: object) -> None:
        raise AssertionError("a worker was started")

    monkeypatch.setattr(Desk, "start", failing)
    assert asyncio.run(kept()) == drawn


def test_a_sketch_is_not_begun_before_the_workbench_is_ready(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen: list[str] = []

    async def start(_desk: Desk) -> None:
        seen.append("drawing")
        raise FolderError("That is enough.")

    async def ready() -> None:
        await asyncio.sleep(0.05)
        seen.append("ready")

    monkeypatch.setattr(Desk, "start", start)
    with pytest.raises(FolderError, match="enough"):
        asyncio.run(Sketches(tmp_path, ready).of("tally-fob"))
    assert seen == ["ready", "drawing"]


def test_a_plan_that_does_not_come_with_it_has_none(page: Page, tmp_path: Path) -> None:
    assert page.get("/api/examples/nothing-such.png").status_code == 422
    with pytest.raises(FolderError):
        asyncio.run(Sketches(tmp_path).of("../oxbow-planter"))
