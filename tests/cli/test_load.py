from __future__ import annotations

import json
import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

import cordwright.examples
from cordwright.hang import carrying, shape
from cordwright.hang.loads import load_schema
from cordwright.hang.verdict import CAUTIONS
from tests.cli.conftest import SASH, Run

HANGING = SASH + "hang: {factor: 8, bump: 3}\n"


@pytest.fixture
def hanging(tmp_path: Path) -> Path:
    path = tmp_path / "hanging.yaml"
    path.write_text(HANGING, encoding="utf-8")
    return path


def answer(run: Run, *arguments: object) -> dict[str, Any]:
    status, out, err = run("load", *arguments, "--json")
    assert (status, err) == (0, "")
    found = dict(json.loads(out))
    Draft202012Validator(load_schema()).validate(found)
    return found


def test_every_strand_carries_what_hangs_below_it(run: Run, hanging: Path) -> None:
    found = answer(run, hanging)
    assert (found["asked"], found["bump"]) == (8.0, 3.0)
    assert (found["verdict"], found["doubts"]) == ("enough", [])
    # Each strand's worst place may slant, at 45 degrees at most, and not all are at one height.
    # The lark's heads themselves hang on no strand.
    carried = sum(s["load_n"] for s in found["strands"])
    assert 0.5 * found["weight_g"] < carried / 9.80665 * 1000 < 2.0 * found["weight_g"]


def test_thicker_cord_is_heavier_and_stronger(run: Run, hanging: Path) -> None:
    thin, thick = answer(run, hanging), answer(run, hanging, "--diameter", "main=6mm")
    assert thick["weight_g"] > thin["weight_g"]
    assert thick["weakest"]["strength_n"] > thin["weakest"]["strength_n"]


def test_people_always_see_the_cautions(run: Run, hanging: Path) -> None:
    status, out, err = run("load", hanging)
    assert (status, err) == (0, "")
    flat = " ".join(out.split())
    assert all(" ".join(c.split()) in flat for c in CAUTIONS)
    assert "rated" not in flat
    assert "guaranteed" not in flat


def test_a_shape_that_did_not_settle_gives_no_verdict(
    run: Run, hanging: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = shape.hang

    def unsettled(*given: Any, **more: Any) -> shape.Shape:
        found = real(*given, **more)
        return replace(found, settled=replace(found.settled, residual=0.5))

    monkeypatch.setattr(shape, "hang", unsettled)
    found = answer(run, hanging)
    assert found["verdict"] == "not known"
    assert found["remedies"] == []
    assert "0.5 of all weight" in found["doubts"][0]
    out = run("load", hanging)[1]
    assert "cannot be believed" in out
    assert "Enough" not in out
    assert " ".join(CAUTIONS[0].split()) in " ".join(out.split())


def test_a_wedged_net_gives_no_verdict(
    run: Run, hanging: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(shape, "tensions", lambda _shape: {(2, 1): 500.0})
    found = answer(run, hanging)
    assert found["verdict"] == "not known"
    assert "Strand 2L" in found["doubts"][0]
    assert carrying.JAMMED == 3.0


@pytest.mark.parametrize(
    ("change", "expected"),
    [
        (("factor: 8", "holds: {pot: {rim: 16 cm, base: 11 cm, weight: 900 g}}"), "height"),
        (("factor: 8", "holds: {sphere: {across: 9 cm, weight: -3 kg}}"), "weight"),
        (("factor: 8", "hook: 1 m, clear: 2 m"), "hook"),
        (("factor: 8", "factor: 1000"), "factor"),
        (("rod: {length: 20 cm, thick: 12 mm}", "nothing:"), "mount the cords on"),
    ],
)
def test_bad_plans_end_with_a_message(
    run: Run, hanging: Path, change: tuple[str, str], expected: str
) -> None:
    hanging.write_text(HANGING.replace(*change), encoding="utf-8")
    status, out, err = run("load", hanging)
    assert (status, out) == (2, "")
    assert expected in err
    assert "Traceback" not in err


POT = "holds: {pot: {rim: 16 cm, base: 11 cm, height: 14 cm, weight: 900 g}}"
ROD = "rod: {length: 20 cm, thick: 12 mm}"


@pytest.mark.parametrize("command", ["load", "fit"])
@pytest.mark.parametrize(
    ("old", "new", "at", "told"),
    [
        (POT, POT.replace(", height: 14 cm", ""), "pot:", "height"),
        (POT, POT.replace("14 cm", "0 cm"), "0 cm", "zero"),
        (POT, f"hook: -1 m, {POT}", "-1 m", "hook"),
        (POT, f"hook: 0 m, {POT}", "0 m", "lies on the floor"),
        (POT, POT.replace("900 g", "-900 g"), "-900 g", "weight"),
        (ROD, "nothing: {}", "nothing:", "hang from"),
    ],
)
def test_what_is_wrong_is_told_with_its_place(
    run: Run, hanging: Path, command: str, old: str, new: str, at: str, told: str
) -> None:
    """File, line, and a column in the key or value that is meant."""
    text = HANGING.replace("factor: 8", POT).replace(old, new)
    hanging.write_text(text, encoding="utf-8")
    status, out, err = run(command, hanging)
    assert (status, out) == (2, "")
    assert told in err
    found = re.match(r"(.*):(\d+):(\d+): ", err)
    assert found is not None, err
    assert Path(found[1]) == hanging
    line = text.splitlines()[int(found[2]) - 1]
    assert at in line
    where = line.index(at)
    # At the key's own mark, at its value, or at the key whose value it is.
    key = line.rfind(" ", 0, max(where - 1, 0)) + 1
    assert min(key, where) <= int(found[3]) - 1 <= where + len(at) + 2
    assert "Traceback" not in err


PROMISES = re.compile(r"\b(safe|safely|safer|safest|safety|rated|guarante\w*)\b", re.IGNORECASE)
SHIPPED = Path(cordwright.examples.__path__[0])


@pytest.mark.parametrize("name", ["oxbow-planter", "cobble-belt", "ferry-sling"])
@pytest.mark.parametrize("command", ["load", "fit"])
@pytest.mark.parametrize("form", [[], ["--json"]])
def test_no_answer_promises_what_nobody_can(
    run: Run, command: str, name: str, form: list[str]
) -> None:
    """Whatever the answer is: a verdict, a trouble, or a message."""
    _, out, err = run(command, SHIPPED / f"{name}.yaml", *form)
    assert len(out) + len(err) > 50
    assert PROMISES.search(out + err) is None


@pytest.mark.parametrize("command", ["load", "fit"])
def test_no_help_promises_what_nobody_can(run: Run, command: str) -> None:
    out = run(command, "--help")[1]
    assert len(out) > 200
    assert PROMISES.search(out) is None


def test_no_page_promises_what_nobody_can() -> None:
    docs = Path(__file__).parents[2] / "docs"
    # The workbench's page is of a server's safety, not of a piece's.
    pages = [page for page in docs.glob("*.md") if page.stem != "workbench"]
    assert {"loads", "fit", "hanging", "shape", "examples"} <= {page.stem for page in pages}
    for page in pages:
        for number, line in enumerate(page.read_text(encoding="utf-8").splitlines(), 1):
            assert PROMISES.search(line) is None, f"{page.name}:{number}: {line}"


def test_a_promise_would_be_noticed() -> None:
    for words in ("It is safe.", "Rated for 5 kg", "guaranteed"):
        assert PROMISES.search(words)
    assert PROMISES.search("separated; Enough, by these figures") is None
