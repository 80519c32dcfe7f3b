"""Free cord that the plan leaves open, counted as the shape as worked makes it."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pytest

from cordwright.hang.counted import as_worked, counted, symbol
from cordwright.hang.framing import frame_of
from cordwright.hang.worked import worked
from cordwright.knots.atlas import Atlas
from cordwright.knots.spec import KnotName
from cordwright.piece.cutlist import cut_list
from cordwright.piece.lengths import measure
from cordwright.piece.work import work
from cordwright.plan.model import Plan
from tests.examples.conftest import NAMES, piece_of
from tests.hang.conftest import panel

if TYPE_CHECKING:
    from cordwright.hang.frame import Points
    from cordwright.piece.model import Piece

FLAT = [n for n in NAMES if all(k.shape == "flat" for k in piece_of(n).knots)]
ROUND = [n for n in NAMES if n not in FLAT]


def by_hand(piece: Piece, strand: int, stop: int, x: Points) -> float:
    """From port to port, and at least as long as an S of two quarter circles' chord."""
    frame = frame_of(piece)
    spans = frame.spans
    (row,) = [i for i in range(len(spans)) if (spans.strand[i], spans.stop[i]) == (strand, stop)]
    a, b = spans.a.at(x)[row], spans.b.at(x)[row]
    aside = abs(float(a[0] - b[0]))
    return max(float(np.linalg.norm(a - b)), float(np.sqrt(2.0)) * aside)


@pytest.mark.parametrize("name", NAMES)
def test_lengths_stay_exact_sums_of_named_quantities(name: str) -> None:
    piece = piece_of(name)
    shape = as_worked(piece)
    after = counted(shape)
    before_mm = [piece.mm(form) for form in measure(piece).used]
    for strand, form in enumerate(measure(after).used):
        changed = sum(
            round(mm, 2) - piece.mm(piece.strands[s].course[i].free)
            for (s, i), mm in shape.open_mm.items()
            if s == strand
        )
        assert after.mm(form) == pytest.approx(before_mm[strand] + changed, abs=1e-6)
        named = {s for s in form.terms if s.startswith("h:")}
        wanted = {
            symbol(piece, s, i)
            for (s, i), mm in shape.open_mm.items()
            if s == strand and mm > 0.005
        }
        assert named == wanted
    assert all(v > 0.0 for s, v in after.values.items() if s.startswith("h:"))


@pytest.mark.parametrize("name", ["ledger-bookmark", "tally-fob"])
def test_a_named_quantity_is_the_way_from_knot_to_knot(name: str) -> None:
    piece = piece_of(name)
    shape = as_worked(piece)
    x = worked(frame_of(piece))
    for (strand, stop), mm in shape.open_mm.items():
        assert mm == pytest.approx(by_hand(piece, strand, stop, x), abs=1e-9)


@pytest.mark.parametrize("name", NAMES)
def test_what_the_plan_asks_for_stays(name: str) -> None:
    piece = piece_of(name)
    after = counted(as_worked(piece))
    first = {s.course[0].knot for s in piece.strands if s.course}
    for old, new in zip(piece.strands, after.strands, strict=True):
        for a, b in zip(old.course[1:], new.course[1:], strict=True):
            # Below the mount cord is at least as long as its way, whatever the plan says.
            if a.asked and old.course[0].knot in first and new.course.index(b) > 1:
                assert a.free == b.free


@pytest.mark.parametrize("name", ROUND)
def test_in_the_round_open_cord_is_its_way_about_the_axis(name: str) -> None:
    piece = piece_of(name)
    shape = as_worked(piece)
    assert (shape.width_mm, shape.height_mm) == (None, None)
    frame = frame_of(piece)
    x = worked(frame)
    way = np.linalg.norm(frame.spans.a.at(x) - frame.spans.b.at(x), axis=1)
    for row in np.flatnonzero(~frame.spans.given & ~frame.spans.row):
        found = shape.open_mm[int(frame.spans.strand[row]), int(frame.spans.stop[row])]
        assert way[row] - 1e-9 <= found <= np.sqrt(2.0) * way[row] + 1e-9


def tube(knots: int) -> Piece:
    """Three rounds of square knots side by side, without free cord, below a level ring."""
    plan = Plan.model_validate(
        {
            "cordwright": 1,
            "title": "Trial tube",
            "cords": {"main": {"fibre": "polyester", "diameter": "4 mm"}},
            "mount": {
                "ring": {"inside": "4 cm", "wire": "3 mm", "lies": "level"},
                "cords": [{"cord": "main", "count": 2 * knots}],
            },
            "work": [
                {"join": "round"},
                {"rows": 3, "tie": "square-knot", "each": 4, "shift": 2},
            ],
        }
    )
    return work(plan, Atlas())


