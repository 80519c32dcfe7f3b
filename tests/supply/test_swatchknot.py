from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from cordwright.cords.swatch import factor
from cordwright.errors import SupplyError
from cordwright.knots.atlas import Atlas
from cordwright.knots.spec import KnotName, KnotSpec, Role
from cordwright.supply.hands import known_hands, swatch_of
from cordwright.supply.records import ShelfCord, SwatchEntry
from cordwright.supply.shelf import add, open_shelf
from cordwright.supply.swatchknot import SAID, ideal, spec_of

D = 4.0
PLAIN = SwatchEntry("w", "sand", "square-knot", 10, 1.0, 1.0)
OF: dict[KnotName, dict[str, Any]] = {
    KnotName.SQUARE_KNOT: {"fillers": 4},
    KnotName.HALF_KNOT: {},
    KnotName.HALF_HITCH: {"fillers": 1},
    KnotName.GATHERING: {"knots": 1, "fillers": 8, "turns": 6},
    KnotName.DOUBLE_HALF_HITCH: {"across": 8, "slant_deg": 45.0},
    KnotName.LARKS_HEAD: {"knots": 1, "across": 5, "mount": "ring", "thick_mm": 8.0},
    KnotName.OVERHAND: {"strands": 2},
    KnotName.BRAID: {"strands": 3},
}
SPECS = {
    KnotName.SQUARE_KNOT: KnotSpec(KnotName.SQUARE_KNOT, 6),
    KnotName.HALF_KNOT: KnotSpec(KnotName.HALF_KNOT, 4),
    KnotName.HALF_HITCH: KnotSpec(KnotName.HALF_HITCH, 2),
    KnotName.GATHERING: KnotSpec(KnotName.GATHERING, 9, turns=6),
    KnotName.DOUBLE_HALF_HITCH: KnotSpec(KnotName.DOUBLE_HALF_HITCH, 2, slant_deg=45.0),
    KnotName.LARKS_HEAD: KnotSpec(KnotName.LARKS_HEAD, 2, over="ring", over_d=2.0),
    KnotName.OVERHAND: KnotSpec(KnotName.OVERHAND, 2),
    KnotName.BRAID: KnotSpec(KnotName.BRAID, 3),
}


def entry(knot: KnotName, **other: Any) -> SwatchEntry:
    return replace(PLAIN, knot=knot.value, **(OF[knot] | other))


@pytest.mark.parametrize("knot", KnotName)
def test_every_knot_of_the_atlas_can_be_a_swatch(knot: KnotName) -> None:
    atlas = Atlas()
    assert spec_of(entry(knot), D) == SPECS[knot]
    found, tight = ideal(entry(knot), D, atlas), atlas.figures(SPECS[knot])
    across = entry(knot).across or 1
    assert found.height_mm == pytest.approx(D * tight.height_d)
    assert found.width_mm == pytest.approx(D * across * tight.width_d)
    working = [t for t, r in zip(tight.take_up_d, tight.roles, strict=True) if r is Role.WORKING]
    assert found.take_up_mm == pytest.approx(D * sum(working) / len(working))


@pytest.mark.parametrize("knot", KnotName)
def test_a_swatch_that_is_as_tight_as_ideal_cord_has_factors_of_one(
    knot: KnotName, tmp_path: Any
) -> None:
    atlas = Atlas()
    plain = entry(knot)
    tight = ideal(plain, D, atlas)
    swatch = replace(
        plain,
        height_mm=plain.knots * tight.height_mm,
        used_mm=plain.knots * tight.take_up_mm,
        width_mm=tight.width_mm,
    )
    with open_shelf(tmp_path / "s.db") as db:
        add(db, ShelfCord("sand", "cotton", D))
        found = swatch_of(db, swatch, atlas)
    assert found.width is not None
    for trial in (found.height, found.width, found.take_up):
        assert trial.log_factor == pytest.approx(0.0, abs=1e-9)


def test_swatches_in_one_knot_teach_of_the_others(tmp_path: Any) -> None:
    atlas = Atlas()
    knots = (KnotName.DOUBLE_HALF_HITCH, KnotName.BRAID, KnotName.HALF_KNOT)
    with open_shelf(tmp_path / "s.db") as db:
        add(db, ShelfCord("sand", "cotton", D))
        before = factor(known_hands(db, atlas).take_up, "Ada", "sand", "square-knot")
        seen = [before]
        for n, knot in enumerate(knots):
            plain = entry(knot, name=f"w {n}", maker="Ada")
            tight = ideal(plain, D, atlas)
            used = 0.9 * plain.knots * tight.take_up_mm
            height = plain.knots * tight.height_mm
            add(db, replace(plain, height_mm=height, used_mm=used))
            hands = known_hands(db, atlas)
            seen.append(factor(hands.take_up, "Ada", "sand", "square-knot"))
    # Each swatch in another knot brings the square knot's factor nearer to 0.9, and surer.
    off = [abs(s.location - math.log(0.9)) for s in seen]
    assert off == sorted(off, reverse=True)
    assert [s.scale for s in seen] == sorted((s.scale for s in seen), reverse=True)
    assert seen[-1].scale < 0.4 * before.scale
    own = factor(hands.take_up, "Ada", "sand", "braid")
    assert own.scale < seen[-1].scale  # but what was tried itself is known best


@pytest.mark.parametrize(
    ("knot", "change", "says"),
    [
        (KnotName.SQUARE_KNOT, {"strands": 4}, "has no strands"),
        (KnotName.SQUARE_KNOT, {"turns": 4}, "has no turns"),
        (KnotName.BRAID, {"fillers": 3}, "has no fillers"),
        (KnotName.BRAID, {"strands": 5}, "3 or 4"),
        (KnotName.BRAID, {"strands": None}, "3 or 4"),
        (KnotName.OVERHAND, {"slant_deg": 45.0}, "has no slant"),
        (KnotName.HALF_KNOT, {"mount": "rod"}, "has no mount"),
        (KnotName.OVERHAND, {"thick_mm": 3.0}, "has no thick"),
        (KnotName.LARKS_HEAD, {"mount": ""}, "mounted on is not said"),
        (KnotName.LARKS_HEAD, {"thick_mm": None}, "mounted on is not said"),
        (KnotName.LARKS_HEAD, {"knots": 5}, "side by side"),
    ],
)
def test_what_a_knot_does_not_have_is_refused(
    knot: KnotName, change: dict[str, Any], says: str
) -> None:
    with pytest.raises(SupplyError, match=says):
        spec_of(entry(knot, **change), D)


def test_of_every_knot_it_is_known_what_may_be_said() -> None:
    assert SAID.keys() == set(KnotName)
