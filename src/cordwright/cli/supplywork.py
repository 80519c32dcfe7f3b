"""What every form of ``cordwright supply`` begins with: the piece, its cut list and the stock."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, cast

from cordwright.cli import atlas_access
from cordwright.cli.shelf_access import hands_of

if TYPE_CHECKING:
    from cordwright.piece.cutlist import CutList
    from cordwright.piece.model import Piece
    from cordwright.plan.model import Plan
    from cordwright.supply.asked import Asked
    from cordwright.units.length import System


def worked(
    plan: Plan, asked: Asked, sizes: Mapping[str, str], diameters: Mapping[str, float]
) -> tuple[Piece, CutList]:
    """A plan's piece and its cut list, for the maker's hands and risk.

    Raises:
        CordwrightError: it cannot be worked.
    """
    from cordwright.hang.counted import as_worked, counted
    from cordwright.piece.cutlist import cut_list
    from cordwright.piece.risk import DEFAULT_RISK
    from cordwright.piece.work import work

    risk = DEFAULT_RISK if asked.risk is None else asked.risk / 100.0
    with atlas_access.figures_source() as source:
        handling, known = hands_of(plan, asked.file, asked.maker, source)
        piece = work(plan, source, sizes=sizes, diameters=diameters, handling=handling)
    piece = counted(as_worked(piece))
    return piece, cut_list(piece, system=cast("System", asked.units), known=known, risk=risk)
