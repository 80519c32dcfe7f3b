"""Who may talk to the workbench: the page that this very launch opened, and nobody else.

Every request passes here before anything reads it.

* **Host** must be a name of this computer with the server's own port, so that a foreign name that
  is made to resolve to 127.0.0.1 (DNS rebinding) gets nothing.
* **Origin** and **Sec-Fetch-Site** must be the page's own; a browser always sends the first with
  what may change something and with a WebSocket, and no page can forge either (Fetch standard,
  sections 'Forbidden request-header' and 'Origin'; W3C 'Fetch Metadata Request Headers').
* A **key** that is made anew at every launch and stands in the address that the launch opens is
  turned into a cookie that scripts cannot read and other sites cannot send (HttpOnly and
  SameSite=Strict, RFC 6265bis). Without it nothing is answered, to other users of the same
  computer neither.
* **Sizes**: a body larger than `MOST_BODY` is refused before it is read to its end.

Every answer says what a page may load (Content-Security-Policy, level 3), that nobody may put it in
a frame or read it from elsewhere, and that its kind is not to be guessed.
"""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from http.cookies import CookieError, SimpleCookie
from typing import TYPE_CHECKING, Final
from urllib.parse import parse_qs

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import HTMLResponse, JSONResponse, PlainTextResponse, Response

if TYPE_CHECKING:
    from starlette.types import ASGIApp, Message, Receive, Scope, Send

MOST_BODY: Final = 4_000_000
"""Bytes of a request's body: a plan of 1 MB whose every letter is escaped in JSON, and more."""

MOST_HEADERS: Final = 16_384
"""Bytes of all headers of a request."""

SAFE: Final = ("GET", "HEAD")

POLICY: Final = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "font-src 'self'",
        # Scenes carry their surface within: it is unpacked into blob: addresses of the page's own.
        "img-src 'self' blob: data:",
        "connect-src 'self' blob:",
        "frame-src 'self'",  # the lesson page, which is sandboxed
        "manifest-src 'self'",
        "base-uri 'none'",
        "form-action 'none'",
        "frame-ancestors 'none'",
    )
)
PICTURE_POLICY: Final = "default-src 'none'; style-src 'unsafe-inline'; font-src data:; sandbox"
"""For pictures that stand alone in a tab: no script, nothing from anywhere."""

HEADERS: Final = {
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=(), payment=(), usb=()",
}

OPENING: Final = """<!doctype html><html lang="en"><meta charset="utf-8">
<meta http-equiv="refresh" content="0; url=/"><title>Cordwright</title>
<p>Opening <a href="/">the workbench</a>.</p></html>
"""
CLOSED: Final = (
    "This is somebody's Cordwright workbench, and it only answers the page that they opened.\n"
    "If it is yours, open the address that 'cordwright' shows where you started it.\n"
)

TOO_LARGE: Final = "That is larger than any plan can be.\n"


@dataclass(frozen=True, slots=True)
class Lock:
    """What opens a workbench.

    Args:
        port: the server's.
        key: the launch's secret.
        names: further names, beside those of this computer, that it may be called by.
    """

    port: int
    key: str
    names: tuple[str, ...] = ()

    @property
    def cookie(self) -> str:
        """The cookie's name; each port has its own, for browsers keep cookies by name only."""
        return f"cordwright-{self.port}"

    @property
    def hosts(self) -> frozenset[str]:
        """What the header Host may say."""
        names = ("127.0.0.1", "localhost", "[::1]", *self.names)
        return frozenset(f"{name}:{self.port}" for name in names)

    def address(self) -> str:
        """The address that opens the workbench in this launch."""
        return f"http://127.0.0.1:{self.port}/?key={self.key}"


def new_key() -> str:
    """A secret of 256 bits for one launch."""
    return secrets.token_urlsafe(32)


