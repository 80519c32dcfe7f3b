"""A lesson page lent out in the network: with the code, once, and nothing but the page."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import httpx
import pytest

from cordwright.bench import tiealong
from cordwright.bench.lending import LASTS_S, MOST_WRONG, Lent
from cordwright.bench.tiealong import TieAlongState
from tests.bench.test_lessons import lesson

if TYPE_CHECKING:
    from cordwright.bench.lessonmodels import Lesson
    from tests.bench.serving import Page

PAGE = b'<meta http-equiv="Content-Security-Policy" content="default-src \'none\'"><p>x'


@pytest.fixture(scope="module")
def fob(page: Page) -> Lesson:
    page.begun("lent fob")
    return lesson(page, "lent fob")


@pytest.fixture
def lent(page: Page, fob: Lesson, monkeypatch: pytest.MonkeyPatch) -> Iterator[TieAlongState]:
    """Tie-along, on; loopback stands in for the network."""
    monkeypatch.setattr(tiealong, "lan_address", lambda: "127.0.0.1")
    answer = page.post("/api/tie-along", json={"lesson": fob.number})
    assert answer.status_code == 200, answer.text
    yield TieAlongState.model_validate(answer.json())
    page.delete("/api/tie-along")


def test_it_is_off_unless_it_is_turned_on(page: Page) -> None:
    assert not TieAlongState.model_validate(page.get("/api/tie-along").json()).on
    assert page.lock.address().startswith("http://127.0.0.1:")
    assert page.post("/api/tie-along", json={"lesson": 9_999}).status_code == 404


def test_the_page_is_had_with_the_code_once(page: Page, fob: Lesson, lent: TieAlongState) -> None:
    with httpx.Client(base_url=lent.address) as phone:
        door = phone.get("/")
        assert "lesson to tie" not in door.text
        assert "lent fob" not in door.text
        # With no-referrer a browser says Origin: null, and the form would be refused.
        assert door.headers["referrer-policy"] == "same-origin"
        said = {"Origin": lent.address.rstrip("/")}
        code = f" {lent.code[:4]} {lent.code[4:]}"
        opened = phone.post("/", data={"code": code}, headers=said)
        assert (opened.status_code, opened.headers["location"]) == (303, "/")
        cookie = opened.headers["set-cookie"].lower()
        assert "httponly" in cookie
        assert "samesite=strict" in cookie
        seen = phone.get("/")
        assert seen.text == page.get(f"/lessons/{fob.number}").text
        assert "default-src 'none'" in seen.headers["content-security-policy"]
    with httpx.Client(base_url=lent.address) as other:
        again = other.post("/", data={"code": lent.code})
        assert again.status_code == 403
        assert "set-cookie" not in again.headers
        fresh = TieAlongState.model_validate(page.post("/api/tie-along/code").json())
        assert fresh.code != lent.code
        assert other.post("/", data={"code": fresh.code}).status_code == 303


@pytest.mark.parametrize(
    "path",
    [
        "/api/pieces",
        "/lessons/1",
        "/api/tie-along",
        "/index.html",
        "/%2e%2e/api",
        "/lesson.html",
        "/?key=x/api",
    ],
)
def test_nothing_else_can_be_reached(lent: TieAlongState, path: str) -> None:
    with httpx.Client(base_url=lent.address) as phone:
        phone.post("/", data={"code": lent.code})
        got = phone.get(path)
        assert got.status_code in (200, 404)
        if got.status_code == 200:
            assert path.startswith("/?")  # the page itself, whatever is asked of it
        for method in ("PUT", "DELETE", "PATCH", "OPTIONS", "HEAD"):
            assert phone.request(method, "/").status_code == 404
        assert phone.post("/api/pieces", json={}).status_code == 404
        assert phone.get("/", headers={"Host": "evil.example"}).status_code == 421
        foreign = phone.post("/", data={"code": "1"}, headers={"Origin": "http://evil.example"})
        assert foreign.status_code == 403
        assert phone.post("/", content=b"code=" + b"1" * 5_000).status_code == 413


def test_the_listener_is_gone_when_it_is_turned_off(page: Page, lent: TieAlongState) -> None:
    assert httpx.get(lent.address).status_code == 200
    assert not page.delete("/api/tie-along").json()["on"]
    with pytest.raises(httpx.ConnectError):
        httpx.get(lent.address)


def test_only_the_workbench_turns_it_on(page: Page, fob: Lesson) -> None:
    with httpx.Client(base_url=page.own) as stranger:
        body = {"lesson": fob.number}
        assert stranger.post("/api/tie-along", json=body).status_code in (401, 403)
        assert stranger.get("/api/tie-along").status_code == 401


def test_wrong_codes_make_the_right_one_void() -> None:
    lent = Lent("127.0.0.1:1", "fob", PAGE)
    right = lent.code
    wrong = "".join(str((int(d) + 1) % 10) for d in right)
    assert all(lent.admit(wrong) is None for _ in range(MOST_WRONG - 1))
    assert lent.admit(right) is not None
    lent.renew()
    for _ in range(MOST_WRONG):
        lent.admit(wrong)
    assert lent.admit(lent.code) is None
    assert lent.left_s == 0.0
    assert lent.admit("") is None


def test_a_code_ends() -> None:
    now = [0.0]
    lent = Lent("127.0.0.1:1", "fob", PAGE, clock=lambda: now[0])
    now[0] = LASTS_S + 1.0
    assert lent.admit(lent.code) is None
    lent.renew()
    token = lent.admit(lent.code)
    assert token is not None
    assert lent.knows(token)
    assert not lent.knows(token + "x")
    assert not lent.knows("")
