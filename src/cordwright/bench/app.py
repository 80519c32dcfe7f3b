"""The application: doors, errors as a maker should hear them, and the page."""

from __future__ import annotations

import json
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from typing import TYPE_CHECKING

from fastapi import FastAPI, Request, Response
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException

from cordwright import __version__
from cordwright.bench import (
    pagefiles,
    routes_examples,
    routes_knots,
    routes_lesson,
    routes_live,
    routes_making,
    routes_pictures,
    routes_pieces,
    routes_shelf,
    routes_supply,
    routes_tiealong,
)
from cordwright.bench.bench import Bench, ConflictError
from cordwright.bench.desk import FaultError, RefusedJobError, SupersededError
from cordwright.bench.folder import ExistsError, Folder, NoSuchPieceError
from cordwright.bench.guard import Guard, Lock
from cordwright.bench.knotlist import NoSuchKnotError
from cordwright.bench.knotroom import KnotRoom, NoSuchStepError
from cordwright.bench.makings import Makings, NoMakingError
from cordwright.bench.models import Trouble
from cordwright.bench.names import NameError_
from cordwright.bench.sketches import Sketches
from cordwright.bench.tiealong import TieAlong
from cordwright.errors import CordwrightError

if TYPE_CHECKING:
    from starlette.types import ASGIApp

STATUS: tuple[tuple[type[CordwrightError], int], ...] = (
    (NameError_, 400),
    (NoSuchPieceError, 404),
    (NoSuchKnotError, 404),
    (NoSuchStepError, 404),
    (NoMakingError, 404),
    (ExistsError, 409),
)
"""Which answer an error is; 422 for all others that a maker can be told of."""


TOO_MUCH: dict[int | str, dict[str, object]] = {
    413: {
        "description": "More than is taken.",
        "content": {"text/plain": {"schema": {"type": "string"}}},
    },
}
"""What the guard says at any door of a body that is too large."""


def bare_app() -> FastAPI:
    """The doors without anything behind them: for the API's own description."""
    app = FastAPI(
        title="Cordwright workbench",
        version=__version__,
        openapi_url=None,  # no pages of documentation that load things from elsewhere
        redirect_slashes=False,
    )
    for routes in (
        routes_pieces,
        routes_pictures,
        routes_live,
        routes_making,
        routes_lesson,
        routes_knots,
        routes_examples,
        routes_shelf,
        routes_supply,
        routes_tiealong,
    ):
        app.include_router(routes.router, responses=TOO_MUCH)
    return app


def make_app(bench: Bench, lock: Lock, ready: Callable[[], None] = lambda: None) -> ASGIApp:
    """The workbench as an ASGI application.

    Args:
        bench: what is behind the doors; started and stopped with the application.
        lock: what opens it.
        ready: is called when it has started.
    """
    makings = Makings(bench.setting.shelf, bench.report)
    tie_along = TieAlong()

    @asynccontextmanager
    async def life(_app: FastAPI) -> AsyncIterator[None]:
        await bench.start()
        ready()
        try:
            yield
        finally:
            await app.state.knots.stop()
            await app.state.sketches.stop()
            await tie_along.turn_off()
            await makings.stop()
            await bench.stop()

    app = bare_app()
    app.router.lifespan_context = life
    app.state.bench = bench
    app.state.knots = KnotRoom()
    app.state.sketches = Sketches(Folder(bench.setting.folder).own / "sketches", bench.warm)
    app.state.makings = makings
    app.state.tie_along = tie_along
    app.mount("/", pagefiles.files())
    for kind, answer in (
        (CordwrightError, _told),
        (RequestValidationError, _unreadable),
        (ConflictError, _conflict),
        (SupersededError, _superseded),
        (FaultError, _fault),
        (HTTPException, _refused),
    ):
        app.add_exception_handler(kind, answer)
    return Guard(app, lock)


def _trouble(status: int, what: str, remedy: str = "", problems: bytes = b"[]") -> Response:
    told = Trouble(what=what, remedy=remedy, problems=[]).model_dump()
    told.pop("problems")
    head = json.dumps(told, ensure_ascii=False).encode()
    body = b'%s,"problems":%s}' % (head[:-1], problems)
    return Response(body, status, media_type="application/json")


async def _told(_request: Request, error: Exception) -> Response:
    assert isinstance(error, CordwrightError)  # noqa: S101 - the handler is for these
    status = next((s for kind, s in STATUS if isinstance(error, kind)), 422)
    problems = error.problems if isinstance(error, RefusedJobError) else b"[]"
    return _trouble(status, error.what, error.remedy, problems)


async def _unreadable(_request: Request, error: Exception) -> Response:
    assert isinstance(error, RequestValidationError)  # noqa: S101 - the handler is for these
    found = error.errors()
    first = found[0] if found else {"loc": (), "msg": "It cannot be read."}
    where = ".".join(str(part) for part in first["loc"][1:])
    status = 400 if any(e.get("type") == "json_invalid" for e in found) else 422
    return _trouble(status, f"The request cannot be read: {where or 'its body'}: {first['msg']}.")


async def _conflict(_request: Request, error: Exception) -> Response:
    assert isinstance(error, ConflictError)  # noqa: S101 - the handler is for these
    what = b'"The piece was changed elsewhere meanwhile."'
    body = b'{"what":%s,"document":%s}' % (what, error.document)
    return Response(body, 409, media_type="application/json")


async def _superseded(_request: Request, _error: Exception) -> Response:
    return _trouble(503, "Something newer took its place.", "ask again")


async def _fault(request: Request, error: Exception) -> Response:
    request.app.state.bench.report(str(error))
    return _trouble(
        500,
        "Cordwright met something it does not know how to handle.",
        "the plan is safe; undo the last change, and report what you did",
    )


async def _refused(_request: Request, error: Exception) -> Response:
    assert isinstance(error, HTTPException)  # noqa: S101 - the handler is for these
    return _trouble(error.status_code, str(error.detail))
