"""Doors to the maker's shelf, and to what its swatches say."""

from __future__ import annotations

import asyncio
from pathlib import Path
from typing import Any

from fastapi import APIRouter, Request, Response

from cordwright.bench import shelving
from cordwright.bench.lessonmodels import Making  # noqa: TC001 - FastAPI reads it at run time
from cordwright.bench.models import Trouble
from cordwright.bench.routes_lesson import attachment
from cordwright.bench.routes_making import GONE, Number, makings_of
from cordwright.bench.routes_pieces import bench_of
from cordwright.bench.supplyjob import EnterSwatch, Found, Say
from cordwright.bench.supplymodels import (
    HandsAnswer,
    HandsRequest,
    Imported,
    RemoveRequest,
    Shelf,
    SwatchRequest,
    TableRequest,
    ThingRequest,
    UndoRequest,
)
from cordwright.supply.shelfanswer import SwatchReport

router = APIRouter(prefix="/api/shelf", tags=["shelf"])

WRONG: dict[int | str, dict[str, Any]] = {
    400: {"model": Trouble, "description": "The request is not JSON."},
    422: {"model": Trouble, "description": "What was asked for cannot be."},
}


def shelf_of(request: Request) -> Path | None:
    """The shelf's file; None for the maker's usual one."""
    return bench_of(request).setting.shelf


@router.get("", responses=WRONG)
async def shelf(request: Request) -> Shelf:
    """All that is on the shelf."""
    return await asyncio.to_thread(shelving.shelf, shelf_of(request))


@router.post("/things", responses=WRONG)
async def put(request: Request, asked: ThingRequest) -> Shelf:
    """Put a thing on the shelf, or change it; the shelf as it stands then."""
    file = shelf_of(request)
    await asyncio.to_thread(shelving.put, file, asked.kind, asked.fields, change=asked.change)
    return await asyncio.to_thread(shelving.shelf, file)


@router.post("/remove", responses=WRONG)
async def remove(request: Request, asked: RemoveRequest) -> Shelf:
    """Take a thing off the shelf for good; the shelf as it stands then."""
    file = shelf_of(request)
    await asyncio.to_thread(shelving.remove, file, asked.kind, asked.name)
    return await asyncio.to_thread(shelving.shelf, file)


@router.get(
    "/table.csv",
    response_class=Response,
    responses={**WRONG, 200: {"content": {"text/csv": {"schema": {"type": "string"}}}}},
)
async def table(request: Request) -> Response:
    """The shelf as a table that spreadsheets read."""
    text = await asyncio.to_thread(shelving.table, shelf_of(request))
    return attachment(text.encode(), "shelf.csv", "text/csv; charset=utf-8")


@router.post("/table", responses=WRONG)
async def bring(request: Request, asked: TableRequest) -> Imported:
    """Bring a table onto the shelf: all of it, or nothing if something in it is wrong."""
    return Imported(count=await asyncio.to_thread(shelving.bring, shelf_of(request), asked.text))


@router.get(
    "/backup.db",
    response_class=Response,
    responses={
        **WRONG,
        200: {"content": {"application/vnd.sqlite3": {"schema": {"type": "string"}}}},
    },
)
async def backup(request: Request) -> Response:
    """A copy of the shelf."""
    data = await asyncio.to_thread(shelving.copied, shelf_of(request))
    return attachment(data, "shelf.db", "application/vnd.sqlite3")


@router.post("/undo", responses=WRONG)
async def undo(request: Request, asked: UndoRequest) -> Shelf:
    """Put back what an entry of the log took; the shelf as it stands then."""
    file = shelf_of(request)
    await asyncio.to_thread(shelving.undo, file, asked.entry)
    return await asyncio.to_thread(shelving.shelf, file)


@router.post("/swatches", status_code=202, responses=WRONG)
async def swatch(request: Request, asked: SwatchRequest) -> Making:
    """Enter a trial."""
    job = EnterSwatch(dict(asked.fields), asked.start, asked.left)
    return makings_of(request).begin("swatch", job)


@router.post("/hands", status_code=202, responses=WRONG)
async def hands(request: Request, asked: HandsRequest) -> Making:
    """Ask what swatches say of a cord in somebody's hands."""
    return makings_of(request).begin("hands", Say(asked.cord, asked.maker))


@router.get("/hands/{number}", responses=GONE)
async def said(request: Request, number: Number) -> HandsAnswer:
    """What swatches say, when it was worked out."""
    _, found = makings_of(request).result(number, Found)
    return HandsAnswer(number=number, report=SwatchReport.model_validate(found.report))
