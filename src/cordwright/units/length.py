"""Lengths as people write them, in millimetres inside.

``1.2 m``, ``35 cm``, ``40 mm``, ``3 ft 6 in``, ``2 1/2 in``, ``2½ in`` and ``3' 6"``
are read. One inch is exactly 25.4 mm, one foot 0.3048 m and one yard 0.9144 m
(international yard and pound agreement of 1959).
"""

from __future__ import annotations

import math
import re
import unicodedata
from fractions import Fraction
from typing import Literal

from cordwright.errors import UnitsError

System = Literal["metric", "inch"]

INCH_MM = 25.4
FOOT_MM = 304.8
YARD_MM = 914.4

UNITS_MM: dict[str, float] = {
    "mm": 1.0,
    "cm": 10.0,
    "m": 1000.0,
    "in": INCH_MM,
    "inch": INCH_MM,
    "inches": INCH_MM,
    '"': INCH_MM,
    "″": INCH_MM,
    "ft": FOOT_MM,
    "foot": FOOT_MM,
    "feet": FOOT_MM,
    "'": FOOT_MM,
    "′": FOOT_MM,  # noqa: RUF001 - the typographer's prime for feet
    "yd": YARD_MM,
    "yard": YARD_MM,
    "yards": YARD_MM,
}
"""Every way to write a unit, with its length in mm."""

_METRIC = frozenset({"mm", "cm", "m"})
_VULGAR = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
_MOST_DIGITS = 15
EXAMPLES = "35 cm, 1.2 m, 40 mm, 2 1/2 in or 3 ft 6 in"

_WORDS = "|".join(sorted((u for u in UNITS_MM if u.isalpha()), key=len, reverse=True))
_SIGNS = "".join(u for u in UNITS_MM if not u.isalpha())
_BAR = "[/\u2044]"  # the slash, and the typographer's fraction slash
_NUMBER = (
    rf"(?:(?P<whole>[0-9]+)[ \t]+(?=[0-9]+{_BAR}))?(?P<top>[0-9]+){_BAR}(?P<bottom>[0-9]+)"
    rf"|(?P<before>[0-9]*)[ \t]?(?P<vulgar>[{_VULGAR}])"
    rf"|(?P<decimal>[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
)
_MEASURE = re.compile(rf"(?:{_NUMBER})[ \t]*(?P<unit>(?:{_WORDS})(?![A-Za-z0-9_])|[{_SIGNS}])")
_SPACE = re.compile(r"[ \t]*")


def _number(found: re.Match[str]) -> float:
    groups = found.groupdict()
    if any(len(g) > _MOST_DIGITS for g in groups.values() if g):
        raise UnitsError(f"The number in '{found.group()[:40]}…' is too long.")
    if groups["decimal"] is not None:
        return float(groups["decimal"])
    if groups["vulgar"] is not None:
        return float(groups["before"] or 0) + unicodedata.numeric(groups["vulgar"])
    bottom = int(groups["bottom"])
    if bottom == 0:
        raise UnitsError(
            f"'{found.group()}' divides by zero.", remedy="write a fraction such as 1/2 in"
        )
    return float(groups["whole"] or 0) + int(groups["top"]) / bottom


def match_length(text: str, start: int = 0) -> tuple[float, int] | None:
    """Read the length that stands at ``start``, however much text follows it.

    Several measures in falling units of one system are one length: ``3 ft 6 in``, ``1 m 20 cm``.

    Returns:
        The length in mm and the position behind it; ``None`` if no length stands there.

    Raises:
        UnitsError: a fraction divides by zero, or a number has more than 15 digits.

    >>> match_length("2 1/2 in + 1 cm")
    (63.5, 8)

    """
    found = _MEASURE.match(text, start)
    if found is None:
        return None
    mm, end = 0.0, start
    while True:
        unit = found["unit"]
        mm += _number(found) * UNITS_MM[unit]
        end = found.end()
        blank = _SPACE.match(text, end)
        following = _MEASURE.match(text, blank.end() if blank else end)
        if (
            following is None
            or (following["unit"] in _METRIC) != (unit in _METRIC)
            or UNITS_MM[following["unit"]] >= UNITS_MM[unit]
        ):
            return round(mm, 9), end  # 3 * 304.8 is 914.4, not 914.4000000000001
        found = following


