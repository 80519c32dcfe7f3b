"""A worker process: does one job after the other, and keeps warm what they need.

A job that is no longer wanted is interrupted: a thread reads what the bench says and, on a
cancellation, rings SIGINT in the main thread, whose handler leaves the job at the next step of
Python's. When the bench goes away, however that happens, the worker does too.
"""

from __future__ import annotations

import _thread
import os
import queue
import signal
import sys
import threading
import traceback
from dataclasses import dataclass, field
from pathlib import Path
from types import FrameType
from typing import TYPE_CHECKING, BinaryIO

from cordwright.bench.frames import Asked, Cancelled, Doing, Done, Fault, Wrong, packed, read

if TYPE_CHECKING:
    from cordwright.bench.jobs import Job


class InterruptedJob(BaseException):
    """Leaves a job; no error, so that nothing in it takes it for one."""


@dataclass(slots=True)
class _Now:
    """What the main thread is at.

    Args:
        running: number of the job that may be interrupted; None while none may.
        cancelled: numbers of jobs that nobody wants.
    """

    running: int | None = None
    cancelled: set[int] = field(default_factory=set)

    def check(self) -> None:
        """Leave the job if nobody wants it."""
        if self.running is not None and self.running in self.cancelled:
            self.running = None
            raise InterruptedJob


class Worker:
    """The process's main loop.

    Args:
        source: where messages come from.
        sink: where answers go.
        shelf: the maker's shelf, the usual one if None.
    """

    def __init__(self, source: BinaryIO, sink: BinaryIO, shelf: Path | None) -> None:
        self._source = source
        self._sink = sink
        self._shelf = shelf
        self._inbox: queue.SimpleQueue[Asked] = queue.SimpleQueue()
        self._now = _Now()

    def serve(self) -> None:
        """Do jobs until the process ends."""
        signal.signal(signal.SIGINT, self._rung)
        threading.Thread(target=self._listen, daemon=True).start()
        from cordwright.bench.jobs import Kept

        kept = Kept(self._shelf, self._tell)
        while True:
            asked = self._inbox.get()
            self._do(asked.number, asked.job, kept)  # type: ignore[arg-type]

    def _do(self, number: int, job: Job, kept: object) -> None:
        from cordwright.errors import CordwrightError

        try:
            self._now.running = number
            self._now.check()
            value = job.run(kept)  # type: ignore[arg-type]
            self._now.running = None
            answer: object = Done(number, value)
        except InterruptedJob:
            answer = Cancelled(number)
        except CordwrightError as error:
            self._now.running = None
            answer = _wrong(number, error, getattr(job, "text", ""))
        except Exception:  # noqa: BLE001 - the bench tells of it, and goes on
            self._now.running = None
            answer = Fault(number, traceback.format_exc())
        self._now.cancelled.discard(number)
        self._send(answer)

    def _tell(self, what: str, share: float | None) -> None:
        number = self._now.running
        if number is None:
            return
        self._now.running = None  # a message is never cut off half-way
        self._send(Doing(number, what, share))
        self._now.running = number
        self._now.check()

    def _send(self, message: object) -> None:
        try:
            self._sink.write(packed(message))
            self._sink.flush()
        except (BrokenPipeError, OSError):
            os._exit(0)  # the bench has gone

    def _listen(self) -> None:
        while True:
            message = read(self._source)
            match message:
                case Asked():
                    self._inbox.put(message)
                case Cancelled(number=number):
                    self._now.cancelled.add(number)
                    _thread.interrupt_main(signal.SIGINT)
                case _:
                    os._exit(0)  # the bench has gone

    def _rung(self, _signal: int, frame: FrameType | None) -> None:
        if not _importing(frame):
            self._now.check()


def _importing(frame: FrameType | None) -> bool:
    """Whether a module is being imported: cut off half-way, it would be of no use ever after.

    The job then goes on to the next time that it tells how far it is.
    """
    while frame is not None:
        if frame.f_code.co_filename.startswith("<frozen importlib"):
            return True
        frame = frame.f_back
    return False


def _wrong(number: int, error: Exception, text: str) -> Wrong:
    from cordwright.bench.study import PROBLEMS, problems
    from cordwright.errors import CordwrightError

    assert isinstance(error, CordwrightError)  # noqa: S101 - the caller caught it as one
    return Wrong(number, error.what, error.remedy, PROBLEMS.dump_json(problems(error, text)))


def _step_back() -> None:
    """Let every other process go first, where the system can do that."""
    if hasattr(os, "nice"):
        os.nice(19)


def main() -> None:
    """Serve the process that started this one, over its pipes."""
    given = sys.argv[1:]
    if given[:1] == ["--idle"]:
        _step_back()
        given = given[1:]
    shelf = Path(given[0]) if given else None
    sink = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())  # what a library prints is no message
    Worker(sys.stdin.buffer, sink, shelf).serve()


if __name__ == "__main__":
    main()
