"""What takes a while and has a result that is asked for later: lessons, cutting plans.

It is done in a worker of its own, which is started when it is first needed, so that the piece on
the bench never waits for it. The latest results are kept.
"""

from __future__ import annotations

import asyncio
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from cordwright.bench.desk import Desk, FaultError, SupersededError
from cordwright.bench.lessonmodels import Making
from cordwright.errors import CordwrightError

if TYPE_CHECKING:
    from cordwright.bench.jobs import Job

KEPT: Final = 12
"""Makings that are kept; older ones are forgotten with their results."""

FAULT: Final = "Cordwright met something it does not know how to handle."


class NoMakingError(CordwrightError):
    """What is asked for is no longer there, or never was."""


@dataclass(slots=True, eq=False)
class _Begun:
    """One making.

    Args:
        number: its own.
        about: what it is of, for whoever asks for the result.
        now: how it stands.
        task: what waits for the worker.
        result: what came of it.
    """

    number: int
    about: Any
    now: Making
    task: asyncio.Task[None] | None = None
    result: Any = None


@dataclass(slots=True)
class Makings:
    """All that is being made, and the latest that was.

    Args:
        shelf: the maker's shelf, the usual one if None.
        report: is told of faults of the program.
    """

    shelf: Path | None
    report: Callable[[str], None]
    _desk: Desk | None = None
    _begun: OrderedDict[int, _Begun] = field(default_factory=OrderedDict)
    _numbers: count[int] = field(default_factory=lambda: count(1))
    _starting: asyncio.Lock = field(default_factory=asyncio.Lock)

    def begin(self, kind: str, job: Job, about: Any = None) -> Making:
        """Begin something; what is of the same kind and not done is given up.

        Args:
            kind: jobs of the same kind take each other's place.
            job: what to do.
            about: is given back with the result.
        """
        number = next(self._numbers)
        now = Making(
            number=number, state="waiting", what="Waiting", share=None, trouble="", remedy=""
        )
        begun = _Begun(number, about, now)
        self._begun[number] = begun
        while len(self._begun) > KEPT:
            _, oldest = self._begun.popitem(last=False)
            if oldest.task is not None:
                oldest.task.cancel()
        begun.task = asyncio.create_task(self._make(begun, job, kind))
        return now

    def state(self, number: int) -> Making:
        """How something stands.

        Raises:
            NoMakingError: it is forgotten, or never was.
        """
        return self._of(number).now

    def cancel(self, number: int) -> Making:
        """Give something up, unless it is done."""
        begun = self._of(number)
        if begun.task is not None and not begun.task.done():
            _stands(begun, state="cancelled")
            begun.task.cancel()
        return begun.now

    def result(self, number: int, kind: type) -> tuple[Any, Any]:
        """What something is about, and what came of it.

        Raises:
            NoMakingError: there is no such result.
        """
        begun = self._of(number)
        if not isinstance(begun.result, kind):
            raise NoMakingError("There is no such result.", remedy="make it again")
        return begun.about, begun.result

    def amend(self, number: int, result: Any) -> None:
        """Keep another result in the place of the one that there was.

        Raises:
            NoMakingError: it is forgotten, or never was.
        """
        self._of(number).result = result

    async def stop(self) -> None:
        """Give everything up, and end the worker."""
        tasks = [b.task for b in self._begun.values() if b.task is not None]
        for task in tasks:
            task.cancel()
        if self._desk is not None:
            await self._desk.stop()
        await asyncio.gather(*tasks, return_exceptions=True)

    def _of(self, number: int) -> _Begun:
        begun = self._begun.get(number)
        if begun is None:
            raise NoMakingError("That is no longer there.", remedy="make it again")
        return begun

    async def _make(self, begun: _Begun, job: Job, kind: str) -> None:
        def tell(what: str, share: float | None) -> None:
            if begun.now.state in ("waiting", "running"):
                _stands(begun, state="running", what=what, share=share)

        try:
            desk = await self._worker()
            begun.result = await desk.do(job, (kind,), tell=tell)
            _stands(begun, state="done", share=1.0)
        except SupersededError:
            _stands(begun, state="cancelled")
        except CordwrightError as error:
            _stands(begun, state="failed", trouble=error.what, remedy=error.remedy)
        except FaultError as fault:
            self.report(str(fault))
            _stands(begun, state="failed", trouble=FAULT, remedy="report what you did")
        except asyncio.CancelledError:
            _stands(begun, state="cancelled")
            raise

    async def _worker(self) -> Desk:
        async with self._starting:
            if self._desk is None:
                desk = Desk(self.shelf)
                await desk.start()
                self._desk = desk
            return self._desk


def _stands(begun: _Begun, **news: Any) -> None:
    begun.now = begun.now.model_copy(update=news)
