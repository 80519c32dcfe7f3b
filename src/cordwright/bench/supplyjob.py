"""Cutting plans, what can be made, and swatches, worked out in a worker."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from cordwright.errors import CordwrightError

if TYPE_CHECKING:
    from cordwright.bench.jobs import Kept
    from cordwright.bench.supplymodels import FinishedRequest, SupplyRequest
    from cordwright.piece.cutlist import CutList
    from cordwright.piece.model import Piece
    from cordwright.plan.model import Plan
    from cordwright.supply.asked import Asked
    from cordwright.supply.shelflog import Change
    from cordwright.units.length import System


@dataclass(frozen=True, slots=True)
class Cutting:
    """A run of kits, planned.

    Args:
        report: the answer, as JSON values.
        said: what the shelf's log is to say of it.
        changes: to the shelf; None where it cannot be carried out.
        blocked: why not, and what to try.
        papers: parts list, packing sheet and labels, by the ending of a file's name.
    """

    report: dict[str, Any]
    said: str
    changes: tuple[Change, ...] | None
    blocked: tuple[str, str]
    papers: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Found:
    """An answer that is JSON values already."""

    report: dict[str, Any]


@dataclass(frozen=True, slots=True)
class Cut:
    """Plan a run of kits of a plan."""

    text: str
    asked: SupplyRequest

    def run(self, kept: Kept) -> Cutting:
        """The cutting plan.

        Raises:
            CordwrightError: something asked is wrong, or the plan cannot be worked.
        """
        from cordwright.supply.papers import FORMATS
        from cordwright.supply.run import prepare, run

        kept.tell("Working the piece", 0.0)
        plan = kept.plan(self.text)
        asked = asked_for(kept, self.asked)
        prepared = prepare(plan, asked)
        piece, cuts = _worked(kept, plan, asked, {})
        made = run(
            prepared,
            piece,
            cuts,
            lambda cord, share: kept.tell(f"Planning how to cut {cord}", share),
        )
        changes, blocked = None, ("", "")
        try:
            changes = made.changes()
        except CordwrightError as error:
            blocked = error.what, error.remedy
        papers = {ending: write(made.sheets) for ending, write in FORMATS.items()}
        return Cutting(made.report(), made.said(), changes, blocked, papers)


@dataclass(frozen=True, slots=True)
class Make:
    """What can be made of several plans with what is there.

    Args:
        texts: of plans, by name.
        asked: how many kits.
    """

    texts: Mapping[str, str]
    asked: SupplyRequest

    def run(self, kept: Kept) -> Found:
        """The answer."""
        from cordwright.supply.report import make_json

        asked = asked_for(kept, self.asked)
        tried = []
        for number, (name, text) in enumerate(self.texts.items()):
            kept.tell(f"Trying {name}", number / len(self.texts))
            tried.append(_tried(kept, name, text, asked))
        return Found(make_json("", tried))


@dataclass(frozen=True, slots=True)
class EnterSwatch:
    """Put a trial on the shelf, after the slips of the pen in it were looked for."""

    fields: Mapping[str, str]
    start: str
    left: str

    def run(self, kept: Kept) -> Found:
        """The swatch's fields.

        Raises:
            CordwrightError: it cannot be.
        """
        from cordwright.supply import shelf as store
        from cordwright.supply.hands import swatch_of
        from cordwright.supply.records import SwatchEntry
        from cordwright.supply.swatched import used_mm
        from cordwright.supply.writing import KINDS, read_item, write_item

        kind = KINDS["swatch"]
        texts = {**self.fields, "used": f"{used_mm(self.start, self.left):.3f} mm"}
        kept.tell("Measuring the swatch against the tight knot", None)
        with store.open_shelf(kept.shelf) as db:
            texts["name"] = store.free_name(db, kind, texts.get("cord", ""))
            item = read_item(kind, texts)
            if isinstance(item, SwatchEntry):
                swatch_of(db, item, kept.atlas)  # refuses slips of the pen before they are kept
            store.add(db, item)
        return Found(write_item(item))


@dataclass(frozen=True, slots=True)
class EnterFinished:
    """Put on the shelf what a finished piece really used of a cord."""

    text: str
    asked: FinishedRequest

    def run(self, kept: Kept) -> Found:
        """The entry's fields.

        Raises:
            CordwrightError: it cannot be.
        """
        from cordwright.hang.counted import as_worked, counted
        from cordwright.piece.work import work
        from cordwright.supply import shelf as store
        from cordwright.supply.hands import finished_entry, trial_of
        from cordwright.supply.swatched import used_mm
        from cordwright.supply.writing import KINDS, write_item

        kept.tell("Working the piece as ideal cord would make it", None)
        used = used_mm(self.asked.cut, self.asked.left)
        plan = kept.plan(self.text)
        piece = counted(as_worked(work(plan, kept.atlas)))
        with store.open_shelf(kept.shelf) as db:
            name = store.free_name(db, KINDS["finished"], plan.title)
            entry = finished_entry(piece, self.asked.cord, name, used, self.asked.maker)
            trial_of(entry)  # refuses slips of the pen before they are kept
            store.add(db, entry)
        return Found(write_item(entry))


@dataclass(frozen=True, slots=True)
class Say:
    """What swatches say of a cord in somebody's hands."""

    cord: str
    maker: str

    def run(self, kept: Kept) -> Found:
        """The answer of ``cordwright swatch show``.

        Raises:
            CordwrightError: there is no such cord.
        """
        from cordwright.supply.hands import known_hands
        from cordwright.supply.records import ShelfCord
        from cordwright.supply.shelf import find, open_shelf
        from cordwright.supply.swatched import hands_json

        with open_shelf(kept.shelf) as db:
            find(db, ShelfCord, self.cord)
            return Found(hands_json(known_hands(db, kept.atlas), self.cord, self.maker))


