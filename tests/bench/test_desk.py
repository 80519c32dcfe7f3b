"""Worker processes: what is broken off, what goes first, and what happens when one dies."""

from __future__ import annotations

import asyncio
import os
import signal
import time
from collections.abc import Callable, Coroutine
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import pytest

from cordwright.bench.desk import Desk, FaultError, RefusedJobError, SupersededError
from cordwright.errors import WorkError

if TYPE_CHECKING:
    from pathlib import Path

    from cordwright.bench.jobs import Kept


@dataclass(frozen=True)
class Say:
    word: str

    def run(self, kept: Kept) -> str:
        kept.tell(f"saying {self.word}", 0.5)
        return self.word


@dataclass(frozen=True)
class Spin:
    """Works for so many seconds, in Python."""

    seconds: float

    def run(self, _kept: Kept) -> str:
        end = time.monotonic() + self.seconds
        while time.monotonic() < end:
            sum(range(100))
        return "spun"


@dataclass(frozen=True)
class Niceness:
    def run(self, _kept: Kept) -> int:
        return os.nice(0)


@dataclass(frozen=True)
class Deaf:
    """Hears no signal, as a library deep in its own code."""

    def run(self, _kept: Kept) -> None:
        signal.pthread_sigmask(signal.SIG_BLOCK, [signal.SIGINT])
        signal.signal(signal.SIGINT, signal.SIG_IGN)
        time.sleep(60)


@dataclass(frozen=True)
class Fail:
    how: str

    def run(self, _kept: Kept) -> None:
        if self.how == "die":
            os._exit(3)
        if self.how == "wrong":
            raise WorkError("It cannot be.", remedy="do not")
        raise KeyError(self.how)


def with_desk(what: Callable[[Desk], Coroutine[Any, Any, None]]) -> None:
    """Run something with a desk that is started and stopped."""

    async def run() -> None:
        desk = Desk()
        await desk.start()
        try:
            await asyncio.wait_for(what(desk), 60)
        finally:
            await desk.stop()

    asyncio.run(run())


def test_a_job_is_done_and_tells_what_it_is_at() -> None:
    async def what(desk: Desk) -> None:
        told: list[tuple[str, float | None]] = []
        assert await desk.do(Say("a"), ("a",), tell=lambda *t: told.append(t)) == "a"
        assert told == [("saying a", 0.5)]

    with_desk(what)


def test_a_newer_job_takes_the_place_of_a_running_and_of_a_waiting_one() -> None:
    async def what(desk: Desk) -> None:
        jobs = [asyncio.create_task(desk.do(Spin(60), ("k",))) for _ in range(3)]
        other = asyncio.create_task(desk.do(Say("other"), ("o",)))
        await asyncio.sleep(1.5)
        jobs.append(asyncio.create_task(desk.do(Say("last"), ("k",))))
        found = await asyncio.gather(*jobs, other, return_exceptions=True)
        assert [type(f) for f in found[:3]] == [SupersededError] * 3
        assert found[3:] == ["last", "other"]

    with_desk(what)


def test_what_runs_is_finished_within_its_grace_and_no_later() -> None:
    async def what(desk: Desk) -> None:
        await desk.do(Say("warm"), ("w",))
        for seconds, grace in ((0.4, 30.0), (60.0, 0.6)):
            first = asyncio.create_task(desk.do(Spin(seconds), ("k",)))
            await asyncio.sleep(0.1)
            jobs = [
                asyncio.create_task(desk.do(Say(word), ("k",), grace=grace))
                for word in ("between", "last")
            ]
            found = await asyncio.gather(first, *jobs, return_exceptions=True)
            assert isinstance(found[1], SupersededError)
            assert found[2] == "last"
            if grace > seconds:
                assert found[0] == "spun"
            else:
                assert isinstance(found[0], SupersededError)

    with_desk(what)


def test_an_urgent_job_goes_first_and_what_ran_begins_again() -> None:
    async def what(desk: Desk) -> None:
        await desk.do(Say("warm"), ("w",))
        slow = asyncio.create_task(desk.do(Spin(1.0), ("s",)))
        await asyncio.sleep(0.3)
        assert await desk.do(Say("now"), ("n",), urgent=True) == "now"
        assert not slow.done()
        assert await slow == "spun"

    with_desk(what)


def test_a_job_that_hears_nothing_is_ended_with_its_process() -> None:
    async def what(desk: Desk) -> None:
        deaf = asyncio.create_task(desk.do(Deaf(), ("d",)))
        await asyncio.sleep(1.5)
        assert desk.cancel(("d",))
        with pytest.raises(SupersededError):
            await deaf
        assert await desk.do(Say("again"), ("a",)) == "again"

    with_desk(what)


def test_what_goes_wrong_is_told_and_the_next_job_is_done() -> None:
    async def what(desk: Desk) -> None:
        with pytest.raises(RefusedJobError, match=r"It cannot be\.") as refused:
            await desk.do(Fail("wrong"), ("f",))
        assert refused.value.remedy == "do not"
        assert b"It cannot be." in refused.value.problems
        with pytest.raises(FaultError, match="KeyError"):
            await desk.do(Fail("else"), ("f",))
        with pytest.raises(FaultError, match="ended unexpectedly"):
            await desk.do(Fail("die"), ("f",))
        assert await desk.do(Say("well"), ("a",)) == "well"

    with_desk(what)


@pytest.mark.skipif(not hasattr(os, "nice"), reason="this system has no niceness")
def test_an_idle_worker_lets_others_go_first(tmp_path: Path) -> None:
    async def how(desk: Desk) -> int:
        await desk.start()
        found: int = await desk.do(Niceness(), ("n",))
        await desk.stop()
        return found

    usual, idle = (asyncio.run(how(Desk(tmp_path / "s.db", idle=i))) for i in (False, True))
    assert usual < idle == 19


def test_stopping_gives_up_what_waits() -> None:
    async def run() -> None:
        desk = Desk()
        await desk.start()
        jobs = [asyncio.create_task(desk.do(Spin(60), (i,))) for i in range(3)]
        await asyncio.sleep(0.5)
        await desk.stop()
        found = await asyncio.gather(*jobs, return_exceptions=True)
        assert [type(f) for f in found] == [SupersededError] * 3
        with pytest.raises(SupersededError):
            await desk.do(Say("late"), ("l",))

    asyncio.run(run())
