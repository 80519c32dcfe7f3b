"""What a batch of pieces needs of each cord."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from typing import TYPE_CHECKING

from cordwright.supply.cutting import Need

if TYPE_CHECKING:
    from cordwright.piece.cutlist import CutList

Demand = Mapping[str, tuple[Need, ...]]
"""What is to be cut of each of the plan's cords, by its name."""


def demand(cuts: CutList, kits: int = 1, same: Mapping[str, str] | None = None) -> Demand:
    """The lengths of a cut list, as often as there are kits.

    Cords that the plan says are already cut are not cut again.

    Args:
        cuts: the cut list.
        kits: how many.
        same: names of cords that are another of the plan's cords, with the name of that.
    """
    found: defaultdict[str, list[Need]] = defaultdict(list)
    for entry in cuts.entries:
        if not entry.given and entry.length_mm > 0:
            cord = (same or {}).get(entry.cord, entry.cord)
            found[cord].append(Need(entry.id, entry.length_mm, entry.count * kits))
    return {cord: tuple(needs) for cord, needs in found.items()}