def asked_for(kept: Kept, asked: SupplyRequest) -> Asked:
    """A request in the words of the room of supply."""
    from cordwright.supply.asked import Asked

    given = asked.model_dump()
    several = {k: tuple(v) for k, v in given.items() if isinstance(v, list)}
    return Asked(**{**given, **several}, papers=None, diameters=(), sizes=(), file=kept.shelf)


def _worked(
    kept: Kept, plan: Plan, asked: Asked, sizes: Mapping[str, str]
) -> tuple[Piece, CutList]:
    from cordwright.hang.counted import as_worked, counted
    from cordwright.piece.cutlist import cut_list
    from cordwright.piece.risk import DEFAULT_RISK
    from cordwright.piece.work import work
    from cordwright.supply.atwork import hands_of

    handling, known = hands_of(plan, kept.shelf, asked.maker, kept.atlas)
    piece = counted(as_worked(work(plan, kept.atlas, sizes=sizes, handling=handling)))
    risk = DEFAULT_RISK if asked.risk is None else asked.risk / 100.0
    system: System = "inch" if asked.units == "inch" else "metric"
    return piece, cut_list(piece, system=system, known=known, risk=risk)


def _tried(
    kept: Kept, name: str, text: str, asked: Asked
) -> tuple[str, str | None, Any, str | None]:
    from cordwright.supply.demand import demand
    from cordwright.supply.makeable import makeable
    from cordwright.supply.run import same_cords, with_shelf
    from cordwright.supply.stock import Stock

    title: str | None = None
    try:
        plan = kept.plan(text)
        title = plan.title
        held, _ = with_shelf(plan, Stock((), ()), asked, None)
        found = makeable(
            plan,
            lambda sizes: demand(
                _worked(kept, plan, asked, sizes)[1], asked.kits, same_cords(plan)
            ),
            held,
            asked.seconds,
        )
    except CordwrightError as error:
        return name, title, None, error.what
    return name, title, found, None
