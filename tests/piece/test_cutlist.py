from collections import Counter
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.piece.cutlist import EXTRA_CORD, cut_list
from cordwright.piece.figures import FiguresSource
from cordwright.piece.model import Piece
from cordwright.piece.spare import Parts
from cordwright.piece.work import work
from cordwright.plan.model import Plan
from cordwright.units.length import System, round_up

Given = dict[str, Any]
Steps = st.SearchStrategy[list[Given]]
Worked = Callable[..., Piece]
PlanOf = Callable[..., Plan]
Mount = Callable[..., Given]

SYSTEM: st.SearchStrategy[System] = st.sampled_from(["metric", "inch"])
FOLD = st.sampled_from(["needed", "middle", "none"])


def test_a_cut_list_by_hand(worked: Worked, mount_of: Mount) -> None:
    work = [{"tie": "square-knot", "on": "1-4", "times": 5, "gap": "1 cm"}, {"fringe": "20 cm"}]
    cuts = cut_list(worked(work, mount=mount_of(2)), parts=Parts(0.1, 0.05))
    # worker: 5 * 64 + 40 + 200 = 560, spare 32 + 2; filler: 5 * 16 + 240 = 320, spare 8 + 2
    a, b = cuts.entries
    assert (a.id, a.count, a.length_mm, a.fold, a.fold_mm) == ("A", 1, 925.0, "uneven", (595, 330))
    assert (b.id, b.fold_mm) == ("B", (330.0, 595.0))
    assert (a.used_mm, a.spare_mm, a.rounding_mm) == pytest.approx((880.0, 44.0, 1.0))
    assert cuts.total_mm == 2 * 925.0
    assert cuts.risk is None


def test_equal_cords_stand_together(worked: Worked, mount_of: Mount) -> None:
    piece = worked([{"rows": 4, "tie": "overhand", "each": 2}], mount=mount_of(6))
    cuts = cut_list(piece)
    assert [(e.id, e.count, e.fold, e.fold_mm) for e in cuts.entries] == [("A", 6, "middle", None)]


def test_cords_already_cut_stay_and_say_what_is_left(worked: Worked, mount_of: Mount) -> None:
    work = [{"tie": "square-knot", "on": "1-4", "times": 5}]  # 600 mm for each cord
    piece = worked(work, mount=mount_of(2, cut="650 mm"))
    cuts = cut_list(piece, parts=Parts(0.25, 0.0))
    assert [(e.length_mm, e.given) for e in cuts.entries] == [(650.0, True)] * 2
    assert [c.used_mm + c.spare_mm + c.rounding_mm for c in cuts.cords] == [650.0] * 2
    assert [c.spare_mm for c in cuts.cords] == [50.0] * 2
    assert "leaves 50 mm; 100 mm of spare would be wise" in cuts.warnings[0].what
    roomy = cut_list(worked(work, mount=mount_of(2, cut="9 m")))
    assert not roomy.warnings
    assert [e.fold for e in roomy.entries] == ["middle"]


def test_few_lengths_where_that_costs_little(worked: Worked, mount_of: Mount) -> None:
    steps = [{"free": f"{i} cm", "on": f"{2 * i + 1} to {2 * i + 2}"} for i in range(10)]
    piece = worked([*steps, {"fringe": "60 cm", "trim": "as it falls"}], mount=mount_of(10))
    apart = cut_list(piece, extra_cord=0.0)
    few = cut_list(piece)
    assert len({e.length_mm for e in apart.entries}) == 10
    assert len({e.length_mm for e in few.entries}) < 5
    assert apart.total_mm < few.total_mm <= (1 + EXTRA_CORD) * apart.total_mm


