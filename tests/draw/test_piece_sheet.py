from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest

from cordwright.draw.piece_curves import number
from cordwright.draw.piece_png import png
from cordwright.draw.piece_sheet import Sheet, piece_sheet
from cordwright.draw.piece_turn import showing_most
from cordwright.draw.placed_cords import free_cords
from tests.draw.pieces import FLAT, flat, lying, planter, several, worked_up

if TYPE_CHECKING:
    from cordwright.draw.placed import Placed

SVG = "{http://www.w3.org/2000/svg}"


ALL = pytest.mark.parametrize("what", [pytest.param(w, id=n) for n, w in several()])


def tree(sheet: Sheet) -> ET.Element:
    return ET.fromstring(sheet.svg)  # noqa: S314 - our own text


@ALL
def test_every_knot_of_the_piece_is_drawn_once(what: Placed) -> None:
    sheet = piece_sheet(what)
    uses = tree(sheet).findall(f".//{SVG}use")
    assert len(uses) == len(what.piece.knots)
    known = {g.get("id") for g in tree(sheet).findall(f".//{SVG}defs/{SVG}g")}
    assert {u.get("href", "")[1:] for u in uses} == known


@ALL
def test_nothing_lies_outside_the_page(what: Placed) -> None:
    sheet = piece_sheet(what)
    for text in sheet.texts:
        box = text.box
        assert box.left >= 0.0, text
        assert box.top >= 0.0, text
        assert box.right <= sheet.width, text
        assert box.bottom <= sheet.height, text
    for knot in sheet.seen.knots:
        for way in knot.cell.ways:
            points = knot.at(way.points)[:, [0, 2]] * [1.0, -1.0] * sheet.scale + sheet.origin
            assert (points > 0.0).all()
            assert (points < [sheet.width, sheet.height]).all()
    for cord in what.cords:
        page = cord.curves[:, :, [0, 2]] * [1.0, -1.0] * sheet.scale + sheet.origin
        assert (page[:, [0, 3]] > 0.0).all()
        assert (page[:, [0, 3]] < [sheet.width, sheet.height]).all()


@ALL
def test_lettering_does_not_overlap(what: Placed) -> None:
    texts = piece_sheet(what).texts
    for i, a in enumerate(texts):
        for b in texts[i + 1 :]:
            assert not a.box.overlaps(b.box), (a.words, b.words)


@ALL
def test_drawn_cord_meets_drawn_knots(what: Placed) -> None:
    """Knots are turned to the nearest step; free cord is led to where they are drawn then."""
    what = showing_most(what)
    seen = piece_sheet(what).seen
    for cord in free_cords(what.piece, seen.knots, what.way_points):
        stops = what.piece.strands[cord.strand].course
        if cord.part == "free" and 0 < cord.stop < len(stops):
            knot = seen.knots[stops[cord.stop].knot]
            if cord.strand in knot.strands:
                enters = knot.ends(cord.strand).enters
                assert np.linalg.norm(cord.curves[-1, 3] - enters) < 1e-6
    # And the step is small: no strand is drawn farther from its place than half its thickness.
    for true, drawn in zip(what.knots, seen.knots, strict=True):
        for s in true.strands:
            miss = true.ends(s).enters - drawn.ends(s).enters
            assert np.linalg.norm(miss[[0, 2]]) < 0.5 * true.d


def test_proportions_are_true() -> None:
    what = planter()
    sheet = piece_sheet(what)
    held = tree(sheet).find(f".//{SVG}polygon")
    assert held is not None
    points = np.array([[float(v) for v in p.split(",")] for p in held.get("points", "").split()])
    wide, high = points.max(axis=0) - points.min(axis=0)
    assert wide / sheet.scale == pytest.approx(160.0, rel=0.01)
    assert high / sheet.scale == pytest.approx(140.0, rel=0.01)
    uses = tree(sheet).findall(f".//{SVG}use")
    sizes = [math.hypot(*_matrix(u)[:2]) for u in uses]
    # Transforms are written to a thousandth; a turned knot's scale comes back with twice that.
    assert sizes == pytest.approx([4.0 * sheet.scale] * len(sizes), abs=0.002)


def _matrix(use: ET.Element) -> list[float]:
    return [float(v) for v in re.findall(r"-?[\d.]+", use.get("transform", ""))]