class Guard:
    """Lets requests through to an application, or refuses them.

    Args:
        app: the application.
        lock: what opens it.
    """

    def __init__(self, app: ASGIApp, lock: Lock) -> None:
        self.app = app
        self.lock = lock

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Handle one connection of the ASGI protocol."""
        if scope["type"] not in ("http", "websocket"):
            await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        refusal = self._foreign(scope, headers)
        if refusal is None and self._opens(scope):
            await self._opened()(scope, receive, self._dressed(scope, send))
            return
        if refusal is None and not self._known(headers):
            refusal = _refused(scope, 401, CLOSED)
        if refusal is not None:
            if scope["type"] == "websocket":
                await receive()
                await send({"type": "websocket.close", "code": 1008})
                return
            await refusal(scope, receive, self._dressed(scope, send))
            return
        if scope["type"] == "websocket":
            await self.app(scope, receive, send)
        else:
            await self._let_in(scope, receive, self._dressed(scope, send))

    async def _let_in(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Hand a request on, unless its body is too large; what it says of itself counts too."""
        said = Headers(scope=scope).get("content-length", "0")
        body = _Body(receive, over=not said.isdecimal() or int(said) > MOST_BODY)
        began = False

        async def noted(message: Message) -> None:
            nonlocal began
            if not body.over or began:  # else what is answered is no answer to all of it
                began = True
                await send(message)

        try:
            if not body.over:
                await self.app(scope, body.receive, noted)
        except TooLargeError:
            pass
        if body.over and not began:
            await _refused(scope, 413, TOO_LARGE)(scope, receive, send)

    def _foreign(self, scope: Scope, headers: Headers) -> Response | None:
        """Why a request is none of this page's; None if it may be."""
        if sum(len(k) + len(v) for k, v in scope["headers"]) > MOST_HEADERS:
            return _refused(scope, 431, "The request's headers are too large.\n")
        hosts = headers.getlist("host")
        if len(hosts) != 1 or hosts[0].lower() not in self.lock.hosts:
            return _refused(scope, 421, "The workbench is not known by that name.\n")
        changing = scope["type"] == "websocket" or scope["method"] not in SAFE
        origins = headers.getlist("origin")
        own = {f"http://{hosts[0].lower()}"}
        if (changing and not origins) or any(o.lower() not in own for o in origins):
            return _refused(scope, 403, "Only the workbench's own page may ask for that.\n")
        site = headers.get("sec-fetch-site", "none")
        if site == "same-origin" or (site == "none" and not changing):
            return None
        # The address bar and links from elsewhere may open the page itself, and nothing more.
        if site == "none" or (_is_page(scope) and headers.get("sec-fetch-mode") == "navigate"):
            return None
        return _refused(scope, 403, "Only the workbench's own page may ask for that.\n")

    def _opens(self, scope: Scope) -> bool:
        """Whether a request is the launch's own address."""
        if not _is_page(scope):
            return False
        asked = parse_qs(scope.get("query_string", b"").decode("latin-1"))
        keys = asked.get("key", [])
        return len(keys) == 1 and _same(keys[0], self.lock.key)

    def _opened(self) -> Response:
        """Sets the cookie, and goes on to the page: as its own visitor, so that it is sent."""
        response = HTMLResponse(OPENING, headers={"Cache-Control": "no-store"})
        response.set_cookie(
            self.lock.cookie, self.lock.key, httponly=True, samesite="strict", path="/"
        )
        return response

    def _known(self, headers: Headers) -> bool:
        """Whether a request has the launch's cookie."""
        for line in headers.getlist("cookie"):
            try:
                cookies = SimpleCookie(line)
            except CookieError:
                continue
            if self.lock.cookie in cookies:
                return _same(cookies[self.lock.cookie].value, self.lock.key)
        return False

    def _dressed(self, scope: Scope, send: Send) -> Send:
        """Adds the headers that every answer has."""
        api = str(scope["path"]).startswith("/api/")

        async def dressed(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                if headers.get("content-type", "").startswith("image/svg"):
                    headers.setdefault("Content-Security-Policy", PICTURE_POLICY)
                    # A sandbox in a tab of its own is refused by browsers if it asks for a group
                    # of its own too (HTML standard, 'Cross-origin opener policies').
                    headers.setdefault("Cross-Origin-Opener-Policy", "unsafe-none")
                headers.setdefault("Content-Security-Policy", POLICY)
                for name, value in HEADERS.items():
                    headers.setdefault(name, value)
                if api:
                    headers.setdefault("Cache-Control", "no-store")
            await send(message)

        return dressed


def _is_page(scope: Scope) -> bool:
    return scope["type"] == "http" and scope["method"] in SAFE and scope["path"] == "/"


def _same(a: str, b: str) -> bool:
    return secrets.compare_digest(a.encode(), b.encode())


def _refused(scope: Scope, status: int, why: str) -> Response:
    if str(scope["path"]).startswith("/api/"):
        body = {"what": why.strip(), "remedy": "", "problems": []}
        return JSONResponse(body, status_code=status)
    return PlainTextResponse(why, status_code=status)


class TooLargeError(Exception):
    """A body is larger than any that is needed."""


class _Body:
    """A request's body, ended if it grows too large, whatever it said of itself.

    Args:
        source: where it comes from.
        over: whether it is too large.
    """

    def __init__(self, source: Receive, *, over: bool) -> None:
        self.over = over
        self._source = source
        self._had = 0

    async def receive(self) -> Message:
        """The next part of it."""
        message = await self._source()
        if message["type"] == "http.request":
            self._had += len(message.get("body", b""))
            if self._had > MOST_BODY:
                self.over = True
                raise TooLargeError
        return message
