import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from cordwright.hang.tables import table
from cordwright.hang.weighing import cord_load, held_load, shell_ml, total
from cordwright.piece.lengths import measure
from cordwright.plan.hung import BowlBody, BoxBody, PotBody, SphereBody, cap_ml
from tests.hang.conftest import Hanging


def pot(**other: object) -> PotBody:
    given: dict[str, object] = {
        "rim_mm": 160.0, "base_mm": 110.0, "height_mm": 140.0, "weight_g": None,
        "material": "terracotta", "wall_mm": 8.0, "filled_ml": None, "content": "wet potting mix",
    }  # fmt: skip
    return PotBody(**{**given, **other})  # type: ignore[arg-type]


@given(st.floats(60.0, 400.0), st.floats(60.0, 400.0), st.floats(40.0, 400.0), st.floats(1.0, 12.0))
def test_a_pot_s_shell_against_numerical_integration(
    rim: float, base: float, height: float, wall: float
) -> None:
    def ring(z: float) -> float:
        outer = 0.5 * (base + (rim - base) * z / height)
        inner = outer - wall if z > wall else 0.0
        return math.pi * (outer**2 - inner**2)

    mm3 = quad(ring, 0.0, wall)[0] + quad(ring, wall, height)[0]
    body = pot(rim_mm=rim, base_mm=base, height_mm=height, wall_mm=wall)
    assert shell_ml(body) == pytest.approx(mm3 / 1000.0, rel=1e-6)


def test_a_terracotta_pot_weighs_what_such_pots_weigh() -> None:
    # A plain terracotta pot of 16 cm weighs about 1 kg (common practice).
    empty, soil = held_load(pot()).parts
    assert 700.0 < empty.weight.g < 1400.0
    assert empty.weight.low_g < empty.weight.g < empty.weight.high_g
    assert 1000.0 < soil.weight.g < 2500.0


def test_the_scales_count_where_they_were_used() -> None:
    load = held_load(pot(weight_g=900.0, filled_ml=2000.0, content="water"))
    assert [(p.what, p.weight.g) for p in load.parts] == [("empty pot", 900.0), ("water", 2000.0)]
    assert (load.low_g, load.g, load.high_g) == (2900.0, 2900.0, 2900.0)


def test_other_things() -> None:
    assert held_load(None).parts == ()
    assert held_load(SphereBody(120.0, 400.0)).g == 400.0
    assert held_load(BoxBody(200.0, 60.0, 280.0, 1100.0)).g == 1100.0
    assert held_load(BowlBody(200.0, 90.0, 600.0, None, None)).g == 600.0
    full = held_load(BowlBody(200.0, 90.0, 600.0, None, "water"))
    assert full.g == pytest.approx(600.0 + cap_ml(200.0, 90.0))
    assert held_load(BowlBody(200.0, 90.0, 600.0, 500.0, "water")).g == 1100.0


@pytest.mark.parametrize("content", table("contents"))
def test_every_content_has_a_weight_in_its_range(content: str) -> None:
    filling = held_load(pot(content=content, filled_ml=1000.0)).parts[1]
    assert filling.what == content
    assert filling.weight.g == pytest.approx(1000.0 * table("contents")[content].value)
    assert filling.weight.source


def test_the_piece_s_own_cord_weighs_more_damp_and_most_wet(hanging: Hanging) -> None:
    piece, _ = hanging()
    dry, wet = (cord_load(piece, wet=w) for w in (False, True))
    assert dry.low_g < dry.g < dry.high_g
    assert dry.g < wet.g <= wet.high_g
    # never more than its round section full of the heavier of fibre and water
    metres = piece.mm(measure(piece).all) / 1000.0
    section = math.pi / 4.0 * 4.0**2
    assert wet.high_g < 1.6 * section * metres
    assert wet.g > 0.9 * section * metres


def test_cord_of_unknown_weight_is_named(hanging: Hanging) -> None:
    piece, _ = hanging(fibre="moon dust")
    load = cord_load(piece, wet=True)
    assert (load.parts, load.unknown) == ((), ("main",))
    assert total(load, held_load(pot())).unknown == ("main",)
