from __future__ import annotations

import json
import re
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from cordwright.supply.price import Price
from cordwright.supply.records import Length, Offer, Rod, ShelfCord
from cordwright.supply.report import supply_schema
from cordwright.supply.sheet import export_csv
from cordwright.supply.shelf import add, items, open_shelf
from tests.cli.conftest import SASH, Run

SCHEMA = Path(__file__).parents[2] / "docs" / "supply.schema.json"
KIT = ("--in-kit", "none")
MONEY = ("--currency", "eur", "--minutes", 30, "--hourly", "18", "--fixed", "40")


@pytest.fixture(autouse=True)
def shelf(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A shelf of the test's own; there is none yet."""
    path = tmp_path / "own" / "shelf.db"
    monkeypatch.setenv("CORDWRIGHT_SHELF", str(path))
    return path


def answer(run: Run, *arguments: object) -> dict[str, Any]:
    status, out, err = run("supply", *arguments, "--json")
    assert (status, err) == (0, "")
    found: dict[str, Any] = json.loads(out)
    Draft202012Validator(supply_schema()).validate(found)
    return found


def test_the_schema_is_published() -> None:
    # To write the page anew: json.dumps(supply_schema(), indent=2) and a line end.
    published = json.loads(SCHEMA.read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(published)
    assert published == supply_schema()


def test_everything_is_cut_once(run: Run, sash: Path) -> None:
    cuts = json.loads(run("cut", sash, "--json")[1])
    found = answer(run, sash, "--kits", 3, "--spool", "main=12m@3x2", "--buy", "main=50m@11")
    assert found["enough"]
    (cord,) = found["cords"]
    assert cord["need_mm"] == pytest.approx(3 * cuts["total_mm"])
    cut = sum(p["count"] * p["length_mm"] for s in cord["spools"] for p in s["pieces"])
    assert cut == pytest.approx(cord["need_mm"])
    assert cord["bound_mm"] <= cord["cost_mm"]
    assert found["price"] is None


def test_prices(run: Run, sash: Path) -> None:
    found = answer(
        run,
        sash,
        "--spool",
        "main=100m@20",
        *MONEY,
        *KIT,
        "--fitting",
        "ring=1.20@15gx2",
        "--asked",
        "30",
    )
    price = found["price"]
    lines = {line["what"]: line["amount"] for line in price["lines"]}
    assert (lines["ring"], lines["work"], lines["once for the run"]) == ("2.40", "9.00", "40.00")
    assert price["asked"] == "30.00"
    assert price["break_even"] > 1
    assert found["weight"]["things_g"] == 30.0


def test_what_is_missing_is_shown(run: Run, sash: Path) -> None:
    found = answer(run, sash, "--spool", "main=2m")
    assert not found["enough"]
    status, out, _ = run("supply", sash)
    assert status == 0
    assert "Not enough" in out


def test_for_people(run: Run, sash: Path) -> None:
    status, out, _ = run(
        "supply", sash, "--buy", "main=50m@11", *MONEY, "--box", "30x20x10cm", "--kits", 2
    )
    assert status == 0
    for words in ("buy main 50m", "number 1", "charged for its box as", "earned back", "retail"):
        assert words in out


@pytest.mark.parametrize("suffix", [".txt", ".md", ".csv", ".html"])
def test_papers(run: Run, sash: Path, tmp_path: Path, suffix: str) -> None:
    file = tmp_path / f"kit{suffix}"
    options = ("--spool", "main=90m", "--studio", "Alder & Quill", "--papers", file)
    assert run("supply", sash, *options)[0] == 0
    text = file.read_text(encoding="utf-8")
    assert "Trial sash" in text
    assert "kit 1 of 1" in text
    status, _, err = run("supply", sash, *options)
    assert status == 2
    assert "stays as it is" in err
    assert file.read_text(encoding="utf-8") == text


def test_what_can_be_made(run: Run, tmp_path: Path) -> None:
    folder = tmp_path / "plans"
    folder.mkdir()
    bounded = SASH.replace("arm: {value: 30 cm", "arm: {value: 30 cm, at_least: 2 cm")
    (folder / "a.yaml").write_text(bounded, encoding="utf-8")
    (folder / "b.yaml").write_text("cordwright: 2\n", encoding="utf-8")
    whole = json.loads(run("cut", folder / "a.yaml", "--json")[1])["total_mm"]
    large = answer(run, folder, "--spool", f"main={3 * whole}mm")["plans"]
    assert [(p["file"], p["fits"]) for p in large] == [("a.yaml", "yes"), ("b.yaml", None)]
    assert large[0]["together"]["share"] < 0
    assert large[1]["trouble"]
    small = answer(run, folder, "--spool", f"main={0.9 * whole}mm")["plans"][0]
    assert small["fits"] == "no"
    assert small["together"]["share"] > 0
    size = small["together"]["sizes"][0]
    smaller = json.loads(
        run("cut", folder / "a.yaml", "--size", f"arm={size['value']}", "--json")[1]
    )
    assert smaller["total_mm"] <= 0.9 * whole
    status, out, _ = run("supply", folder, "--spool", f"main={0.9 * whole}mm")
    assert status == 0
    assert "fits with arm" in out


@pytest.mark.parametrize(
    ("options", "says"),
    [
        (("--spool", "main"), "not a cord with a length"),
        (("--spool", "main=10"), "no unit"),
        (("--spool", "main=10m@"), "not a cord with a length"),
        (("--spool", "main=10m@cheap"), "no price"),
        (("--spool", "main=0m"), "0 mm"),
        (("--spool", "main=5mx20000"), "too many"),
        (("--spool", "other=10m"), "no cord called 'other'"),
        (("--buy", "main=10m", "--buy", "main=10m"), "twice"),
        (("--fitting", "=3"), "no name"),
        (("--fitting", "ring=3@4"), "4"),
        (("--currency", "EURO"), "not the code"),
        (("--hourly", "12"), "without a currency"),
        (("--overhead", "much", "--currency", "EUR"), "no overhead"),
        (("--keep", "some"), "not a length"),
        (("--box", "3x4"), "three sides"),
        (("--box", "0x4x4cm"), "side"),
        (("--papers", "kit.pdf"), ".html"),
        (("--kits", "0"), "--kits"),
        (("--seconds", "nan"), "time"),
    ],
)
def test_wrong_options(run: Run, sash: Path, options: tuple[str, ...], says: str) -> None:
    status, out, err = run("supply", sash, *options)
    assert (status, out) == (2, "")
    assert says in err
    assert "Traceback" not in err


def test_folders_that_cannot_be_used(run: Run, tmp_path: Path) -> None:
    assert run("supply", tmp_path, "--spool", "main=1m")[0] == 2


def test_spools_on_the_shelf(run: Run, tmp_path: Path) -> None:
    file = tmp_path / "shelf.db"
    with open_shelf(file) as db:
        add(db, ShelfCord("sand", "cotton", 4.0, build="single twist"))
        add(db, Length("rest", "sand", 3_000.0, price=Price(Decimal(1), "EUR")))
        add(db, Offer("new", "sand", 90_000.0, price=Price(Decimal(12), "EUR")))
    plan = tmp_path / "shelved.yaml"
    two = "cords:\n  main: {shelf: sand}\n  edge: {shelf: sand}\n"
    cords = "    - {cord: main, count: 3}\n    - {cord: edge, count: 1}\n"
    text = SASH.replace(SASH[SASH.index("cords:\n") : SASH.index("sizes:")], two)
    plan.write_text(text.replace("    - {cord: main, count: 4}\n", cords), encoding="utf-8")
    found = answer(run, plan, "--shelf", file, "--currency", "EUR", *KIT)
    assert [c["cord"] for c in found["cords"]] == ["main"]  # one cord, whatever the plan calls it
    assert found["enough"]
    assert {s["id"] for c in found["cords"] for s in c["spools"]} >= {"new"}
    assert found["price"]["unpriced"] == []
    assert answer(run, plan, "--shelf", file, "--currency", "GBP")["price"]["unpriced"]


SHELVED = SASH.replace(
    SASH[SASH.index("cords:\n") : SASH.index("sizes:")], "cords:\n  main: {shelf: sand}\n"
)


@pytest.fixture
def stocked(sash: Path, shelf: Path) -> Path:
    """A plan whose cord and rod are on the shelf."""
    with open_shelf(shelf) as db:
        add(db, ShelfCord("sand", "cotton", 4.0, build="single twist"))
        add(db, Length("new", "sand", 90_000.0, price=Price(Decimal(18), "EUR")))
        add(db, Length("rest", "sand", 3_000.0, "left-over"))
        add(db, Rod("beech", 200.0, 12.0, 30.0, 5, Price(Decimal("0.80"), "EUR")))
    sash.write_text(SHELVED, encoding="utf-8")
    return sash


def held(shelf: Path) -> str:
    with open_shelf(shelf) as db:
        return export_csv(db)


def test_rods_of_the_shelf_are_priced_and_weighed(run: Run, stocked: Path) -> None:
    found = answer(run, stocked, "--kits", 2, *MONEY)
    (rod,) = found["fittings"]
    assert rod["measures_mm"] == [200.0, 12.0]
    assert (rod["on_shelf"], rod["needed"], rod["count"], rod["short"]) == ("beech", 2, 5, 0)
    lines = {line["what"]: line["amount"] for line in found["price"]["lines"]}
    assert lines["beech"] == "1.60"
    assert "beech" not in found["price"]["unpriced"]
    assert found["weight"]["things_g"] == 30.0
    assert answer(run, stocked, "--in-kit", "ring")["fittings"] == []
    named = answer(run, stocked, *MONEY, "--fitting", "rod=2@40g")
    assert named["fittings"] == []
    assert named["weight"]["things_g"] == 40.0


def test_what_is_not_on_the_shelf_is_said_plainly(run: Run, sash: Path) -> None:
    found = answer(run, sash, "--spool", "main=90m@9", *MONEY)
    assert found["fittings"][0]["on_shelf"] is None
    assert found["price"]["unpriced"] == ["rod"]
    assert found["weight"]["things_g"] is None
    out = run("supply", sash, "--spool", "main=90m")[1]
    assert re.search(r"rod +20 cm long, 1\.2 cm thick +not there", out)
    assert "no price and no weight here" in out


def test_a_plan_is_carried_out_and_undone(run: Run, stocked: Path, shelf: Path) -> None:
    before = held(shelf)
    planned = answer(run, stocked, "--kits", 2)
    assert planned["taken"] is None
    assert held(shelf) == before
    found = answer(run, stocked, "--kits", 2, "--take")
    assert found["taken"] == 1
    assert found["cords"] == planned["cords"]
    with open_shelf(shelf) as db:
        left = {x.name: x.length_mm for x in items(db, Length)}
        assert items(db, Rod)[0].count == 3
    kept = {s["id"]: s["rest_mm"] for c in planned["cords"] for s in c["spools"] if s["kept"]}
    used = {s["id"] for c in planned["cords"] for s in c["spools"]}
    assert kept
    assert {n: mm for n, mm in left.items() if n in used} == pytest.approx(kept)
    assert "cut for Trial sash, 2 kits" in run("shelf", "log")[1]
    status, out, _ = run("shelf", "undo", 1)
    assert (status, "is undone" in out) == (0, True)
    assert held(shelf) == before
    assert "undone" in run("shelf", "log")[1]
    assert run("shelf", "undo")[0] == 2


def test_people_are_told_what_was_taken(run: Run, stocked: Path) -> None:
    status, out, err = run("supply", stocked, "--take")
    assert (status, err) == (0, "")
    assert "cordwright shelf undo 1 takes that back" in out


@pytest.mark.parametrize(
    ("options", "says"),
    [
        (("--kits", "90"), "Not everything can be cut"),
        (("--kits", "90", "--buy", "main=100m"), "not on the shelf yet"),
    ],
)
def test_nothing_is_taken_that_is_not_there(
    run: Run, stocked: Path, shelf: Path, options: tuple[str, ...], says: str
) -> None:
    before = held(shelf)
    status, out, err = run("supply", stocked, "--take", "--seconds", "1", *options)
    assert (status, out) == (2, "")
    assert says in err
    assert held(shelf) == before


def test_a_more_careful_risk_takes_more_cord(run: Run, sash: Path) -> None:
    need = [
        answer(run, sash, "--spool", "main=90m", "--risk", risk)["cords"][0]["need_mm"]
        for risk in (20, 5, 1)
    ]
    assert need == sorted(need)
    assert need[0] < need[2]


@pytest.mark.parametrize("text", ["hook", "ring,,", ""])
def test_what_goes_into_no_kit(run: Run, sash: Path, text: str) -> None:
    status, _, err = run("supply", sash, "--in-kit", text)
    assert status == 2
    assert "ring,rod,pot" in err


def test_a_run_for_which_nothing_is_spent_once(run: Run, sash: Path) -> None:
    spool = ("--spool", "main=90m@9", "--currency", "KWD", "--in-kit", "none")
    status, out, _ = run("supply", sash, *spool)
    assert status == 0
    assert "nothing to earn back" in out
    price = answer(run, sash, *spool)["price"]
    assert all(len(line["amount"].split(".")[1]) == 3 for line in price["lines"])  # 1/1000 dinar
    yen = answer(run, sash, *spool[:2], "--currency", "jpy", "--hourly", "900", "--minutes", "7")
    assert {line["what"]: line["amount"] for line in yen["price"]["lines"]}["work"] == "105"
