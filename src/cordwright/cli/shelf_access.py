"""How commands come to the maker's shelf, and to plans that name cords on it."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from cordwright.supply.atwork import hands_of, shelf_cords

if TYPE_CHECKING:
    from cordwright.plan.model import Plan

__all__ = ["MAKER", "SHELF", "hands_of", "read_plan_with_shelf", "shelf_cords"]

SHELF = click.option(
    "--shelf",
    "file",
    type=click.Path(path_type=Path),
    envvar="CORDWRIGHT_SHELF",
    metavar="FILE",
    help="Another shelf than the usual one; also the environment's CORDWRIGHT_SHELF.",
)
MAKER = click.option("--maker", default="", metavar="NAME", help="Whose hands tie it.")


def read_plan_with_shelf(path: Path, file: Path | None) -> Plan:
    """Read a plan; the shelf is only opened if the plan names a cord on it.

    Raises:
        CordwrightError: the plan or the shelf cannot be read.
    """
    from cordwright.plan.read import read_plan

    return read_plan(path, partial(shelf_cords, file))
