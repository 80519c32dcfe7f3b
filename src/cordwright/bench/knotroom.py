"""What is behind the knot room: a worker of its own, and what it has made so far."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING, Any, Final

from cordwright.bench.desk import Desk
from cordwright.bench.knotlist import knot, knots, shipped, spec_named
from cordwright.bench.knotmotion import Figure, Measure, Tie, Tied
from cordwright.bench.rooms import Known
from cordwright.errors import CordwrightError
from cordwright.knots.atlas import Atlas

if TYPE_CHECKING:
    from cordwright.bench.jobs import Job
    from cordwright.bench.models_knots import Knot, Knots
    from cordwright.knots.spec import Hand

KEPT: Final = 400
"""Figures and tyings that are kept at most: all shapes, both hands, and room for more."""


class NoSuchStepError(CordwrightError):
    """A tying has no step of that number."""


class KnotRoom:
    """Knots, their figures and their tying; the worker starts when it is first needed."""

    def __init__(self) -> None:
        self._atlas = Atlas()
        self._desk = Desk()
        self._started: asyncio.Task[None] | None = None
        self._known = Known()

    async def stop(self) -> None:
        """End the worker."""
        if self._started is not None:
            await self._started
        await self._desk.stop()
        await asyncio.gather(*self._known.pending.values(), return_exceptions=True)

    def all(self, cord_mm: float) -> Knots:
        """Every shape of the atlas."""
        return knots(self._atlas, cord_mm)

    async def one(self, name: str, hand: Hand, cord_mm: float) -> Knot:
        """One shape; one that the atlas does not come with is tightened first.

        Raises:
            NoSuchKnotError: there is none of that name.
            KnotError: it cannot be tied so.
        """
        spec = spec_named(name, hand)
        if shipped(name):
            return knot(self._atlas, spec, cord_mm)
        found: Knot = await self._made(f"measures {cord_mm} {spec}", Measure(spec, cord_mm))
        return found

    async def figure(self, name: str, hand: Hand) -> bytes:
        """The tight knot as SVG.

        Raises:
            NoSuchKnotError: there is none of that name.
        """
        spec = spec_named(name, hand)
        found: bytes = await self._made(f"figure {spec}", Figure(spec))
        return found

    async def motion(self, name: str, hand: Hand) -> bytes:
        """JSON of `KnotMotion`.

        Raises:
            NoSuchKnotError: there is none of that name.
        """
        return (await self._tied(name, hand)).motion

    async def step(self, name: str, hand: Hand, number: int) -> bytes:
        """One step of a tying as SVG.

        Raises:
            NoSuchKnotError: there is no knot of that name.
            NoSuchStepError: its tying has fewer steps.
        """
        steps = (await self._tied(name, hand)).steps
        if not 1 <= number <= len(steps):
            raise NoSuchStepError(
                f"Its tying has no step {number}.", remedy=f"there are steps 1 to {len(steps)}"
            )
        return steps[number - 1]

    async def _tied(self, name: str, hand: Hand) -> Tied:
        spec = spec_named(name, hand)
        found: Tied = await self._made(f"tying {spec}", Tie(spec))
        return found

    async def _made(self, what: str, job: Job) -> Any:
        if self._started is None:
            self._started = asyncio.create_task(self._desk.start())
        await asyncio.shield(self._started)
        while len(self._known.done) > KEPT:
            self._known.done.pop(next(iter(self._known.done)))
        # What has been opened goes before the figures of all the others.
        urgent = not isinstance(job, Figure)
        return await self._known.of(what, lambda: self._desk.do(job, (what,), urgent=urgent))
