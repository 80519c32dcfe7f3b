"""What a plan takes from the maker's shelf: cords that it names there, and how hands tie them."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from cordwright.cords.handling import Handling
    from cordwright.piece.figures import FiguresSource
    from cordwright.piece.risk import Known
    from cordwright.plan.model import Plan
    from cordwright.supply.cordcost import CordCost


def shelf_cords(file: Path | None) -> Mapping[str, Mapping[str, str]]:
    """The cords of a shelf as a plan writes them; see `cordwright.plan.shelved.ShelfCords`."""
    from cordwright.supply.hands import plan_cords
    from cordwright.supply.shelf import open_shelf

    with open_shelf(file) as db:
        return plan_cords(db)


def hands_of(
    plan: Plan, file: Path | None, maker: str, source: FiguresSource
) -> tuple[dict[str, Handling], Known | None]:
    """How the plan's cords behave in a maker's hands, as far as the shelf's swatches tell.

    Args:
        plan: the plan.
        file: the shelf, None for the usual one.
        maker: whose hands.
        source: tight knots.

    Returns:
        The handling by the plan's name of a cord, and what is known of them; nothing and None for
        a plan that names no cord on the shelf.
    """
    shelved = {name: spec.shelf for name, spec in plan.cords.items() if spec.shelf is not None}
    if not shelved:
        return {}, None
    from cordwright.cords.swatch import handling
    from cordwright.piece.risk import Known
    from cordwright.supply.hands import known_hands
    from cordwright.supply.shelf import open_shelf

    with open_shelf(file) as db:
        hands = known_hands(db, source)
    known = Known(hands.take_up, shelved, maker)
    return {
        name: handling(hands, maker, cord) for name, cord in shelved.items() if known.has(name)
    }, known


def cost_of(plan: Plan, file: Path | None, cut_mm: Mapping[str, float]) -> CordCost:
    """What the cord that a plan needs costs, as far as the shelf has prices.

    Args:
        plan: the plan.
        file: the shelf, None for the usual one.
        cut_mm: mm that are cut of each cord, by the plan's name of it.
    """
    from cordwright.supply.cordcost import cord_cost
    from cordwright.supply.shelf import open_shelf

    shelved = {name: spec.shelf for name, spec in plan.cords.items() if spec.shelf is not None}
    if not shelved:
        return cord_cost(None, cut_mm, {})
    with open_shelf(file) as db:
        return cord_cost(db, cut_mm, shelved)
