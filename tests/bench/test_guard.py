"""Requests that are none of the page's.

In what is sent, NAME stands for the cookie's name, KEY for the launch's, PORT for the server's port
and OWN for the page's own origin.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest
from starlette.applications import Starlette
from starlette.responses import PlainTextResponse, Response
from starlette.routing import Route, WebSocketRoute
from websockets.exceptions import InvalidStatus

from cordwright.bench.guard import MOST_BODY, Guard, new_key
from tests.bench.serving import Page, served

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.websockets import WebSocket


async def _answer(request: Request) -> Response:
    return PlainTextResponse(f"secret of {len(await request.body())}")


async def _talk(socket: WebSocket) -> None:
    await socket.accept()
    await socket.send_text("secret")
    await socket.close()


def filled(text: str, page: Page) -> str:
    """The text with what only this launch knows."""
    lock = page.lock
    for word, value in (("NAME", lock.cookie), ("KEY", lock.key), ("OWN", page.own)):
        text = text.replace(word, value)
    return text.replace("PORT", str(lock.port))


@pytest.fixture(scope="module")
def server() -> Iterator[Page]:
    routes = [
        Route("/{path:path}", _answer, methods=["GET", "POST", "PUT", "DELETE"]),
        WebSocketRoute("/api/live", _talk),
    ]
    with served(lambda lock: Guard(Starlette(routes=routes), lock)) as page:
        yield page


@pytest.fixture
def stranger(server: Page) -> Iterator[Page]:
    """Somebody who has not opened the launch's address."""
    with Page(server.lock) as page:
        yield page


@pytest.fixture
def page(stranger: Page) -> Page:
    return stranger.open()


def test_the_page_itself_gets_its_answers(page: Page) -> None:
    assert page.get("/api/pieces").text == "secret of 0"
    assert page.post("/api/pieces", content=b"xy").text == "secret of 2"
    with page.channel("a") as channel:
        assert channel.recv() == "secret"


@pytest.mark.parametrize(
    "path",
    ["/", "/api/pieces", "/app.js", "/?key=", "/?key=KEYx", "/?key=KEY&key=KEY", "/app.js?key=KEY"],
)
def test_without_the_cookie_nothing_is_answered(stranger: Page, path: str) -> None:
    answer = stranger.get(filled(path, stranger), headers={"Origin": stranger.own})
    assert answer.status_code == 401
    assert "secret" not in answer.text
    assert stranger.lock.key not in answer.text


@pytest.mark.parametrize(
    "cookie",
    ["", "NAME=", "NAME=wrong", "cordwright=KEY", "NAME0=KEY", "\x80;=;;", "NAME=ü", "NAME"],
)
def test_another_cookie_opens_nothing(stranger: Page, cookie: str) -> None:
    sent = filled(cookie, stranger).encode("utf-8")
    assert stranger.get("/api/pieces", headers={b"Cookie": sent}).status_code == 401


def test_the_key_is_given_on_as_a_cookie_that_stays_here(stranger: Page) -> None:
    answer = stranger.get(stranger.lock.address())
    cookie = answer.headers["set-cookie"]
    assert {"HttpOnly", "SameSite=strict", "Path=/"} <= set(cookie.split("; "))
    assert "Domain" not in cookie
    assert stranger.lock.key not in answer.text
    assert answer.headers["referrer-policy"] == "no-referrer"
    assert answer.headers["cache-control"] == "no-store"


@pytest.mark.parametrize(
    "host",
    ["evil.example", "evil.example:PORT", "127.0.0.1", "127.0.0.1:80", "127.0.0.1.:PORT",
     "127.0.0.1:PORT.evil.example", "[::ffff:127.0.0.1]:PORT", "0.0.0.0:PORT",
     "2130706433:PORT"],
)  # fmt: skip
def test_a_foreign_name_that_leads_here_gets_nothing(page: Page, host: str) -> None:
    host = filled(host, page)
    answer = page.get("/api/pieces", headers={"Host": host, "Origin": f"http://{host}"})
    assert answer.status_code == 421
    assert "secret" not in answer.text


@pytest.mark.parametrize(
    "origin",
    ["http://evil.example", "null", "https://127.0.0.1:PORT", "http://127.0.0.1",
     "http://127.0.0.1:1", "http://localhost:PORT", "OWN.evil.example",
     "OWN, http://evil.example"],
)  # fmt: skip
@pytest.mark.parametrize("method", ["GET", "POST", "PUT", "DELETE"])
def test_another_site_gets_and_changes_nothing(page: Page, method: str, origin: str) -> None:
    answer = page.request(method, "/api/pieces", headers={"Origin": filled(origin, page)})
    assert answer.status_code == 403
    assert "secret" not in answer.text


@pytest.mark.parametrize("site", ["cross-site", "same-site", "", "SAME-ORIGIN", "anything"])
def test_what_a_browser_says_comes_from_elsewhere_is_refused(page: Page, site: str) -> None:
    for path in ("/api/pieces", "/app.js"):
        assert page.get(path, headers={"Sec-Fetch-Site": site}).status_code == 403
    del page.headers["Origin"]
    assert page.get("/app.js", headers={"Sec-Fetch-Site": site}).status_code == 403


def test_whatever_changes_something_must_say_where_it_comes_from(page: Page) -> None:
    del page.headers["Origin"]
    assert page.get("/api/pieces").status_code == 200
    assert page.post("/api/pieces").status_code == 403


@pytest.mark.parametrize(
    "headers",
    [{"Origin": "http://evil.example"}, {"Origin": "null"}, {"Origin": ""},
     {"Sec_Fetch_Site": "cross-site"}, {"Cookie": "a=b"}, {"Host": "evil.example"}],
)  # fmt: skip
def test_a_channel_from_elsewhere_is_not_opened(page: Page, headers: dict[str, str]) -> None:
    with pytest.raises(InvalidStatus, match=r"40[13]|421"):
        page.channel("a", **headers)


def test_a_link_from_elsewhere_opens_the_page_but_only_with_its_cookie(page: Page) -> None:
    del page.headers["Origin"]
    link = {"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "navigate"}
    assert page.get("/", headers=link).status_code == 200
    assert page.get("/api/pieces", headers=link).status_code == 403
    page.cookies.clear()
    assert page.get("/", headers=link).status_code == 401


def test_bodies_have_a_limit_whatever_they_say_of_themselves(page: Page) -> None:
    answer = page.post("/api/pieces", content=b"x" * (MOST_BODY + 1))
    assert answer.status_code == 413
    bit_by_bit = page.post("/api/pieces", content=(b"x" * 100_000 for _ in range(50)))
    assert bit_by_bit.status_code == 413


def test_headers_have_a_limit(page: Page) -> None:
    assert page.get("/", headers={"X-Much": "x" * 20_000}).status_code == 431


@pytest.mark.parametrize("path", ["/", "/api/pieces", "/nothing"])
def test_every_answer_is_closed_to_others(page: Page, path: str) -> None:
    headers = page.get(path).headers
    policy = headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    assert "frame-ancestors 'none'" in policy
    assert "http" not in policy
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["cross-origin-resource-policy"] == "same-origin"
    assert headers["cross-origin-opener-policy"] == "same-origin"
    assert "access-control-allow-origin" not in headers


def test_every_launch_has_a_key_of_its_own() -> None:
    keys = {new_key() for _ in range(100)}
    assert len(keys) == 100
    assert min(map(len, keys)) >= 43
