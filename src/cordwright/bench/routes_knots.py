"""Doors to the knot room."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any, Literal

from fastapi import APIRouter, Path, Query, Request, Response

from cordwright.bench.models import Trouble
from cordwright.bench.models_knots import Knot, KnotMotion, Knots
from cordwright.bench.wire import MOST_NAME

if TYPE_CHECKING:
    from cordwright.bench.knotroom import KnotRoom

router = APIRouter(prefix="/api/knots", tags=["knots"])

Name = Annotated[
    str,
    Path(
        min_length=1,
        max_length=MOST_NAME,
        description="Name of a knot, or of a kind of knot for the one that stands for it.",
        examples=["square-knot-n4"],
    ),
]
Which = Annotated[
    Literal["left", "right"], Query(description="The mirror image; the other hand begins.")
]
Thick = Annotated[
    float, Query(ge=0.1, le=100, allow_inf_nan=False, description="Diameter of the cord, mm.")
]
MISSING: dict[int | str, dict[str, Any]] = {
    404: {"model": Trouble, "description": "There is no such knot."},
    422: {"model": Trouble, "description": "What was asked for cannot be."},
}
PICTURE: dict[int | str, dict[str, Any]] = {
    **MISSING,
    200: {"content": {"image/svg+xml": {"schema": {"type": "string", "format": "binary"}}}},
}
KEEP = {"Cache-Control": "private, max-age=86400"}
"""A tight knot stays as it is, so a browser may keep its pictures."""


def _svg(picture: bytes) -> Response:
    return Response(picture, media_type="image/svg+xml", headers=KEEP)


def room_of(request: Request) -> KnotRoom:
    """The knot room of the workbench that a request is for."""
    room: KnotRoom = request.app.state.knots
    return room


@router.get("", responses={422: MISSING[422]})
async def knots(request: Request, cord_mm: Thick = 4.0) -> Knots:
    """Every tight shape of the atlas, by kind of knot."""
    return room_of(request).all(cord_mm)


@router.get("/{name}.svg", response_class=Response, responses=PICTURE)
async def figure(request: Request, name: Name, hand: Which = "left") -> Response:
    """A tight knot, drawn."""
    return _svg(await room_of(request).figure(name, hand))


@router.get("/{name}/motion", response_model=KnotMotion, responses=MISSING)
async def motion(request: Request, name: Name, hand: Which = "left") -> Response:
    """A knot's tying as motion in three dimensions; its last key is the tight knot."""
    told = await room_of(request).motion(name, hand)
    return Response(told, media_type="application/json", headers=KEEP)


@router.get("/{name}/steps/{number}.svg", response_class=Response, responses=PICTURE)
async def step(
    request: Request,
    name: Name,
    number: Annotated[int, Path(ge=1, le=99)],
    hand: Which = "left",
) -> Response:
    """One step of a knot's tying, drawn."""
    return _svg(await room_of(request).step(name, hand, number))


@router.get("/{name}", responses=MISSING)
async def knot(request: Request, name: Name, hand: Which = "left", cord_mm: Thick = 4.0) -> Knot:
    """One tight shape: its measures and the cord that it uses."""
    return await room_of(request).one(name, hand, cord_mm)
