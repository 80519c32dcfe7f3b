"""Shelf, swatches and cutting plans on a workbench that runs."""

from __future__ import annotations

import csv
import io
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from cordwright.bench.app import make_app
from cordwright.bench.bench import Bench, Setting
from cordwright.bench.supplymodels import HandsAnswer, Makeable, Shelf, Supplied
from cordwright.supply.answer import SupplyReport
from tests.bench.serving import served
from tests.bench.test_lessons import made

if TYPE_CHECKING:
    from tests.bench.serving import Page

SAND = {"name": "sand 4 mm", "fibre": "cotton", "diameter": "4 mm", "weight": "9 g/m"}
SPOOL = {"name": "spool 1", "cord": "sand 4 mm", "length": "40 m", "price": "12.00 EUR"}


@pytest.fixture
def page(tmp_path: Path) -> Iterator[Page]:
    """A workbench with a shelf of its own."""
    bench = Bench(Setting(tmp_path / "plans", tmp_path / "shelf.db"))
    with served(lambda lock: make_app(bench, lock)) as found:
        yield found.open()


def put(page: Page, kind: str, fields: dict[str, str], *, change: bool = False) -> Any:
    return page.post("/api/shelf/things", json={"kind": kind, "fields": fields, "change": change})


def stocked(page: Page) -> None:
    for kind, fields in (("cord", SAND), ("length", SPOOL)):
        answer = put(page, kind, fields)
        assert answer.status_code == 200, answer.text


def things(page: Page, kind: str) -> list[dict[str, str]]:
    shelf = Shelf.model_validate(page.get("/api/shelf").json())
    return next(k.things for k in shelf.kinds if k.kind == kind)


def test_things_are_put_changed_and_removed(page: Page) -> None:
    stocked(page)
    assert things(page, "length")[0]["length"] == "40000 mm"
    put(page, "length", {**SPOOL, "length": "38 m"}, change=True)
    assert things(page, "length")[0]["length"] == "38000 mm"
    again = put(page, "length", SPOOL)
    assert (again.status_code, "already" in again.json()["what"]) == (422, True)
    lost = put(page, "length", {**SPOOL, "name": "never was"}, change=True)
    assert lost.status_code == 422
    kept = page.post("/api/shelf/remove", json={"kind": "cord", "name": "sand 4 mm"})
    assert (kept.status_code, "remove these first" in kept.json()["remedy"]) == (422, True)
    gone = page.post("/api/shelf/remove", json={"kind": "length", "name": "spool 1"})
    assert gone.status_code == 200
    assert things(page, "length") == []


def test_a_table_goes_out_and_comes_back(page: Page) -> None:
    stocked(page)
    table = page.get("/api/shelf/table.csv").text
    assert {r["name"] for r in csv.DictReader(io.StringIO(table))} == {"sand 4 mm", "spool 1"}
    page.post("/api/shelf/remove", json={"kind": "length", "name": "spool 1"})
    assert page.post("/api/shelf/table", json={"text": table}).json() == {"count": 2}
    assert [t["name"] for t in things(page, "length")] == ["spool 1"]
    wrong = page.post("/api/shelf/table", json={"text": "kind,name\nbread,rye\n"})
    assert wrong.status_code == 422


def test_a_backup_is_a_whole_shelf(page: Page, tmp_path: Path) -> None:
    stocked(page)
    copy = tmp_path / "copy.db"
    copy.write_bytes(page.get("/api/shelf/backup.db").content)
    with closing(sqlite3.connect(copy)) as db:
        assert db.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert db.execute("SELECT name FROM lengths").fetchall() == [("spool 1",)]


def test_a_swatch_changes_what_is_known_of_cord_and_hands(page: Page) -> None:
    stocked(page)

    def hands() -> HandsAnswer:
        begun = page.post("/api/shelf/hands", json={"cord": "sand 4 mm", "maker": ""}).json()
        now = made(page, begun)
        assert now.state == "done", now
        return HandsAnswer.model_validate(page.get(f"/api/shelf/hands/{now.number}").json())

    before = hands().report
    assert not before.factors.take_up.known
    fields = {"cord": "sand 4 mm", "knot": "square-knot", "knots": "10", "height": "15 cm"}
    asked = {"fields": fields, "start": "1 m", "left": "30 cm"}
    assert made(page, page.post("/api/shelf/swatches", json=asked).json()).state == "done"
    assert things(page, "swatch")[0]["used"] == "700 mm"
    after = hands().report
    assert after.factors.take_up.known
    assert after.spare < before.spare
    slip = {**asked, "left": "1.2 m"}
    failed = made(page, page.post("/api/shelf/swatches", json=slip).json())
    assert (failed.state, "cannot be left" in failed.trouble) == ("failed", True)
    assert len(things(page, "swatch")) == 1


