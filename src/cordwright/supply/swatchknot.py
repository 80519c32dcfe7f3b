"""Which tight knot a swatch is, and what that is in the swatch's cord.

Knots are tied one below the other. What says how, beside the knot's name, differs from knot to
knot (`SAID`); what a knot does not have is refused, so that no number is left unused. Double half
hitches are tied in rows one below the other on holding cords, ``across`` of them in a row;
lark's heads are mounted ``across`` side by side, in one row.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, Final, Literal, cast

from cordwright.cords.swatch import Ideal
from cordwright.errors import SupplyError
from cordwright.knots.spec import KnotName, KnotSpec, Role

if TYPE_CHECKING:
    from cordwright.piece.figures import FiguresSource
    from cordwright.supply.records import SwatchEntry

ROUND_FILLERS = frozenset({"fillers", "thick"})
SAID: Final[Mapping[KnotName, frozenset[str]]] = MappingProxyType(
    {
        KnotName.SQUARE_KNOT: ROUND_FILLERS,
        KnotName.HALF_KNOT: ROUND_FILLERS,
        KnotName.HALF_HITCH: ROUND_FILLERS,
        KnotName.GATHERING: ROUND_FILLERS | {"turns"},
        KnotName.DOUBLE_HALF_HITCH: frozenset({"slant", "across", "thick"}),
        KnotName.LARKS_HEAD: frozenset({"mount", "thick", "across"}),
        KnotName.OVERHAND: frozenset({"strands"}),
        KnotName.BRAID: frozenset({"strands"}),
    }
)
"""What may be said of a swatch in each knot, beside how many."""
FILLERS: Final = 2  # where they are not said
WORKERS: Final = {KnotName.HALF_HITCH: 1, KnotName.GATHERING: 1}
ROUND: Final = 1e4  # diameters are compared to this part of one, so that as many knots are alike


def spec_of(entry: SwatchEntry, diameter_mm: float) -> KnotSpec:
    """The tight knot of a swatch.

    Args:
        entry: the swatch.
        diameter_mm: of its cord, mm.

    Raises:
        SupplyError: something is said that the knot does not have, or is not said that it needs.
    """
    name = KnotName(entry.knot)
    _check(name, entry)
    thick = 1.0 if entry.thick_mm is None else round(entry.thick_mm / diameter_mm * ROUND) / ROUND
    match name:
        case KnotName.OVERHAND | KnotName.BRAID:
            return KnotSpec(name, entry.strands or 1)
        case KnotName.LARKS_HEAD:
            return KnotSpec(name, 2, over=cast("Literal['ring', 'rod']", entry.mount), over_d=thick)
        case KnotName.DOUBLE_HALF_HITCH:
            return KnotSpec(name, 2, slant_deg=entry.slant_deg or 0.0, filler_d=thick)
        case _:
            strands = entry.fillers + WORKERS.get(name, 2)
            return KnotSpec(name, strands, turns=entry.turns or 1, filler_d=thick)


def _check(name: KnotName, entry: SwatchEntry) -> None:
    said = {
        "fillers": entry.fillers != FILLERS,
        "strands": entry.strands is not None,
        "turns": entry.turns is not None,
        "slant": entry.slant_deg is not None,
        "across": entry.across is not None,
        "mount": entry.mount != "",
        "thick": entry.thick_mm is not None,
    }
    for word, given in said.items():
        if given and word not in SAID[name]:
            raise SupplyError(
                f"A swatch in {name} has no {word}.",
                remedy=f"it may have {', '.join(sorted(SAID[name]))}",
            )
    if name is KnotName.BRAID and entry.strands not in (3, 4):
        raise SupplyError(
            "A braid is of 3 or 4 strands.", remedy="add strands 3 or 4, and count full rounds"
        )
    if name is KnotName.LARKS_HEAD:
        if not entry.mount or entry.thick_mm is None:
            raise SupplyError(
                "What the lark's heads are mounted on is not said.",
                remedy="say ring or rod, and how thick its wire or it is",
            )
        if entry.knots != 1:
            raise SupplyError(
                "Lark's heads are mounted side by side, not one below the other.",
                remedy="give 1 knot, and across: how many are side by side",
            )


def ideal(entry: SwatchEntry, diameter_mm: float, figures: FiguresSource) -> Ideal:
    """The tight knot of a swatch, in mm.

    Args:
        entry: the swatch.
        diameter_mm: of its cord, mm.
        figures: tight knots.

    Raises:
        CordwrightError: as `spec_of`, or the knot cannot be tied so.
    """
    tight = figures.figures(spec_of(entry, diameter_mm))
    takes = [t for t, r in zip(tight.take_up_d, tight.roles, strict=True) if r is Role.WORKING]
    d = diameter_mm
    return Ideal(
        tight.height_d * d, (entry.across or 1) * tight.width_d * d, sum(takes) / len(takes) * d
    )
