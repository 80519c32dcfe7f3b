"""What hangs: the weight of a filled pot, a bowl, a sphere or a box, and of the piece's own cord.

Weights are in g with the range that they may lie in. A pot is a frustum with a wall of one
thickness; leaves and roots are not counted, nor what drips.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from cordwright.cords.fibres import FIBRES
from cordwright.hang.tables import Row, table
from cordwright.piece.lengths import measure
from cordwright.piece.weight import Weight, weight
from cordwright.plan.hung import BowlBody, PotBody, cap_ml, frustum_ml, pot_ml

if TYPE_CHECKING:
    from cordwright.piece.model import Piece
    from cordwright.plan.hung import Body

BY_THE_SCALES = "weighed by the maker"


@dataclass(frozen=True, slots=True)
class Part:
    """One part of what hangs: what it is, and what it weighs."""

    what: str
    weight: Weight


@dataclass(frozen=True, slots=True)
class Load:
    """Everything that hangs.

    Args:
        parts: what it is made of.
        unknown: the plan's cords whose weight is not known, so that it is left out.
    """

    parts: tuple[Part, ...]
    unknown: tuple[str, ...] = ()

    @property
    def g(self) -> float:
        """Likeliest weight in g."""
        return sum(p.weight.g for p in self.parts)

    @property
    def low_g(self) -> float:
        """Low end of the weight in g."""
        return sum(p.weight.low_g for p in self.parts)

    @property
    def high_g(self) -> float:
        """High end of the weight in g."""
        return sum(p.weight.high_g for p in self.parts)


def held_load(body: Body | None) -> Load:
    """The weight of what a piece holds, filled; nothing for None."""
    match body:
        case None:
            return Load(())
        case PotBody():
            return Load((_empty_pot(body), _filling(body.content, _pot_filling_ml(body))))
        case BowlBody():
            empty = Part("empty bowl", _exactly(body.weight_g))
            if body.content is None:
                return Load((empty,))
            ml = body.filled_ml or cap_ml(body.across_mm, body.high_mm)
            return Load((empty, _filling(body.content, ml)))
        case _:
            return Load((Part("what it holds", _exactly(body.weight_g)),))


def _exactly(g: float) -> Weight:
    return Weight(g, g, g, BY_THE_SCALES)


def _of(row: Row, ml: float) -> Weight:
    """G/cm3, which is kg/L, times ml is g."""
    return Weight(row.value * ml, row.low * ml, row.high * ml, row.source)


def _filling(content: str, ml: float) -> Part:
    return Part(content, _of(table("contents")[content], ml))


def _pot_filling_ml(pot: PotBody) -> float:
    if pot.filled_ml is not None:
        return pot.filled_ml
    return pot_ml(pot.rim_mm, pot.base_mm, pot.height_mm, pot.wall_mm)


def shell_ml(pot: PotBody) -> float:
    """Volume in ml of a pot's wall and floor."""
    outside = frustum_ml(pot.rim_mm, pot.base_mm, pot.height_mm)
    return outside - pot_ml(pot.rim_mm, pot.base_mm, pot.height_mm, pot.wall_mm)


def _empty_pot(pot: PotBody) -> Part:
    if pot.weight_g is not None:
        return Part("empty pot", _exactly(pot.weight_g))
    row = table("pots")[pot.material or "terracotta"]  # a plan without weight has a material
    return Part(f"empty pot, {row.what}", _of(row, shell_ml(pot)))


def cord_load(piece: Piece, *, wet: bool) -> Load:
    """The weight of the piece's own cord, as used.

    In the air cord takes up moisture: it may weigh as much as its commercial regain says. Wet, all
    that is not fibre in its round section may be water too.

    Args:
        piece: the worked piece.
        wet: whether the cord gets wet.
    """
    used: dict[str, float] = {}
    for strand, form in zip(piece.strands, measure(piece).used, strict=True):
        name = piece.cords[strand.cord].cord
        used[name] = used.get(name, 0.0) + piece.mm(form)
    parts = []
    unknown = []
    for name, mm in used.items():
        dry = weight(piece, name, mm)
        if dry is None:
            unknown.append(name)
            continue
        parts.append(
            Part(f"cord '{name}'" + (", wet" if wet else ""), _damp(piece, name, mm, dry, wet))
        )
    return Load(tuple(parts), tuple(unknown))


def _damp(piece: Piece, name: str, mm: float, dry: Weight, wet: bool) -> Weight:
    fibre = piece.plan.cords[name].fibre.strip().lower()
    row = table("regain").get(fibre)
    gain = 1.0 if row is None else (1.0 + row.value / 100.0) / (1.0 + row.low / 100.0)
    source = dry.source if row is None else f"{dry.source}; regain: {row.source}"
    if not wet:
        return Weight(dry.g, dry.low_g, dry.high_g * gain, source)
    section_cm2 = math.pi / 4.0 * (piece.values[f"d:{name}"] / 10.0) ** 2
    room = section_cm2 * mm / 10.0  # cm3
    density = FIBRES[fibre].density.value
    g, high = (w * gain + max(0.0, room - w / density) for w in (dry.g, dry.high_g))
    return Weight(g, dry.low_g, max(g, high), f"{source}; wet: its round section full of water")


def total(*loads: Load) -> Load:
    """Several loads as one."""
    return Load(
        tuple(p for load in loads for p in load.parts),
        tuple(name for load in loads for name in load.unknown),
    )
