"""Several errors of one plan, told at once."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches

from cordwright.errors import PlanError

MOST_SHOWN = 20


class PlanErrors(PlanError):  # noqa: N818 - it is several errors
    """Everything found wrong in a plan; the first error is also the error's own.

    Args:
        errors: at least one error, in the order of the file.
    """

    def __init__(self, errors: Iterable[PlanError]) -> None:
        self.errors = tuple(errors)
        first = self.errors[0]
        super().__init__(first.what, remedy=first.remedy, place=first.place)

    def __str__(self) -> str:
        shown = [str(e) for e in self.errors[:MOST_SHOWN]]
        rest = len(self.errors) - MOST_SHOWN
        return "\n".join([*shown, f"… and {rest} more."] if rest > 0 else shown)


def raise_all(errors: Iterable[PlanError]) -> None:
    """Raise what was found: nothing, the one error, or all of them in the order of the file."""
    found = sorted(errors, key=_position)
    if len(found) == 1:
        raise found[0]
    if found:
        raise PlanErrors(found)


def _position(error: PlanError) -> tuple[int, int]:
    place = error.place
    return ((place.line or 0), (place.column or 0)) if place else (0, 0)


def nearest(word: str, known: Iterable[str]) -> str:
    """A remedy that names the nearest known word, or all of them."""
    listed = list(known)
    near = get_close_matches(word[:60].lower(), listed, 1, 0.6)
    if near:
        return f"did you mean {near[0]}?"
    shown = ", ".join(listed[:24]) + (", …" if len(listed) > 24 else "")
    return f"known here: {shown}" if shown else "take it out"


def shortened(value: object, most: int = 60) -> str:
    """A value for a message: on one line, not too long."""
    text = " ".join(str(value)[: 4 * most].split())
    return text if len(text) <= most else text[:most] + "…"
