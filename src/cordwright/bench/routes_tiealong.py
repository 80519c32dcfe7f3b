"""Doors to tie-along: on, another code, off."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fastapi import APIRouter, Request
from pydantic import Field

from cordwright.bench.lessonjob import Made
from cordwright.bench.routes_making import GONE, makings_of
from cordwright.bench.tiealong import TieAlongState  # noqa: TC001 - FastAPI reads it
from cordwright.bench.wire import Wire

if TYPE_CHECKING:
    from cordwright.bench.tiealong import TieAlong

router = APIRouter(prefix="/api/tie-along", tags=["tie-along"])


class LendRequest(Wire):
    """Which lesson page is lent out."""

    lesson: int = Field(ge=1, le=2**53 - 1, description="Number of a lesson that was made.")


def tie_along_of(request: Request) -> TieAlong:
    """The tie-along of the workbench that a request is for."""
    found: TieAlong = request.app.state.tie_along
    return found


@router.get("")
async def state(request: Request) -> TieAlongState:
    """Whether a lesson page is lent out."""
    return tie_along_of(request).state()


@router.post("", responses=GONE)
async def turn_on(request: Request, asked: LendRequest) -> TieAlongState:
    """Lend a lesson page out in the network."""
    (name, *_), made = makings_of(request).result(asked.lesson, Made)
    return await tie_along_of(request).turn_on(name, made.files["lesson.html"])


@router.post("/code")
async def renew(request: Request) -> TieAlongState:
    """Another code, for another phone."""
    return tie_along_of(request).renew()


@router.delete("")
async def turn_off(request: Request) -> TieAlongState:
    """Lend nothing out any more."""
    return await tie_along_of(request).turn_off()
