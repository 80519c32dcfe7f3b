"""The bench's end of a worker process: jobs in order, the latest first, and none for nothing.

One job runs at a time. A job takes the place of a waiting or running one of the same key, which
nobody wants any more; an urgent one goes first and lets what runs begin again after it. What runs
may be given a grace to come to its end in: of many changes in a row, some are then seen.
"""

from __future__ import annotations

import asyncio
import contextlib
import itertools
import os
import sys
from collections import deque
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from cordwright.bench.frames import (
    HEAD,
    Asked,
    Cancelled,
    Doing,
    Done,
    Fault,
    Wrong,
    packed,
    unpacked,
)
from cordwright.errors import CordwrightError

if TYPE_CHECKING:
    from cordwright.bench.jobs import Job

PATIENCE_S: Final = 2.0
"""How long a job may take to hear that it is cancelled, before its process is ended."""

LAST_WORDS_S: Final = 2.0
"""How long a worker may take to end by itself."""

Key = tuple[object, ...]
Tell = Callable[[str, float | None], None]


class SupersededError(Exception):
    """A newer job took the place of this one, or it was cancelled."""


class RefusedJobError(CordwrightError):
    """A job has no result, and a maker can be told why.

    Args:
        what: one sentence.
        remedy: what to try.
        problems: JSON of a list of `Problem`.
    """

    def __init__(self, what: str, remedy: str, problems: bytes) -> None:
        super().__init__(what, remedy=remedy)
        self.problems = problems


class FaultError(Exception):
    """A fault of the program in a worker; the text is for whoever mends it."""


@dataclass(slots=True, eq=False)
class _Task:
    number: int
    key: Key
    job: Job
    urgent: bool
    tell: Tell | None
    done: asyncio.Future[Any]
    began: float = 0.0
    again: bool = False
    tries: int = 0