def planned(page: Page, name: str, **asked: Any) -> Supplied:
    now = made(page, page.post(f"/api/pieces/{name}/supply", json=asked).json())
    assert now.state == "done", now
    return Supplied.model_validate(page.get(f"/api/supply/{now.number}").json())


def from_the_shelf(page: Page, name: str) -> None:
    document = page.begun(name)
    cord = {"shelf": "sand 4 mm"}
    one = page.changed(document, do="cord", name="main", cord=cord)
    page.changed(one, do="cord", name="core", cord=cord)


def test_a_cutting_plan_is_carried_out_once_and_undone(page: Page) -> None:
    stocked(page)
    from_the_shelf(page, "fob")
    plan = planned(page, "fob", kits=3, currency="EUR", hourly="20", minutes="30", seconds=5)
    report = SupplyReport.model_validate(plan.report)
    assert (report.kits, report.enough, plan.blocked) == (3, True, "")
    assert all(c.cost_mm >= c.bound_mm - 1e-6 for c in report.cords)
    assert report.price is not None
    assert any(line.what == "work" and line.amount == "30.00" for line in report.price.lines)
    taken = page.post(f"/api/supply/{plan.number}/take").json()["entry"]
    spool = report.cords[0].spools[0]
    left = things(page, "length")[0]
    assert left["sort"] == "part-spool"
    assert float(left["length"].removesuffix(" mm")) == pytest.approx(spool.rest_mm, abs=1.0)
    twice = page.post(f"/api/supply/{plan.number}/take")
    assert (twice.status_code, "already" in twice.json()["what"]) == (422, True)
    undone = Shelf.model_validate(page.post("/api/shelf/undo", json={"entry": taken}).json())
    assert undone.entries[0].undone
    assert things(page, "length")[0]["length"] == "40000 mm"


def test_without_cord_it_says_why_nothing_can_be_taken(page: Page) -> None:
    page.begun("bare")
    plan = planned(page, "bare")
    assert not plan.report.enough
    assert plan.blocked
    assert page.post(f"/api/supply/{plan.number}/take").status_code == 422
    wrong = made(page, page.post("/api/pieces/bare/supply", json={"keep": "soon"}).json())
    assert wrong.state == "failed"
    bought = planned(page, "bare", buys=["main=50m@9", "core=50m@9"])
    assert bought.report.enough
    assert "not on the shelf" in bought.blocked


def test_what_a_finished_piece_left_over_is_learned_from(page: Page) -> None:
    stocked(page)
    page.begun("tied")
    door = "/api/pieces/tied/finished"
    asked = {"cord": "main", "cut": "3 m", "left": "20 cm", "maker": "Wren"}
    unknown = made(page, page.post(door, json=asked).json())
    assert (unknown.state, "on the shelf" in unknown.trouble) == ("failed", True)
    from_the_shelf(page, "tied 2")
    door = "/api/pieces/tied 2/finished"
    plan = planned(page, "tied 2")
    need = sum(c.need_mm for c in plan.report.cords)
    slip = made(page, page.post(door, json={**asked, "cut": "400 m"}).json())
    assert slip.state == "failed"
    assert things(page, "finished") == []
    asked["cut"] = f"{need:.0f} mm"
    assert made(page, page.post(door, json=asked).json()).state == "done"
    entry = things(page, "finished")[0]
    assert (entry["cord"], entry["maker"]) == ("sand 4 mm", "Wren")
    assert float(entry["used"].removesuffix(" mm")) == pytest.approx(need - 200.0, abs=1.0)


def test_papers_hold_the_cut_list(page: Page) -> None:
    page.begun("printed")
    plan = planned(page, "printed", studio="Reedmere")
    got = page.get(f"/api/supply/{plan.number}/papers.html")
    assert got.headers["content-disposition"].startswith("attachment")
    assert plan.report.title in got.text
    for ending in ("csv", "md", "txt"):
        assert page.get(f"/api/supply/{plan.number}/papers.{ending}").status_code == 200
    assert page.get(f"/api/supply/{plan.number}/papers.exe").status_code == 422


def test_what_can_be_made_is_told_for_every_piece(page: Page) -> None:
    stocked(page)
    from_the_shelf(page, "there")
    page.begun("not there")
    now = made(page, page.post("/api/makeable", json={}).json())
    found = Makeable.model_validate(page.get(f"/api/makeable/{now.number}").json())
    fits = {p.file: p.fits for p in found.report.plans}
    assert fits["there"] == "yes"
    assert fits["not there"] == "no"
