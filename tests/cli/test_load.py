from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

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
