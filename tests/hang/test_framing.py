"""Frames of worked pieces: nodes, spans, and where strands come in and go out."""

from __future__ import annotations

import numpy as np
import pytest

from cordwright.hang.framing import cord_newtons, frame_of, strand_side
from cordwright.hang.mounts import ring_radius
from cordwright.knots.spec import KnotName, Role
from cordwright.piece.lengths import measure
from tests.examples.conftest import NAMES, piece_of
from tests.hang.conftest import panel
from tests.hang.test_mounts import net


@pytest.mark.parametrize("name", NAMES)
def test_all_of_the_cord_s_weight_hangs_somewhere(name: str) -> None:
    piece = piece_of(name)
    used = measure(piece).used
    wanted = sum(
        cord_newtons(piece, piece.cords[s.cord].cord, piece.mm(used[s.id])) for s in piece.strands
    )
    assert frame_of(piece).weight.sum() == pytest.approx(wanted, rel=1e-6)


@pytest.mark.parametrize("name", NAMES)
def test_every_knot_is_a_bar_of_its_size(name: str) -> None:
    piece = piece_of(name)
    frame = frame_of(piece)
    bars = frame.bars
    assert list(bars.knot) == [k.id for k in piece.knots]
    assert bars.height == pytest.approx([piece.mm(k.height) for k in piece.knots])
    tall = frame.start[bars.top] - frame.start[bars.bottom]
    assert np.linalg.norm(tall, axis=1) == pytest.approx(bars.height)
    mounted = [k.id for k in piece.knots if k.spec.name is KnotName.LARKS_HEAD]
    assert not frame.free[bars.top[mounted]].any()
    assert not frame.free[bars.bottom[mounted]].any()


@pytest.mark.parametrize("name", NAMES)
def test_every_free_length_is_a_span(name: str) -> None:
    piece = piece_of(name)
    spans = frame_of(piece).spans
    found = set(zip(spans.strand.tolist(), spans.stop.tolist(), strict=True))
    assert len(found) == len(spans)
    for row in range(len(spans)):
        stop = piece.strands[spans.strand[row]].course[spans.stop[row]]
        assert spans.rest[row] == pytest.approx(max(0.0, piece.mm(stop.free)))
    # Wraps, and cords that lark's heads are tied on, run from nowhere to nowhere.
    for strand in piece.strands:
        for i in range(1, len(strand.course)):
            above, below = strand.course[i - 1], strand.course[i]
            plain = Role.HOLDING not in (above.role, below.role) and all(
                piece.knots[s.knot].spec.name is not KnotName.GATHERING for s in (above, below)
            )
            if plain:
                assert (strand.id, i) in found


def test_flat_pieces_stay_in_their_plane_and_round_ones_do_not() -> None:
    flat = frame_of(panel(rows=3, cords=4))
    assert not flat.free[:, 1].any()
    assert flat.start[:, 1] == pytest.approx(0.0)
    assert frame_of(net()).free[:, 1].any()


def test_round_work_is_laid_out_about_its_axis() -> None:
    piece = piece_of("oxbow-planter")
    frame = frame_of(piece)
    for k in piece.knots:
        r = np.hypot(*frame.start[frame.bars.top[k.id], :2])
        if k.spec.name is KnotName.LARKS_HEAD:
            assert r <= ring_radius(piece) + 1e-9
        elif len(k.slots) >= k.of:
            assert r == pytest.approx(0.0)
        else:
            # Four knots side by side, all round.
            width = frame.bars.width[k.id]
            assert 2 * np.pi * r >= 4 * width - 1e-6


def test_a_strand_leaves_a_sinnet_s_knot_where_it_comes_into_the_next() -> None:
    piece = panel(rows=1, cords=2)
    figures = piece.figures[piece.knots[0].spec]
    for place in range(4):
        out = strand_side(figures, place, leaving=True)
        assert out == pytest.approx(strand_side(figures, place, leaving=False))
    sides = [strand_side(figures, place, leaving=False) for place in range(4)]
    assert sides == sorted(sides)
    assert sides[0] == pytest.approx(-sides[3], abs=0.05)


def test_neighbours_in_a_row_are_known() -> None:
    piece = panel(rows=2, cords=8)
    frame = frame_of(piece)
    columns = {k.id: (k.row, k.column) for k in piece.knots}
    pairs = {(columns[int(a)], columns[int(b)]) for a, b in frame.beside}
    assert pairs == {((0, c), (0, c + 1)) for c in range(3)} | {
        ((1, c), (1, c + 1)) for c in (0, 1)
    }


def test_below_a_flat_panel_strands_stay_on_their_side() -> None:
    """The seam of the round is at the back: nothing crosses over on the way there."""
    piece = piece_of("lantry-wall-planter")
    frame = frame_of(piece)
    first = [k for k in piece.knots if k.shape == "round" and k.row == 0 and len(k.slots) < k.of]
    assert first
    for k in first:
        x, y = frame.start[frame.bars.top[k.id], :2]
        middle = sum(k.slots) / len(k.slots) - 0.5 * (k.of - 1)
        assert (x < 0.0) == (middle < 0.0)
        if abs(middle) < 3.0:
            assert y < 0.0  # in front