@dataclass(slots=True)
class Desk:
    """A worker process and the jobs for it.

    Args:
        shelf: the maker's shelf, the usual one if None.
        idle: whether the process takes only what time others leave, where the system can do that.
    """

    shelf: Path | None = None
    idle: bool = False
    _process: asyncio.subprocess.Process | None = None
    _listener: asyncio.Task[None] | None = None
    _running: _Task | None = None
    _waiting: deque[_Task] = field(default_factory=deque)
    _numbers: itertools.count[int] = field(default_factory=itertools.count)
    _closed: bool = False

    async def start(self) -> None:
        """Start the process."""
        environment = {**os.environ, "OMP_NUM_THREADS": "1", "OPENBLAS_NUM_THREADS": "1"}
        how = ["--idle"] if self.idle else []
        shelf = [str(self.shelf)] if self.shelf is not None else []
        self._process = await asyncio.create_subprocess_exec(
            sys.executable,
            "-m",
            "cordwright.bench.worker",
            *how,
            *shelf,
            stdin=asyncio.subprocess.PIPE,
            stdout=asyncio.subprocess.PIPE,
            env=environment,
        )
        self._listener = asyncio.create_task(self._listen(self._process))

    async def stop(self) -> None:
        """End the process; jobs that wait are given up."""
        self._closed = True
        for task in [*self._waiting, *([self._running] if self._running else [])]:
            _give_up(task)
        self._waiting.clear()
        self._running = None
        if self._process is None:
            return
        if self._process.stdin is not None:
            self._process.stdin.close()
        try:
            await asyncio.wait_for(self._process.wait(), LAST_WORDS_S)
        except TimeoutError:
            self._process.kill()
            await self._process.wait()
        if self._listener is not None:
            await self._listener

    async def do(
        self,
        job: Job,
        key: Key,
        *,
        urgent: bool = False,
        tell: Tell | None = None,
        grace: float = 0.0,
    ) -> Any:
        """Have a job done.

        Args:
            job: what to do.
            key: jobs of the same key take each other's place; the latest counts.
            urgent: it goes before all that are not.
            tell: is told what is being done.
            grace: seconds after its beginning that a running job of the same key may take.

        Raises:
            SupersededError: a newer job took its place, or it was cancelled.
            RefusedJobError: it has no result, and a maker can be told why.
            FaultError: a fault of the program.
        """
        if self._closed:
            raise SupersededError
        self.cancel(key, grace)
        loop = asyncio.get_running_loop()
        task = _Task(next(self._numbers), key, job, urgent, tell, loop.create_future())
        if urgent:
            self._waiting.appendleft(task)
            running = self._running
            if running is not None and not running.urgent:
                running.again = not running.done.done()
                self._interrupt(running)
        else:
            self._waiting.append(task)
        self._next()
        try:
            return await task.done
        except asyncio.CancelledError:  # whoever asked has gone
            self._drop(task)
            raise

    def cancel(self, key: Key, grace: float = 0.0) -> bool:
        """Give up the jobs of a key; says whether any were given up at once.

        Args:
            key: of the jobs.
            grace: seconds after its beginning that the running one may take.
        """
        found = [t for t in self._waiting if t.key == key]
        running = self._running
        if running is not None and running.key == key:
            loop = asyncio.get_running_loop()
            left = running.began + grace - loop.time()
            if left > 0.0:
                loop.call_later(left, self._drop, running)
            else:
                found.append(running)
        for task in found:
            self._drop(task)
        return bool(found)

    def _drop(self, task: _Task) -> None:
        _give_up(task)
        task.again = False
        if task in self._waiting:
            self._waiting.remove(task)
        elif task is self._running:
            self._interrupt(task)

    def _next(self) -> None:
        if self._running is None and self._waiting and self._process is not None:
            task = self._waiting.popleft()
            self._running = task
            task.number = next(self._numbers)
            task.began = asyncio.get_running_loop().time()
            self._write(Asked(task.number, task.job))

    def _write(self, message: object) -> None:
        if self._process is not None and self._process.stdin is not None:
            with contextlib.suppress(ConnectionError, RuntimeError):  # seen where it is read
                self._process.stdin.write(packed(message))

    def _interrupt(self, task: _Task) -> None:
        self._write(Cancelled(task.number))
        process, number = self._process, task.number
        asyncio.get_running_loop().call_later(PATIENCE_S, self._insist, process, number)

    def _insist(self, process: asyncio.subprocess.Process | None, number: int) -> None:
        """End a process that is deaf in one of its libraries; another takes its place."""
        still = self._running is not None and self._running.number == number
        if still and process is self._process and process is not None:
            with contextlib.suppress(ProcessLookupError):
                process.kill()

    async def _listen(self, process: asyncio.subprocess.Process) -> None:
        stream = process.stdout
        assert stream is not None  # noqa: S101 - it was started with a pipe
        while True:
            try:
                (size,) = HEAD.unpack(await stream.readexactly(HEAD.size))
                message = unpacked(await stream.readexactly(size))
            except (asyncio.IncompleteReadError, ConnectionError):
                break
            self._take(message)
        if not self._closed:
            await self._replace(process)

    async def _replace(self, process: asyncio.subprocess.Process) -> None:
        """Another process, after one that has ended; its job is tried once more."""
        self._process = None  # nothing is written to it any more
        await process.wait()
        task, self._running = self._running, None
        if task is not None and not task.done.done():
            if task.tries == 0 or task.again:
                task.tries += 1
                task.again = False
                self._waiting.appendleft(task)
            else:
                task.done.set_exception(FaultError("A worker process ended unexpectedly."))
        await self.start()
        self._next()

    def _take(self, message: object) -> None:
        task = self._running
        if task is None or getattr(message, "number", None) != task.number:
            return
        if isinstance(message, Doing):
            if task.tell is not None and not task.done.done():
                task.tell(message.what, message.share)
            return
        self._running = None
        if isinstance(message, Cancelled) and task.again:
            task.again = False
            urgent = sum(t.urgent for t in self._waiting)
            self._waiting.insert(urgent, task)
        else:
            _settle(task, message)
        self._next()


def _settle(task: _Task, message: object) -> None:
    if task.done.done():
        return
    match message:
        case Done(value=value):
            task.done.set_result(value)
        case Wrong(what=what, remedy=remedy, problems=problems):
            task.done.set_exception(RefusedJobError(what, remedy, problems))
        case Fault(text=text):
            task.done.set_exception(FaultError(text))
        case _:
            task.done.set_exception(SupersededError())


def _give_up(task: _Task) -> None:
    if not task.done.done():
        task.done.set_exception(SupersededError())
