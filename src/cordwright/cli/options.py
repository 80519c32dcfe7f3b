"""Options of the form ``name=value``."""

from __future__ import annotations

from collections.abc import Sequence

from cordwright.errors import CordwrightError, Place, UnitsError


def diameters(given: Sequence[str]) -> dict[str, float]:
    """Cord diameters in mm by the cord's name, from texts such as ``main=3mm``.

    Raises:
        UnitsError: no name, no length, or the same name twice.
    """
    from cordwright.units.length import parse_length

    found: dict[str, float] = {}
    for name, value, place in _pairs("--diameter", given, "main=3mm"):
        try:
            found[name] = parse_length(value)
        except CordwrightError as error:
            raise UnitsError(error.what, remedy=error.remedy, place=place) from None
    return found


def sizes(given: Sequence[str]) -> dict[str, str]:
    """Sizes as written, by name, from texts such as ``arm=40cm``.

    Raises:
        UnitsError: no name, no value, or the same name twice.
    """
    return {name: value for name, value, _ in _pairs("--size", given, "arm=40cm")}


def _pairs(option: str, given: Sequence[str], example: str) -> list[tuple[str, str, Place]]:
    pairs: dict[str, tuple[str, str, Place]] = {}
    for text in given:
        place = Place(f"{option} {text}")
        name, equals, value = (part.strip() for part in text.partition("="))
        if not (name and equals and value):
            raise UnitsError(
                f"'{text}' is not a name and a value.",
                remedy=f"write it like {option} {example}",
                place=place,
            )
        if name in pairs:
            raise UnitsError(f"'{name}' is given twice.", remedy="give it once", place=place)
        pairs[name] = (name, value, place)
    return list(pairs.values())
