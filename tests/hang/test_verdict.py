import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cordwright.errors import WorkError
from cordwright.hang.strength import Conditions
from cordwright.hang.verdict import CAUTIONS, Verdict, needed_mm, verdict
from cordwright.piece.model import Piece
from tests.hang.conftest import even, planter

DRY = Conditions(wet=False, outdoors=False)
PIECE, _ = planter()


def asked(all_n: float, piece: Piece = PIECE, factor: float = 12.0, bump: float = 2.0) -> Verdict:
    return verdict(even(piece, all_n), piece, DRY, bump=bump, asked=factor, load_g=all_n * 100.0)


def test_four_equal_arms() -> None:
    """Sixteen strands share 32 N: 2 N each, 4 N with bump."""
    found = asked(32.0)
    assert found.weakest is not None
    assert found.weakest.load_n == 2.0
    assert found.weakest.bumped_n == 4.0
    # 13 N/mm2 * (4 mm)2 = 208 N, the knot keeps 0.45, the strands beside it 0.75
    assert found.weakest.strength.n == pytest.approx(208.0 * 0.45 * 0.75)
    assert found.factor == pytest.approx(208.0 * 0.45 * 0.75 / 4.0)
    assert found.enough
    assert found.remedies == ()
    assert len(found.spots) == 16
    assert len({round(s.factor, 9) for s in found.spots}) == 1


def test_the_weakest_place_has_a_name() -> None:
    tensions = even(PIECE, 32.0)
    tensions[5, 2] = 9.0  # below its second stop: the first square knot
    found = verdict(tensions, PIECE, DRY, bump=1.0, asked=1.0)
    assert found.weakest is not None
    assert found.weakest.place == "strand 3R at the square knot of Arms"
    tensions = {(5, 3): 9.0, (5, 2): 8.0, (5, 1): 0.0, (5, 0): 0.0}
    tensions |= {(5, i): 9.5 for i in range(3, len(PIECE.strands[5].course) + 1)}
    found = verdict(tensions, PIECE, DRY, bump=1.0, asked=1.0)
    assert found.weakest is not None
    assert found.weakest.place == "strand 3R at the square knot of Arms, row 2"


def test_not_enough_and_what_would_be() -> None:
    found = asked(320.0)
    assert not found.enough
    kinds = {r.kind: r for r in found.remedies}
    assert set(kinds) == {"thicker", "strands", "lighter"}
    assert kinds["lighter"].value == pytest.approx(32_000.0 * (1.0 - found.factor / 12.0))
    assert kinds["strands"].value >= 12.0 / found.factor
    assert kinds["thicker"].cord == "main"


@pytest.mark.parametrize("all_n", [90.0, 200.0, 1000.0])
def test_each_remedy_makes_it_enough_and_a_little_less_does_not(all_n: float) -> None:
    found = asked(all_n)
    assert not found.enough
    kinds = {r.kind: r.value for r in found.remedies}
    load = all_n * (1.0 - kinds["lighter"] / (all_n * 100.0))
    assert asked(load).enough
    assert not asked(load * 1.001).enough
    assert asked(all_n / kinds["strands"]).enough
    mm = kinds["thicker"]
    thicker, _ = planter(diameter=f"{mm:.1f} mm")
    thinner, _ = planter(diameter=f"{mm - 0.2:.1f} mm")
    assert asked(all_n, thicker).enough
    assert not asked(all_n, thinner).enough


def test_no_diameter_is_thick_enough_for_everything() -> None:
    found = asked(1e9)
    assert found.weakest is not None
    assert needed_mm(PIECE, found.weakest, DRY, 12.0) == math.inf
    assert {r.kind for r in found.remedies} == {"strands", "lighter"}


loads = st.dictionaries(
    st.tuples(st.integers(0, 15), st.integers(0, 4)), st.floats(0.01, 500.0), min_size=1
)


@given(loads, st.floats(1.0, 10.0))
@settings(max_examples=50, deadline=None)
def test_twice_the_load_is_half_the_factor(
    tensions: dict[tuple[int, int], float], bump: float
) -> None:
    one = verdict(tensions, PIECE, DRY, bump=bump, asked=1.0)
    two = verdict({k: 2.0 * n for k, n in tensions.items()}, PIECE, DRY, bump=bump, asked=1.0)
    assert two.factor == pytest.approx(one.factor / 2.0)
    assert one.weakest is not None
    assert one.factor == min(s.factor for s in one.spots)


@given(loads, st.floats(4.1, 20.0))
@settings(max_examples=25, deadline=None)
def test_thicker_cord_never_has_a_smaller_factor(
    tensions: dict[tuple[int, int], float], mm: float
) -> None:
    thicker, _ = planter(diameter=f"{mm:.2f} mm")
    before = verdict(tensions, PIECE, DRY, bump=2.0, asked=12.0)
    after = verdict(tensions, thicker, DRY, bump=2.0, asked=12.0)
    assert after.factor >= before.factor * (1.0 - 1e-9)


@given(loads)
@settings(max_examples=25, deadline=None)
def test_wet_and_outdoors_never_help(tensions: dict[tuple[int, int], float]) -> None:
    factors = [
        verdict(tensions, PIECE, Conditions(wet, out), bump=2.0, asked=12.0).factor
        for wet, out in ((False, False), (True, False), (True, True))
    ]
    assert factors[0] > factors[1] > factors[2]


def test_a_segment_left_out_carries_what_its_neighbours_carry() -> None:
    last = len(PIECE.strands[0].course)
    gaps = verdict({(0, 0): 4.0, (0, last): 7.0}, PIECE, DRY, bump=1.0, asked=1.0)
    full = {(0, i): 7.0 for i in range(last + 1)} | {(0, 0): 4.0}
    assert gaps.factor == verdict(full, PIECE, DRY, bump=1.0, asked=1.0).factor


def test_nothing_loaded() -> None:
    for tensions in ({}, {(0, 0): 0.0}):
        found = verdict(tensions, PIECE, DRY, bump=2.0, asked=12.0)
        assert (found.weakest, found.enough, found.factor) == (None, True, math.inf)
        assert found.cautions == CAUTIONS


@pytest.mark.parametrize(
    "tensions", [{(99, 0): 1.0}, {(0, 99): 1.0}, {(0, 0): -1.0}, {(0, 0): math.nan}]
)
def test_tensions_that_are_none_are_refused(tensions: dict[tuple[int, int], float]) -> None:
    with pytest.raises(WorkError):
        verdict(tensions, PIECE, DRY, bump=2.0, asked=12.0)


def test_cautions_say_the_five_things() -> None:
    text = " ".join(CAUTIONS)
    for part in ("pull test", "ages", "slip", "soft floor", "local code", "licensed person"):
        assert part in text


def test_a_thin_wire_is_the_weakest_place() -> None:
    piece, _ = planter(diameter="10 mm")
    found = asked(32.0, piece)
    assert found.weakest is not None
    assert "lark's head" in found.weakest.place
    assert found.weakest.strength.factors[0].name == "bend"


def test_what_friction_may_keep_is_the_capstan_s_share_over_a_right_angle() -> None:
    """exp(mu alpha), with the mu of 0.3 that docs/loads.md states (from memory)."""
    share = math.exp(0.3 * math.pi / 2)
    (told,) = (c for c in CAUTIONS if "friction" in c)
    assert f"up to {share:.1f} times" in told
