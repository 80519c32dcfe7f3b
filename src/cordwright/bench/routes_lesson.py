"""Doors to lessons: made as `cordwright.bench.makings` are, then looked at and downloaded.

The lesson page has an address apart from the API, and headers of its own: its own script and style
by their hashes, nothing from the network, and a sandbox without an origin, so that nothing in it
can reach the workbench. Only the workbench may put it in a frame.
"""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Mapping
from html import unescape
from typing import Annotated, Any, Final
from urllib.parse import quote

from fastapi import APIRouter, Path, Query, Request, Response

from cordwright.bench.lessonjob import Made, Teach
from cordwright.bench.lessonmodels import Lesson, LessonFile, LessonRequest, Making
from cordwright.bench.makings import NoMakingError
from cordwright.bench.routes_making import GONE, Number, makings_of
from cordwright.bench.routes_pieces import MISSING, Name, bench_of

router = APIRouter(tags=["lessons"])

KINDS: Final[Mapping[str, str]] = {
    "pdf": "application/pdf",
    "html": "text/html; charset=utf-8",
    "md": "text/markdown; charset=utf-8",
    "json": "application/json",
}
FRAMED: Final = "sandbox allow-scripts allow-modals; frame-ancestors 'self'"

POLICY: Final = re.compile(rb'<meta http-equiv="Content-Security-Policy" content="([^"]+)">')
"""What the lesson page says of itself in its head, before any word of a plan."""

FileName = Annotated[str, Path(max_length=40, description="Name of a file of the lesson.")]
Page = Annotated[int, Path(ge=1, le=10_000, description="Page, from 1.")]


def _binary(kind: str) -> dict[int | str, dict[str, Any]]:
    schema = {"type": "string", "format": "binary"}
    return {**GONE, 200: {"content": {kind: {"schema": schema}}}}


@router.post("/api/pieces/{name}/lesson", status_code=202, responses=MISSING)
async def make(request: Request, name: Name, asked: LessonRequest) -> Making:
    """Begin a lesson of the last state that could be worked."""
    good = await bench_of(request).good(name)
    about = (name, good.revision, asked)
    return makings_of(request).begin("lesson", Teach(good.text, asked), about)


@router.get("/api/lessons/{number}", responses=GONE)
async def lesson(request: Request, number: Number) -> Lesson:
    """A lesson that was made."""
    (name, revision, asked), made = makings_of(request).result(number, Made)
    files = [
        LessonFile(name=file, size=len(data), pages=len(made.pages.get(file, ())))
        for file, data in made.files.items()
    ]
    return Lesson(number=number, piece=name, revision=revision, asked=asked, files=files)


@router.get(
    "/api/lessons/{number}/pages/{file}/{page}.png",
    response_class=Response,
    responses=_binary("image/png"),
)
async def page(request: Request, number: Number, file: FileName, page: Page) -> Response:
    """A page as it will be printed, as a picture."""
    _, made = makings_of(request).result(number, Made)
    pages = made.pages.get(file, ())
    if page > len(pages):
        raise NoMakingError("There is no such page.")
    return Response(pages[page - 1], media_type="image/png")


@router.get(
    "/api/lessons/{number}/files/{file}",
    response_class=Response,
    responses=_binary("application/octet-stream"),
)
async def download(
    request: Request,
    number: Number,
    file: FileName,
    show: Annotated[bool, Query(description="Pages to be shown, and printed from there.")] = False,
) -> Response:
    """A file of a lesson, to keep; pages can be shown too."""
    (name, *_), made = makings_of(request).result(number, Made)
    if file not in made.files:
        raise NoMakingError("There is no such file.")
    kind = KINDS[file.rpartition(".")[2]]
    answer = attachment(made.files[file], f"{name}-{file}", kind)
    if show and kind == KINDS["pdf"]:
        said = answer.headers["Content-Disposition"].replace("attachment", "inline", 1)
        answer.headers["Content-Disposition"] = said
    return answer


@router.get(
    "/api/lessons/{number}/all.zip",
    response_class=Response,
    responses=_binary("application/zip"),
)
async def everything(request: Request, number: Number) -> Response:
    """All files of a lesson in one."""
    (name, *_), made = makings_of(request).result(number, Made)
    return attachment(zipped(made.files), f"{name}-lesson.zip", "application/zip")


@router.get("/lessons/{number}", response_class=Response, include_in_schema=False)
async def lesson_page(request: Request, number: Number) -> Response:
    """The lesson page by itself, for a frame or a tab of its own."""
    _, made = makings_of(request).result(number, Made)
    return framed(made.files["lesson.html"])


def policy_of(html: bytes) -> str:
    """The policy of a lesson page: its own, with its script's and style's hashes."""
    found = POLICY.search(html)
    assert found is not None  # noqa: S101 - every lesson page has one
    return unescape(found[1].decode())


def framed(html: bytes) -> Response:
    """A lesson page for a frame of the workbench, or a tab beside it."""
    headers = {
        "Content-Security-Policy": f"{policy_of(html)}; {FRAMED}",
        "X-Frame-Options": "SAMEORIGIN",
        # A sandboxed page in a tab of its own is refused by browsers if it asks for a group of its
        # own too (HTML standard, 'Cross-origin opener policies').
        "Cross-Origin-Opener-Policy": "unsafe-none",
        "Cache-Control": "no-store",
    }
    return Response(html, media_type=KINDS["html"], headers=headers)


def attachment(data: bytes, name: str, kind: str) -> Response:
    """A file that a browser saves under a name (RFC 6266, RFC 8187)."""
    said = f"attachment; filename*=UTF-8''{quote(name, safe='')}"
    return Response(data, media_type=kind, headers={"Content-Disposition": said})


def zipped(files: Mapping[str, bytes]) -> bytes:
    """Files in one archive; the same files give the same bytes."""
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in sorted(files.items()):
            archive.writestr(zipfile.ZipInfo(name), data, zipfile.ZIP_DEFLATED)
    return stream.getvalue()
