"""Pieces in space for the tests of drawings: lying where they need not hang, which is quick."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any

from cordwright.draw.placed import Placed, placed
from cordwright.draw.placed_shape import as_it_looks
from cordwright.hang.framing import frame_of
from cordwright.hang.shape import Held, hang
from cordwright.hang.vessel import pot
from cordwright.hang.worked import worked
from cordwright.piece.work import work
from cordwright.plan.model import Plan
from tests.examples.conftest import ATLAS, NAMES, piece_of

if TYPE_CHECKING:
    from cordwright.piece.model import Piece

FLAT = ("cobble-belt", "ledger-bookmark", "millrace-mat", "weir-meadow-hanging", "tally-fob")
"""Examples without round work."""


def worked_up(**plan: Any) -> Piece:
    """A piece from a plan's parts, on a rod unless they say otherwise."""
    data = {
        "cordwright": 1,
        "title": "Trial",
        "cords": {
            "main": {"fibre": "cotton", "diameter": "4 mm", "colour": "sand"},
            "trim": {"fibre": "cotton", "diameter": "4 mm", "colour": "rust", "build": "braided"},
        },
        "mount": {
            "rod": {"length": "20 cm", "thick": "12 mm"},
            "cords": [{"cord": "main", "count": 2}],
        },
        **plan,
    }
    return work(Plan.model_validate(data), ATLAS)


def lying(piece: Piece) -> Placed:
    """A flat piece as it is worked."""
    frame = frame_of(piece)
    return placed(piece, frame, worked(frame), ATLAS)


@cache
def flat(name: str) -> Placed:
    """A flat example as it is worked."""
    return lying(piece_of(name))


@cache
def planter() -> Placed:
    """The planter with a pot in it."""
    piece, held = piece_of("oxbow-planter"), Held(pot(160.0, 110.0, 140.0), 30.0)
    shape = hang(piece, held)
    return placed(piece, shape.frame, shape.x, ATLAS, held=held, vessel_node=shape.vessel_node)


@cache
def sling() -> Placed:
    """A round piece that holds nothing."""
    return looks("ferry-sling")


@cache
def several() -> tuple[tuple[str, Placed], ...]:
    """All examples as they look, each hung once in a run of the tests, with their names."""
    return tuple((n, planter() if n == "oxbow-planter" else looks(n)) for n in NAMES)


@cache
def looks(name: str) -> Placed:
    """An example as it hangs, with what its plan says that it holds."""
    return as_it_looks(piece_of(name), ATLAS)
