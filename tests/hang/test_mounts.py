"""Rings that lie level or hang upright, and where the cords lie on them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np
import pytest

from cordwright.hang.counted import as_worked, counted
from cordwright.hang.fit import holder_height
from cordwright.hang.framing import frame_of, strand_side
from cordwright.hang.mounts import lies_level, ring_radius
from cordwright.hang.shape import hang, tensions
from cordwright.knots.spec import KnotName
from cordwright.piece.lengths import measure
from cordwright.piece.work import work
from cordwright.plan.model import Plan
from cordwright.plan.sizes import resolve_sizes
from tests.examples.conftest import NAMES, piece_of
from tests.piece.conftest import MadeUpFigures

if TYPE_CHECKING:
    from cordwright.piece.model import Knot, Piece

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


def test_heights_count_from_a_level_ring_and_from_the_top_of_an_upright_one() -> None:
    for lies, above in (("level", 0.0), ("upright", 154.0)):
        piece = net(lies=lies)
        assert holder_height(piece, resolve_sizes(piece.plan)) == above


def test_cord_from_a_level_ring_inwards_is_counted() -> None:
    """Six knots lie within the ring: every strand goes in to them, and down at 45 degrees at least.

    Adding up knows nothing of that. The way to the side is taken here from where lark's heads and
    knots lie, by their places in the round alone: each of a knot's four strands comes from half a
    lark's head, and goes to its own place beside the knot's middle.
    """
    piece = net(lies="level")
    shape = as_worked(piece)
    frame = frame_of(piece)
    first = [k for k in piece.knots if k.spec.name is KnotName.SQUARE_KNOT and k.row == 0]
    inner = frame.start[frame.bars.top[first[0].id]]
    assert np.hypot(inner[0], inner[1]) < 0.8 * ring_radius(piece)
    counted_mm = []
    for strand in piece.strands:
        head, knot = (piece.knots[s.knot] for s in strand.course[:2])
        ways = [
            frame.start[frame.bars.top[k.id], :2]
            + aside(piece, k, s.place, leaving=leaving) * right(frame.bars.facing[k.id])
            for k, s, leaving in zip((head, knot), strand.course, (True, False), strict=False)
        ]
        far = float(np.hypot(*(ways[0] - ways[1])))
        found = shape.open_mm[strand.id, 1]
        assert found == pytest.approx(np.sqrt(2.0) * far, abs=0.01)
        counted_mm.append(found)
    more = counted(shape).mm(measure(counted(shape)).used[0]) - piece.mm(measure(piece).used[0])
    free = piece.mm(piece.strands[0].course[1].free)
    assert more == pytest.approx(counted_mm[0] - free, abs=0.5)


def aside(piece: Piece, knot: Knot, place: int, *, leaving: bool) -> float:
    """How far beside its knot's middle a strand comes in or leaves, mm."""
    figures = piece.figures[knot.spec]
    return strand_side(figures, place, leaving=leaving) * piece.values[f"d:{knot.cord}"]


def right(facing: np.ndarray) -> np.ndarray:
    """(2,) float: to the right of an upright knot that faces so: down x facing."""
    return np.array([facing[1], -facing[0]])
