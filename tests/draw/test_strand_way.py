from __future__ import annotations

import itertools
import re

import numpy as np
import pytest

from cordwright.draw.piece_sheet import piece_sheet
from cordwright.draw.piece_styles import LOUD, piece_styles
from cordwright.draw.placed_cords import free_cords
from cordwright.draw.strand_line import way_of
from cordwright.draw.strand_way import strand_sheet, strands_named
from cordwright.draw.wording import english
from cordwright.errors import CordwrightError
from tests.draw.pieces import flat, planter


def test_strands_have_the_names_of_the_cut_list() -> None:
    piece = planter().piece
    assert [piece.name(s) for s in strands_named(piece, "3l")] == ["3L"]
    assert [piece.name(s) for s in strands_named(piece, " 3 ")] == ["3L", "3R"]
    assert [piece.name(s) for s in strands_named(piece, "9")] == ["9"]  # the crown's wrap


@pytest.mark.parametrize("name", ["0", "99", "3X", "", "L3", "²"])
def test_other_names_are_told(name: str) -> None:
    with pytest.raises(CordwrightError, match="no strand") as raised:
        strands_named(planter().piece, name)
    assert "1L" in raised.value.remedy


def test_the_strand_stands_out_in_all_its_knots() -> None:
    what = flat("cobble-belt")
    (strand,) = strands_named(what.piece, "2R")
    sheet = strand_sheet(what, "2R")
    assert LOUD in sheet.svg
    styles = piece_styles(what.piece, english(), [strand])
    assert [i for i, s in enumerate(styles.strand) if s == styles.strand[strand]] == [strand]
    through = {s.knot for s in what.piece.strands[strand].course}
    for knot, look in zip(sheet.seen.knots, sheet.seen.look, strict=True):
        shows = styles.strand[strand] in sheet.seen.looks[look].styles
        assert shows == (knot.knot in through)


def test_it_is_named_above_the_picture() -> None:
    words = " ".join(t.words for t in strand_sheet(flat("tally-fob"), "3L").texts)
    assert "strand 3L" in words
    assert LOUD not in piece_sheet(flat("tally-fob")).svg


def test_its_way_is_one_line_from_end_to_end() -> None:
    """No gap between free cord and knots but where a wrap's ends are drawn up under its turns."""
    for what in (planter(), flat("weir-meadow-hanging")):
        seen = piece_sheet(what).seen
        cords = free_cords(what.piece, seen.knots, what.way_points)
        for strand in what.piece.strands[:20]:
            ways = way_of(strand, seen, cords)
            for a, b in itertools.pairwise(ways):
                assert np.allclose(a[-1, 3], b[0, 0], atol=1e-6)


def test_the_line_is_drawn_over_all_else() -> None:
    what = planter()
    svg = strand_sheet(what, "3").svg
    assert svg.count('class="way"') == 2
    assert svg.rindex("<use") < svg.index('class="way"')
    for line in re.findall(r'<path class="way"[^>]* d="([^"]*)"', svg):
        assert line.count("M") == 1
