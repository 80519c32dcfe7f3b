"""Fibres and builds of cord: how heavy a cord of a given diameter is.

Mass per length = fibre density * share of the cord's round section that is fibre * section.
Every figure names its source and its range; a scale and a measured length are always better.
It holds for dry cord (about 65 % relative humidity) whose diameter was measured unsqueezed.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Final, TypeVar

from cordwright.errors import CordwrightError

_MORTON_HEARLE: Final = (
    "Morton and Hearle, Physical Properties of Textile Fibres, table 5.1, at 65 % r.h."
)
_PLANT_FIBRES: Final = (
    "Materials and Structures 56:13 (2023), doi 10.1617/s11527-022-02097-2, table 3"
)
_MEMORY: Final = "from memory, unchecked"


@dataclass(frozen=True, slots=True)
class Figure:
    """A number with the range it was found in and where it was found."""

    value: float
    low: float
    high: float
    source: str


@dataclass(frozen=True, slots=True)
class Fibre:
    """A fibre; ``density`` in g/cm3."""

    name: str
    density: Figure


@dataclass(frozen=True, slots=True)
class Build:
    """How a cord is made; ``packing`` is the share of its round section that is fibre, 0 to 1."""

    name: str
    packing: Figure


def _fibre(name: str, value: float, low: float, high: float, source: str) -> Fibre:
    return Fibre(name, Figure(value, low, high, source))


FIBRES: Final[dict[str, Fibre]] = {
    f.name: f
    for f in (
        _fibre("cotton", 1.52, 1.52, 1.55, _MORTON_HEARLE),
        _fibre("wool", 1.31, 1.30, 1.31, _MORTON_HEARLE),
        _fibre("silk", 1.34, 1.34, 1.34, _MORTON_HEARLE),
        _fibre("polyester", 1.39, 1.39, 1.39, _MORTON_HEARLE),
        _fibre("nylon", 1.14, 1.14, 1.14, _MORTON_HEARLE),
        _fibre("polypropylene", 0.91, 0.91, 0.91, _MORTON_HEARLE),
        _fibre("linen", 1.38, 1.38, 1.50, _PLANT_FIBRES),
        _fibre("hemp", 1.40, 1.35, 1.50, _PLANT_FIBRES),
        _fibre("jute", 1.35, 1.23, 1.50, _PLANT_FIBRES),
        _fibre("sisal", 1.35, 1.20, 1.50, _PLANT_FIBRES),
        _fibre("leather", 0.95, 0.85, 1.05, _MEMORY),
    )
}
"""Known fibres by name."""

_ROPE_TABLE: Final = (
    "three-strand polypropylene rope of 36 mm at 0.59 kg/m (engineeringtoolbox.com, "
    "Polypropylene Fiber Rope - Strength), over 0.91 g/cm3"
)
BUILDS: Final[dict[str, Build]] = {
    name: Build(name, figure)
    for name, figure in {
        "single twist": Figure(0.36, 0.28, 0.45, _MEMORY),
        "3-ply": Figure(0.45, 0.36, 0.55, _MEMORY),
        "braided": Figure(0.45, 0.32, 0.60, _MEMORY),
        "laid rope": Figure(0.64, 0.60, 0.67, _ROPE_TABLE),
        "waxed": Figure(0.75, 0.65, 0.85, _MEMORY),
        "solid": Figure(1.0, 1.0, 1.0, "a solid round section, by definition"),
    }.items()
}
"""Known builds by name."""
ANY_BUILD: Final = Build("unknown", Figure(0.45, 0.28, 0.75, _MEMORY))
"""Stands in where the build is not known."""

_Known = TypeVar("_Known")


def _find(name: str, known: dict[str, _Known], what: str) -> _Known:
    found = known.get(name.strip().lower())
    if found is not None:
        return found
    near = get_close_matches(name.lower()[:60], known, 1)
    listed = ", ".join(known)
    raise CordwrightError(
        f"'{name[:60]}' is not a {what} whose weight is known.",
        remedy=f"did you mean {near[0]}?" if near else f"use one of {listed}, or weigh the cord",
    )


def fibre(name: str) -> Fibre:
    """A known fibre.

    Raises:
        CordwrightError: the fibre is not known; the remedy names the nearest one.
    """
    return _find(name, FIBRES, "fibre")


def build(name: str) -> Build:
    """A known build.

    Raises:
        CordwrightError: the build is not known; the remedy names the nearest one.
    """
    return _find(name, BUILDS, "build")


def mass_g_per_m(of: Fibre, made: Build, diameter_mm: float) -> Figure:
    """Mass of a metre of cord in g, with its range.

    A section of 1 mm2 times 1 m is 1 cm3, so g/cm3 times mm2 is g/m.

    >>> round(mass_g_per_m(FIBRES["polypropylene"], BUILDS["laid rope"], 10.0).value)
    46
    """
    section_mm2 = math.pi / 4.0 * diameter_mm**2
    density, packing = of.density, made.packing
    return Figure(
        density.value * packing.value * section_mm2,
        density.low * packing.low * section_mm2,
        density.high * packing.high * section_mm2,
        f"density: {density.source}; packing: {packing.source}",
    )
