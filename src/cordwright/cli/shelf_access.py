"""How commands come to the maker's shelf, and to plans that name cords on it."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from cordwright.cords.handling import Handling
    from cordwright.piece.figures import FiguresSource
    from cordwright.piece.risk import Known
    from cordwright.plan.model import Plan

SHELF = click.option(
    "--shelf",
    "file",
    type=click.Path(path_type=Path),
    envvar="CORDWRIGHT_SHELF",
    metavar="FILE",
    help="Another shelf than the usual one; also the environment's CORDWRIGHT_SHELF.",
)
MAKER = click.option("--maker", default="", metavar="NAME", help="Whose hands tie it.")


def shelf_cords(file: Path | None) -> Mapping[str, Mapping[str, str]]:
    """The cords of a shelf as a plan writes them; see `cordwright.plan.shelved.ShelfCords`."""
    from cordwright.supply.hands import plan_cords
    from cordwright.supply.shelf import open_shelf

    with open_shelf(file) as db:
        return plan_cords(db)


def read_plan_with_shelf(path: Path, file: Path | None) -> Plan:
    """Read a plan; the shelf is only opened if the plan names a cord on it.

    Raises:
        CordwrightError: the plan or the shelf cannot be read.
    """
    from cordwright.plan.read import read_plan

    return read_plan(path, partial(shelf_cords, file))


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
