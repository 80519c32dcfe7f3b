"""The example plans, read and worked once."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import cordwright
from cordwright.knots.atlas import Atlas
from cordwright.piece.work import work
from cordwright.plan.read import read_plan

if TYPE_CHECKING:
    from cordwright.piece.model import Piece
    from cordwright.plan.model import Plan

FOLDER = Path(cordwright.__file__).parent / "examples"
NAMES = (
    "cobble-belt",
    "cressing-shade",
    "ferry-sling",
    "haverley-bag",
    "hollin-tieback",
    "lantry-wall-planter",
    "ledger-bookmark",
    "millrace-mat",
    "oxbow-planter",
    "pellow-planter",
    "tally-fob",
    "weir-meadow-hanging",
)
ATLAS = Atlas()


@cache
def plan_of(name: str) -> Plan:
    return read_plan(FOLDER / f"{name}.yaml")


@cache
def piece_of(name: str) -> Piece:
    return work(plan_of(name), ATLAS)
