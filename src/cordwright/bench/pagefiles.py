"""The page's own files, as they were built into the package, and the fonts that it is set in."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Final

from starlette.applications import Starlette
from starlette.responses import FileResponse, PlainTextResponse, Response
from starlette.routing import Route

from cordwright.teach.fonts import font_folders

if TYPE_CHECKING:
    from starlette.requests import Request

BUILT: Final = Path(__file__).with_name("page")
"""Where the build puts the page (``hatch_build.py``)."""

MISSING: Final = """\
The workbench's server runs, but its page was not built into this installation.

Install Cordwright again from its checkout (python3 start.py run --help does that), which builds
the page, and start it anew. Your plans are safe, and every command of the command line works.
"""

KINDS: Final = {
    ".css": "text/css; charset=utf-8",
    ".html": "text/html; charset=utf-8",
    ".ico": "image/x-icon",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".map": "application/json",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".ttf": "font/ttf",
    ".txt": "text/plain; charset=utf-8",
    ".wasm": "application/wasm",
    ".webmanifest": "application/manifest+json",
    ".woff2": "font/woff2",
}
"""What the page is made of; nothing else is given out."""


def files(built: Path = BUILT) -> Starlette:
    """What gives out the page's files.

    The files are listed once, when this is made: no path of a request is ever looked up.

    Args:
        built: the folder of the page.
    """
    known = {f"/{p.relative_to(built).as_posix()}": p for p in sorted(built.rglob("*"))}
    known = {name: p for name, p in known.items() if p.is_file() and p.suffix in KINDS}
    for folder in font_folders():
        known |= {f"/fonts/{p.name}": p for p in sorted(folder.glob("*.ttf"))}
    if "/index.html" in known:
        known["/"] = known["/index.html"]

    if "/icon.svg" in known:  # browsers ask for it by this name before they have read the page
        known["/favicon.ico"] = known["/icon.svg"]

    async def give(request: Request) -> Response:
        path = request.scope["path"]
        found = known.get(path)
        if found is not None:
            fresh = "no-cache" if found.suffix == ".html" else "max-age=3600"
            return FileResponse(
                found, media_type=KINDS[found.suffix], headers={"Cache-Control": fresh}
            )
        if path == "/" and "/" not in known:
            return PlainTextResponse(MISSING, 503, headers={"Cache-Control": "no-store"})
        return PlainTextResponse("There is nothing here.\n", 404)

    return Starlette(routes=[Route("/{path:path}", give, methods=["GET"])])
