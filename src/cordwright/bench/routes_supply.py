"""Doors to cutting plans: planned, carried out on the shelf, printed; and what can be made."""

from __future__ import annotations

import asyncio
import contextlib
from dataclasses import replace
from typing import Annotated, Any, Final, Literal

from fastapi import APIRouter, Path, Request, Response

from cordwright.bench import shelving
from cordwright.bench.lessonmodels import Making  # noqa: TC001 - FastAPI reads it at run time
from cordwright.bench.routes_lesson import attachment
from cordwright.bench.routes_making import GONE, Number, makings_of
from cordwright.bench.routes_pieces import MISSING, Name, bench_of
from cordwright.bench.routes_shelf import WRONG, shelf_of
from cordwright.bench.supplyjob import Cut, Cutting, EnterFinished, Found, Make
from cordwright.bench.supplymodels import (
    FinishedRequest,
    Makeable,
    MakeRequest,
    Supplied,
    SupplyRequest,
    TakenAnswer,
)
from cordwright.errors import CordwrightError, SupplyError
from cordwright.supply.answer import MakeReport, SupplyReport

router = APIRouter(tags=["supply"])

TRY_S: Final = 2.0
"""Time for each plan that is tried, as the command line suggests for folders."""

KINDS: Final = {
    "html": "text/html; charset=utf-8",
    "csv": "text/csv; charset=utf-8",
    "md": "text/markdown; charset=utf-8",
    "txt": "text/plain; charset=utf-8",
}


@router.post("/api/pieces/{name}/supply", status_code=202, responses=MISSING)
async def plan(request: Request, name: Name, asked: SupplyRequest) -> Making:
    """Begin the cutting plan of a run of kits, of the last state that could be worked."""
    good = await bench_of(request).good(name)
    return makings_of(request).begin("supply", Cut(good.text, asked), (name, good.revision))


@router.post("/api/pieces/{name}/finished", status_code=202, responses=MISSING)
async def finished(request: Request, name: Name, asked: FinishedRequest) -> Making:
    """Enter what a finished piece, as it was last worked, really used of a cord of the shelf."""
    good = await bench_of(request).good(name)
    return makings_of(request).begin("finished", EnterFinished(good.text, asked))


@router.get("/api/supply/{number}", responses=GONE)
async def planned(request: Request, number: Number) -> Supplied:
    """A cutting plan."""
    (name, revision), made = makings_of(request).result(number, Cutting)
    report = SupplyReport.model_validate(made.report)
    what, remedy = made.blocked
    return Supplied(
        number=number, piece=name, revision=revision, report=report, blocked=what, remedy=remedy,
        taken=report.taken,
    )  # fmt: skip


@router.post("/api/supply/{number}/take", responses=GONE)
async def take(request: Request, number: Number) -> TakenAnswer:
    """Carry a cutting plan out on the shelf, once."""
    makings = makings_of(request)
    _, made = makings.result(number, Cutting)
    if made.changes is None:
        what, remedy = made.blocked
        raise SupplyError(what, remedy=remedy)
    if made.report["taken"] is not None:
        raise SupplyError("This plan was carried out already.", remedy="plan it again")
    if not made.changes:
        return TakenAnswer(entry=None)
    # Marked before it is done, so that asking twice at once takes nothing twice.
    done = {**made.report, "taken": 1}
    makings.amend(number, replace(made, report=done))
    try:
        file = shelf_of(request)
        entry = await asyncio.to_thread(shelving.carry_out, file, made.said, made.changes)
    except BaseException:
        makings.amend(number, made)
        raise
    makings.amend(number, replace(made, report={**done, "taken": entry}))
    return TakenAnswer(entry=entry)


def _file() -> dict[int | str, dict[str, Any]]:
    schema = {"type": "string", "format": "binary"}
    return {**GONE, 200: {"content": {"application/octet-stream": {"schema": schema}}}}


@router.get("/api/supply/{number}/papers.{ending}", response_class=Response, responses=_file())
async def papers(
    request: Request,
    number: Number,
    ending: Annotated[Literal["html", "csv", "md", "txt"], Path(description="How written.")],
) -> Response:
    """Parts list, packing sheet and labels."""
    (name, _), made = makings_of(request).result(number, Cutting)
    return attachment(made.papers[f".{ending}"].encode(), f"{name}-kit.{ending}", KINDS[ending])


@router.post("/api/makeable", status_code=202, responses=WRONG)
async def make(request: Request, asked: MakeRequest) -> Making:
    """Begin trying what can be made of all pieces with what is on the shelf."""
    bench = bench_of(request)
    texts: dict[str, str] = {}
    for piece in (await bench.pieces()).pieces:
        with contextlib.suppress(CordwrightError):  # no state of it could be worked yet
            texts[piece.name] = (await bench.good(piece.name)).text
    job = Make(texts, SupplyRequest(kits=asked.kits, seconds=TRY_S))
    return makings_of(request).begin("makeable", job)


@router.get("/api/makeable/{number}", responses=GONE)
async def makeable(request: Request, number: Number) -> Makeable:
    """What can be made, when all pieces were tried."""
    _, found = makings_of(request).result(number, Found)
    return Makeable(number=number, report=MakeReport.model_validate(found.report))
