"""Doors to pictures of a piece: the scene, the flat picture, the chart, one strand's way."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from fastapi import APIRouter, Path, Query, Request, Response

from cordwright.bench.routes_pieces import CHANGED, Name, bench_of
from cordwright.bench.wire import MOST_NAME

router = APIRouter(prefix="/api/pieces/{name}", tags=["pictures"])

Units = Annotated[Literal["metric", "inch"], Query(description="What lengths are written in.")]
SVG = "image/svg+xml"


def _file(kind: str) -> dict[int | str, dict[str, Any]]:
    schema = {"type": "string", "format": "binary"}
    return {**CHANGED, 200: {"content": {kind: {"schema": schema}}}}


@router.get("/scene.glb", response_class=Response, responses=_file("model/gltf-binary"))
async def scene(
    request: Request,
    name: Name,
    revision: Annotated[int | None, Query(ge=1, le=2**53 - 1)] = None,
    detail: Literal["low", "high"] = "high",
) -> Response:
    """The hanging piece in three dimensions; waits until it is there.

    With ``revision``: of that state, if it is still the one shown (409 if not).
    """
    found = await bench_of(request).built(name, revision, "scene", detail)
    return Response(found, media_type="model/gltf-binary")


@router.get("/parts.glb", response_class=Response, responses=_file("model/gltf-binary"))
async def parts(
    request: Request,
    name: Name,
    revision: Annotated[int | None, Query(ge=1, le=2**53 - 1)] = None,
    detail: Literal["low", "high"] = "high",
    trying: Annotated[int | None, Query(ge=0, le=2**53 - 1)] = None,
    tab: Annotated[int, Query(ge=0, le=2**53 - 1)] = 0,
) -> Response:
    """What the scene is put together from: shapes of knots, surfaces, things; each once.

    Where they are is told on the live channel. With ``revision``: of that state, if it is still the
    one shown (409 if not). With ``trying`` and ``tab``, as the live channel gave them: of that try.
    """
    bench = bench_of(request)
    if trying is not None:
        found = await bench.tried(name, tab, trying, detail)
    else:
        found = await bench.built(name, revision, "parts", detail)
    return Response(found, media_type="model/gltf-binary")


@router.get("/picture.svg", response_class=Response, responses=_file(SVG))
async def picture(request: Request, name: Name, units: Units = "metric") -> Response:
    """The hanging piece, flat, with its measures."""
    return Response(await bench_of(request).picture(name, units), media_type=SVG)


@router.get("/chart.svg", response_class=Response, responses=_file(SVG))
async def chart(request: Request, name: Name, units: Units = "metric") -> Response:
    """The chart to work from."""
    return Response(await bench_of(request).chart(name, units), media_type=SVG)


@router.get("/strand/{strand}", response_class=Response, responses=_file(SVG))
async def strand(
    request: Request,
    name: Name,
    strand: Annotated[str, Path(min_length=1, max_length=MOST_NAME)],
    units: Units = "metric",
) -> Response:
    """The piece with one strand (``3L``) or cord (``3``) picked out."""
    return Response(await bench_of(request).strand(name, strand, units), media_type=SVG)
