"""What a worker process can be asked to do: plain values in, plain values out.

Every job is a frozen value with a method ``run``; what is kept between jobs (atlas, texts that were
studied, shapes) is in `Kept`. The server makes jobs and never runs them, so what they need is
imported where they run: it starts in a fraction of the time.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Final, Literal, Protocol

if TYPE_CHECKING:
    from cordwright.bench.changes import Change, Several
    from cordwright.bench.shaping import Detail, Posed, Shapes, Shown
    from cordwright.bench.study import Study, Told, Worked
    from cordwright.knots.atlas import Atlas
    from cordwright.knots.spec import KnotSpec
    from cordwright.plan.model import Plan
    from cordwright.units.length import System

KEPT: Final = 8
"""Texts whose studies are kept."""

Tell = Callable[[str, float | None], None]
"""Told what is being done, and which share of it is."""


@dataclass(slots=True)
class Kept:
    """What a worker keeps between its jobs.

    Args:
        shelf: the maker's shelf, the usual one if None.
        tell: is told of what takes long.
    """

    shelf: Path | None
    tell: Tell
    _shapes: Shapes | None = None
    _studies: OrderedDict[str, Study] = field(default_factory=OrderedDict)
    _atlas: Atlas | None = None

    @property
    def atlas(self) -> Atlas:
        """The atlas; tells of knots that it has to tighten."""
        if self._atlas is None:
            from cordwright.knots.atlas import Atlas

            self._atlas = Atlas(watch=self._tightening)
        return self._atlas

    def _tightening(self, spec: KnotSpec, share: float) -> None:
        self.tell(f"Tightening a {spec.name.value} of {spec.strands} strands", share)

    def plan(self, text: str) -> Plan:
        """A text read as a plan; it may name cords of the shelf.

        Raises:
            PlanError: it is none.
        """
        from cordwright.plan.read import parse_plan
        from cordwright.supply.atwork import shelf_cords

        return parse_plan(text, "", partial(shelf_cords, self.shelf))

    def study(self, text: str) -> Study:
        """A text studied; plans that take cords from the shelf anew each time."""
        from cordwright.bench.study import study

        found = self._studies.get(text)
        if found is None:
            found = study(text, self.atlas, self.shelf)
            shelved = found.worked is not None and any(
                c.shelf for c in found.worked.plan.cords.values()
            )
            if not shelved:
                self._studies[text] = found
        else:
            self._studies.move_to_end(text)
        while len(self._studies) > KEPT:
            self._studies.popitem(last=False)
        return found

    def shown(self, name: str, text: str) -> Shown:
        """A piece in space.

        Raises:
            RefusedError: the text is no plan.
        """
        self.tell("Letting the piece hang", None)
        if self._shapes is None:
            from cordwright.bench.shaping import Shapes

            self._shapes = Shapes()
        return self._shapes.of(name, text, self.worked(text), self.atlas)

    def worked(self, text: str) -> Worked:
        """A text that is known to be a plan, worked.

        Raises:
            RefusedError: it is none.
        """
        from cordwright.bench.study import RefusedError

        found = self.study(text)
        if found.worked is None:
            raise RefusedError(found.problems)
        return found.worked


class Job(Protocol):
    """Something for a worker to do."""

    def run(self, kept: Kept) -> object:
        """Do it."""


@dataclass(frozen=True, slots=True)
class Warm:
    """Load all that later jobs need, by working a plan.

    Args:
        text: the plan's.
        hang: whether pictures are to be made here, rather than numbers.
    """

    text: str
    hang: bool

    def run(self, kept: Kept) -> None:
        """Load everything."""
        if self.hang:
            Show(self.text, "").run(kept)
            Build(self.text, "", "parts", "low").run(kept)
        else:
            Count(self.text, "", 1).run(kept)
            kept.study(self.text).told()


@dataclass(frozen=True, slots=True)
class Look:
    """Study a text."""

    text: str

    def run(self, kept: Kept) -> Told:
        """What is told of it."""
        return kept.study(self.text).told()


@dataclass(frozen=True, slots=True)
class Rewrite:
    """Change a text, and study what comes of it."""

    text: str
    change: Change

    def run(self, kept: Kept) -> tuple[str, Told]:
        """The new text, and what is told of it.

        Raises:
            CordwrightError: the change cannot be made, or makes it no plan.
        """
        from cordwright.bench.rewriting import rewritten
        from cordwright.bench.study import RefusedError

        text = rewritten(self.text, self.change)
        found = kept.study(text)
        if found.worked is None and not found.title:
            raise RefusedError(found.problems)  # it could be read before; now it cannot
        return text, found.told()


@dataclass(frozen=True, slots=True)
class Count:
    """Numbers of a text, with changes that are only tried if there are any."""

    text: str
    name: str
    revision: int
    trying: int | None = None
    changes: Several | None = None

    def run(self, kept: Kept) -> tuple[str, bytes]:
        """The text that was counted, and JSON of `Numbers`.

        Raises:
            CordwrightError: it cannot be worked so.
        """
        from cordwright.bench.rewriting import rewritten
        from cordwright.bench.study import numbers

        text = self.text if self.changes is None else rewritten(self.text, self.changes)
        worked = kept.worked(text)
        return text, numbers(worked, self.name, self.revision, self.trying, kept.shelf)


@dataclass(frozen=True, slots=True)
class Show:
    """Where everything of a text's piece is, after a change if there is one."""

    text: str
    name: str
    change: Change | None = None

    def run(self, kept: Kept) -> tuple[str, Posed]:
        """The text that is shown, and where everything is.

        Raises:
            CordwrightError: the change cannot be made, or it cannot be worked so.
        """
        from cordwright.bench.rewriting import rewritten
        from cordwright.bench.shaping import posed

        text = self.text if self.change is None else rewritten(self.text, self.change)
        return text, posed(kept.shown(self.name, text))


@dataclass(frozen=True, slots=True)
class Build:
    """The scene of a text's piece, or the parts that it is put together from."""

    text: str
    name: str
    what: Literal["scene", "parts"]
    detail: Detail

    def run(self, kept: Kept) -> bytes:
        """A glTF binary file."""
        from cordwright.bench.shaping import parts_glb, scene_glb

        made = scene_glb if self.what == "scene" else parts_glb
        return made(kept.shown(self.name, self.text), self.detail)


@dataclass(frozen=True, slots=True)
class Weigh:
    """Loads and fit of a text's piece."""

    text: str
    name: str
    revision: int

    def run(self, kept: Kept) -> bytes:
        """JSON of `Hanging`."""
        from cordwright.bench.shaping import hanging

        shown = kept.shown(self.name, self.text)
        kept.tell("Working out loads and fit", None)
        return hanging(shown, self.name, self.revision).model_dump_json().encode()


@dataclass(frozen=True, slots=True)
class Draw:
    """A flat picture of a text's piece."""

    text: str
    name: str
    what: Literal["piece", "chart", "strand"]
    system: System
    strand: str | None = None

    def run(self, kept: Kept) -> bytes:
        """SVG.

        Raises:
            CordwrightError: there is no such strand.
        """
        from cordwright.bench.shaping import chart, picture

        worked = kept.worked(self.text)
        if self.what == "chart":
            return chart(worked, kept.atlas, self.system).encode()
        shown = kept.shown(self.name, self.text)
        return picture(shown, self.system, self.strand).encode()
