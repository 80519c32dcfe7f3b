"""Doors to the plans that come with Cordwright."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING, Annotated

from fastapi import APIRouter, Path, Request, Response

from cordwright.bench.models import Trouble
from cordwright.bench.wire import MOST_NAME

if TYPE_CHECKING:
    from cordwright.bench.sketches import Sketches

router = APIRouter(prefix="/api/examples", tags=["examples"])

KEEP = {"Cache-Control": "private, max-age=3600"}


def sketches_of(request: Request) -> Sketches:
    """The small pictures that a request is for."""
    sketches: Sketches = request.app.state.sketches
    return sketches


@router.get(
    "/{name}.png",
    response_class=Response,
    responses={
        200: {"content": {"image/png": {"schema": {"type": "string", "format": "binary"}}}},
        404: {"model": Trouble, "description": "There is no such door: a name has no slash."},
        503: {"description": "The workbench is being closed."},
        422: {"model": Trouble, "description": "No such plan comes with Cordwright."},
    },
)
async def sketch(
    request: Request,
    name: Annotated[
        str,
        Path(
            min_length=1,
            max_length=MOST_NAME,
            description="Name of a plan that comes with Cordwright.",
            examples=["tally-fob"],
        ),
    ],
) -> Response:
    """A small picture of a plan that comes with Cordwright."""
    try:
        found = await sketches_of(request).of(name)
    except asyncio.CancelledError:  # the workbench is being closed
        return Response(status_code=503)
    return Response(found, media_type="image/png", headers=KEEP)
