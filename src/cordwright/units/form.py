"""Lengths as exact linear forms over cord diameters and named sizes.

Every length in a piece is a sum of take-ups (so many cord diameters), named sizes and fixed
lengths. Keeping that sum, instead of its value, lets a length be worked out again for another
cord or another size without working the piece again.

Symbols are plain strings: ``"d:main"`` is the diameter in mm of the plan's cord ``main``;
``"s:arm"`` is the plan's named length ``arm`` in mm.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Form:
    """A length in mm: ``mm + sum(coefficient * value of symbol)``.

    Coefficients are pure numbers; the value of every symbol is in mm.

    >>> f = Form(10.0, {"d:main": 2.5}) + Form(0.0, {"s:arm": 1.0})
    >>> f.at({"d:main": 4.0, "s:arm": 100.0})
    120.0
    """

    mm: float = 0.0
    terms: Mapping[str, float] = field(default_factory=dict)

    def __add__(self, other: Form) -> Form:
        terms = dict(self.terms)
        for symbol, k in other.terms.items():
            terms[symbol] = terms.get(symbol, 0.0) + k
        return Form(self.mm + other.mm, terms)

    def __sub__(self, other: Form) -> Form:
        return self + other * -1.0

    def __mul__(self, k: float) -> Form:
        return Form(self.mm * k, {s: c * k for s, c in self.terms.items()})

    def at(self, values: Mapping[str, float]) -> float:
        """Value in mm where each symbol has the given value in mm."""
        return self.mm + sum(k * values[s] for s, k in self.terms.items())
