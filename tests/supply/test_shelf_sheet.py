from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import fields
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cordwright.errors import Place, SupplyError
from cordwright.supply.price import Price
from cordwright.supply.records import (
    FinishedEntry,
    Item,
    Length,
    Offer,
    Pot,
    Ring,
    Rod,
    ShelfCord,
    SwatchEntry,
)
from cordwright.supply.sheet import SheetErrors, export_csv, import_csv, read_csv
from cordwright.supply.shelf import Shelf, add, items, open_shelf
from cordwright.supply.writing import KINDS, read_item, write_item

TEXTS = st.text(st.characters(categories=["L", "N", "P", "S"]), max_size=20)
NAMES = TEXTS.filter(bool)
MM = st.integers(1, 10**9).map(lambda n: n / 1000.0)
PRICES = st.none() | st.builds(
    Price, st.decimals(0, 10**6, places=2), st.sampled_from(["EUR", "JPY", "USD"])
)
COUNTS = st.integers(0, 999)
CORD = st.just("sand")
ITEMS: st.SearchStrategy[Item] = st.one_of(
    st.builds(Offer, NAMES, CORD, MM, TEXTS, PRICES, st.none() | COUNTS, TEXTS),
    st.builds(
        Length, NAMES, CORD, MM, st.sampled_from(["spool", "left-over"]), PRICES, TEXTS
    ),
    st.builds(Ring, NAMES, MM, MM, st.none() | MM, COUNTS, PRICES, TEXTS),
    st.builds(Rod, NAMES, MM, MM, st.none() | MM, COUNTS, PRICES, TEXTS),
    st.builds(Pot, NAMES, MM, MM, st.none() | MM, COUNTS, PRICES, TEXTS),
    st.builds(
        SwatchEntry, NAMES, CORD, st.sampled_from(["square-knot", "half-knot"]),
        st.integers(1, 99), MM, MM, st.none() | MM, COUNTS,
        st.none() | st.integers(1, 9), st.none() | st.integers(1, 9),
        st.none() | st.integers(0, 60).map(float), st.none() | st.integers(1, 9),
        st.sampled_from(["", "ring", "rod"]), st.none() | MM, TEXTS, TEXTS,
    ),
    st.builds(
        FinishedEntry, NAMES, CORD,
        st.just({"square-knot": 0.75, "half-knot": 0.25}),
        st.integers(1, 99), MM, st.just(0.0) | MM, MM, TEXTS, TEXTS,
    ),
)  # fmt: skip


@pytest.fixture
def db(tmp_path: Path) -> Iterator[Shelf]:
    with open_shelf(tmp_path / "shelf.db") as found:
        yield found


@given(ITEMS)
def test_every_field_is_read_as_it_is_written(item: Item) -> None:
    kind = next(k for k in KINDS.values() if k.type is type(item))
    assert read_item(kind, write_item(item)) == item


@given(st.lists(ITEMS, max_size=6, unique_by=lambda i: (type(i), i.name)))
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
def test_export_and_import_give_the_same_shelf(
    tmp_path_factory: pytest.TempPathFactory, found: list[Item]
) -> None:
    folder = tmp_path_factory.mktemp("round")
    with open_shelf(folder / "a.db") as one, open_shelf(folder / "b.db") as other:
        for item in (ShelfCord("sand", "cotton", 4.0, colour='"sand", pale'), *found):
            add(one, item)
        text = export_csv(one)
        assert import_csv(other, text, "a.csv") == len(found) + 1
        assert export_csv(other) == text
        import_csv(other, text, "a.csv")  # once more: the same names take the same places
        assert export_csv(other) == text
        for kind in KINDS.values():
            assert items(one, kind.type) == items(other, kind.type)


@pytest.mark.parametrize("name", ["=1+1", "-x", "+49", "@home", "'=1", "''@", "'quoted'", "plain"])
def test_no_cell_is_a_formula(db: Shelf, name: str) -> None:
    add(db, ShelfCord(name, "cotton", 4.0, note=name))
    text = export_csv(db)
    assert not any(cell[:1] in "=+-@" for cell in text.split("\r\n")[1].split(",") if cell)
    assert [i for i, _ in read_csv(text, "t.csv")] == items(db, ShelfCord)


