from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from cordwright.errors import PlanError
from cordwright.plan.hung import (
    BowlBody,
    BoxBody,
    Hung,
    PotBody,
    Screw,
    SphereBody,
    cap_ml,
    frustum_ml,
    hung,
    pot_ml,
)
from cordwright.plan.problems import PlanErrors
from cordwright.plan.read import parse_plan
from cordwright.plan.sizes import resolve_sizes
from cordwright.plan.write import plan_text
from tests.plan.texts import SMALL, bent

POT = "pot: {rim: wide, base: 11 cm, height: 14 cm, weight: 900 g, filled: 2 L}"
HANG = f"""\
hang:
  hook: 2.2 m
  clear: 30 cm
  place: outdoors
  bump: 2.5
  factor: 8
  keeps: {{wet: 0.8, knots: 0.5}}
  screw: {{thick: 4 mm, thread: 30 mm, wood: pine}}
  holds:
    {POT}
"""
SIZED = SMALL.replace("sizes:\n", "sizes:\n  wide: 16 cm\n")


def hanging(old: str = "", new: str = "") -> str:
    """The small plan, hanging, with one part changed; it must be there."""
    assert old in HANG
    return SIZED + HANG.replace(old, new, 1)


def worked_out(text: str, **sizes: str) -> Hung:
    plan = parse_plan(text)
    assert plan.hang is not None
    return hung(plan.hang, resolve_sizes(plan, sizes))


def test_reads_what_a_piece_hangs_from_and_holds() -> None:
    told = worked_out(hanging())
    assert told.holds == PotBody(160.0, 110.0, 140.0, 900.0, None, 0.0, 2000.0, "wet potting mix")
    assert told.screw == Screw(4.0, 30.0, "pine")
    assert (told.hook_mm, told.clear_mm, told.outdoors) == (2200.0, 300.0, True)
    assert (told.bump, told.factor) == (2.5, 8.0)
    assert told.keeps is not None
    assert (told.keeps.wet, told.keeps.knots, told.keeps.bend) == (0.8, 0.5, None)


def test_sizes_may_be_changed() -> None:
    told = worked_out(hanging(), wide="20 cm")
    assert isinstance(told.holds, PotBody)
    assert told.holds.rim_mm == 200.0


@pytest.mark.parametrize(
    ("thing", "body"),
    [
        ("bowl: {across: 20 cm, high: 9 cm, weight: 600 g}",
         BowlBody(200.0, 90.0, 600.0, None, None)),
        ("bowl: {across: 20 cm, high: 9 cm, weight: 600 g, filled: 1 L}",
         BowlBody(200.0, 90.0, 600.0, 1000.0, "water")),
        ("sphere: {across: 12 cm, weight: 14 oz}", SphereBody(120.0, 14 * 453.59237 / 16)),
        ("box: {wide: 20 cm, deep: 6 cm, high: 28 cm, weight: 1.1 kg}",
         BoxBody(200.0, 60.0, 280.0, 1100.0)),
        ("pot: {rim: 16 cm, base: 11 cm, height: 14 cm, material: terracotta, wall: 8 mm,"
         " with: wet loam}",
         PotBody(160.0, 110.0, 140.0, None, "terracotta", 8.0, None, "wet loam")),
    ],
)  # fmt: skip
def test_reads_every_thing(thing: str, body: object) -> None:
    told = worked_out(hanging(POT, thing)).holds
    assert told == body or (
        isinstance(told, SphereBody)
        and isinstance(body, SphereBody)
        and told.weight_g == pytest.approx(body.weight_g)
    )


def test_everything_may_be_left_out() -> None:
    told = worked_out(SIZED + "hang: {bump: 3}\n")
    assert told == Hung(None, 0.0, False, 3.0, 12.0, None, None, None)
    assert parse_plan(SIZED).hang is None


def test_writes_and_reads_back_equal() -> None:
    plan = parse_plan(hanging())
    assert parse_plan(plan_text(plan)) == plan
    assert "with: wet loam" in plan_text(parse_plan(hanging("2 L", "2 L, with: wet loam")))


