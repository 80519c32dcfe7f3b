from __future__ import annotations

import itertools
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest

from cordwright.knots.spec import KnotName
from tests.draw.pieces import lying, planter, several, worked_up

if TYPE_CHECKING:
    from cordwright.draw.placed import Placed

TOUCHES = 1e-6  # mm: ends that are one point


SEVERAL = pytest.mark.parametrize("what", [pytest.param(w, id=n) for n, w in several()])


@SEVERAL
def test_every_strand_is_one_unbroken_way(what: Placed) -> None:
    piece = what.piece
    below = {(c.strand, c.stop): c for c in what.cords}
    for strand in piece.strands:
        stops = [
            (i, s)
            for i, s in enumerate(strand.course)
            if s.place < len(piece.knots[s.knot].strands)
        ]
        for (_, a), (i, b) in itertools.pairwise(stops):
            cord = below[(strand.id, i)]
            leaves = what.knots[a.knot].ends(strand.id).leaves
            enters = what.knots[b.knot].ends(strand.id).enters
            assert np.allclose(cord.curves[0, 0], leaves, atol=TOUCHES)
            assert np.allclose(cord.curves[-1, 3], enters, atol=TOUCHES)
            assert np.allclose(cord.curves[1:, 0], cord.curves[:-1, 3], atol=TOUCHES)


@SEVERAL
def test_knots_use_the_cord_that_the_piece_counts(what: Placed) -> None:
    """Drawn ways are as long as take-ups, in all: which strand goes the longer way is chance."""
    piece = what.piece
    for knot in what.knots:
        figures = piece.figures[knot.cell.spec]
        drawn = counted = 0.0
        for way in knot.cell.ways[: len(knot.strands)]:
            length = float(np.linalg.norm(np.diff(way.points, axis=0), axis=1).sum())
            if knot.cell.spec.name is KnotName.GATHERING and way.place == 0:
                # A wrap is counted with its ends under the turns, which do not show.
                assert length < figures.take_up_d[0]
                continue
            drawn += length
            counted += figures.take_up_d[way.place]
        assert drawn == pytest.approx(counted, rel=0.04, abs=0.3), knot.cell.spec


def test_knots_stand_where_their_bars_hang() -> None:
    what = planter()
    for a, b in itertools.pairwise(what.knots[9:15]):
        # Square knots of one sinnet: each begins where the last one ends.
        ends = a.at(np.array([[0.0, 0.0, -a.cell.height]]))[0]
        assert np.linalg.norm(ends - b.origin) < 0.5


def test_a_strand_that_passes_in_front_bulges_to_the_viewer() -> None:
    work = [
        {"tie": "square-knot", "each": 4},
        {"pass": "1-4", "in_front_of": "5-8"},
        {"tie": "square-knot", "each": 4, "free": "4 cm"},
    ]
    mount = {"nothing": {}, "cords": [{"cord": "main", "count": 8, "fold": "none"}]}
    piece = worked_up(mount=mount, work=work)
    what = lying(piece)
    front, behind = piece.passes[0].front, piece.passes[0].behind

    def lies(strand: int) -> float:
        cord = next(c for c in what.cords if c.strand == strand and c.stop == 1)
        return float(cord.curves[0, 1:3, 1].mean() - cord.curves[0, [0, 3], 1].mean())

    assert max(lies(s) for s in front) < min(lies(s) for s in behind)


def test_ends_hang_straight_and_as_long_as_they_are() -> None:
    piece = worked_up(work=[{"tie": "square-knot"}, {"fringe": "12 cm", "trim": "as it falls"}])
    tails = [c for c in lying(piece).cords if c.part == "tail"]
    assert len(tails) == 4
    for t in tails:
        drop = t.curves[0, 0, 2] - t.curves[0, 3, 2]
        assert drop == pytest.approx(120.0, rel=0.02)


def test_heads_on_a_ring_point_away_from_its_middle() -> None:
    what = planter()
    heads = [k for k in what.knots if k.cell.spec.name is KnotName.LARKS_HEAD]
    middle = np.array([0.0, 0.0, heads[0].origin[2]])
    middle[2] = 28.0 - 3.0  # half of inside and wire, less half a wire: the ring's own middle
    for h in heads:
        outwards = (h.origin - middle) / np.linalg.norm(h.origin - middle)
        assert -h.axes[:, 2] @ outwards == pytest.approx(1.0, abs=1e-6)


def test_left_and_right_plans_are_mirror_images() -> None:
    def trial(hand: str) -> Placed:
        return lying(worked_up(work=[{"tie": "half-knot", "times": 3, "hand": hand}]))

    left, right = trial("left"), trial("right")
    mirror = np.array([-1.0, 1.0, 1.0])
    for a, b in zip(left.knots, right.knots, strict=True):
        if a.cell.spec.name is KnotName.LARKS_HEAD:
            continue
        n = len(a.cell.ways)
        for place in range(n):
            one = a.at(a.cell.ways[place].points) * mirror
            other = b.at(b.cell.ways[n - 1 - place].points)
            assert np.allclose(one, other, atol=0.02)


def test_a_piece_without_knots_is_no_trouble() -> None:
    mount = {"nothing": {}, "cords": [{"cord": "main", "count": 2, "fold": "none"}]}
    what = lying(worked_up(mount=mount, work=[]))
    assert what.knots == ()
    assert replace(what).cords == ()
