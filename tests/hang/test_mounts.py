"""Rings that lie level or hang upright, and where the cords lie on them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np
import pytest

from cordwright.hang.framing import frame_of
from cordwright.hang.mounts import lies_level, ring_radius
from cordwright.hang.shape import hang, tensions
from cordwright.knots.spec import KnotName
from cordwright.piece.work import work
from cordwright.plan.model import Plan
from tests.examples.conftest import NAMES, piece_of
from tests.piece.conftest import MadeUpFigures

if TYPE_CHECKING:
    from cordwright.piece.model import Piece

LEVEL = {"cressing-shade", "haverley-bag"}


def net(
    *, cords: int = 12, first: list[dict[str, Any]] | None = None, lies: str | None = None
) -> Piece:
    """Rounds of alternating knots on a ring of 16 cm."""
    ring = {"inside": "154 mm", "wire": "6 mm"} | ({"lies": lies} if lies else {})
    plan = Plan.model_validate(
        {
            "cordwright": 1,
            "title": "Trial shade",
            "cords": {"main": {"fibre": "linen", "diameter": "3 mm"}},
            "mount": {"ring": ring, "cords": [{"cord": "main", "count": cords}]},
            "work": [
                *([{"join": "round"}] if first is None else first),
                {"rows": 4, "tie": "square-knot", "each": 4, "shift": 2, "gap": "15 mm"},
                {"fringe": "5 cm"},
            ],
        }
    )
    return work(plan, MadeUpFigures())


@pytest.mark.parametrize("name", NAMES)
def test_rings_with_round_work_on_them_lie_level(name: str) -> None:
    assert lies_level(piece_of(name)) == (name in LEVEL)


@pytest.mark.parametrize(
    ("first", "level"),
    [
        ([{"join": "round"}], True),
        ([], False),
        ([{"join": "round"}, {"gather": "all", "turns": 4, "with": {"cord": "main"}}], False),
        ([{"tie": "square-knot", "each": 4}, {"join": "round"}], False),
    ],
)
def test_what_a_ring_does_if_the_plan_does_not_say(
    first: list[dict[str, Any]], level: bool
) -> None:
    assert lies_level(net(first=first)) == level


@pytest.mark.parametrize(("lies", "level"), [("level", True), ("upright", False)])
def test_the_plan_can_say_how_its_ring_lies(lies: str, level: bool) -> None:
    assert lies_level(net(lies=lies)) == level
    assert lies_level(net(first=[], lies=lies)) == level


def heads(piece: Piece) -> np.ndarray:
    frame = frame_of(piece)
    rows = [k.id for k in piece.knots if k.spec.name is KnotName.LARKS_HEAD]
    return np.asarray(frame.start[frame.bars.top[rows]])


def test_cords_lie_all_round_a_level_ring_and_at_the_bottom_of_an_upright_one() -> None:
    piece = net()
    on = heads(piece)
    assert np.hypot(on[:, 0], on[:, 1]) == pytest.approx(ring_radius(piece))
    assert on[:, 2] == pytest.approx(0.0)
    angle = np.unwrap(np.arctan2(on[:, 0], -on[:, 1]))
    assert np.diff(angle) == pytest.approx(2 * np.pi / 12)
    upright = heads(net(lies="upright"))
    assert upright[:, 1] == pytest.approx(0.0)
    assert np.hypot(upright[:, 0], ring_radius(piece) - upright[:, 2]) == pytest.approx(
        ring_radius(piece)
    )


def test_a_regular_net_on_a_level_ring_hangs_alike_all_round() -> None:
    """Turned by one group of strands it is its own image, in shape and in pull."""
    piece = net()
    shape = hang(piece)
    assert shape.settled.balanced
    for row in range(4):
        knots = [k.id for k in piece.knots if k.row == row and k.spec.name is KnotName.SQUARE_KNOT]
        at = shape.x[shape.frame.bars.top[knots]]
        assert len(knots) == 6
        # What is soft, all of the net slightly aside, is known to a hundredth of its height.
        assert np.ptp(at[:, 2]) < 0.3
        assert np.ptp(np.hypot(at[:, 0], at[:, 1])) < 0.3
    pulls = tensions(shape)
    first = np.array([pulls[s.id, 1] for s in piece.strands])
    # Every group has four strands, whose pulls come back round the ring.
    assert first.reshape(6, 4) == pytest.approx(np.tile(first[:4], (6, 1)), rel=0.1)