def test_a_cord_may_say_what_breaks_it() -> None:
    plan = parse_plan(SIZED.replace("diameter: 4 mm", "diameter: 4 mm, strength: 80 kg", 1))
    assert plan.cords["main"].breaking_n == pytest.approx(784.532)
    assert plan.cords["fine"].breaking_n is None


@pytest.mark.parametrize(
    ("old", "new", "what", "remedy"),
    [
        (", height: 14 cm", "", "The pot has no 'height'", "height: 14 cm"),
        ("rim: wide, ", "", "The pot has no 'rim'", "rim"),
        ("rim: wide", "rim: 0", "The pot's 'rim' is zero", "measure"),
        ("base: 11 cm", "base: 0 cm", "The pot's 'base' is zero", "measure"),
        ("base: 11 cm", "base: -11 cm", "below zero", ""),
        ("rim: wide", "rim: wdie", "uses 'wdie'", "wide"),
        ("rim: wide", "rim: rows", "a number, and a length is needed", "unit"),
        ("900 g", "-900 g", "below zero", "900 g"),
        ("900 g", "0 g", "nothing at all", "900 g"),
        ("900 g", "900", "no unit", "900 g"),
        ("900 g", "900 kg 5000 kg", "not a weight", "900 g"),
        ("900 g", "5000 kg", "too much", "unit"),
        ("weight: 900 g, ", "", "weighs is not said", "material: terracotta"),
        ("weight: 900 g", "material: terracotta", "weighs is not said", "wall"),
        ("weight: 900 g", "material: teracotta, wall: 8 mm", "'teracotta'", "terracotta"),
        ("weight: 900 g", "material: glass, wall: 8 cm", "leaves no room", "unit"),
        ("filled: 2 L", "filled: 9 L", "does not go into this pot", "less"),
        ("filled: 2 L", "filled: 2 kg", "not a volume", "500 ml"),
        ("filled: 2 L", "with: wet poting mix", "'wet poting mix'", "wet potting mix"),
        ("filled: 2 L", "filed: 2 L", "'filed' is not a key of a pot", "filled"),
        ("hook: 2.2 m", "hook: 0 m", "on the floor", "2.2 m"),
        ("hook: 2.2 m", "hook: -2 m", "below zero", ""),
        ("  hook: 2.2 m\n", "", "'clear' needs the height of the hook", "hook: 2.2 m"),
        ("clear: 30 cm", "clear: 3 m", "above the floor from a hook", "clear"),
        ("bump: 2.5", "bump: 0.5", "from 1 to 10", "bump: 2"),
        ("bump: 2.5", "bump: true", "from 1 to 10", "bump: 2"),
        ("factor: 8", "factor: 51", "from 1 to 50", "factor: 12"),
        ("factor: 8", "factor: 0.9", "from 1 to 50", "factor: 12"),
        ("factor: 8", "factor: twelve", "from 1 to 50", "factor: 12"),
        ("wet: 0.8", "wet: 1.5", "from 0.05 to 1", "wet: 0.8"),
        ("wet: 0.8", "wett: 0.8", "'wett' is not a key of a group of shares", "wet"),
        ("wood: pine", "wood: piine", "'piine'", "pine"),
        ("thread: 30 mm", "thread: 0", "The screw hook's 'thread' is zero", ""),
        ("place: outdoors", "place: outside", "'outside'", "outdoors"),
        ("hook: 2.2 m", "hok: 2.2 m", "'hok' is not a key of a group about hanging", "hook"),
        (POT, "pott: {rim: 16 cm}", "'pott' is not a key of a group of held things", "pot"),
        (POT, f"{POT}\n    sphere: {{across: 3 cm, weight: 1 g}}", "holds two things", "one of"),
        (f"\n    {POT}", " {}", "What the piece holds is not said", "one of"),
        (POT, "sphere: {across: 0, weight: 1 g}", "The sphere's 'across' is zero", ""),
        (POT, "box: {wide: 2 cm, deep: 0, high: 2 cm, weight: 1 g}", "'deep' is zero", ""),
        (POT, "bowl: {across: 20 cm, high: 9 cm, weight: 6 g, filled: 9 L}", "this bowl", ""),
    ],
)  # fmt: skip
def test_says_what_is_wrong_and_where(old: str, new: str, what: str, remedy: str) -> None:
    with pytest.raises(PlanError) as caught:
        parse_plan(hanging(old, new), "p.yaml")
    first = SIZED.count("\n")
    errors = caught.value.errors if isinstance(caught.value, PlanErrors) else [caught.value]
    found = next((e for e in errors if what in e.what), None)
    assert found is not None, [e.what for e in errors]
    assert remedy in found.remedy
    assert found.remedy
    assert found.place is not None
    assert found.place.line is not None
    assert found.place.line > first


