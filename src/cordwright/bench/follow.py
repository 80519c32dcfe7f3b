"""What follows a change: numbers first, then the picture, then loads and fit.

Numbers and shape are worked out in two processes at the same time. What takes longer than a second
tells how far it is, and can be cancelled.
"""

from __future__ import annotations

import asyncio
import contextlib
from collections.abc import Awaitable, Callable
from typing import TYPE_CHECKING, Any, Final, Literal, TypeVar, cast

from cordwright.bench.desk import FaultError, RefusedJobError, SupersededError
from cordwright.bench.jobs import Count, Show, Weigh
from cordwright.bench.live import ProgressMessage
from cordwright.bench.rooms import Known, message

if TYPE_CHECKING:
    from cordwright.bench.desk import Desk
    from cordwright.bench.rooms import Good, Room
    from cordwright.bench.shaping import Detail, Scene

PATIENT_S: Final = 1.0
"""What takes no longer tells nothing."""

EVERY_S: Final = 0.5
"""How often progress is told."""

Stage = Literal["numbers", "picture", "hanging"]
T = TypeVar("T")


class Follower:
    """Works out what follows from the good state of a piece, and tells who watches.

    Args:
        counting: the process for numbers.
        shaping: the process for shapes.
        report: is told of faults of the program.
    """

    def __init__(self, counting: Desk, shaping: Desk, report: Callable[[str], None]) -> None:
        self._counting = counting
        self._shaping = shaping
        self._report = report

    def begin(self, room: Room) -> None:
        """Work out everything of the present state again, if anybody watches."""
        self.end(room)
        good = room.state.good if room.state else None
        if room.watchers and good is not None:
            room.cancelled = False
            room.following = asyncio.create_task(self._all(room, good))

    def end(self, room: Room) -> None:
        """Leave off."""
        if room.following is not None:
            room.following.cancel()
            room.following = None
        self._counting.cancel(("numbers", room.name))
        for key in ("low", "high", "weigh", "try"):
            self._shaping.cancel((key, room.name))
        room.known = Known(room.known.done)  # nobody is to wait for what was just broken off

    def cancel(self, room: Room) -> None:
        """Leave off because the maker says so."""
        room.cancelled = True
        self.end(room)

    async def _all(self, room: Room, good: Good) -> None:
        async def pictures() -> None:
            details: tuple[Detail, ...] = ("low", "high")
            for detail in details:
                scene = await self.scene(room, good, detail)
                told = scene.told(room.name, good.revision, None, detail, None)
                room.tell(message("picture", picture=told.model_dump_json().encode()))

        async def numbers() -> None:
            room.tell(message("numbers", numbers=await self.numbers(room, good)))

        try:
            async with asyncio.TaskGroup() as group:
                group.create_task(numbers())
                group.create_task(pictures())
            room.tell(message("hanging", hanging=await self.hanging(room, good)))
        except* SupersededError:
            pass
        except* RefusedJobError as refused:
            for error in refused.exceptions:
                room.tell(problem(good.revision, None, error))
        except* FaultError as faults:
            for fault in faults.exceptions:
                self._report(str(fault))

    async def numbers(self, room: Room, good: Good) -> bytes:
        """JSON of `Numbers` of the good state."""

        async def work() -> bytes:
            progress = Progress(room, good.revision, "numbers")
            job, key = Count(good.text, room.name, good.revision), ("numbers", room.name)
            _, found = await progress.during(self._counting.do(job, key, tell=progress.tell))
            return cast("bytes", found)

        return cast("bytes", await room.known.of("numbers", work))

    async def scene(self, room: Room, good: Good, detail: Detail) -> Scene:
        """The scene of the good state."""

        async def work() -> Scene:
            progress = Progress(room, good.revision, "picture")
            job, key = Show(good.text, room.name, detail), (detail, room.name)
            return await progress.during(self._shaping.do(job, key, tell=progress.tell))

        return cast("Scene", await room.known.of(detail, work))

    async def hanging(self, room: Room, good: Good) -> bytes:
        """JSON of `Hanging` of the good state."""

        async def work() -> bytes:
            progress = Progress(room, good.revision, "hanging")
            job, key = Weigh(good.text, room.name, good.revision), ("weigh", room.name)
            return await progress.during(self._shaping.do(job, key, tell=progress.tell))

        return cast("bytes", await room.known.of("hanging", work))


class Progress:
    """Tells a room's pages what takes long.

    Args:
        room: whose pages.
        revision: the state that is worked out.
        stage: what of it.
    """

    def __init__(self, room: Room, revision: int, stage: Stage) -> None:
        self._room = room
        self._revision = revision
        self._stage: Stage = stage
        self._what = {
            "numbers": "Working out the cut list",
            "picture": "Letting the piece hang",
            "hanging": "Working out loads and fit",
        }[stage]
        self._share: float | None = None
        self._told = False

    def tell(self, what: str, share: float | None) -> None:
        """Take in what is being done."""
        self._what, self._share = what, share

    async def during(self, work: Awaitable[T]) -> T:
        """Wait for some work and tell of it while it takes longer than a second."""
        ticker = asyncio.create_task(self._tick())
        try:
            return await work
        finally:
            ticker.cancel()
            with contextlib.suppress(asyncio.CancelledError):
                await ticker
            if self._told:
                self._send("cancelled" if self._room.cancelled else "done")

    async def _tick(self) -> None:
        await asyncio.sleep(PATIENT_S)
        last: tuple[str, float | None] | None = None
        while True:
            if (self._what, self._share) != last:
                self._told = True
                last = (self._what, self._share)
                self._send("running")
            await asyncio.sleep(EVERY_S)

    def _send(self, state: Literal["running", "done", "cancelled"]) -> None:
        told = ProgressMessage(
            revision=self._revision,
            stage=self._stage,
            what=self._what,
            share=self._share,
            state=state,
        )
        self._room.tell(told.model_dump_json().encode())


def problem(revision: int, trying: int | None, error: Any) -> bytes:
    """A problem as a message of the live channel."""
    return message(
        "problem",
        revision=str(revision).encode(),
        trying=b"null" if trying is None else str(trying).encode(),
        problems=error.problems,
    )
