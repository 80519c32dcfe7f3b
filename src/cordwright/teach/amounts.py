"""Lengths and times of a lesson."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final


@dataclass(frozen=True, slots=True)
class Length:
    """A length in mm, with the exact sum that it is.

    Args:
        mm: its value in this lesson.
        fixed_mm: the part of it that depends on nothing.
        terms: coefficients by symbol, as in `cordwright.units.form.Form`; the symbols' values are
            in `Lesson.values_mm`.
    """

    mm: float
    fixed_mm: float = 0.0
    terms: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Span:
    """A time in seconds: likely, and the range that it may well lie in."""

    low_s: float
    likely_s: float
    high_s: float

    def __add__(self, other: Span) -> Span:
        return Span(
            self.low_s + other.low_s, self.likely_s + other.likely_s, self.high_s + other.high_s
        )


NO_TIME: Final = Span(0.0, 0.0, 0.0)
