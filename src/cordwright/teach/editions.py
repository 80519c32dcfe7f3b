"""Size editions: the same plan in several sizes or cords, side by side.

An edition is written ``small: arm=12 cm, pot=40 cm, cord main=3 mm``: its name, then sizes of the
plan and diameters of its cords. The first edition of a booklet is the plan as it stands, or the
first one named; where lengths differ they stand beside each other, in the order of the editions.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from cordwright.errors import Place, UnitsError

EXAMPLE = "--edition 'small: arm=12cm, pot=40cm'"
MOST = 6
"""Editions in one booklet: more do not stand side by side on a page."""

LONGEST_NAME = 40

_BETWEEN = re.compile(r",(?=\s*(?:cord\s+)?[^\W\d]\w*\s*=)")
"""A comma that the next setting follows; others belong to sums, as in ``round(arm / 3, 1 cm)``."""

_SETTING = re.compile(r"\s*(?P<cord>cord\s+)?(?P<name>[^\W\d]\w*)\s*=(?P<value>.*)", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Edition:
    """One edition.

    Args:
        name: as the maker calls it; may be empty where there is only one.
        sizes: the plan's sizes that are otherwise, as written.
        diameters: diameters in mm of cords that are otherwise.
    """

    name: str
    sizes: Mapping[str, str] = field(default_factory=dict)
    diameters: Mapping[str, float] = field(default_factory=dict)


def parse_edition(text: str) -> Edition:
    """Reads one edition.

    Raises:
        UnitsError: no name, a setting that is none, a name set twice, or a diameter that is no
            length.

    >>> parse_edition("small: arm=12cm, cord main=3 mm").diameters
    {'main': 3.0}
    """
    from cordwright.units.length import parse_length

    place = Place(f"--edition {text[:60]}")
    name, colon, rest = (part.strip() for part in text.partition(":"))
    if not name or not colon or len(name) > LONGEST_NAME:
        raise UnitsError(
            f"'{text[:60]}' does not begin with a name of at most {LONGEST_NAME} characters "
            "and a colon.",
            remedy=f"write it like {EXAMPLE}",
            place=place,
        )
    sizes: dict[str, str] = {}
    diameters: dict[str, float] = {}
    for part in _BETWEEN.split(rest) if rest else []:
        found = _SETTING.fullmatch(part)
        value = found["value"].strip() if found else ""
        if found is None or not value:
            raise UnitsError(
                f"'{part.strip()[:60]}' is not a size with its value.",
                remedy=f"write it like {EXAMPLE}; for a cord's diameter: cord main=3mm",
                place=place,
            )
        if found["name"] in (diameters if found["cord"] else sizes):
            raise UnitsError(
                f"'{found['name']}' is set twice in one edition.", remedy="set it once", place=place
            )
        if found["cord"]:
            try:
                diameters[found["name"]] = parse_length(value)
            except UnitsError as error:
                raise UnitsError(error.what, remedy=error.remedy, place=place) from None
        else:
            sizes[found["name"]] = value
    return Edition(name, sizes, diameters)


def parse_editions(
    texts: Sequence[str], sizes: Mapping[str, str], diameters: Mapping[str, float]
) -> tuple[Edition, ...]:
    """All editions of a booklet; one without a name if none is asked for.

    Args:
        texts: the editions as written.
        sizes: sizes that hold for all editions that do not set them.
        diameters: the same for diameters in mm.

    Raises:
        UnitsError: an edition that cannot be read, a name that stands twice, or too many.
    """
    if not texts:
        return (Edition("", dict(sizes), dict(diameters)),)
    if len(texts) > MOST:
        raise UnitsError(
            f"{len(texts)} editions do not stand side by side on a page.",
            remedy=f"ask for at most {MOST}, and for the others in a booklet of their own",
        )
    found = [parse_edition(text) for text in texts]
    names = [e.name for e in found]
    for name in names:
        if names.count(name) > 1:
            raise UnitsError(
                f"Two editions are called '{name}'.", remedy="give each a name of its own"
            )
    return tuple(Edition(e.name, {**sizes, **e.sizes}, {**diameters, **e.diameters}) for e in found)
