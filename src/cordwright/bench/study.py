"""From a plan's text to all that is known of it at once: problems, outline, cut list, weights.

Runs in a worker process; what it gives goes over the wire as it is, so it is JSON text already.
"""

from __future__ import annotations

import time
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from pydantic import TypeAdapter

from cordwright.bench.models import Amount, Cost, Extent, Mass, Numbers, Problem, Unpriced
from cordwright.bench.outline import outline
from cordwright.bench.reach import reaches
from cordwright.errors import CordwrightError, PlanError
from cordwright.hang.counted import AsWorked, as_worked, counted
from cordwright.piece.answer import CutReport
from cordwright.piece.cutlist import cut_list
from cordwright.piece.report import cut_json
from cordwright.piece.work import work
from cordwright.plan.layout import BOM, Layout, layout, written
from cordwright.plan.problems import PlanErrors
from cordwright.plan.read import parse_plan
from cordwright.supply.atwork import cost_of, hands_of, shelf_cords

if TYPE_CHECKING:
    from cordwright.knots.atlas import Atlas
    from cordwright.piece.model import Piece
    from cordwright.piece.risk import Known
    from cordwright.plan.model import Plan

PROBLEMS: TypeAdapter[list[Problem]] = TypeAdapter(list[Problem])
NO_TITLE = ""


class RefusedError(CordwrightError):
    """A change cannot be made.

    Args:
        problems: why; at least one.
    """

    def __init__(self, problems: Sequence[Problem]) -> None:
        super().__init__(problems[0].what, remedy=problems[0].remedy)
        self.problems = tuple(problems)


@dataclass(frozen=True, slots=True)
class Told:
    """What is told of a text.

    Args:
        good: whether it is a plan that can be worked.
        title: the plan's, empty if it is none.
        problems: JSON of a list of `Problem`.
        outline: JSON of an `Outline`; None if it is not good.
    """

    good: bool
    title: str
    problems: bytes
    outline: bytes | None


@dataclass(frozen=True, slots=True)
class Worked:
    """A text that is a plan, worked.

    Args:
        plan: as read.
        layout: of its text.
        piece: as worked, lengths as they add up.
        known: what swatches told of its cords, if its cords are on the shelf.
    """

    plan: Plan
    layout: Layout
    piece: Piece
    known: Known | None


@dataclass(frozen=True, slots=True)
class Study:
    """A text, and the piece that it comes to, or why it comes to none.

    Args:
        text: all of it.
        title: the plan's, as far as it can be read.
        worked: the piece; None if there is none.
        problems: what is wrong, or worth knowing.
    """

    text: str
    title: str
    worked: Worked | None
    problems: tuple[Problem, ...]

    def told(self) -> Told:
        """For the wire."""
        made = None
        if self.worked is not None:
            made = outline(self.worked.plan, self.worked.layout, self.worked.piece)
        return Told(
            self.worked is not None,
            self.title,
            PROBLEMS.dump_json(list(self.problems)),
            None if made is None else made.model_dump_json().encode(),
        )


def study(text: str, atlas: Atlas, shelf: Path | None = None) -> Study:
    """Read a text and work the plan that it is.

    Args:
        text: as the file holds it.
        atlas: of tight knots.
        shelf: the maker's shelf, the usual one if None.
    """
    title = NO_TITLE
    try:
        plan = parse_plan(text, "", partial(shelf_cords, shelf))
        title = plan.title
        handling, known = hands_of(plan, shelf, "", atlas)
        piece = work(plan, atlas, handling=handling)
        where = layout(text.removeprefix(BOM))
    except CordwrightError as error:
        return Study(text, title, None, tuple(problems(error, text)))
    warned = [
        Problem(
            level="warning",
            what=remark.what,
            remedy="",
            line=remark.step.line if remark.step else None,
            column=remark.step.column if remark.step else None,
            path=None,
        )
        for remark in piece.warnings
    ]
    found = tuple(_placed(warned, where))
    return Study(text, title, Worked(plan, where, piece, known), found)


def problems(error: CordwrightError, text: str = "") -> list[Problem]:
    """What is wrong, each with its place."""
    if isinstance(error, RefusedError):
        return list(error.problems)
    errors = error.errors if isinstance(error, PlanErrors) else (error,)
    found = [
        Problem(
            level="error",
            what=e.what,
            remedy=e.remedy,
            line=e.place.line if e.place else None,
            column=e.place.column if e.place else None,
            path=None,
        )
        for e in errors
    ]
    try:
        return _placed(found, layout(text.removeprefix(BOM)))
    except PlanError:  # no YAML: nothing in it has a path
        return found


def _placed(found: Iterable[Problem], where: Layout) -> list[Problem]:
    """The same with the paths of what they are about."""
    return [p.model_copy(update={"path": _path(where, p)}) for p in found]


def _path(where: Layout, problem: Problem) -> str | None:
    """Path of the innermost thing that a line and column are in."""
    if problem.line is None or problem.line > len(where.starts):
        return None
    at = where.starts[problem.line - 1] + (problem.column or 1) - 1
    node, path = where.root, ()
    found: tuple[str | int, ...] = path
    while True:
        inner = next((i for i in node.items if i.start <= at <= max(i.start, i.value.end)), None)
        if inner is None:
            return written(found) if found else None
        found, node = (*found, inner.key), inner.value


def numbers(
    worked: Worked, name: str, revision: int, trying: int | None, shelf: Path | None = None
) -> bytes:
    """What to cut, how large and how heavy a piece comes out: JSON of `Numbers`.

    Args:
        worked: the piece.
        name: of the piece, in the maker's folder.
        revision: of its state.
        trying: number of the try, if it is none that is kept.
        shelf: the maker's shelf, the usual one if None.
    """
    began = time.perf_counter()
    shape = as_worked(worked.piece)
    report = _cuts(worked, shape)
    reach = reaches(worked.plan, worked.piece)
    told = Numbers(
        name=name,
        revision=revision,
        trying=trying,
        cut=report,
        extent=Extent(
            length_mm=report.finished_length_mm,
            width_mm=shape.width_mm,
            height_mm=shape.height_mm,
        ),
        cord_mass=_mass(report),
        cost=_cost(worked.plan, shelf, report),
        parts={written(path): (r.top_mm, r.bottom_mm) for path, r in reach.items()},
        ms=1000.0 * (time.perf_counter() - began),
    )
    return told.model_dump_json().encode()


def _cuts(worked: Worked, shape: AsWorked) -> CutReport:
    piece = counted(shape)
    cuts = cut_list(piece, known=worked.known)
    size = shape.width_mm, shape.height_mm
    return CutReport.model_validate(cut_json(piece, cuts, size))


def _cost(plan: Plan, shelf: Path | None, report: CutReport) -> Cost:
    found = cost_of(plan, shelf, {kind.cord: kind.cut_mm for kind in report.kinds})
    return Cost(
        amounts=[Amount(currency=c, amount=str(a)) for c, a in found.amounts.items()],
        unpriced=[Unpriced(cord=cord, why=why) for cord, why in found.unpriced.items()],
    )


def _mass(report: CutReport) -> Mass | None:
    """Of all cord that is cut; None where one kind's weight is not known."""
    found: dict[str, float] = {"g": 0.0, "low_g": 0.0, "high_g": 0.0}
    for kind in report.kinds:
        if kind.weight_g is None or kind.weight_low_g is None or kind.weight_high_g is None:
            return None
        found["g"] += kind.weight_g
        found["low_g"] += kind.weight_low_g
        found["high_g"] += kind.weight_high_g
    return Mass(**found)
