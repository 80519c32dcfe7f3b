"""What stands on the shelf: frozen values, one type for each kind of thing.

Lengths are in mm, masses in g, forces in N. Everything has a name that is unique among its kind.
How each field is written by people is in `cordwright.supply.writing`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from cordwright.supply.price import Price


@dataclass(frozen=True, slots=True)
class ShelfCord:
    """One kind of cord: fibre, build, colour; how much of it there is stands in `Length`."""

    name: str
    fibre: str
    diameter_mm: float
    build: str = ""
    colour: str = ""
    weighed_g_per_m: float | None = None
    breaking_n: float | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Offer:
    """A supplier's put-up: so much of a cord in one piece, for a price; `most` can be had."""

    name: str
    cord: str
    length_mm: float
    supplier: str = ""
    price: Price | None = None
    most: int | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Length:
    """Cord at hand in one piece: a spool, a part-spool or a left-over; `price` is for all of it."""

    name: str
    cord: str
    length_mm: float
    sort: str = "spool"
    price: Price | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Ring:
    """Rings of one kind; weight and price are of one."""

    name: str
    inside_mm: float
    wire_mm: float
    weight_g: float | None = None
    count: int = 0
    price: Price | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Rod:
    """Rods of one kind; weight and price are of one."""

    name: str
    length_mm: float
    thick_mm: float
    weight_g: float | None = None
    count: int = 0
    price: Price | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Pot:
    """Pots of one kind, across at the rim; weight and price are of one."""

    name: str
    across_mm: float
    height_mm: float
    weight_g: float | None = None
    count: int = 0
    price: Price | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class SwatchEntry:
    """A swatch as measured; see `cordwright.cords.swatch.Swatch`.

    What says which tight knot it is, beside its name, is `cordwright.supply.swatchknot`'s.
    """

    name: str
    cord: str
    knot: str
    knots: int
    height_mm: float
    used_mm: float
    width_mm: float | None = None
    fillers: int = 2
    strands: int | None = None
    turns: int | None = None
    slant_deg: float | None = None
    across: int | None = None
    mount: str = ""
    thick_mm: float | None = None
    maker: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class FinishedEntry:
    """The cord of one kind in a finished piece; see `cordwright.cords.swatch.Finished`.

    `knotted_mm` is what ideal cord would have used in the knots, `free_mm` all other cord planned,
    `used_mm` what was cut less what was left over.
    """

    name: str
    cord: str
    mix: Mapping[str, float]
    knots: int
    knotted_mm: float
    free_mm: float
    used_mm: float
    maker: str = ""
    note: str = ""


Item: TypeAlias = ShelfCord | Offer | Length | Ring | Rod | Pot | SwatchEntry | FinishedEntry
"""Anything on the shelf."""
Counted: TypeAlias = Ring | Rod | Pot
"""Things that are counted."""
