"""Measures as printed tables show them: in one system of units or both, in a language's figures."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from cordwright.teach.words import Words
from cordwright.units.length import round_up

if TYPE_CHECKING:
    from cordwright.teach.labels import Labels

OUNCE_G = 28.349523125
"""Grams in an ounce (avoirdupois, exact by the international yard and pound agreement of 1959)."""


@dataclass(frozen=True, slots=True)
class Measures:
    """How measures are written: as the words of a language tell them."""

    words: Words

    def length(self, mm: float) -> str:
        """A length, to the nearest that is measured.

        >>> Measures(Words("en", "both")).length(1240.0)
        '1.24 m (4 ft 3/4 in)'
        """
        return self.words.length(mm)

    def to_cut(self, mm: float) -> str:
        """A length to cut: in inches beside metric ones it is rounded up, never down.

        >>> Measures(Words("en", "both")).to_cut(3700.0)
        '3.7 m (12 ft 2 in)'
        """
        if self.words.units != "both":
            return self.words.length(mm)
        metric = Words(self.words.language, "metric").length(mm)
        inch = Words(self.words.language, "inch").length(round_up(mm, "inch"))
        return self.words.text("both-units", metric=metric, inch=inch)

    def weight(self, g: float | None) -> str:
        """A weight, to the gram or the quarter of an ounce; empty if it is not known.

        Less than half of either is told to one figure.

        >>> Measures(Words("de", "both")).weight(1205.0)
        '1205 g (42,5 oz)'
        """
        if g is None:
            return ""
        oz = round(g / OUNCE_G * 4) / 4 if g >= OUNCE_G / 2 else float(f"{g / OUNCE_G:.1g}")
        shown = f"{g:.0f}" if g >= 0.5 else f"{g:.1g}"
        sign = self.words.text("decimal-sign")
        metric, inch = (f"{shown} g".replace(".", sign), f"{oz:.9g} oz".replace(".", sign))
        if self.words.units == "both":
            return self.words.text("both-units", metric=metric, inch=inch)
        return metric if self.words.units == "metric" else inch

    def diameter(self, mm: float) -> str:
        """How thick a cord is: in mm, as cords are sold everywhere."""
        return self.words.thick(mm)


def duration(seconds: float, say: Labels) -> str:
    """A time, to five minutes from half an hour on; never less than one minute."""
    minutes = max(1, round(seconds / 60.0))
    minutes = 5 * round(minutes / 5) if minutes > 30 else minutes
    if minutes < 60:
        return say("time-minutes", minutes=minutes)
    return say("time-hours", hours=minutes // 60, minutes=minutes % 60)


def abreast(texts: Sequence[str]) -> str:
    """What stands for several editions: once if it is the same, else one beside the other.

    >>> abreast(["3 m", "3 m"]), abreast(["3 m", "2 m", "3 m"])
    ('3 m', '3 m / 2 m / 3 m')
    """
    if len(set(texts)) <= 1:
        return texts[0] if texts else ""
    return " / ".join(texts)
