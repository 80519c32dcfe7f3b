"""Where to fold a cord so that both halves reach: its length, and the two parts.

A cord folded where needed is folded in the middle if both halves come to the same measured length;
else the shorter part is measured off, and whatever the cord has more stays in the longer one.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, NamedTuple

from cordwright.units.length import round_up

if TYPE_CHECKING:
    from cordwright.piece.model import Fold
    from cordwright.units.length import System

EXACT_MM = 1e-6  # rounding of sums of floats; far below anything measured


class Halves(NamedTuple):
    """What the halves of a cord must at least be, mm; spare included.

    Args:
        fold: how it is folded.
        left: left half, or the whole of a cord that is not folded.
        right: right half; 0 if it is not folded.
    """

    fold: Fold
    left: float
    right: float

    @property
    def short(self) -> float:
        """The shorter of the two."""
        return min(self.left, self.right)

    @property
    def long(self) -> float:
        """The longer of the two."""
        return max(self.left, self.right)


def measured(halves: Halves, system: System) -> float:
    """The least length to cut, mm, rounded up to what a person measures.

    >>> measured(Halves("needed", 501.0, 803.0), "metric")
    1310.0
    """
    if halves.fold == "none":
        return round_up(halves.left, system)
    part = round_up(halves.short, system)
    if halves.fold == "middle" or part == round_up(halves.long, system):
        return round_up(2.0 * halves.long, system)
    return min(round_up(part + halves.long, system), round_up(2.0 * halves.long, system))


def fold_points(
    cords: Mapping[int, Halves], length: float, system: System
) -> dict[int, tuple[float, float] | None]:
    """Where to fold cords of one length, with as few different fold points as can be.

    Args:
        cords: by cord, what its halves must be; each fits the length.
        length: what they are all cut to, mm.
        system: what is measured in.

    Returns:
        By cord the left and the right part, mm, which sum to the length; None for a cord that is
        folded in the middle or not at all.
    """
    folds: dict[int, tuple[float, float] | None] = {}
    uneven: list[tuple[float, float, int]] = []  # least and most of the shorter part, cord
    for cord, halves in cords.items():
        if halves.fold != "needed" or 2.0 * halves.long <= length + EXACT_MM:
            folds[cord] = None
        else:
            least, most = round_up(halves.short, system), length - halves.long
            if least > most + EXACT_MM:  # a cord already cut, too short for a measured part
                least = most = (halves.short + most) / 2.0
            uneven.append((least, most, cord))
    for short, cord in _shared(uneven):
        left_is_short = cords[cord].left < cords[cord].right
        folds[cord] = (short, length - short) if left_is_short else (length - short, short)
    return folds


def _shared(spans: list[tuple[float, float, int]]) -> list[tuple[float, int]]:
    """One point within each span, as few different ones as can be (by right-hand ends)."""
    shared: list[tuple[float, int]] = []
    waiting = sorted(spans, key=lambda s: (s[1], s[0], s[2]))
    while waiting:
        most = waiting[0][1] + EXACT_MM
        now = [s for s in waiting if s[0] <= most]
        point = max(least for least, _, _ in now)
        shared += [(point, cord) for _, _, cord in now]
        waiting = [s for s in waiting if s[0] > most]
    return shared