def test_a_table_by_hand(db: Shelf) -> None:
    text = (
        "\N{ZERO WIDTH NO-BREAK SPACE}what,name,cord,length,fibre,diameter,price\r\n"
        "length,S 1,sand,50 m,,,\r\n"
        "\r\n"
        'cord,"sand",,,cotton,4 mm,\r\n'
        "put-up,cone,sand,100 m,,,30 EUR\r\n"
    )
    assert import_csv(db, text, "t.csv") == 3
    assert items(db, Length)[0].length_mm == 50_000.0
    assert items(db, Offer)[0].price == Price(Decimal(30), "EUR")


@pytest.mark.parametrize(
    ("text", "line", "column", "what"),
    [
        ("", 1, 1, "empty"),
        ("what;name\n", 1, 5, "semicolons"),
        ("what\tname\n", 1, 5, "tabs"),
        ('what,name,fibre,diameter\ncord,a,wool,"4,5 mm"\n', 2, 13, "decimal comma"),
        ('what,name,inside,wire,price\nring,a,5 cm,6 mm,"12,5 EUR"\n', 2, 18, "not a price"),
        ('what,name,fibre,diameter\ncord,"a" b,wool,4 mm\n', 2, 1, "not CSV"),
        ("what,nmae\n", 1, 6, "nmae"),
        ("what,name,name\n", 1, 11, "twice"),
        ("name,fibre\n", 1, 1, "no column 'what'"),
        ("what,name,fibre,diameter\ncord,a,cotton,4\n", 2, 15, "no unit"),
        ("what,name,fibre,diameter\ncord,a,cotton,\n", 2, 15, "needs its diameter"),
        ('what,name,fibre,diameter\ncord,"a,b",cotton,9 km\n', 2, 19, "diameter"),
        ("what,name,fibre,diameter\nrope,a,cotton,4 mm\n", 2, 1, "does not keep 'rope'"),
        ("what,name,inside,wire,fibre\nring,a,5 cm,6 mm,wool\n", 2, 18, "has no fibre"),
        ("what,name,fibre,diameter\ncord,a,cotton,4 mm,x\n", 2, 20, "5 cells"),
        ("what,name,cord,length\nlength,a,sand,4 m\n", 2, 10, "no cord called 'sand'"),
        ('what,name\ncord,"a\n', 2, 1, "not CSV"),
        ("what,name,note\ncord,a\0\n", 1, 1, "not a table"),
        (
            "what,name,fibre,diameter\ncord,a,cotton,4 mm\ncord,a,cotton,4 mm\n",
            3, 6, "stands here twice",
        ),
        (
            'what,name,fibre,note,diameter\ncord,a,wool,"x",4 mm\n\ncord,b,"wo\nol","",4 mm\n',
            4, 8, "cannot be kept",
        ),
    ],
)  # fmt: skip
def test_mistakes_have_a_place_and_change_nothing(
    db: Shelf, text: str, line: int, column: int, what: str
) -> None:
    before = export_csv(db)
    with pytest.raises(SupplyError) as error:
        import_csv(db, text, "t.csv")
    assert error.value.place == Place("t.csv", line, column)
    assert what in error.value.what
    assert export_csv(db) == before


def test_all_mistakes_are_told_at_once(db: Shelf) -> None:
    text = "what,name,fibre,diameter\ncord,a,wool,4 mm\ncord,b,wool,4\ncord,,wool,4 mm\n"
    with pytest.raises(SheetErrors) as error:
        import_csv(db, text, "t.csv")
    assert [e.place.line for e in error.value.errors if e.place] == [3, 4]
    assert items(db, ShelfCord) == []
    assert "t.csv:4:6" in str(error.value)


@given(st.text(max_size=80))
def test_any_text_is_a_table_or_an_error(text: str) -> None:
    for given_text in (text, "what,name,cord,length\n" + text):
        with suppress(SupplyError):
            read_csv(given_text, "t.csv")


def test_every_kind_has_the_fields_of_its_type() -> None:
    for kind in KINDS.values():
        assert [f.name for f in kind.fields.values()] == [f.name for f in fields(kind.type)]
