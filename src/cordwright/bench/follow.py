"""What follows a change: numbers first, then the picture, then loads and fit.

Numbers and shape are worked out in two processes at the same time, and begun with the change itself
while it is still being kept. Of many changes in a row the latest counts, but a picture that is
nearly done is finished, so that the piece is seen to move. What takes longer than a second tells
how far it is, and can be cancelled.
"""

from __future__ import annotations

import asyncio
import contextlib
from collections.abc import Awaitable, Callable, Coroutine, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final, Literal, TypeVar, cast

from cordwright.bench.desk import FaultError, RefusedJobError, SupersededError
from cordwright.bench.jobs import Count, Show, Weigh
from cordwright.bench.live import ProgressMessage
from cordwright.bench.rooms import Known, message

if TYPE_CHECKING:
    from cordwright.bench.changes import Change
    from cordwright.bench.desk import Desk
    from cordwright.bench.rooms import Good, Room, State
    from cordwright.bench.shaping import Posed

PATIENT_S: Final = 1.0
"""What takes no longer tells nothing."""

EVERY_S: Final = 0.5
"""How often progress is told."""

GRACE_S: Final = 0.3
"""How long a picture may take to be finished although a newer one is wanted."""

QUIET_S: Final = 0.4
"""How long nothing must have changed before loads and fit are worked out."""

Stage = Literal["numbers", "picture", "hanging"]
T = TypeVar("T")


@dataclass(slots=True, eq=False)
class Ahead:
    """What was begun of a change while it is being kept; each gives its text with what it found.

    Args:
        picture: where everything is; None if nobody watches.
        numbers: JSON of `Numbers`; None until the text is there.
    """

    picture: Begun | None = None
    numbers: Begun | None = None

    def give_up(self) -> None:
        """Leave it: the change was not kept."""
        for begun in (self.picture, self.numbers):
            if begun is not None:
                begun.task.cancel()


@dataclass(frozen=True, slots=True)
class Begun:
    """A job that was begun ahead, and what tells of it."""

    progress: Progress
    task: asyncio.Task[Any]


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
        ahead, room.ahead = room.ahead, None
        self._pause(room)
        good = room.state.good if room.state else None
        if room.watchers and good is not None:
            room.cancelled = False
            room.following = asyncio.create_task(self._all(room, good, ahead or Ahead()))
        elif ahead is not None:
            ahead.give_up()

    @contextlib.contextmanager
    def ahead(self, room: Room, now: State, change: Change) -> Iterator[Ahead]:
        """Begin with the picture of a change; given up if it comes to no new state.

        Args:
            room: the piece.
            now: its state, which is changed.
            change: to be made.
        """
        room.ahead = ahead = Ahead()
        if room.watchers:
            job = Show(now.text, room.name, change)
            ahead.picture = self._show(room, now.row.revision + 1, job)
        try:
            yield ahead
        finally:
            if room.ahead is ahead:
                room.ahead = None
                ahead.give_up()

    def count_ahead(self, room: Room, now: State, text: str) -> None:
        """The same with the numbers, as soon as there is a text."""
        if room.ahead is not None and room.watchers and text != now.text:
            job = Count(text, room.name, now.row.revision + 1)
            room.ahead.numbers = self._count(room, now.row.revision + 1, job)

    def _show(self, room: Room, revision: int, job: Show) -> Begun:
        progress, key = Progress(room, revision, "picture"), ("picture", room.name)
        do = self._shaping.do(job, key, urgent=True, tell=progress.tell, grace=GRACE_S)
        return Begun(progress, _quietly(do))

    def _count(self, room: Room, revision: int, job: Count) -> Begun:
        progress, key = Progress(room, revision, "numbers"), ("numbers", room.name)
        return Begun(progress, _quietly(self._counting.do(job, key, tell=progress.tell)))

    def end(self, room: Room) -> None:
        """Leave off."""
        self._pause(room)
        self._counting.cancel(("numbers", room.name))
        for key in ("picture", "try"):
            self._shaping.cancel((key, room.name))

    def _pause(self, room: Room) -> None:
        """Leave off what is anything but quick; numbers and pictures go on until newer ones."""
        if room.following is not None:
            room.following.cancel()
            room.following = None
        self._shaping.cancel(("weigh", room.name))
        room.known = Known(room.known.done)  # nobody is to wait for what was just broken off

    def cancel(self, room: Room) -> None:
        """Leave off because the maker says so."""
        room.cancelled = True
        self.end(room)

    async def _all(self, room: Room, good: Good, ahead: Ahead) -> None:
        counted = asyncio.Event()

        async def numbers() -> None:
            try:
                found = await self.numbers(room, good, ahead.numbers)
                room.tell(message("numbers", numbers=found))
            finally:
                counted.set()

        try:
            async with asyncio.TaskGroup() as group:
                group.create_task(numbers())
                group.create_task(self._picture(room, good, counted, ahead.picture))
            await asyncio.sleep(QUIET_S)
            room.tell(message("hanging", hanging=await self.hanging(room, good)))
        except* SupersededError:
            pass
        except* RefusedJobError as refused:
            for error in refused.exceptions:
                room.tell(problem(good.revision, None, error))
        except* FaultError as faults:
            for fault in faults.exceptions:
                self._report(str(fault))

    async def numbers(self, room: Room, good: Good, begun: Begun | None = None) -> bytes:
        """JSON of `Numbers` of the good state; ``begun`` may be them."""

        async def work() -> bytes:
            job = Count(good.text, room.name, good.revision)
            found = begun or self._count(room, good.revision, job)
            _, numbers = await found.progress.during(found.task)
            return cast("bytes", numbers)

        return cast("bytes", await room.known.of("numbers", work))

    async def _picture(
        self, room: Room, good: Good, counted: asyncio.Event, begun: Begun | None
    ) -> None:
        """Tell who watches where everything is, after the numbers; ``begun`` may be that."""

        async def work() -> Posed:
            found = begun or self._show(room, good.revision, Show(good.text, room.name))
            _, posed = await found.progress.during(found.task)
            await counted.wait()  # a page that draws is slow to show anything else
            if good.revision >= room.shown:  # else a newer one was quicker
                room.shown = good.revision
                told = posed.told(room.name, good.revision, None, None)
                room.tell(message("picture", picture=told.model_dump_json().encode()))
            return cast("Posed", posed)

        await room.known.of("picture", work)

    async def hanging(self, room: Room, good: Good) -> bytes:
        """JSON of `Hanging` of the good state."""

        async def work() -> bytes:
            progress = Progress(room, good.revision, "hanging")
            job, key = Weigh(good.text, room.name, good.revision), ("weigh", room.name)
            return await progress.during(self._shaping.do(job, key, tell=progress.tell))

        return cast("bytes", await room.known.of("hanging", work))


def _quietly(work: Coroutine[Any, Any, T]) -> asyncio.Task[T]:
    """A task that nobody need wait for: what goes wrong in it is heard by whoever does."""
    task = asyncio.create_task(work)
    task.add_done_callback(lambda t: t.cancelled() or t.exception())
    return task


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
