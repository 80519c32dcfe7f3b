"""The smallest plan, worked with a pencil.

The tally fob: cords of d = 2 mm on a ring of 2 mm wire, so a lark's head over 1 d. From left to
right strands 1L, 1R (a folded cord), 2 (unfolded, 10 mm above), 3L, 3R (a folded cord). Seven
square knots over the three in the middle, the outer two working; then 3R wraps the four others in
four turns; a level fringe of 30 mm.

From the atlas, in d: a lark's head has 9.620 of each strand and is 2.613 high. A square knot over
three fillers has 17.949 of a working strand, 4.000 of the middle filler and 4.001 of the other two.
The wrap round four in four turns has 60.397 of the wrap and 4.015 or 4.016 of the held strands.

The unfolded strand has no lark's head: it begins at depth 0 and has 2.613 d of free cord to the
first knot. Below the wrap all stand at one depth, so each has 30 mm of fringe.
"""

from __future__ import annotations

import pytest

from cordwright.knots.spec import KnotName, KnotSpec
from cordwright.piece.lengths import spent, total
from tests.examples.conftest import ATLAS, piece_of

D = 2.0  # mm
KNOTS = 7
FRINGE = 30.0  # mm
ABOVE = 10.0  # mm
HEAD = KnotSpec(KnotName.LARKS_HEAD, 2, over="ring", over_d=1.0)
SQUARE = KnotSpec(KnotName.SQUARE_KNOT, 5)
WRAP = KnotSpec(KnotName.GATHERING, 5, turns=4)


def used() -> dict[str, float]:
    piece = piece_of("tally-fob")
    return {
        piece.name(s.id): piece.mm(total(form for _, _, form in spent(piece, s)))
        for s in piece.strands
    }


def test_each_strand_to_the_micrometre() -> None:
    head, square, wrap = (ATLAS.figures(spec) for spec in (HEAD, SQUARE, WRAP))
    # Strand of the knot: 0 works, 1 to 3 are run round, 4 works. Place of the wrap: 0 wraps, then
    # the held ones from the left.
    knots = [KNOTS * take for take in square.take_up_d]
    expected = {
        "1L": D * (head.take_up_d[0] + knots[0] + wrap.take_up_d[1]) + FRINGE,
        "1R": D * (head.take_up_d[1] + knots[1] + wrap.take_up_d[2]) + FRINGE,
        "2": ABOVE + D * (head.height_d + knots[2] + wrap.take_up_d[3]) + FRINGE,
        "3L": D * (head.take_up_d[0] + knots[3] + wrap.take_up_d[4]) + FRINGE,
        "3R": D * (head.take_up_d[1] + knots[4] + wrap.take_up_d[0]) + FRINGE,
    }
    assert used() == pytest.approx(expected, abs=0.001)  # mm


def test_each_strand_with_a_pencil() -> None:
    # Three decimals of the figures above; a tenth of a millimetre lets the atlas be renewed.
    pencil = {
        "1L": 2 * (9.620 + 7 * 17.949 + 4.016) + 30,  # 308.6
        "1R": 2 * (9.620 + 7 * 4.001 + 4.015) + 30,  # 113.3
        "2": 10 + 2 * (2.613 + 7 * 4.000 + 4.015) + 30,  # 109.3
        "3L": 2 * (9.620 + 7 * 4.001 + 4.015) + 30,  # 113.3
        "3R": 2 * (9.620 + 7 * 17.949 + 60.397) + 30,  # 421.3
    }
    assert used() == pytest.approx(pencil, abs=0.1)


def test_finished_length_with_a_pencil() -> None:
    head, square, wrap = (ATLAS.figures(spec) for spec in (HEAD, SQUARE, WRAP))
    piece = piece_of("tally-fob")
    deepest = max(piece.mm(s.end.depth + s.end.length) for s in piece.strands)
    heights = head.height_d + KNOTS * square.height_d + wrap.height_d
    assert deepest == pytest.approx(D * heights + FRINGE, abs=0.001)  # 99.2 mm
