from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from jsonschema import Draft202012Validator, ValidationError

from cordwright.supply.shelfanswer import MEANING, shelf_schema, swatch_schema
from cordwright.supply.writing import KINDS
from tests.cli.conftest import SASH

if TYPE_CHECKING:
    from tests.cli.conftest import Run

DOCS = Path(__file__).parents[2] / "docs"
SCHEMAS = {"shelf": shelf_schema, "swatch": swatch_schema}
TIED = ("--knots", "10", "--height", "17 cm", "--start", "1 m", "--left", "42 cm")


@pytest.mark.parametrize("name", SCHEMAS)
def test_the_schemas_are_published(name: str) -> None:
    # To write a page anew: json.dumps(shelf_schema(), indent=2) and a line end.
    published = json.loads((DOCS / f"{name}.schema.json").read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(published)
    assert published == SCHEMAS[name]()


def test_every_field_has_its_meaning_and_no_other() -> None:
    assert MEANING.keys() == {word for kind in KINDS.values() for word in kind.fields}


@pytest.fixture
def filled(run: Run, sash: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A plan, and a shelf with something of most kinds and an entry in its log."""
    monkeypatch.setenv("CORDWRIGHT_SHELF", str(tmp_path / "shelf.db"))
    start, end = SASH.index("cords:\n"), SASH.index("sizes:")
    text = SASH.replace(SASH[start:end], "cords:\n  main: {shelf: sand}\n")
    sash.write_text(text, encoding="utf-8")
    for words in (
        ("shelf", "add", "cord", "sand", "--fibre", "cotton", "--diameter", "4mm"),
        ("shelf", "put", "sand", "90m", "--price", "12 EUR"),
        ("shelf", "add", "put-up", "cone", "--cord", "sand", "--length", "100m"),
        ("shelf", "add", "rod", "beech", "--length", "20cm", "--thick", "12mm", "--count", "2"),
        ("swatch", "add", "sand", *TIED),
        ("supply", sash, "--take"),
    ):
        assert run(*words)[0] == 0, words
    return sash


@pytest.mark.parametrize(
    "command",
    [
        ("shelf", "list"),
        ("shelf", "list", "--what", "rod"),
        ("shelf", "show", "sand"),
        ("shelf", "log"),
        ("shelf", "check"),
        ("swatch", "list"),
        ("swatch", "show", "sand"),
    ],
)
@pytest.mark.usefixtures("filled")
def test_answers_keep_to_their_schema(run: Run, command: tuple[str, ...]) -> None:
    status, out, err = run(*command, "--json")
    assert (status, err) == (0, "")
    found: dict[str, Any] = json.loads(out)
    check = Draft202012Validator(SCHEMAS[command[0]]())
    check.validate(found)
    with pytest.raises(ValidationError):  # and to nothing wider
        check.validate({**found, "other": 1})
