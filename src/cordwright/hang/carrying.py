"""What a piece carries, from its plan: hung with what it holds, and whether to believe the answer.

Tensions come from the shape at rest (`cordwright.hang.shape`). They are worth nothing where forces
do not balance, or where knots have wedged themselves between what holds them apart: then the
account of loads gives no verdict, and says why.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from cordwright.hang import shape
from cordwright.hang.holding import held_of
from cordwright.hang.settle import BALANCED
from cordwright.hang.sitting import sit
from cordwright.plan.hanging import Hang
from cordwright.plan.hung import Hung, hung
from cordwright.plan.sizes import resolve_sizes

if TYPE_CHECKING:
    from cordwright.hang.shape import Shape
    from cordwright.piece.model import Piece

JAMMED = 3.0
"""Pull in one strand over everything that hangs, from which on it counts as wedged. A strand that
carries half of the load reaches that only 10 degrees from level: 1 / (2 sin 10) = 2.9."""


@dataclass(frozen=True, slots=True)
class Carried:
    """A piece as it hangs, with the pull in its strands.

    Args:
        shape: at rest.
        told: what the plan says of hanging.
        tensions: N, by strand and stop.
        doubts: why the tensions cannot be believed, a sentence each; empty if nothing speaks
            against them.
    """

    shape: Shape
    told: Hung
    tensions: Mapping[tuple[int, int], float]
    doubts: tuple[str, ...]


def told_of(piece: Piece, sizes: Mapping[str, str]) -> Hung:
    """What the plan of a piece says of hanging; its defaults where it says nothing.

    Args:
        piece: as worked.
        sizes: sizes that it was worked with, beside the plan's own, as a maker writes them.

    Raises:
        WorkError: the piece is mounted on nothing.
        PlanError: what the plan says of hanging cannot be.
    """
    plan = piece.plan
    shape.check_mount(piece)
    return hung(plan.hang or Hang(), resolve_sizes(plan, sizes))


def carry(piece: Piece, told: Hung) -> Carried:
    """Hang a piece with what it holds, and take the pull in its strands."""
    # Let in anew from higher up where it clamps: whether a net clamps can hang on how it began.
    hanging = shape.hang(piece) if told.holds is None else sit(piece, held_of(told.holds)).shape
    tensions = shape.tensions(hanging)
    return Carried(hanging, told, tensions, doubts(hanging, tensions))


def doubts(hanging: Shape, tensions: Mapping[tuple[int, int], float]) -> tuple[str, ...]:
    """Why the tensions of a shape cannot be believed."""
    found = []
    settled = hanging.settled
    if not settled.balanced:
        found.append(
            f"The shape did not come to rest in {settled.steps} steps: at one place "
            f"{settled.residual:.2g} of all weight is out of balance, and at most {BALANCED:g} "
            "may be."
        )
    weight = float(settled.frame.weight.sum())
    most = max(tensions.values(), default=0.0)
    if most > JAMMED * weight > 0.0:
        (strand, stop) = max(tensions, key=lambda key: tensions[key])
        course = hanging.piece.strands[strand].course
        where = f"above its knot {stop + 1} of {len(course)}"
        found.append(
            f"Strand {hanging.piece.name(strand)}, {where}, would pull {most:.3g} N, "
            f"{most / weight:.1f} times all that hangs: knots are wedged against each other or "
            "what is held, as happens where the piece is too tight for it."
        )
    return tuple(found)
