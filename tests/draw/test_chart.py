from __future__ import annotations

import xml.etree.ElementTree as ET
from functools import cache
from typing import TYPE_CHECKING

import numpy as np
import pytest

from cordwright.draw.chart_layout import layout
from cordwright.draw.chart_lines import holding, tracks
from cordwright.draw.chart_rows import Rows, rows_of
from cordwright.draw.chart_sheet import Chart, chart_sheet
from cordwright.draw.chart_signs import crossings, sign, simplified
from cordwright.draw.placed_cell import cell
from cordwright.knots.spec import KnotName, KnotSpec
from tests.draw.pieces import worked_up
from tests.draw.test_piece_layers import SPECS, seen
from tests.examples.conftest import ATLAS, NAMES, piece_of

if TYPE_CHECKING:
    from cordwright.piece.model import Piece

SVG = "{http://www.w3.org/2000/svg}"


@cache
def chart(name: str) -> Chart:
    return chart_sheet(piece_of(name), ATLAS)


def rows(piece: Piece) -> Rows:
    return rows_of(piece, [0] * len(piece.strands))


@pytest.mark.parametrize("name", NAMES)
def test_repeats_and_what_is_shown_make_the_whole_piece(name: str) -> None:
    drawn, piece = chart(name), piece_of(name)
    shown = {b.first + i: b.times for b in drawn.rows.blocks for i in range(b.rows)}
    counted = sum(shown.get(s.row, 0) for s in drawn.rows.seats)
    assert counted == len(piece.knots)
    uses = ET.fromstring(drawn.svg).findall(f".//{SVG}use")  # noqa: S314 - our own text
    assert len(uses) == sum(1 for s in drawn.rows.seats if s.row in shown)


@pytest.mark.parametrize("name", NAMES)
def test_lettering_keeps_to_the_page_and_apart(name: str) -> None:
    drawn = chart(name)
    for i, text in enumerate(drawn.texts):
        box = text.box
        assert box.left >= 0.0, text
        assert box.right <= drawn.width, text
        assert box.bottom <= drawn.height, text
        for other in drawn.texts[i + 1 :]:
            assert not box.overlaps(other.box), (text.words, other.words)


@pytest.mark.parametrize("name", NAMES)
def test_a_strand_is_worked_from_row_to_row(name: str) -> None:
    piece, found = piece_of(name), chart(name).rows
    for strand in piece.strands:
        at = [
            found.seats[s.knot].row
            for s in strand.course
            if s.place < len(piece.knots[s.knot].strands)
        ]
        assert at == sorted(at)


def test_no_two_knots_of_a_row_share_a_lane() -> None:
    for name in NAMES:
        piece, found = piece_of(name), chart(name).rows
        taken: set[tuple[int, float]] = set()
        for seat in found.seats:
            knot = piece.knots[seat.knot]
            lanes = seat.lanes
            if knot.spec.name is KnotName.DOUBLE_HALF_HITCH:
                lanes = seat.lanes[1:]
            elif len(knot.slots) < len(knot.strands):
                lanes = seat.lanes[1:] if knot.slots else seat.lanes
            of = found.of[seat.row] if found.round[seat.row] else 0
            for lane in lanes:
                half = 0.5 * (found.of[seat.row] - 1)
                slot = (lane + half) % of if of else lane
                assert (seat.row, slot) not in taken, (name, seat)
                taken.add((seat.row, slot))


def test_a_sinnet_is_one_row_so_often() -> None:
    blocks = rows(worked_up(work=[{"tie": "square-knot", "times": 12}])).blocks
    assert [(b.rows, b.times) for b in blocks] == [(1, 1), (1, 12)]


def test_alternating_rows_are_two_rows_so_often() -> None:
    mount = {"nothing": {}, "cords": [{"cord": "main", "count": 8, "fold": "none"}]}
    work = [{"rows": 12, "tie": "square-knot", "each": 4, "shift": 2}]
    blocks = rows(worked_up(mount=mount, work=work)).blocks
    assert [(b.rows, b.times) for b in blocks if b.times > 1] == [(2, 6)]


