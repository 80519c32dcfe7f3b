"""Lessons on a workbench that runs: made, looked at, downloaded, given up."""

from __future__ import annotations

import io
import re
import time
import zipfile
from typing import TYPE_CHECKING, Any

import pypdfium2 as pdfium
import pytest

from cordwright.bench.lessonmodels import Lesson, Making

if TYPE_CHECKING:
    from tests.bench.serving import Page

PNG = b"\x89PNG\r\n\x1a\n"
PATIENCE_S = 120.0


def made(page: Page, begun: dict[str, Any]) -> Making:
    """A making when it has come to its end."""
    until = time.monotonic() + PATIENCE_S
    now = Making.model_validate(begun)
    while now.state in ("waiting", "running"):
        assert time.monotonic() < until
        time.sleep(0.05)
        now = Making.model_validate(page.get(f"/api/makings/{now.number}").json())
    return now


def lesson(page: Page, name: str, **asked: Any) -> Lesson:
    answer = page.post(f"/api/pieces/{name}/lesson", json=asked)
    assert answer.status_code == 202, answer.text
    now = made(page, answer.json())
    assert now.state == "done", now
    return Lesson.model_validate(page.get(f"/api/lessons/{now.number}").json())


@pytest.fixture(scope="module")
def fob(page: Page) -> Lesson:
    page.begun("lesson fob")
    return lesson(page, "lesson fob", language="de", units="both", editions=["as planned:"])


def test_a_lesson_has_every_part_and_its_pages(page: Page, fob: Lesson) -> None:
    assert [f.name for f in fob.files] == [
        "steps.md", "steps.json", "booklet.pdf", "lesson.html", "filming.pdf", "filming.md",
    ]  # fmt: skip
    steps = page.get(f"/api/lessons/{fob.number}/files/steps.md")
    assert "Kreuzknoten" in steps.text
    for file in fob.files:
        got = page.get(f"/api/lessons/{fob.number}/files/{file.name}")
        assert len(got.content) == file.size
        said = got.headers["content-disposition"]
        assert said == f"attachment; filename*=UTF-8''lesson%20fob-{file.name}"
        assert file.pages > 0 or not file.name.endswith(".pdf")


def test_the_pages_that_are_seen_are_those_that_are_printed(page: Page, fob: Lesson) -> None:
    booklet = next(f for f in fob.files if f.name == "booklet.pdf")
    data = page.get(f"/api/lessons/{fob.number}/files/booklet.pdf").content
    printed = pdfium.PdfDocument(data)
    assert len(printed) == booklet.pages
    for number in range(1, booklet.pages + 1):
        got = page.get(f"/api/lessons/{fob.number}/pages/booklet.pdf/{number}.png")
        assert (got.headers["content-type"], got.content[:8]) == ("image/png", PNG)
        wide, high = (int.from_bytes(got.content[i : i + 4], "big") for i in (16, 20))
        points = printed[number - 1].get_size()
        assert wide / high == pytest.approx(points[0] / points[1], abs=0.002)
    beyond = page.get(f"/api/lessons/{fob.number}/pages/booklet.pdf/{booklet.pages + 1}.png")
    assert beyond.status_code == 404


def test_pages_can_be_shown_to_be_printed_and_nothing_else(page: Page, fob: Lesson) -> None:
    files = f"/api/lessons/{fob.number}/files"
    for file, said in (("booklet.pdf", "inline"), ("lesson.html", "attachment")):
        got = page.get(f"{files}/{file}?show=true")
        assert got.headers["content-disposition"].startswith(f"{said}; filename*=")


def test_the_time_is_told_from_the_makers_own_pace(page: Page, fob: Lesson) -> None:
    def time_told(**asked: Any) -> list[str]:
        found = lesson(page, fob.piece, **asked)
        steps = page.get(f"/api/lessons/{found.number}/files/steps.md").text
        return re.findall(r"- Time:.*", steps)

    log = [{"knot": "square-knot", "count": 10, "minutes": 30}]
    common, own = time_told(), time_told(pace=log)
    assert len(common) == 1
    assert own != common
    wrong = page.post(f"/api/pieces/{fob.piece}/lesson", json={"pace": [{**log[0], "count": 0}]})
    assert wrong.status_code == 422


def test_everything_comes_in_one_archive(page: Page, fob: Lesson) -> None:
    got = page.get(f"/api/lessons/{fob.number}/all.zip")
    with zipfile.ZipFile(io.BytesIO(got.content)) as archive:
        assert archive.testzip() is None
        assert {i.filename: i.file_size for i in archive.infolist()} == {
            f.name: f.size for f in fob.files
        }


def test_the_lesson_page_runs_in_a_sandbox_and_loads_nothing(page: Page, fob: Lesson) -> None:
    got = page.get(f"/lessons/{fob.number}")
    rules = dict(r.strip().partition(" ")[::2] for r in got.headers[POLICY].split(";"))
    assert rules["default-src"] == "'none'"
    assert rules["frame-ancestors"] == "'self'"
    assert "allow-same-origin" not in rules["sandbox"]
    assert re.fullmatch(r"'sha256-[A-Za-z0-9+/=]+'", rules["script-src"])
    assert "connect-src" not in rules
    assert rules["script-src"] in got.text  # the same as the page says of itself
    own = page.get("/").headers[POLICY]
    assert "frame-ancestors 'none'" in own


POLICY = "content-security-policy"


def test_nothing_of_a_lesson_is_told_without_the_cookie(page: Page, fob: Lesson) -> None:
    import httpx

    with httpx.Client(base_url=page.own) as stranger:
        for path in (
            f"/lessons/{fob.number}",
            f"/api/lessons/{fob.number}",
            f"/api/lessons/{fob.number}/all.zip",
            f"/api/makings/{fob.number}",
        ):
            assert stranger.get(path).status_code == 401


def test_an_edition_that_cannot_be_is_told_plainly(page: Page, fob: Lesson) -> None:
    begun = page.post(f"/api/pieces/{fob.piece}/lesson", json={"editions": ["no colon"]}).json()
    now = made(page, begun)
    assert (now.state, "colon" in now.trouble, bool(now.remedy)) == ("failed", True, True)
    assert page.get(f"/api/lessons/{now.number}").status_code == 404
    assert page.post(f"/api/pieces/{fob.piece}/lesson", json={"paper": "a3"}).status_code == 422
    assert page.post("/api/pieces/nothing here/lesson", json={}).status_code == 404


def test_a_lesson_can_be_given_up(page: Page) -> None:
    page.begun("given up", "oxbow-planter")
    begun = page.post("/api/pieces/given up/lesson", json={}).json()
    now = Making.model_validate(page.delete(f"/api/makings/{begun['number']}").json())
    assert now.state == "cancelled"
    assert page.get(f"/api/lessons/{now.number}").status_code == 404
    after = lesson(page, "given up")  # the worker goes on with the next
    assert after.revision == 1


def test_the_lesson_is_of_the_state_that_could_be_worked(page: Page) -> None:
    document = page.begun("half changed")
    page.ask(document, "text", text="no plan")
    assert lesson(page, "half changed").revision == document["revision"]
