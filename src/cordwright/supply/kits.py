"""What is printed for a run of kits: parts list, packing sheet and labels.

A `Kit` says what is in one; the papers are tables of plain text (`Sheet`), which
`cordwright.supply.papers` writes as text, Markdown, CSV or HTML.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from cordwright.errors import SupplyError
from cordwright.units.length import System, format_length
from cordwright.units.mass import format_mass

if TYPE_CHECKING:
    from cordwright.supply.pricing import Item

MOST_KITS = 1000
TICK = "[ ]"
"""Stands for a box to tick."""


@dataclass(frozen=True, slots=True)
class CordPart:
    """Equal cords in a kit.

    Args:
        id: as in the cut list.
        words: which cord it is, for a person.
        length_mm: of each.
        count: how many.
    """

    id: str
    words: str
    length_mm: float
    count: int


@dataclass(frozen=True, slots=True)
class Parcel:
    """What a kit weighs, g; None where something has no known weight.

    Args:
        cord_g: cord, with the range that its estimate may lie in.
        low_g: the least.
        high_g: the most.
        things_g: fittings and packing together.
        box_mm: inner sides of the box, if one is given.
    """

    cord_g: float | None
    low_g: float | None
    high_g: float | None
    things_g: float | None
    box_mm: tuple[float, float, float] | None = None

    @property
    def gross_g(self) -> float | None:
        """All of it together."""
        if self.cord_g is None or self.things_g is None:
            return None
        return self.cord_g + self.things_g

    def volumetric_g(self, g_per_litre: float) -> float | None:
        """The weight that carriers charge for the room that the box takes; None without a box.

        Args:
            g_per_litre: the carrier's figure; 200 (5 litres a kilogram) is common practice.
        """
        if self.box_mm is None:
            return None
        long, wide, high = self.box_mm
        return long * wide * high / 1e6 * g_per_litre


@dataclass(frozen=True, slots=True)
class Kit:
    """What is in a kit.

    Args:
        title: of the piece.
        studio: who makes the kits; may be empty.
        cords: cut for it.
        things: fittings that go in.
        wrapping: what it is packed with.
        gross_g: what it weighs, g, if known.
    """

    title: str
    studio: str
    cords: tuple[CordPart, ...]
    things: tuple[Item, ...]
    wrapping: tuple[Item, ...]
    gross_g: float | None


@dataclass(frozen=True, slots=True)
class Sheet:
    """One table of a paper.

    Args:
        title: what it is.
        heads: of the columns.
        rows: of plain text, each as long as ``heads``.
        cards: whether each row is a card to be cut out, the first cell its title.
        numbers: columns whose cells are numbers or lengths, to stand at the right.
    """

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    cards: bool = False
    numbers: frozenset[int] = frozenset()


def papers(kit: Kit, kits: int, system: System) -> tuple[Sheet, ...]:
    """Parts list for the whole run, packing sheet for one kit, and a label for each.

    Args:
        kit: what is in one.
        kits: how many, 1 to `MOST_KITS`.
        system: what lengths are written in.

    Raises:
        SupplyError: no kits, or too many.
    """
    if not 1 <= kits <= MOST_KITS:
        raise SupplyError(
            f"{kits} kits cannot be printed for.", remedy=f"plan 1 to {MOST_KITS:,} at a time"
        )
    return (_parts(kit, kits, system), _packing(kit, system), _labels(kit, kits))


def _parts(kit: Kit, kits: int, system: System) -> Sheet:
    rows = [
        (c.id, c.words, format_length(c.length_mm, system), str(c.count), str(c.count * kits))
        for c in kit.cords
    ]
    rows += [
        ("", _sized(i), "", str(i.count), str(i.count * kits)) for i in (*kit.things, *kit.wrapping)
    ]
    heads = ("", "part", "length", "in a kit", f"for {kits}")
    return Sheet(f"Parts list: {kit.title}", heads, tuple(rows), numbers=frozenset({2, 3, 4}))


def _packing(kit: Kit, system: System) -> Sheet:
    cords = [
        (TICK, str(c.count), format_length(c.length_mm, system), f"{c.words}; bundled as {c.id}")
        for c in kit.cords
    ]
    things = [(TICK, str(i.count), "", _sized(i)) for i in kit.things]
    wrapping = [(TICK, str(i.count), "", f"to pack it in: {_sized(i)}") for i in kit.wrapping]
    weighs = []
    if kit.gross_g is not None:
        weighs = [(TICK, "", "", f"weighs about {format_mass(kit.gross_g, system)}")]
    rows = (*cords, *things, *wrapping, *weighs)
    heads = ("", "count", "length", "what")
    return Sheet(f"Packing sheet: {kit.title}", heads, rows, numbers=frozenset({1, 2}))


def _sized(item: Item) -> str:
    return f"{item.name}, {item.size}" if item.size else item.name


def _labels(kit: Kit, kits: int) -> Sheet:
    inside = ", ".join(_inside(kit))
    rows = tuple((kit.title, kit.studio, f"kit {n} of {kits}", inside) for n in range(1, kits + 1))
    return Sheet("Labels", ("piece", "studio", "number", "inside"), rows, cards=True)


def _inside(kit: Kit) -> Iterable[str]:
    cords = sum(c.count for c in kit.cords)
    yield f"{cords} cord{'' if cords == 1 else 's'}"
    for item in kit.things:
        yield f"{item.count} {item.name}"
