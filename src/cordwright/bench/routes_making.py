"""Doors to what takes a while: how it stands, and giving it up."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

from fastapi import APIRouter, Path, Request

from cordwright.bench.lessonmodels import Making  # noqa: TC001 - FastAPI reads it at run time
from cordwright.bench.models import Trouble

if TYPE_CHECKING:
    from cordwright.bench.makings import Makings

router = APIRouter(prefix="/api/makings", tags=["makings"])

Number = Annotated[int, Path(ge=1, le=2**53 - 1, description="Number of a making.")]
GONE: dict[int | str, dict[str, Any]] = {
    400: {"model": Trouble, "description": "The request is not JSON."},
    404: {"model": Trouble, "description": "It is no longer there, or never was."},
    422: {"model": Trouble, "description": "What was asked for cannot be."},
}


def makings_of(request: Request) -> Makings:
    """The makings that a request is for."""
    makings: Makings = request.app.state.makings
    return makings


@router.get("/{number}", responses=GONE)
async def making(request: Request, number: Number) -> Making:
    """How something stands that takes a while."""
    return makings_of(request).state(number)


@router.delete("/{number}", responses=GONE)
async def cancel(request: Request, number: Number) -> Making:
    """Give it up, unless it is done."""
    return makings_of(request).cancel(number)
