import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.errors import UnitsError
from cordwright.units.length import (
    INCH_MM,
    UNITS_MM,
    System,
    format_diameter,
    format_length,
    match_length,
    parse_length,
    round_up,
)

REGISTRY: pint.UnitRegistry[float] = pint.UnitRegistry()
SYSTEMS: tuple[System, ...] = ("metric", "inch")


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("1.2 m", 1200.0),
        ("35 cm", 350.0),
        ("40mm", 40.0),
        (".5 cm", 5.0),
        ("1 m 20 cm", 1200.0),
        ("3 ft 6 in", 42 * 25.4),
        ("3' 6\"", 42 * 25.4),
        ("3′6″", 42 * 25.4),  # noqa: RUF001 - typographers' primes
        ("2 1/2 in", 63.5),
        ("2½ in", 63.5),
        ("½ in", 12.7),
        ("1/4 inch", 6.35),
        ("3\u20444 in", 0.75 * 25.4),
        ("2 yards 1 foot", 7 * 304.8),
        ("  7 inches ", 7 * 25.4),
    ],
)
def test_reads_lengths_as_people_write_them(text: str, mm: float) -> None:
    assert parse_length(text) == pytest.approx(mm, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("1,5 m", "1.5 m"),
        ("35", "no unit"),
        ("-3 cm", "below zero"),
        ("1/0 in", "zero"),
        ("", "not a length"),
        ("cm", "not a length"),
        ("3 parsecs", "not a length"),
        ("3 cm long", "not a length"),
        ("6 in 3 ft", "not a length"),
        ("1 m 3 in", "not a length"),
        ("nan cm", "not a length"),
        ("9" * 20 + " cm", "too long"),
        ("x" * 10_000, "…"),
    ],
)
def test_says_what_is_wrong_with_a_length(text: str, part: str) -> None:
    with pytest.raises(UnitsError) as caught:
        parse_length(text)
    assert part in str(caught.value)
    assert len(str(caught.value)) < 300


@pytest.mark.parametrize("unit", [u for u in UNITS_MM if u.isalpha()])
def test_units_agree_with_pint(unit: str) -> None:
    asked = {"in": "inch", "m": "metre"}.get(unit, unit)
    assert UNITS_MM[unit] == pytest.approx(REGISTRY.Quantity(1.0, asked).to("mm").magnitude)


@given(st.decimals(min_value=0, max_value=99999, places=3), st.sampled_from(["mm", "cm", "m"]))
def test_decimals_agree_with_pint(number: object, unit: str) -> None:
    expected = REGISTRY.Quantity(float(str(number)), unit).to("mm")
    assert parse_length(f"{number:f} {unit}") == pytest.approx(expected.magnitude)


@given(st.text(max_size=40))
def test_any_text_is_a_length_or_a_clear_error(text: str) -> None:
    try:
        mm = parse_length(text)
    except UnitsError:
        return
    assert math.isfinite(mm)
    assert mm >= 0.0


def test_reads_a_length_inside_a_sum() -> None:
    assert match_length("2 * 3 ft 6 in + 1", 4) == (1066.8, 13)
    assert match_length("arm", 0) is None


@given(st.floats(0, 1e6), st.sampled_from(SYSTEMS))
def test_rounds_up_by_less_than_one_step(mm: float, system: System) -> None:
    up = round_up(mm, system)
    step = (
        (5.0 if mm <= 1000 else 10.0 if mm <= 3000 else 50.0)
        if system == "metric"
        else INCH_MM * (0.25 if mm <= 36 * INCH_MM else 0.5 if mm <= 120 * INCH_MM else 1.0)
    )
    assert mm - 1e-5 <= up < mm + step + 1e-5
    assert round_up(up, system) == pytest.approx(up)


@given(st.floats(0, 1e6), st.floats(0, 1e6), st.sampled_from(SYSTEMS))
def test_rounding_keeps_the_order(a: float, b: float, system: System) -> None:
    low, high = sorted((a, b))
    assert round_up(low, system) <= round_up(high, system) + 1e-9


@pytest.mark.parametrize("mm", [-1.0, math.nan, math.inf])
def test_refuses_what_nobody_can_measure_off(mm: float) -> None:
    with pytest.raises(UnitsError):
        round_up(mm, "metric")


def test_refuses_to_write_what_is_not_finite() -> None:
    with pytest.raises(UnitsError):
        format_length(math.inf, "inch")


@pytest.mark.parametrize(
    ("mm", "metric", "inch"),
    [
        (0.0, "0 mm", "0 in"),
        (6.0, "6 mm", "1/4 in"),
        (355.0, "35.5 cm", "14 in"),
        (1240.0, "1.24 m", "4 ft 3/4 in"),
        (914.4, "91.4 cm", "3 ft"),
        (-50.0, "-5 cm", "-2 in"),
        (999.9, "1 m", "3 ft 3 1/4 in"),
    ],
)
def test_writes_lengths(mm: float, metric: str, inch: str) -> None:
    assert (format_length(mm, "metric"), format_length(mm, "inch")) == (metric, inch)


@pytest.mark.parametrize(
    ("mm", "metric", "inch"),
    [
        (4.0, "4 mm", "5/32 in"),
        (1.5, "1.5 mm", "1/16 in"),
        (25.4, "25.4 mm", "1 in"),
        (30.0, "30 mm", "1 3/16 in"),
        (0.3, "0.3 mm", "0 in"),
    ],
)
def test_writes_how_thick_a_cord_is(mm: float, metric: str, inch: str) -> None:
    assert (format_diameter(mm, "metric"), format_diameter(mm, "inch")) == (metric, inch)


@given(st.floats(0.5, 100.0), st.sampled_from(SYSTEMS))
def test_a_thickness_reads_back(mm: float, system: System) -> None:
    near = 0.051 if system == "metric" else 25.4 / 64 + 1e-6
    assert parse_length(format_diameter(mm, system)) == pytest.approx(mm, abs=near)


@pytest.mark.parametrize("mm", [-1.0, math.nan])
def test_refuses_a_thickness_that_no_cord_has(mm: float) -> None:
    with pytest.raises(UnitsError):
        format_diameter(mm, "metric")


@given(st.floats(0, 1e6), st.sampled_from(SYSTEMS))
def test_what_is_rounded_and_written_reads_back(mm: float, system: System) -> None:
    up = round_up(mm, system)
    assert parse_length(format_length(up, system)) == pytest.approx(up, abs=1e-6)
