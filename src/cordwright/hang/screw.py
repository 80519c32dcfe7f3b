"""What a screw hook holds in wood before it is drawn out: guidance only.

Ultimate withdrawal of a wood screw from side grain of dry wood: 108.25 G2 D L (N, mm); the load
allowed by the NDS is 2850 G2 D L (lb, in), 0.18 of that (``data/screws.csv`` has the sources). G
is the wood's specific gravity, the low end of its range. It holds for screws across the grain, in
pilot holes, in sound wood that stays dry; not for end grain, plaster, plugs, boards or screws that
bend. Lag screws follow another rule (1800 G^1.5 D^0.75 L in lb and in).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from cordwright.hang.tables import table

if TYPE_CHECKING:
    from cordwright.plan.hung import Screw


@dataclass(frozen=True, slots=True)
class Withdrawal:
    """What a screw hook holds.

    Args:
        gravity: specific gravity of the wood that was counted with.
        ultimate_n: force that draws it out, N.
        allowed_n: load allowed for good, N.
        sources: of the wood's figure, of both formulas and of the share for permanent load.
    """

    gravity: float
    ultimate_n: float
    allowed_n: float
    sources: tuple[str, ...]


def withdrawal(screw: Screw) -> Withdrawal:
    """What a screw hook holds in wood; guidance only."""
    wood, rows = table("woods")[screw.wood], table("screws")
    area = wood.low**2 * screw.thick_mm * screw.thread_mm
    lasting = rows["permanent load"]
    return Withdrawal(
        wood.low,
        rows["ultimate"].value * area,
        rows["allowable"].value * lasting.value * area,
        (wood.source, *(rows[k].source for k in ("ultimate", "allowable", "permanent load"))),
    )
