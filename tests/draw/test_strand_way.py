from __future__ import annotations

import pytest

from cordwright.draw.piece_sheet import LOUD, piece_sheet, piece_styles
from cordwright.draw.strand_way import strand_sheet, strands_named
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
    styles = piece_styles(what.piece, [strand])
    assert [i for i, s in enumerate(styles.strand) if s == styles.strand[strand]] == [strand]
    through = {s.knot for s in what.piece.strands[strand].course}
    for knot, look in zip(sheet.seen.knots, sheet.seen.look, strict=True):
        shows = styles.strand[strand] in sheet.seen.looks[look].styles
        assert shows == (knot.knot in through)


def test_it_is_named_above_the_picture() -> None:
    words = " ".join(t.words for t in strand_sheet(flat("tally-fob"), "3L").texts)
    assert "strand 3L" in words
    assert LOUD not in piece_sheet(flat("tally-fob")).svg
