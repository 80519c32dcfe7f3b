"""Reads measures that are a number and a unit, such as weights, volumes and forces."""

from __future__ import annotations

import itertools
import re
from collections.abc import Mapping

from cordwright.errors import UnitsError

_NUMBER = r"[0-9]{1,12}(?:\.[0-9]{1,9})?|\.[0-9]{1,9}"


def parse_measure(text: str, units: Mapping[str, float], what: str, examples: str) -> float:
    """Read a measure, or several in falling units that add up (``2 lb 3 oz``).

    Args:
        text: as written.
        units: size of every unit's name in the unit of the result.
        what: what is read, with its article, for messages: ``a weight``.
        examples: how to write it.

    Raises:
        UnitsError: no number, no unit, an unknown unit, a decimal comma, a minus sign, or words
            after the measure.

    >>> parse_measure("1.5 kg", {"kg": 1000.0, "g": 1.0}, "a weight", "900 g")
    1500.0
    """
    trimmed = text.strip()
    shown = trimmed if len(trimmed) <= 60 else trimmed[:60] + "…"
    words = "|".join(sorted(map(re.escape, units), key=len, reverse=True))
    part = rf"({_NUMBER})[ \t]*({words})(?![A-Za-z0-9_])"
    if re.fullmatch(rf"(?:{part}[ \t]*)+", trimmed):
        pairs = [(float(number), units[unit]) for number, unit in re.findall(part, trimmed)]
        sizes = [size for _, size in pairs]
        if all(after < before for before, after in itertools.pairwise(sizes)):
            return round(sum(number * size for number, size in pairs), 9)
    remedy = f"write it like {examples}"
    if re.match(r"[0-9]+,[0-9]", trimmed):
        corrected = shown.replace(",", ".", 1)
        raise UnitsError(
            f"'{shown}' has a decimal comma.", remedy=f"write {corrected}, with a point"
        )
    if trimmed.startswith(("-", "−")):  # noqa: RUF001 - the typographer's minus sign
        raise UnitsError(f"'{shown}' is below zero.", remedy=remedy)
    if re.fullmatch(_NUMBER, trimmed):
        raise UnitsError(f"'{shown}' has no unit.", remedy=remedy)
    raise UnitsError(f"'{shown}' is not {what}.", remedy=remedy)
