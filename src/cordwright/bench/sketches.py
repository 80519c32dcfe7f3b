"""Small pictures of the plans that come with Cordwright, each drawn once and kept in a file."""

from __future__ import annotations

import asyncio
import hashlib
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final, cast

from cordwright import __version__
from cordwright.bench.desk import Desk
from cordwright.bench.rooms import Known
from cordwright.bench.starting import example_text

if TYPE_CHECKING:
    from collections.abc import Awaitable, Callable

    from cordwright.bench.jobs import Kept

PIXELS: Final = 320
"""Of the longer side: twice what a tile shows, for screens with fine dots."""


@dataclass(frozen=True, slots=True)
class Sketch:
    """A small picture of the piece that a text is."""

    text: str

    def run(self, kept: Kept) -> bytes:
        """PNG."""
        from cordwright.bench.shaping import Shapes, sketch

        return sketch(Shapes().of("", self.text, kept.worked(self.text), kept.atlas), PIXELS)


async def _at_once() -> None:
    """Nothing has to be over."""


class Sketches:
    """The pictures; their worker starts when the first has to be drawn, and lets others go first.

    Args:
        folder: where they are kept; without it, or where it cannot be written, they are drawn anew
            at each launch.
        after: what has to be over before the first is drawn.
    """

    def __init__(self, folder: Path, after: Callable[[], Awaitable[None]] = _at_once) -> None:
        self._folder = folder
        self._after = after
        self._desk = Desk(idle=True)
        self._started: asyncio.Task[None] | None = None
        self._known = Known()

    async def stop(self) -> None:
        """End the worker."""
        if self._started is not None:
            await self._started
        await self._desk.stop()
        await asyncio.gather(*self._known.pending.values(), return_exceptions=True)

    async def of(self, example: str) -> bytes:
        """PNG of a plan that comes with Cordwright.

        Raises:
            FolderError: there is none of that name.
        """
        text = example_text(example)
        digest = hashlib.sha256(f"{__version__}\n{PIXELS}\n{text}".encode()).hexdigest()[:16]
        file = self._folder / f"{example}-{digest}.png"
        found: bytes = await self._known.of(file.name, lambda: self._kept(text, file))
        return found

    async def _kept(self, text: str, file: Path) -> bytes:
        found = await asyncio.to_thread(_read, file)
        if found:
            return found
        await self._after()
        if self._started is None:
            self._started = asyncio.create_task(self._desk.start())
        await asyncio.shield(self._started)
        found = cast("bytes", await self._desk.do(Sketch(text), ("sketch", file.name)))
        await asyncio.to_thread(_write, file, found)
        return found


def _read(file: Path) -> bytes:
    try:
        return file.read_bytes()
    except OSError:
        return b""


def _write(file: Path, picture: bytes) -> None:
    part = file.with_suffix(".part")
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        part.write_bytes(picture)
        part.replace(file)
    except OSError:
        # A folder that cannot be written costs time at the next launch, never the picture.
        part.unlink(missing_ok=True)