@pytest.mark.parametrize("knots", [5, 8, 16])
def test_knots_side_by_side_in_the_round_make_a_known_polygon(knots: int) -> None:
    """n knots as wide as w, side by side all round, are n w round. The middles of their faces then
    lie on a circle between those that go through the middles of the sides of the regular polygon
    with sides w, and through its corners: radii w / (2 tan(pi/n)) and w / (2 sin(pi/n))."""
    piece = tube(knots)
    frame = frame_of(piece)
    x, bars = worked(frame), frame.bars
    last = [k.id for k in piece.knots if k.row == 2 and k.spec.name is KnotName.SQUARE_KNOT]
    assert len(last) == knots
    middle = x[bars.top[last], :2]
    radius = np.hypot(middle[:, 0], middle[:, 1])
    width = float(bars.width[last[0]])
    assert np.ptp(radius) < 1e-6
    # The fewer they are, the more strands keep them from being quite as tight as that.
    assert 2 * np.pi * radius[0] == pytest.approx(knots * width, rel=0.01)
    assert 2 * np.pi * radius[0] > 0.9999 * knots * width
    half = np.pi / knots
    assert width / (2 * np.tan(half)) < radius[0] < width / (2 * np.sin(half))
    apart = np.linalg.norm(middle - np.roll(middle, 1, axis=0), axis=1)
    assert apart == pytest.approx(2 * radius[0] * np.sin(half), rel=1e-6)


def last_row(piece: Piece, strands: range) -> float:
    """Mean of the open cord above the third row, mm."""
    found = [
        mm
        for (s, i), mm in as_worked(piece).open_mm.items()
        if s in strands and piece.knots[piece.strands[s].course[i].knot].row == 2
    ]
    return sum(found) / len(found)


def test_a_wide_tube_uses_as_much_cord_as_a_flat_panel() -> None:
    """The more knots are in a round, the flatter is every stretch of its wall: how far a strand
    goes inwards and outwards falls with the number of knots."""
    flat = last_row(panel(rows=3, cords=24), range(16, 32))
    few, many = (last_row(tube(n), range(4 * n)) for n in (12, 24))
    assert 0.0 < many - flat < 1.0
    assert many - flat == pytest.approx((few - flat) / 2, rel=0.15)


@pytest.mark.parametrize("name", NAMES)
def test_sinnets_of_one_knot_use_no_more_than_they_add_up_to(name: str) -> None:
    piece = piece_of(name)
    for (strand, stop), mm in as_worked(piece).open_mm.items():
        course = piece.strands[strand].course
        above, below = (piece.knots[s.knot] for s in (course[stop - 1], course[stop]))
        one = above.strands == below.strands and above.spec == below.spec
        if stop and one and below.number == above.number + 1:
            assert mm == pytest.approx(piece.mm(course[stop].free), abs=0.3)


@pytest.mark.parametrize("name", FLAT)
def test_a_flat_piece_s_height_is_near_what_adds_up(name: str) -> None:
    piece = piece_of(name)
    shape = as_worked(piece)
    assert shape.height_mm is not None
    assert shape.width_mm is not None
    added = piece.mm(measure(piece).finished)
    # Slack that adding up leaves above knots is drawn up; slants can only make it longer by little.
    assert 0.8 * added < shape.height_mm < 1.06 * added
    widest = max(piece.figures[k.spec].width_d * piece.values[f"d:{k.cord}"] for k in piece.knots)
    assert shape.width_mm >= widest - 1e-6


def test_a_packed_panel_needs_next_to_no_slanting_cord() -> None:
    """Half a knot's width from knot to knot is what takes a worker to its place as a filler."""
    piece = panel(rows=12, cords=8, diameter="1.4 mm")
    before, after = cut_list(piece).used_mm, cut_list(counted(as_worked(piece))).used_mm
    assert after == pytest.approx(before, rel=0.02)


PAGE = (Path(__file__).parents[2] / "docs" / "shape.md").read_text(encoding="utf-8")
ROWS = re.findall(r"^\| `([a-z-]+)` \| ([\d.]+) m \| ([\d.]+) m \| ([+-][\d.]+) % \|", PAGE, re.M)


def test_the_page_has_every_example() -> None:
    assert sorted(name for name, *_ in ROWS) == sorted(NAMES)


@pytest.mark.parametrize(("name", "before", "after", "change"), ROWS)
def test_the_page_says_what_is_computed(name: str, before: str, after: str, change: str) -> None:
    """tools/examples_page.py writes it anew."""
    piece = piece_of(name)
    added = cut_list(piece).used_mm
    found = cut_list(counted(as_worked(piece))).used_mm
    # Half of the last digit shown, and a little for a renewed atlas.
    assert added / 1000 == pytest.approx(float(before), abs=0.006, rel=0.002)
    assert found / 1000 == pytest.approx(float(after), abs=0.006, rel=0.002)
    assert 100 * (found / added - 1) == pytest.approx(float(change), abs=0.11)
