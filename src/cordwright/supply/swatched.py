"""Swatches as they are measured, and what they say of a cord in somebody's hands."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, Final

from cordwright.cords.swatch import factor, spare_part
from cordwright.errors import Place, SupplyError
from cordwright.units.length import parse_length

if TYPE_CHECKING:
    from cordwright.cords.swatch import Hands

LIKELY: Final = 0.95
"""Ends of the range that holds 90 in 100."""


def used_mm(start: str, left: str) -> float:
    """Cord that was used, mm, from what there was before and what is left.

    Raises:
        CordwrightError: one is no length, or nothing was used.

    >>> used_mm("1.2 m", "35 cm")
    850.0
    """
    used = parse_length(start) - parse_length(left)
    if used <= 0.0:
        raise SupplyError(
            f"{left} cannot be left of {start}.",
            remedy="give what the strand was before, and what is left of it",
            place=Place("--left"),
        )
    return used


def hands_json(hands: Hands, cord: str, maker: str) -> dict[str, Any]:
    """What swatches and finished pieces say: JSON values of `SwatchReport`.

    Args:
        hands: all that is known.
        cord: of the shelf.
        maker: whose hands; may be empty.
    """
    parts: dict[str, Any] = {}
    for what in ("height", "width", "take_up"):
        known = getattr(hands, what)
        found = factor(known, maker, cord)
        low, high = found.quantile(1.0 - LIKELY), found.quantile(LIKELY)
        parts[what] = {
            "factor": math.exp(found.location),
            "low": math.exp(low),
            "high": math.exp(high),
            "trials": known.trials,
            "known": known.knows(maker, cord),
        }
    spare = spare_part(hands, maker, cord, LIKELY)
    return {"cord": cord, "maker": maker, "factors": parts, "spare": spare}
