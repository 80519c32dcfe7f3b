import math
import re
from pathlib import Path
from typing import get_args

import pytest

import cordwright.hang
from cordwright.cords.fibres import BUILDS, FIBRES
from cordwright.hang.strength import breaking
from cordwright.hang.tables import DATA, names, table
from cordwright.knots.spec import KnotName
from cordwright.plan.hanging import Content, PotMaterial, Wood
from cordwright.units.force import parse_force
from cordwright.units.length import parse_length

ROOT = Path(__file__).parents[2]
UNITS = {"1", "%", "N/mm2", "kg/L", "g/cm3", "lbf"}


@pytest.mark.parametrize("name", names())
def test_every_row_has_a_value_in_its_range_a_unit_and_a_source(name: str) -> None:
    rows = table(name)
    lines = (DATA / f"{name}.csv").read_text(encoding="utf-8").splitlines()
    assert lines[0] == "what,value,low,high,unit,source"
    assert len(rows) == len(lines) - 1 > 0  # so no row hides another of its name
    for row in rows.values():
        assert 0.0 <= row.low <= row.value <= row.high, row
        assert row.unit in UNITS
        assert len(row.source) > 10


@pytest.mark.parametrize("name", ["knots", "wet", "conditions"])
def test_shares_are_shares(name: str) -> None:
    for row in table(name).values():
        if row.what not in ("bump", "factor"):
            assert 0.0 < row.low <= 1.0


def test_plans_know_the_tables_names_and_no_others() -> None:
    assert set(get_args(Wood)) == set(table("woods"))
    assert set(get_args(PotMaterial)) == set(table("pots"))
    assert set(get_args(Content)) == set(table("contents"))


def test_fibres_builds_and_knots_are_those_of_the_house() -> None:
    fibres = {*FIBRES, "manila"}
    for name in ("regain", "wet", "breaking"):
        for what in table(name):
            fibre, _, build = what.partition(", ")
            assert fibre in fibres | {"any"}, what
            assert not build or build in BUILDS, what
    assert set(table("knots")) <= {k.value for k in KnotName} | {"any"}


def test_no_density_stands_in_two_places() -> None:
    assert not set(FIBRES) & (set(table("pots")) | set(table("contents")))


@pytest.mark.parametrize("row", table("ropes").values(), ids=lambda r: r.what)
def test_breaking_forces_lie_under_published_ropes_but_not_far(row: object) -> None:
    """The low end is what counts: never above a published rope, never less than half of it."""
    assert hasattr(row, "what")
    assert hasattr(row, "value")
    fibre, _, size = row.what.partition(" ")
    mm = parse_length(size)
    published = parse_force(f"{row.value} lbf")
    found, known = breaking(fibre, "")
    assert known
    assert 0.5 * published < found.low * mm**2 <= 1.001 * published


def test_hemp_against_an_old_table() -> None:
    # Dyer, Handbook for Light Artillery: white three-strand hemp, 1140 lb times the squared
    # circumference in inches
    inch = 25.4
    published = parse_force("1140 lbf") * (math.pi * 10.0 / inch) ** 2
    row = table("breaking")["hemp"]
    assert row.value * 10.0**2 == pytest.approx(published, rel=0.01)
    assert row.low * 10.0**2 > published * 2.0 / 3.0  # 'reduce one third' for wear: our low end


@pytest.mark.parametrize("fibre", ["manila", "nylon", "polypropylene", "polyester"])
def test_breaking_force_goes_with_the_squared_diameter(fibre: str) -> None:
    per_square = [
        row.value / parse_length(row.what.partition(" ")[2]) ** 2
        for row in table("ropes").values()
        if row.what.startswith(fibre) and 4.7 < parse_length(row.what.partition(" ")[2]) < 20.0
    ]
    middle = math.sqrt(min(per_square) * max(per_square))
    assert max(per_square) < 4.0 / 3.0 * middle
    assert len(per_square) >= 5


def test_two_tests_of_soft_cotton_lie_above_the_low_end() -> None:
    for newtons in (1070.0, 1290.0):  # prorope.eu, 8 mm hollow-braid cotton
        for build in ("", "braided", "single twist"):
            assert breaking("cotton", build)[0].low * 8.0**2 < newtons


def test_the_factor_asked_is_one_of_the_published_range() -> None:
    # Cordage Institute CI 1308-96 and CI 1401-06: design factors 5 to 12
    row = table("conditions")["factor"]
    assert (row.low, row.value, row.high) == (5.0, 12.0, 12.0)


def test_no_text_promises_what_nobody_can() -> None:
    promise = re.compile(r"\b(safe|safely|safer|safest|safety|rated|guarante\w*)\b", re.IGNORECASE)
    package = Path(cordwright.hang.__file__).parent
    pages = [ROOT / "docs" / name for name in ("hanging.md", "loads.md", "load.schema.json")]
    others = [ROOT / "src/cordwright/plan" / f"{n}.py" for n in ("hanging", "hung", "measures")]
    others += [ROOT / "src/cordwright/cli" / f"{n}.py" for n in ("loadview",)]
    read = [*package.rglob("*.py"), *package.rglob("*.csv"), *pages, *others]
    assert len(read) > 20
    for path in read:
        found = promise.search(path.read_text(encoding="utf-8"))
        assert found is None, f"{path}: {found}"


def test_the_page_names_every_table_and_no_other() -> None:
    page = (ROOT / "docs" / "loads.md").read_text(encoding="utf-8")
    assert sorted(re.findall(r"(?m)^\| `(\w+)\.csv`", page)) == names()
    allowed = table("screws")["allowable"].value * table("screws")["permanent load"].value
    assert f"{allowed:.1f}" in page
    assert f"{table('screws')['ultimate'].value:g}" in page