def test_what_holds_something_has_something_to_hang_from() -> None:
    nothing = hanging().replace("  ring: {inside: 50 mm, wire: 6 mm}", "  nothing: {tail: 8 cm}")
    with pytest.raises(PlanError, match="nothing to hang from") as caught:
        parse_plan(nothing)
    assert "ring" in caught.value.remedy
    assert caught.value.place is not None
    parse_plan(nothing[: nothing.index("  holds:")])


def test_what_becomes_of_a_piece_goes_with_its_mount_and_how_it_hangs() -> None:
    assert parse_plan(hanging()).used == "hung"
    assert parse_plan(SMALL).used is None
    assert parse_plan(bent("mount:", "use: worn\nmount:")).used == "worn"
    carried = hanging().replace("mount:", "use: carried\nmount:", 1)
    assert parse_plan(carried).used == "carried"
    nothing = bent("ring: {inside: 50 mm, wire: 6 mm}", "nothing: {tail: 8 cm}")
    for text, what, remedy in (
        (carried.replace("carried", "worn"), "how the piece hangs", "leave hang: out"),
        (nothing.replace("mount:", "use: hung\nmount:", 1), "nothing to hang from", "a ring"),
        (bent("mount:", "use: wron\nmount:"), "wron", "worn"),
    ):
        with pytest.raises(PlanError, match=what) as caught:
            parse_plan(text)
        assert remedy in caught.value.remedy
        assert caught.value.place is not None
        assert caught.value.place.line == 1 + text[: text.index("use:")].count("\n")


@pytest.mark.parametrize("strength", ["0 N", "-3 N", "80", "much", "80 g"])
def test_a_strength_that_no_cord_has_is_refused(strength: str) -> None:
    text = SIZED.replace("diameter: 4 mm", f"diameter: 4 mm, strength: {strength}", 1)
    with pytest.raises(PlanError) as caught:
        parse_plan(text)
    assert "80 kg" in caught.value.remedy


lengths_mm = st.floats(20.0, 500.0)


@given(lengths_mm, lengths_mm, lengths_mm)
def test_frustum_against_numerical_integration(top: float, base: float, high: float) -> None:
    area = lambda z: math.pi / 4.0 * (base + (top - base) * z / high) ** 2  # noqa: E731
    assert frustum_ml(top, base, high) == pytest.approx(quad(area, 0.0, high)[0] / 1000.0)


@given(lengths_mm, lengths_mm, lengths_mm, st.floats(0.0, 9.0))
def test_room_in_a_pot_against_numerical_integration(
    rim: float, base: float, high: float, wall: float
) -> None:
    area = lambda z: math.pi / 4.0 * (base + (rim - base) * z / high - 2 * wall) ** 2  # noqa: E731
    assert pot_ml(rim, base, high, wall) == pytest.approx(quad(area, wall, high)[0] / 1000.0)


@given(lengths_mm, st.floats(0.05, 1.0))
def test_cap_against_numerical_integration(across: float, share: float) -> None:
    high = share * across
    radius = (across**2 / 4 + high**2) / (2 * high)
    area = lambda z: math.pi * (2 * radius * z - z**2)  # noqa: E731
    assert cap_ml(across, high) == pytest.approx(quad(area, 0.0, high)[0] / 1000.0)


def test_data_may_use_either_name_of_with() -> None:
    data: dict[str, Any] = parse_plan(hanging()).model_dump(mode="json", by_alias=True)
    assert data["hang"]["holds"]["pot"]["with"] == "wet potting mix"
