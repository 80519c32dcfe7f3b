import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.cords.fibres import ANY_BUILD, BUILDS, FIBRES, build, fibre, mass_g_per_m
from cordwright.errors import CordwrightError


@pytest.mark.parametrize(
    ("diameter_mm", "kg_per_m"),
    # Three-strand polypropylene rope, engineeringtoolbox.com, Polypropylene Fiber Rope - Strength
    [(24.0, 0.27), (26.0, 0.30), (28.0, 0.34), (30.0, 0.41), (36.0, 0.59), (40.0, 0.68)],
)
def test_rope_masses_agree_with_a_published_table(diameter_mm: float, kg_per_m: float) -> None:
    got = mass_g_per_m(fibre("polypropylene"), build("laid rope"), diameter_mm)
    assert got.value == pytest.approx(1000.0 * kg_per_m, rel=0.10)


def test_nylon_rope_agrees_with_another_table() -> None:
    # 3/8 in nylon rope at 3.5 lb per 100 ft: industrialrope.com, linear densities of 3-strand ropes
    published = 3.5 * 453.592 / 30.48
    got = mass_g_per_m(fibre("nylon"), build("laid rope"), 9.525)
    assert got.value == pytest.approx(published, rel=0.05)


@pytest.mark.parametrize("name", FIBRES)
def test_every_figure_has_a_range_and_a_source(name: str) -> None:
    for figure in (FIBRES[name].density, *(b.packing for b in (*BUILDS.values(), ANY_BUILD))):
        assert 0.0 < figure.low <= figure.value <= figure.high
        assert figure.source
    assert all(b.packing.high <= 1.0 for b in BUILDS.values())


@given(st.sampled_from(list(FIBRES)), st.sampled_from(list(BUILDS)), st.floats(0.1, 50.0))
def test_twice_the_diameter_is_four_times_the_mass(name: str, made: str, mm: float) -> None:
    one, two = (mass_g_per_m(fibre(name), build(made), k * mm) for k in (1, 2))
    assert two.value == pytest.approx(4.0 * one.value)
    assert one.low <= one.value <= one.high


def test_a_solid_section_is_the_fibre_itself() -> None:
    got = mass_g_per_m(fibre("nylon"), build("solid"), 2.0)
    assert got.value == pytest.approx(1.14 * math.pi)


@pytest.mark.parametrize(("word", "hint"), [("coton", "cotton"), ("steel", "weigh the cord")])
def test_unknown_fibres_are_named_with_a_remedy(word: str, hint: str) -> None:
    with pytest.raises(CordwrightError, match=hint):
        fibre(word)


def test_unknown_builds_are_named_with_a_remedy() -> None:
    with pytest.raises(CordwrightError, match="braided"):
        build("brayded")
