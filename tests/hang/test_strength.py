import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.cords.fibres import BUILDS, FIBRES
from cordwright.hang.strength import (
    MAKERS_FIGURE,
    MAKERS_SHARE,
    Conditions,
    Factor,
    Straight,
    Strength,
    bend_factor,
    breaking,
    knot_factor,
    lasting_factors,
    shared_factor,
    straight,
)
from cordwright.hang.tables import table
from cordwright.knots.spec import KnotName
from cordwright.plan.hanging import Keeps
from cordwright.plan.model import CordSpec


def cord(fibre: str = "cotton", diameter: str = "4 mm", **other: str) -> CordSpec:
    return CordSpec.model_validate({"fibre": fibre, "diameter": diameter, **other})


def test_a_maker_s_own_figure_counts() -> None:
    found = straight(cord(strength="800 N"), 4.0)
    assert (found.n, found.source, found.known) == (800.0, MAKERS_FIGURE, True)
    assert straight(cord(strength="80 kg"), 4.0).n == pytest.approx(784.532)
    twice = straight(cord(strength="800 N"), 8.0)
    assert twice.n == pytest.approx(3200.0)
    assert "scaled" in twice.about


def test_the_low_end_counts_where_there_is_none() -> None:
    assert straight(cord(), 4.0).n == pytest.approx(13.0 * 16.0)
    assert straight(cord(build="laid rope"), 4.0).n == pytest.approx(25.0 * 16.0)
    assert straight(cord(build="knitted by hand"), 4.0).n == pytest.approx(13.0 * 16.0)


def test_an_unknown_fibre_counts_as_the_weakest_and_says_so() -> None:
    found = straight(cord("moon dust"), 4.0)
    assert not found.known
    assert "'moon dust' is not in the table" in found.about
    for fibre in FIBRES:
        assert found.n <= straight(cord(fibre), 4.0).n


@given(
    st.sampled_from([*FIBRES, "moon dust"]),
    st.sampled_from([*BUILDS, ""]),
    st.floats(0.5, 50.0),
    st.floats(1.001, 4.0),
)
def test_thicker_is_stronger_with_the_square(
    fibre: str, build: str, mm: float, times: float
) -> None:
    spec = cord(fibre, build=build or "?")
    thin, thick = straight(spec, mm), straight(spec, mm * times)
    assert thick.n == pytest.approx(thin.n * times**2)
    assert thin.source


@pytest.mark.parametrize(
    ("knot", "share"),
    # Day (1970) and others, as given by Jacobson, Outdoor Knots, p. 28
    [(KnotName.OVERHAND, 0.45), (KnotName.DOUBLE_HALF_HITCH, 0.75), (KnotName.SQUARE_KNOT, 0.45)],
)
def test_knots_keep_what_was_measured(knot: KnotName, share: float) -> None:
    found = knot_factor(knot, 0.0, None)
    assert found.share == share
    assert "Day" in found.source


@pytest.mark.parametrize("knot", KnotName)
def test_every_knot_has_a_share_and_a_source(knot: KnotName) -> None:
    found = knot_factor(knot, 3.0, None)
    assert 0.45 <= found.share <= 0.75
    assert found.source


def test_a_bend_over_its_own_diameter_keeps_half() -> None:
    # wirerope.net: a rope round a pin of its own diameter has 50 % of its strength; up to 5 % lost
    # at D/d 40
    assert bend_factor(1.0, None).share == 0.5
    assert 0.9 < bend_factor(40.0, None).share < 0.95


@given(st.floats(0.05, 100.0), st.floats(1.01, 3.0))
def test_a_wider_bend_never_keeps_less(over_d: float, times: float) -> None:
    narrow, wide = bend_factor(over_d, None).share, bend_factor(over_d * times, None).share
    assert 0.0 < narrow < wide < 1.0


def test_a_lark_s_head_on_a_thin_wire_keeps_what_its_bend_keeps() -> None:
    head = KnotName.LARKS_HEAD
    assert knot_factor(head, 8.0, None).name == "knot"
    thin = knot_factor(head, 0.5, None)
    assert (thin.name, thin.share) == ("bend", 0.25)


def test_wet_and_outdoors_only_where_they_apply() -> None:
    assert lasting_factors("cotton", Conditions(wet=False, outdoors=False)) == ()
    wet, old = lasting_factors("cotton", Conditions(wet=True, outdoors=True))
    assert (wet.name, wet.share) == ("wet", 0.5)
    assert (old.name, old.share) == ("outdoors", 0.5)
    (nylon,) = lasting_factors("nylon", Conditions(wet=True, outdoors=False))
    assert nylon.share == 0.85
    (unknown,) = lasting_factors("moon dust", Conditions(wet=True, outdoors=False))
    assert unknown.share == table("wet")["any"].low


def test_one_strand_shares_with_none() -> None:
    assert shared_factor(1, None) == ()
    (shared,) = shared_factor(4, None)
    assert shared.share == 0.75


def test_every_share_can_be_set_by_the_maker() -> None:
    keeps = Keeps(knots=0.6, bend=0.7, wet=0.8, outdoors=0.9, shared=1.0)
    factors = [
        knot_factor(KnotName.OVERHAND, 0.0, keeps),
        bend_factor(1.0, keeps),
        *lasting_factors("cotton", Conditions(wet=True, outdoors=True, keeps=keeps)),
        *shared_factor(4, keeps),
    ]
    assert [f.share for f in factors] == [0.6, 0.7, 0.8, 0.9, 1.0]
    assert {f.source for f in factors} == {MAKERS_SHARE}


@given(st.lists(st.floats(0.05, 1.0), max_size=5), st.floats(1.0, 1e4))
def test_factors_multiply_and_never_add(shares: list[float], n: float) -> None:
    factors = tuple(Factor("knot", "", share, "test") for share in shares)
    strength = Strength(Straight(n, "", "", known=True), factors)
    assert strength.n == pytest.approx(n * math.prod(shares))
    assert strength.n <= n


def test_breaking_reads_words_as_makers_write_them() -> None:
    assert breaking(" Cotton ", "Braided")[0].what == "cotton, braided"
