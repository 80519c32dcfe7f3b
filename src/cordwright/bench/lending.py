"""What the second listener answers: one lesson page, to whoever has the code, and nothing else.

The workbench itself is not behind it: this application knows the bytes of one page, a code, and
how often the code was asked for wrongly. Codes are compared in constant time, work once, end after
some minutes, and are void after a few wrong ones. Who gave the right code gets a cookie that
scripts cannot read and other sites cannot send. The header Host has to be the address that was
shown, so that a foreign name that is made to resolve to it gets nothing.
"""

from __future__ import annotations

import base64
import hashlib
import secrets
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from html import escape
from typing import TYPE_CHECKING, Final
from urllib.parse import parse_qs

from starlette.requests import Request
from starlette.responses import HTMLResponse, PlainTextResponse, RedirectResponse, Response

from cordwright.bench.routes_lesson import policy_of

if TYPE_CHECKING:
    from starlette.types import Receive, Scope, Send

LASTS_S: Final = 600.0
"""How long a code may be used."""

MOST_WRONG: Final = 5
"""Wrong codes after which the right one is void: a chance of 5 in 100 million to guess it."""

MOST_BODY: Final = 200
DIGITS: Final = 8
COOKIE: Final = "tie-along"

STYLE: Final = (
    "body{font:20px/1.5 system-ui,sans-serif;max-width:24em;margin:12vh auto;padding:0 1.2em;"
    "color:#33292b;background:#fffdf8}h1{font-size:1.4em}label{display:block}"
    "input,button{font:inherit;padding:.4em .7em;border:1px solid #a79a8c;border-radius:8px;"
    "width:100%;box-sizing:border-box;margin-top:.5em}"
    "button{background:#1a6a75;color:#fff;border-color:#1a6a75}"
    "@media(prefers-color-scheme:dark){body,input{color:#f3e9de;background:#2e2826}}"
)
_HASH = base64.b64encode(hashlib.sha256(STYLE.encode()).digest()).decode()
HEADERS: Final = {
    "Content-Security-Policy": f"default-src 'none'; style-src 'sha256-{_HASH}'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    # With no-referrer browsers would send the form's Origin as null (Fetch standard).
    "Referrer-Policy": "same-origin",
    "Cache-Control": "no-store",
    "Cross-Origin-Resource-Policy": "same-origin",
}


def new_code() -> str:
    """Digits that are typed on a phone."""
    return "".join(secrets.choice("0123456789") for _ in range(DIGITS))


@dataclass(slots=True)
class Lent:
    """A page that is lent out.

    Args:
        host: address and port, as the header Host has to say them.
        title: of the piece.
        page: the lesson page.
        clock: seconds that never go back.
    """

    host: str
    title: str
    page: bytes
    clock: Callable[[], float] = time.monotonic
    code: str = field(default_factory=new_code)
    _wrong: int = 0
    _ends: float = 0.0
    _tokens: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self._ends = self.clock() + LASTS_S

    def renew(self) -> None:
        """Another code, for another phone; who was let in already stays so."""
        self.code, self._wrong = new_code(), 0
        self._ends = self.clock() + LASTS_S

    @property
    def left_s(self) -> float:
        """How long the code may still be used; 0 if it is void."""
        return max(0.0, self._ends - self.clock()) if self.code else 0.0

    def admit(self, given: str) -> str | None:
        """A token for the right code, which is void from then on; None for any other."""
        digits = "".join(c for c in given if c.isascii() and c.isdigit())
        if not self.left_s:
            return None
        if not secrets.compare_digest(digits.encode(), self.code.encode()):
            self._wrong += 1
            if self._wrong >= MOST_WRONG:
                self.code = ""
            return None
        self.code = ""
        token = secrets.token_urlsafe(32)
        self._tokens.append(token)
        return token

    def knows(self, token: str) -> bool:
        """Whether a token was given out."""
        return any(secrets.compare_digest(token.encode(), t.encode()) for t in self._tokens)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request; nothing else is spoken here."""
        if scope["type"] == "websocket":
            await receive()
            await send({"type": "websocket.close", "code": 1008})
            return
        if scope["type"] != "http":
            return
        request = Request(scope, receive)
        response = await self._answer(request)
        for name, value in HEADERS.items():
            response.headers.setdefault(name, value)
        await response(scope, receive, send)

    async def _answer(self, request: Request) -> Response:
        if request.headers.getlist("host") != [self.host]:
            return PlainTextResponse("Nothing is lent under that name.\n", 421)
        asked = (request.method, request.url.path)
        known = self.knows(request.cookies.get(COOKIE, ""))
        if asked == ("GET", "/"):
            return self._lesson() if known else self._door()
        if asked == ("POST", "/"):
            return await self._opened(request)
        return PlainTextResponse("There is nothing here.\n", 404)

    async def _opened(self, request: Request) -> Response:
        origin = request.headers.get("origin")
        if origin not in (None, f"http://{self.host}"):
            return PlainTextResponse("Only the page itself may ask for that.\n", 403)
        body = b""
        async for part in request.stream():
            body += part
            if len(body) > MOST_BODY:
                return PlainTextResponse("That is no code.\n", 413)
        given = parse_qs(body.decode("latin-1")).get("code", [""])[0]
        token = self.admit(given)
        if token is None:
            said = "That is not the code." if self.left_s else "The code is no longer good."
            return self._door(said, 403)
        response = RedirectResponse("/", 303)
        response.set_cookie(COOKIE, token, httponly=True, samesite="strict", path="/")
        return response

    def _lesson(self) -> Response:
        policy = f"{policy_of(self.page)}; frame-ancestors 'none'"
        return HTMLResponse(self.page, headers={"Content-Security-Policy": policy})

    def _door(self, said: str = "", status: int = 200) -> Response:
        wrong = f'<p role="alert">{escape(said)} Ask for another at the workbench.</p>'
        return HTMLResponse(
            '<!doctype html><html lang="en"><meta charset="utf-8">'
            '<meta name="viewport" content="width=device-width,initial-scale=1">'
            f"<title>Tie along</title><style>{STYLE}</style>"
            f"<main><h1>Tie along</h1>{wrong if said else ''}"
            '<form method="post" action="/"><label for="code">The code that the workbench shows'
            '</label><input id="code" name="code" inputmode="numeric" autocomplete="off" required '
            'autofocus maxlength="20"><button>Open the lesson</button></form></main></html>',
            status,
        )
