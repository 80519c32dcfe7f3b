"""Pieces of made-up knots that hang, and hand-made tensions."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import pytest

from cordwright.knots.atlas import Atlas
from cordwright.piece.model import Piece
from cordwright.piece.work import work
from cordwright.plan.hung import Hung, hung
from cordwright.plan.model import Plan
from cordwright.plan.sizes import resolve_sizes
from tests.piece.conftest import MadeUpFigures

if TYPE_CHECKING:
    from cordwright.piece.figures import FiguresSource

ATLAS = Atlas()
Hanging = Callable[..., tuple[Piece, Hung]]
POT = {"rim": "16 cm", "base": "11 cm", "height": "14 cm", "weight": "900 g", "filled": "2 L"}


def planter(hang: dict[str, Any] | None = None, **cord: Any) -> tuple[Piece, Hung]:
    """Four arms of four strands on a ring, a row of knots round the pot, gathered below."""
    plan = Plan.model_validate(
        {
            "cordwright": 1,
            "title": "Trial planter",
            "cords": {"main": {"fibre": "cotton", "diameter": "4 mm", **cord}},
            "mount": {
                "ring": {"inside": "50 mm", "wire": "4 mm"},
                "cords": [{"cord": "main", "count": 8, "fold": "middle"}],
            },
            "hang": {"holds": {"pot": POT}} if hang is None else hang,
            "work": [
                {"section": "Arms", "work": [{"rows": 2, "tie": "square-knot", "each": 4}]},
                {"free": "30 cm"},
                {"gather": "all", "turns": 6, "with": {"cord": "main"}},
            ],
        }
    )
    piece = work(plan, MadeUpFigures())
    assert plan.hang is not None
    return piece, hung(plan.hang, resolve_sizes(plan))


def panel(
    *, rows: int, cords: int, diameter: str = "4 mm", each: int = 4, source: FiguresSource = ATLAS
) -> Piece:
    """Alternating square knots without free cord, on nothing: a flat panel of real knots."""
    plan = Plan.model_validate(
        {
            "cordwright": 1,
            "title": "Trial panel",
            "cords": {"main": {"fibre": "polyester", "diameter": diameter}},
            "mount": {"nothing": {}, "cords": [{"cord": "main", "count": cords}]},
            "work": [
                {"rows": rows, "tie": "square-knot", "each": each, "shift": each // 2},
            ],
        }
    )
    return work(plan, source)


def even(piece: Piece, all_n: float, strands: int = 16) -> dict[tuple[int, int], float]:
    """A load shared alike by the first strands, along all of their length."""
    return {
        (s, i): all_n / strands
        for s in range(strands)
        for i in range(len(piece.strands[s].course) + 1)
    }


@pytest.fixture(scope="session")
def hanging() -> Hanging:
    return planter
