from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.knots.spec import Role
from cordwright.piece.figures import FiguresSource
from cordwright.piece.lengths import Use, finished_length, measure, spent
from cordwright.piece.model import Piece
from cordwright.piece.work import work
from cordwright.plan.model import Plan

Given = dict[str, Any]
Steps = st.SearchStrategy[list[Given]]
Worked = Callable[..., Piece]
PlanOf = Callable[..., Plan]

RING = {"ring": {"inside": "9 cm", "wire": "6 mm"}, "cords": [{"cord": "main", "count": 4}]}


def test_a_strand_by_hand(worked: Worked) -> None:
    piece = worked(
        [{"tie": "square-knot", "on": "1-4", "times": 3, "gap": "1 cm"}, {"fringe": "5 cm"}]
    )
    lengths = measure(piece)
    assert {use: piece.mm(f) for use, f in lengths.strands[0].items()} == {
        Use.WORKING: 3 * 64.0,
        Use.FREE: 20.0,
        Use.TAIL: 50.0,
    }
    assert (lengths.used[0].mm, lengths.used[0].terms) == (70.0, {"d:main": 48.0})
    assert lengths.used[1].terms == {"d:main": 12.0}
    assert piece.mm(lengths.finished) == 3 * 16.0 + 20.0 + 50.0


def test_tails_above_count_where_the_piece_hangs_on_nothing(worked: Worked) -> None:
    mount = {"nothing": {"tail": "8 cm"}, "cords": [{"cord": "main", "count": 4, "fold": "none"}]}
    piece = worked([{"tie": "square-knot"}], mount=mount)
    assert piece.mm(finished_length(piece)) == 80.0 + 16.0 + 100.0


def test_tails_at_the_side_do_not_count(worked: Worked) -> None:
    piece = worked([{"hitch": "right", "cord": "main", "tail": "9 m"}])
    assert piece.mm(finished_length(piece)) == 10.0 + 100.0


@given(data=st.data())
def test_every_course_is_whole(data: st.DataObject, worked: Worked, steps: Steps) -> None:
    piece = worked(data.draw(steps), mount=RING)
    for strand in piece.strands:
        depth = piece.mm(strand.begins)
        for stop in strand.course:
            knot = piece.knots[stop.knot]
            assert knot.strands[stop.place] == strand.id
            assert piece.mm(stop.free) >= -1e-9
            if stop.role is not Role.HOLDING:
                assert depth + piece.mm(stop.free) == pytest.approx(piece.mm(knot.top))
                depth = piece.mm(knot.top + knot.height)
            else:
                depth += piece.mm(stop.free)
                assert depth >= piece.mm(knot.top) - 1e-9
                if piece.figures[knot.spec].spec.slant_deg:
                    depth = _behind(piece, strand.id, stop.knot, depth)
        assert depth == pytest.approx(piece.mm(strand.end.depth))


def _behind(piece: Piece, strand: int, knot: int, depth: float) -> float:
    """Where a slanted holding cord leaves a hitch: its way times the sine of the slant lower."""
    import math

    stop = next(s for s in piece.strands[strand].course if s.knot == knot)
    slant = math.radians(piece.knots[knot].spec.slant_deg)
    return depth + piece.mm(stop.take_up) * math.sin(slant)


@given(data=st.data())
def test_nothing_is_lost(data: st.DataObject, worked: Worked, steps: Steps) -> None:
    piece = worked(data.draw(steps), mount=RING)
    lengths = measure(piece)
    for strand, used in zip(piece.strands, lengths.used, strict=True):
        one_by_one = piece.mm(strand.start) + piece.mm(strand.end.length)
        one_by_one += sum(piece.mm(s.free) + piece.mm(s.take_up) for s in strand.course)
        assert piece.mm(used) == pytest.approx(one_by_one)
    everything = piece.mm(lengths.all)
    assert sum(piece.mm(f) for f in lengths.uses.values()) == pytest.approx(everything)
    assert sum(piece.mm(f) for f in lengths.sections.values()) == pytest.approx(everything)
    assert sum(piece.mm(f) for s in piece.strands for _, _, f in spent(piece, s)) == pytest.approx(
        everything
    )


@given(data=st.data(), k=st.floats(0.2, 5.0))
def test_lengths_scale_with_cord_and_sizes(
    data: st.DataObject, k: float, plan_of: PlanOf, figures: FiguresSource, steps: Steps
) -> None:
    """Scaling all symbols and all written lengths: through the forms, without working again."""
    plan = plan_of(data.draw(steps), mount=RING)
    piece = work(plan, figures)
    values = {symbol: k * mm for symbol, mm in piece.values.items()}
    for used in measure(piece).used:
        fixed = used.mm * (k - 1.0)
        assert used.at(values) + fixed == pytest.approx(k * piece.mm(used))


ARM = st.integers(0, 800)
CHAIN = [
    {"free": "arm"},
    {"tie": "overhand", "times": 3, "gap": "2 * arm + 1 cm"},
    {"repeat": 3, "work": [{"tie": "square-knot", "free": "arm / 4"}]},
    {"hitch": "right", "cord": "main", "tail": "rest"},
    {"braid": 4, "times": 2},
    {"gather": "all", "turns": 4},
    {"fringe": "rest", "trim": "point", "rise": "arm / 2"},
]


@given(first=ARM, arm=ARM, rest=ARM, d=st.floats(0.5, 20.0))
def test_forms_hold_for_other_cord_and_sizes(
    first: int, arm: int, rest: int, d: float, plan_of: PlanOf, figures: FiguresSource
) -> None:
    plan = plan_of(CHAIN, sizes={"arm": f"{first} mm", "rest": "20 cm"})
    old_lengths = measure(work(plan, figures))
    again = work(
        plan, figures, sizes={"arm": f"{arm} mm", "rest": f"{rest} mm"}, diameters={"main": d}
    )
    new_lengths = measure(again)
    for old, new in zip(old_lengths.used, new_lengths.used, strict=True):
        assert old.at(again.values) == pytest.approx(again.mm(new))
    if first:  # at 0 the fringe has no point, and all its strands end equally deep
        finished = old_lengths.finished.at(again.values)
        assert finished == pytest.approx(again.mm(new_lengths.finished))


@given(data=st.data(), d=st.floats(1.0, 12.0))
def test_forms_hold_while_the_same_strands_lead(
    data: st.DataObject, d: float, plan_of: PlanOf, figures: FiguresSource, steps: Steps
) -> None:
    plan = plan_of(data.draw(steps))
    piece, again = work(plan, figures), work(plan, figures, diameters={"main": d})
    same = all(
        a.top.at(again.values) == pytest.approx(again.mm(b.top))
        for a, b in zip(piece.knots, again.knots, strict=True)
    )
    if same:
        old, new = measure(piece), measure(again)
        for a, b in zip(old.used, new.used, strict=True):
            assert a.at(again.values) == pytest.approx(again.mm(b))


def test_forms_say_nothing_of_another_branch(plan_of: PlanOf, figures: FiguresSource) -> None:
    plan = plan_of(
        [
            {"tie": "square-knot", "on": "1-4", "times": 5},
            {"free": "arm", "on": "5-8"},
            {"tie": "overhand"},
        ],
        sizes={"arm": "5 cm"},
    )
    piece = work(plan, figures)
    again = work(plan, figures, sizes={"arm": "1 m"})
    assert finished_length(piece).at(again.values) < again.mm(finished_length(again)) - 900.0
