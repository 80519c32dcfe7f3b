"""Cords that a plan names on the maker's shelf: what it knows of them, filled into the plan."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from cordwright.errors import PlanError
from cordwright.plan.marks import MarkedDict, MarkedStr
from cordwright.plan.problems import nearest

ShelfCords = Callable[[], Mapping[str, Mapping[str, str]]]
"""Gives the cords of a shelf: by name, the plan's keys with their texts. Asked only if needed."""


def fill_in(tree: MarkedDict, shelf: ShelfCords | None) -> None:
    """Fill what the shelf knows into the cords of a plan that name one; what is there stays.

    Args:
        tree: a plan as it was read, not checked yet; changed in place.
        shelf: the shelf's cords; None if there is no shelf at hand.

    Raises:
        PlanError: a cord is not on the shelf, or there is no shelf.
    """
    cords = tree.get("cords")
    if not isinstance(cords, MarkedDict):
        return
    known: Mapping[str, Mapping[str, str]] | None = None
    for cord in cords.values():
        if not (isinstance(cord, MarkedDict) and isinstance(cord.get("shelf"), str)):
            continue
        name, place = str(cord["shelf"]), cord.places["shelf"]
        if shelf is None:
            raise PlanError(
                f"The plan names '{name[:60]}' on the shelf, and no shelf is at hand.",
                remedy="write its fibre and diameter into the plan",
                place=place,
            )
        known = shelf() if known is None else known
        if name not in known:
            raise PlanError(
                f"There is no cord called '{name[:60]}' on the shelf.",
                remedy=nearest(name, known) if known else "add it with cordwright shelf add cord",
                place=place,
            )
        for key, text in known[name].items():
            if key not in cord and text:
                filled = MarkedStr(text)
                filled.place = place
                cord[key] = filled
                cord.places[key] = cord.key_places[key] = place