def test_rows_of_other_colours_are_no_repeats() -> None:
    cords = ("main", "main", "trim")
    mount = {"nothing": {}, "cords": [{"cord": c, "fold": "none"} for c in cords]}
    # The two outer strands of a half knot change sides each time.
    piece = worked_up(mount=mount, work=[{"tie": "half-knot", "times": 6, "each": 3}])
    found = rows_of(piece, [0, 0, 1])
    assert [(b.rows, b.times) for b in found.blocks if b.times > 1] == [(2, 3)]


def test_a_row_of_hitches_is_one_row_with_its_direction() -> None:
    piece = worked_up(work=[{"hitch": "right", "slant": "diagonal"}])
    found = rows(piece)
    assert found.count == 2
    assert [s.along for s in found.seats if s.row == 1] == [0, 1, 2]
    signs = {s: sign(cell(f, ATLAS)) for s, f in piece.figures.items()}
    (row,) = holding(layout(piece, found, signs))
    assert row.strand == 0
    assert row.last[0] > row.first[0]
    assert row.last[1] > row.first[1]
    # Two of its three hitches' strands lie over it each, so it is seen in parts.
    assert len(row.seen) > 2


def test_strands_that_pass_in_front_are_drawn_last() -> None:
    mount = {"nothing": {}, "cords": [{"cord": "main", "count": 8, "fold": "none"}]}
    work = [
        {"tie": "square-knot", "each": 4},
        {"pass": "1-4", "behind": "5-8"},
        {"tie": "square-knot", "each": 4},
    ]
    piece = worked_up(mount=mount, work=work)
    found = rows(piece)
    signs = {s: sign(cell(f, ATLAS)) for s, f in piece.figures.items()}
    crossing = [t for t in tracks(layout(piece, found, signs)) if t.order]
    assert [t.order for t in crossing] == [-1] * 4 + [1] * 4
    assert {t.strand for t in crossing[:4]} == set(piece.passes[0].behind)


@pytest.mark.parametrize("spec", SPECS, ids=lambda s: f"{s.name.value}-{s.hand}")
def test_signs_keep_every_crossing(spec: KnotSpec) -> None:
    cords = seen(spec)
    plain = simplified(cords)
    assert crossings(plain) == crossings(cords)
    assert sum(map(len, plain)) < 0.5 * sum(map(len, cords))


@pytest.mark.parametrize("fillers", [1, 2, 6])
def test_strands_come_into_signs_and_go_out_of_them_in_their_lanes(fillers: int) -> None:
    spec = KnotSpec(KnotName.SQUARE_KNOT, fillers + 2)
    found = sign(cell(ATLAS.figures(spec), ATLAS))
    for place in range(spec.strands):
        lane = place - 0.5 * (spec.strands - 1)
        rows = np.concatenate([n.part.middle for n in found.lines if n.place == place])
        for end in (rows[:, 1].argmin(), rows[:, 1].argmax()):
            assert rows[end] == pytest.approx(
                (lane, 0.0 if rows[end, 1] < 0.5 * found.height else found.height), abs=0.1
            )


def test_signs_of_the_two_hands_are_mirror_images() -> None:
    left, right = (
        sign(cell(ATLAS.figures(s), ATLAS))
        for s in (KnotSpec(KnotName.HALF_KNOT, 4), KnotSpec(KnotName.HALF_KNOT, 4, hand="right"))
    )

    def extent(lines: object, factor: float) -> set[tuple[float, float]]:
        return {
            (round(factor * float(x), 1) + 0.0, round(float(y), 1) + 0.0)
            for line in lines.lines  # type: ignore[attr-defined]
            for x, y in line.part.points[[0, -1]]
        }

    a, b = extent(left, 1.0), extent(right, -1.0)
    assert len(a & b) > 0.7 * len(a | b)


def test_lettering_can_be_read_where_a_wide_chart_is_made_to_fit() -> None:
    rooms = ((162.0, 222.0), (245.0, 135.0))
    chart = chart_sheet(piece_of("haverley-bag"), ATLAS, paper=rooms)
    fits = max(min(w / chart.width, h / chart.height) for w, h in rooms)
    points = min(t.size for t in chart.texts) * min(fits, 1.0) / 25.4 * 72
    assert points >= 7.0