@given(data=st.data(), system=SYSTEM, fold=FOLD)
def test_a_cut_list_adds_up(
    data: st.DataObject, system: System, fold: str, worked: Worked, mount_of: Mount, steps: Steps
) -> None:
    count = 8 if fold == "none" else 4
    piece = worked(data.draw(steps), mount=mount_of(count, fold=fold))
    cuts = cut_list(piece, system=system)
    assert cuts.total_mm == pytest.approx(sum(c.length_mm for c in cuts.cords))
    assert sorted(c for e in cuts.entries for c in e.cords) == [c.id for c in piece.cords]
    for cut in cuts.cords:
        assert cut.used_mm + cut.spare_mm + cut.rounding_mm == pytest.approx(cut.length_mm)
        assert cut.rounding_mm >= -1e-6
        assert sum(cut.parts_mm) == pytest.approx(cut.length_mm)
        assert round_up(cut.length_mm, system) == pytest.approx(cut.length_mm)
        strands = piece.cords[cut.cord].strands
        for strand, part, spare in zip(strands, cut.parts_mm, cut.spare, strict=True):
            assert part >= piece.mm(cuts.lengths.used[strand]) + spare.all - 1e-5


def mirrored(step: Given) -> Given:
    """The step on eight strands, seen from behind."""
    turn = {"left": "right", "right": "left"}
    other = dict(step)
    first, last = (int(n) for n in step["on"].split("-"))
    other["on"] = f"{9 - last}-{9 - first}"
    for key in ("hand", "hitch"):
        if key in other:
            other[key] = turn[other[key]]
    return other


SPAN = st.tuples(st.integers(1, 5), st.integers(3, 7)).map(
    lambda s: f"{s[0]}-{min(8, s[0] + s[1])}"
)
MIRRORABLE = st.lists(
    st.one_of(
        st.builds(
            lambda on, tie, hand, free: {"tie": tie, "on": on, "hand": hand, "free": f"{free} mm"},
            SPAN,
            st.sampled_from(["square-knot", "half-knot", "half-hitch", "overhand"]),
            st.sampled_from(["left", "right"]),
            st.integers(0, 90),
        ),
        st.builds(
            lambda on, hitch, slant: {"hitch": hitch, "on": on, "slant": slant},
            SPAN,
            st.sampled_from(["left", "right"]),
            st.sampled_from(["level", "diagonal"]),
        ),
    ),
    max_size=8,
)


@given(MIRRORABLE)
def test_a_mirrored_plan_gives_the_same_lengths(worked: Worked, work: list[Given]) -> None:
    cuts = cut_list(worked(work))
    other = cut_list(worked([mirrored(step) for step in work]))
    assert Counter(round(c.length_mm, 6) for c in cuts.cords) == Counter(
        round(c.length_mm, 6) for c in other.cords
    )
    used = [c.used_mm for c in cuts.cords]
    assert [c.used_mm for c in reversed(other.cords)] == pytest.approx(used)


@given(data=st.data(), k=st.sampled_from([0.5, 2.0, 3.0]))
def test_everything_scales(
    data: st.DataObject, k: float, plan_of: PlanOf, figures: FiguresSource
) -> None:
    numbers = data.draw(st.lists(st.integers(1, 90), min_size=4, max_size=4))

    def plan(scale: float) -> Plan:
        a, b, c, e = (f"{scale * n:.6f} mm" for n in numbers)
        return plan_of(
            [
                {"free": a, "on": "1-3"},
                {"tie": "square-knot", "each": 4, "times": 2, "gap": b},
                {"hitch": "right", "slant": "diagonal", "free": c},
                {"tie": "half-knot", "on": "3-6", "times": 3},
                {"fringe": e, "trim": "slant", "rise": a},
            ],
            mount={
                "ring": {"inside": f"{scale * 60} mm", "wire": f"{scale * 5} mm"},
                "cords": [{"cord": "main", "count": 4}],
            },
            cords={"main": {"fibre": "cotton", "diameter": f"{scale * 4} mm"}},
        )

    one, other = cut_list(work(plan(1.0), figures)), cut_list(work(plan(k), figures))
    assert [c.used_mm for c in other.cords] == pytest.approx([k * c.used_mm for c in one.cords])
    assert [c.spare_mm for c in other.cords] == pytest.approx([k * c.spare_mm for c in one.cords])
