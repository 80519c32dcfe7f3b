"""Weights, volumes and forces against pint's units."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import suppress

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.errors import UnitsError
from cordwright.units.force import UNITS_N, parse_force, weight_n
from cordwright.units.mass import UNITS_G, format_mass, parse_mass
from cordwright.units.volume import UNITS_ML, parse_volume

REGISTRY: pint.UnitRegistry[float] = pint.UnitRegistry()
AS_PINT = {
    "lbs": "lb", "fl oz": "US_fluid_ounce", "gal": "US_liquid_gallon", "qt": "US_liquid_quart",
    "pt": "US_pint", "cm3": "cm**3",
}  # fmt: skip
LABELS = {"kg": "kgf", "lb": "lbf", "lbs": "lbf"}  # on a cord's label
Reader = Callable[[str], float]
READERS: dict[str, tuple[Reader, Mapping[str, float], str]] = {
    "mass": (parse_mass, UNITS_G, "g"),
    "volume": (parse_volume, UNITS_ML, "ml"),
    "force": (parse_force, UNITS_N, "N"),
}


@pytest.mark.parametrize("kind", READERS)
def test_every_unit_is_as_large_as_pint_says(kind: str) -> None:
    read, units, base = READERS[kind]
    for unit in units:
        name = LABELS.get(unit, unit) if kind == "force" else AS_PINT.get(unit, unit)
        assert read(f"1 {unit}") == pytest.approx(REGISTRY(name).m_as(base), rel=1e-9), unit


@given(st.sampled_from(sorted(READERS)), st.integers(0, 10**6), st.data())
def test_numbers_scale(kind: str, n: int, data: st.DataObject) -> None:
    read, units, _ = READERS[kind]
    unit = data.draw(st.sampled_from(sorted(units)))
    assert read(f"{n}{unit}") == pytest.approx(n * units[unit], abs=1e-8)


def test_falling_units_add_up() -> None:
    assert parse_mass("2 lb 3 oz") == pytest.approx(35 * 453.59237 / 16)
    assert parse_mass(" 1 kg 200 g ") == 1200.0


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("900", "no unit"),
        ("-2 kg", "below zero"),
        ("1,2 kg", "decimal comma"),
        ("2 stone", "not a weight"),
        ("3 oz 2 lb", "not a weight"),
        ("", "not a weight"),
        ("kg", "not a weight"),
        ("1 kg of soil", "not a weight"),
        ("nan kg", "not a weight"),
        ("9" * 400 + " g", "not a weight"),
    ],
)
def test_says_what_is_wrong(text: str, part: str) -> None:
    with pytest.raises(UnitsError, match=part) as caught:
        parse_mass(text)
    assert caught.value.remedy


@given(st.text(max_size=30))
def test_any_text_is_read_or_refused(text: str) -> None:
    for read, _, _ in READERS.values():
        with suppress(UnitsError):
            assert read(text) >= 0.0


def test_a_kilogram_weighs_what_gravity_says() -> None:
    assert weight_n(1000.0) == pytest.approx(REGISTRY("1 kg * g_0").m_as("N"))


def test_writes_weights() -> None:
    assert format_mass(11_000.0, "metric") == "11.0 kg"
    assert format_mass(100.0, "inch") == "3.5 oz"
    with pytest.raises(UnitsError):
        format_mass(float("nan"), "metric")