def parse_length(text: str) -> float:
    """Read one length; the result is in mm, finite and not below zero.

    Raises:
        UnitsError: no number, no unit, an unknown unit, a decimal comma, a minus sign, or words
            after the length.

    >>> parse_length("3 ft 6 in")
    1066.8

    """
    trimmed = text.strip()
    shown = trimmed if len(trimmed) <= 60 else trimmed[:60] + "…"
    found = match_length(trimmed)
    if found is not None and found[1] == len(trimmed):
        return found[0]
    if re.match(r"[0-9]+,[0-9]", trimmed):
        raise UnitsError(
            f"'{shown}' has a decimal comma.",
            remedy=f"write {shown.replace(',', '.', 1)}, with a point",
        )
    if trimmed.startswith(("-", "−")):  # noqa: RUF001 - the typographer's minus sign
        raise UnitsError(f"'{shown}' is below zero.", remedy="lengths start at 0 mm")
    if re.fullmatch(r"[0-9]+(\.[0-9]+)?|\.[0-9]+", trimmed):
        raise UnitsError(
            f"'{shown}' has no unit.", remedy=f"write {shown} mm, {shown} cm or {shown} in"
        )
    raise UnitsError(f"'{shown}' is not a length.", remedy=f"write it like {EXAMPLES}")


_STEPS_MM: dict[System, tuple[tuple[float, float], ...]] = {
    "metric": ((1000.0, 5.0), (3000.0, 10.0), (math.inf, 50.0)),
    "inch": (
        (YARD_MM, INCH_MM / 4),
        (10 * FOOT_MM, INCH_MM / 2),
        (math.inf, INCH_MM),
    ),
}
_EXACT_MM = 1e-6  # far below what any rule shows, far above the rounding of sums of floats


def round_up(mm: float, system: System) -> float:
    """The next length that a person measures off, never shorter than ``mm`` (to 1e-6 mm).

    Metric: to 0.5 cm below 1 m, to 1 cm below 3 m, to 5 cm above. Inches: to 1/4 in below 1 yd,
    to 1/2 in below 10 ft, to 1 in above (common practice: the finer the shorter).

    Args:
        mm: length in mm, finite, not below zero.
        system: ``metric`` or ``inch``.

    Raises:
        UnitsError: ``mm`` is below zero or not finite.

    >>> round_up(1234.0, "metric")
    1240.0

    """
    if not math.isfinite(mm) or mm < 0.0:
        raise UnitsError(f"A length of {mm} mm cannot be measured off.")
    step = next(step for limit, step in _STEPS_MM[system] if mm <= limit)
    return math.ceil((mm - _EXACT_MM) / step) * step + 0.0


def _fraction_in(quarters: int) -> str:
    whole, rest = divmod(quarters, 4)
    part = ("", "1/4", "1/2", "3/4")[rest]
    return f"{whole} {part}" if whole and part else part or str(whole)


def format_length(mm: float, system: System) -> str:
    """Write a length for a person: to the nearest millimetre, or quarter of an inch.

    Metric: millimetres below 1 cm, centimetres below 1 m, metres from there. Inches: feet and
    inches from 3 ft on.

    >>> format_length(1240.0, "metric"), format_length(63.5, "inch"), format_length(1066.8, "inch")
    ('1.24 m', '2 1/2 in', '3 ft 6 in')
    """
    if not math.isfinite(mm):
        raise UnitsError(f"A length of {mm} mm cannot be written down.")
    sign = "-" if mm < 0 else ""
    size = abs(mm)
    if system == "metric":
        whole = round(size)
        if whole < 10:
            return f"{sign if whole else ''}{whole} mm"
        unit, per = ("cm", 10) if whole < 1000 else ("m", 1000)
        return f"{sign}{f'{whole / per:.3f}'.rstrip('0').rstrip('.')} {unit}"
    quarters = round(size / (INCH_MM / 4))
    if quarters < 4 * 36:
        return f"{sign if quarters else ''}{_fraction_in(quarters)} in"
    feet, rest = divmod(quarters, 48)
    return f"{sign}{feet} ft" + (f" {_fraction_in(rest)} in" if rest else "")


def format_diameter(mm: float, system: System) -> str:
    """Write how thick a cord or wire is: to a tenth of a millimetre, or the nearest 1/32 inch.

    >>> format_diameter(4.0, "metric"), format_diameter(1.5, "metric"), format_diameter(4.0, "inch")
    ('4 mm', '1.5 mm', '5/32 in')
    """
    if not math.isfinite(mm) or mm < 0.0:
        raise UnitsError(f"A cord cannot be {mm} mm thick.")
    if system == "metric":
        return f"{round(10.0 * mm) / 10:g} mm"
    whole, rest = divmod(round(mm / (INCH_MM / 32)), 32)
    part = str(Fraction(rest, 32)) if rest else ""
    return f"{whole} {part} in" if whole and part else f"{part or whole} in"