def test_what_is_behind_the_pot_is_drawn_before_it() -> None:
    text = piece_sheet(planter()).svg
    assert text.count('class="held"') == 1
    before, after = text.split('class="held"')
    assert "<use" in before.split("</defs>")[1]
    assert "<use" in after


def test_colours_are_the_plans() -> None:
    piece = worked_up(
        mount={
            "rod": {"length": "20 cm", "thick": "12 mm"},
            "cords": [{"cord": "main", "count": 1}, {"cord": "trim", "count": 1}],
        },
        work=[{"tie": "square-knot"}],
    )
    svg = piece_sheet(lying(piece)).svg
    assert "#d9bf94" in svg
    assert "#b4552f" in svg


def test_a_mirrored_plan_has_a_mirrored_picture() -> None:
    def drawn(hand: str, slants: str) -> tuple[Sheet, np.ndarray]:
        work = [{"tie": "square-knot", "hand": hand}, {"hitch": slants, "slant": "diagonal"}]
        sheet = piece_sheet(lying(worked_up(work=work)))
        places = np.array([k.origin[[0, 2]] for k in sheet.seen.knots])
        return sheet, places[np.lexsort(np.round(places.T, 3))]

    (left, a), (right, b) = drawn("left", "right"), drawn("right", "left")
    flipped = b * [-1.0, 1.0]
    assert np.allclose(a, flipped[np.lexsort(np.round(flipped.T, 3))], atol=0.05)
    assert left.width == pytest.approx(right.width, abs=1.0)
    assert left.height == pytest.approx(right.height, abs=0.5)


@pytest.mark.parametrize("name", FLAT)
def test_files_are_small(name: str) -> None:
    what = flat(name)
    sheet = piece_sheet(what)
    assert len(sheet.svg) < 150_000 + 1000 * len(what.piece.knots)


def test_many_knots_alike_cost_little() -> None:
    def size(times: int) -> int:
        work = [{"tie": "square-knot", "times": times}]
        return len(piece_sheet(lying(worked_up(work=work))).svg)

    assert (size(400) - size(100)) / 300 < 150  # bytes a knot


def test_titles_cannot_break_the_picture() -> None:
    piece = worked_up(title='<b> & "Sash" \u202e', work=[{"tie": "square-knot"}])
    sheet = piece_sheet(lying(piece))
    assert tree(sheet).findtext(f"{SVG}title", "").startswith('<b> & "Sash"')


def test_a_piece_of_nothing_is_a_page() -> None:
    mount = {"nothing": {}, "cords": [{"cord": "main", "count": 2, "fold": "none"}]}
    sheet = piece_sheet(lying(worked_up(mount=mount, work=[])))
    assert tree(sheet).tag == f"{SVG}svg"


def test_png_is_as_large_as_asked() -> None:
    sheet = piece_sheet(flat("tally-fob"))
    data = png(sheet.svg, sheet.width, sheet.height, 2.0)
    assert data.startswith(b"\x89PNG")
    assert int.from_bytes(data[16:20]) == round(2.0 * sheet.width)


def test_png_shows_its_lettering() -> None:
    """A font that is not found would leave it out in silence."""
    sheet = piece_sheet(flat("tally-fob"))
    bare = re.sub(r"<text.*?</text>", "", sheet.svg)
    sizes = [len(png(svg, sheet.width, sheet.height, 3.0)) for svg in (sheet.svg, bare)]
    assert sizes[0] > sizes[1] + 500


@pytest.mark.parametrize(
    ("value", "digits", "text"), [(0, 2, "0"), (-5, 2, "-.05"), (100, 2, "1"), (7, 0, "7")]
)
def test_numbers_are_short(value: int, digits: int, text: str) -> None:
    assert number(value, digits) == text


def test_only_the_scale_changes_with_the_size_of_the_piece() -> None:
    small, large = piece_sheet(flat("tally-fob")), piece_sheet(flat("weir-meadow-hanging"))
    assert small.scale > 1.5
    assert large.scale < 0.3
    assert {t.size for t in small.texts} == {t.size for t in large.texts}


def test_styles_do_not_depend_on_the_shape() -> None:
    what = flat("tally-fob")
    moved = replace(what, cords=what.cords[:-1])
    assert piece_sheet(moved).seen.looks == piece_sheet(what).seen.looks
