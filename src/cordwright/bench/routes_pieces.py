"""Doors to pieces: the folder, documents, their changes and their history."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

from fastapi import APIRouter, Path, Query, Request, Response

from cordwright.bench import changes  # noqa: TC001 - FastAPI reads it at run time
from cordwright.bench.models import (
    Conflict,
    Document,
    Hanging,
    History,
    Numbers,
    Pieces,
    Trouble,
)
from cordwright.bench.wire import MOST_NAME

if TYPE_CHECKING:
    from cordwright.bench.bench import Bench

router = APIRouter(prefix="/api/pieces", tags=["pieces"])

Name = Annotated[str, Path(min_length=1, max_length=MOST_NAME, description="Name of a piece.")]
MISSING: dict[int | str, dict[str, Any]] = {
    400: {"model": Trouble, "description": "A name that no piece can have, or not JSON."},
    404: {"model": Trouble, "description": "There is no such piece."},
    422: {"model": Trouble, "description": "What was asked for cannot be."},
}
CHANGED: dict[int | str, dict[str, Any]] = {
    **MISSING,
    409: {"model": Conflict, "description": "Changed elsewhere meanwhile; how it stands now."},
    422: {"model": Trouble, "description": "What was asked for cannot be."},
}


def told(body: bytes, status: int = 200) -> Response:
    """An answer that is JSON already."""
    return Response(body, status, media_type="application/json")


def bench_of(request: Request) -> Bench:
    """The bench that a request is for."""
    bench: Bench = request.app.state.bench
    return bench


@router.get("")
async def pieces(request: Request) -> Pieces:
    """All pieces in the maker's folder, deleted ones, and the plans that come with Cordwright."""
    return await bench_of(request).pieces()


@router.post(
    "",
    status_code=201,
    response_model=Document,
    responses={
        **MISSING,
        409: {"model": Trouble, "description": "There is such a piece already."},
        422: {"model": Trouble, "description": "It cannot begin from that."},
    },
)
async def begin(request: Request, new: changes.NewPiece) -> Response:
    """A new piece, from an example, a blank mount, another piece or a text."""
    return told(await bench_of(request).begin(new), 201)


@router.get("/{name}", response_model=Document, responses=MISSING)
async def document(request: Request, name: Name) -> Response:
    """A piece as it stands."""
    return told(await bench_of(request).document(name))


@router.delete("/{name}", responses=MISSING, status_code=204)
async def delete(request: Request, name: Name) -> Response:
    """Delete a piece. It stays in the history, from where it can be restored."""
    await bench_of(request).delete(name)
    return Response(status_code=204)


@router.post("/{name}/change", response_model=Document, responses=CHANGED)
async def change(request: Request, name: Name, asked: changes.ChangeRequest) -> Response:
    """Change something in a plan; every other character of its text stays as it is."""
    return told(await bench_of(request).change(name, asked.revision, asked.change))


@router.put("/{name}/text", response_model=Document, responses=CHANGED)
async def text(request: Request, name: Name, asked: changes.TextRequest) -> Response:
    """Take over a text as the maker typed it, whether or not it is a plan."""
    return told(await bench_of(request).retype(name, asked.revision, asked.text))


@router.post("/{name}/undo", response_model=Document, responses=CHANGED)
async def undo(request: Request, name: Name, asked: changes.RevisionRequest) -> Response:
    """Undo the last change that is not undone."""
    return told(await bench_of(request).undo(name, asked.revision))


@router.post("/{name}/redo", response_model=Document, responses=CHANGED)
async def redo(request: Request, name: Name, asked: changes.RevisionRequest) -> Response:
    """Do again what was undone last."""
    return told(await bench_of(request).redo(name, asked.revision))


@router.get("/{name}/history", responses=MISSING)
async def history(
    request: Request,
    name: Name,
    before: Annotated[int | None, Query(ge=1, le=2**53 - 1)] = None,
    count: Annotated[int, Query(ge=1, le=500)] = 100,
) -> History:
    """States of a piece, the newest first, deleted pieces included."""
    return await bench_of(request).history(name, before, count)


@router.get(
    "/{name}/history/{revision}",
    response_class=Response,
    responses={**MISSING, 200: {"content": {"text/plain": {"schema": {"type": "string"}}}}},
)
async def past_text(
    request: Request, name: Name, revision: Annotated[int, Path(ge=1, le=2**53 - 1)]
) -> Response:
    """The text of an earlier state."""
    found = await bench_of(request).past_text(name, revision)
    return Response(found, media_type="text/plain; charset=utf-8")


@router.post("/{name}/restore", response_model=Document, responses=CHANGED)
async def restore(request: Request, name: Name, asked: changes.RestoreRequest) -> Response:
    """Go back to an earlier state, or bring a deleted piece back."""
    return told(await bench_of(request).restore(name, asked.revision, asked.to))


@router.get("/{name}/numbers", response_model=Numbers, responses=CHANGED)
async def numbers(request: Request, name: Name) -> Response:
    """Cut list, size and weight of the last state that could be worked."""
    return told(await bench_of(request).numbers(name))


@router.get("/{name}/hanging", response_model=Hanging, responses=CHANGED)
async def hanging(request: Request, name: Name) -> Response:
    """Loads and fit of the last state that could be worked; waits until they are known."""
    return told(await bench_of(request).hanging(name))
