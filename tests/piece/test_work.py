from collections.abc import Callable
from typing import Any

import pytest

from cordwright.cords.handling import Handling
from cordwright.errors import CordwrightError, Place, PlanError, WorkError
from cordwright.piece.figures import FiguresSource
from cordwright.piece.model import Piece
from cordwright.piece.work import work
from cordwright.plan.model import Plan
from cordwright.plan.steps import TieStep

Worked = Callable[..., Piece]
PlanOf = Callable[..., Plan]


def test_motifs_number_their_places_and_take_parameters(worked: Worked) -> None:
    piece = worked(
        [{"motif": "bar", "on": "3-6", "with": {"n": 2}}, {"motif": "bar", "on": "1-4"}],
        sizes={"gap": "2 cm"},
        motifs={
            "bar": {
                "takes": {"n": 1, "space": "gap / 2"},
                "work": [{"tie": "square-knot", "on": "1 to end", "times": "n", "gap": "space"}],
            }
        },
    )
    assert [k.strands for k in piece.knots] == [(2, 3, 4, 5)] * 2 + [(0, 1, 2, 3)]
    second = piece.strands[2].course[1].free
    assert second.terms == {"s:gap": 0.5}
    assert piece.mm(second) == 10.0


def test_a_motif_over_the_whole_round_is_round(worked: Worked) -> None:
    piece = worked(
        [{"join": "round"}, {"motif": "net"}],
        motifs={"net": {"work": [{"rows": 2, "tie": "square-knot", "each": 4, "shift": 2}]}},
    )
    assert [k.strands for k in piece.knots][2:] == [(2, 3, 4, 5), (6, 7, 0, 1)]


def test_repeats_count(worked: Worked) -> None:
    piece = worked(
        [
            {
                "repeat": 3,
                "counter": "i",
                "work": [{"tie": "square-knot", "on": "i to i + 3"}],
            }
        ]
    )
    assert [k.strands[0] for k in piece.knots] == [0, 1, 2]


def test_sections_are_kept_with_knots_and_ends(worked: Worked) -> None:
    piece = worked(
        [
            {"section": "Top", "work": [{"section": "Left", "work": [{"tie": "overhand"}]}]},
            {"section": "Fringe", "work": [{"fringe": "1 cm"}]},
        ]
    )
    assert piece.knots[0].section == ("Top", "Left")
    assert {s.end.section for s in piece.strands} == {("Fringe",)}


def test_the_same_plan_gives_the_same_piece(plan_of: PlanOf, figures: FiguresSource) -> None:
    plan = plan_of([{"rows": 3, "tie": "half-knot", "each": 4, "shift": 2}])
    assert work(plan, figures) == work(plan, figures)


def test_other_sizes_and_diameters(plan_of: PlanOf, figures: FiguresSource) -> None:
    plan = plan_of([{"free": "arm"}, {"tie": "square-knot", "each": 4}], sizes={"arm": "10 cm"})
    piece = work(plan, figures, sizes={"arm": "20 cm"}, diameters={"main": 2.0})
    assert piece.values == {"s:arm": 200.0, "d:main": 2.0}
    assert piece.mm(piece.strands[0].end.depth) == 208.0


def test_handling_scales_height_and_take_up(plan_of: PlanOf, figures: FiguresSource) -> None:
    plan = plan_of([{"tie": "square-knot", "on": "1-4"}])
    piece = work(plan, figures, handling={"main": Handling(1.5, 0.75)})
    knot = piece.knots[0]
    assert piece.mm(knot.height) == 24.0
    assert piece.mm(piece.strands[0].course[0].take_up) == 48.0
    assert piece.mm(piece.strands[1].course[0].take_up) == 24.0  # fillers follow the height


@pytest.mark.parametrize(
    ("diameters", "sizes", "message"),
    [
        ({"nope": 4.0}, {}, "no cord called 'nope'"),
        ({"main": 0.0}, {}, "out of range"),
        ({"main": float("nan")}, {}, "out of range"),
        ({"main": 101.0}, {}, "out of range"),
        ({}, {"nope": "3 cm"}, "no size called 'nope'"),
    ],
)
def test_what_is_not_the_plans_is_refused(
    plan_of: PlanOf,
    figures: FiguresSource,
    diameters: dict[str, float],
    sizes: dict[str, str],
    message: str,
) -> None:
    with pytest.raises(CordwrightError, match=message):
        work(plan_of([]), figures, sizes=sizes, diameters=diameters)


@pytest.mark.parametrize(
    ("step", "message"),
    [
        ({"repeat": 200000, "work": [{"free": "1 mm"}]}, "more than 200000 steps"),
        ({"repeat": 200000, "work": [{"repeat": 200000, "work": []}]}, "more than 200000 steps"),
        ({"tie": "square-knot", "each": 4, "times": 150000}, "more than 200000 knots"),
        ({"motif": "a"}, "A motif would never end: a calls b calls a"),
        ({"repeat": 200000, "work": [{"reorder": [2, 1]}]}, "more than 200000 steps"),
        ({"motif": "nope"}, "no motif called 'nope'"),
        ({"motif": "c", "with": {"k": 3}}, "does not take 'k'"),
    ],
)
def test_endless_plans_are_refused(worked: Worked, step: dict[str, Any], message: str) -> None:
    motifs = {
        "a": {"work": [{"motif": "b"}]},
        "b": {"work": [{"motif": "a"}]},
        "c": {"takes": {"n": 1}, "work": []},
    }
    with pytest.raises(WorkError, match=message):
        worked([step], motifs=motifs)


def test_cords_added_and_left_by_turns_come_to_an_end(worked: Worked) -> None:
    step = {"repeat": 10000, "work": [{"add": 4, "cord": "main", "after": 0}, {"leave": "1-8"}]}
    with pytest.raises(WorkError, match="more than 20000 cords"):
        worked([step])


def test_many_strands_taken_in_hand_often_come_to_an_end(
    worked: Worked, mount_of: Callable[..., dict[str, Any]]
) -> None:
    step = {"repeat": 200000, "work": [{"free": "1 mm"}]}
    with pytest.raises(WorkError, match="strands in hand more than 2000000 times"):
        worked([step], mount=mount_of(400))


def test_an_error_says_where(plan_of: PlanOf, figures: FiguresSource) -> None:
    here = Place("fern.yaml", 12, 5)
    step = TieStep(tie="square-knot").model_copy(update={"where": here})
    plan = plan_of([]).model_copy(update={"work": (step,)})
    piece = work(plan, figures)
    assert {k.step for k in piece.knots} == {here}
    short = plan_of([{"leave": "1-6"}])
    with pytest.raises(WorkError) as caught:
        work(short.model_copy(update={"work": (*short.work, step)}), figures)
    assert caught.value.place == here
    assert str(caught.value).startswith("fern.yaml:12:5: A square-knot wants at least 3 strands")


@pytest.mark.parametrize("free", ["arm - 20 cm", "1e3 cm", "arm / 0", "arm * arm", "900 m + 200 m"])
def test_free_cord_that_cannot_be_is_refused(worked: Worked, free: str) -> None:
    with pytest.raises((PlanError, ValueError)):
        worked([{"free": free}], sizes={"arm": "10 cm"})


def test_deep_nesting_is_refused_in_words(worked: Worked) -> None:
    motifs: dict[str, Any] = {"m0": {"work": [{"tie": "overhand"}]}}
    for i in range(1, 120):
        motifs[f"m{i}"] = {"work": [{"repeat": 1, "work": [{"motif": f"m{i - 1}"}]}]}
    assert len(worked([{"motif": "m90"}], motifs=motifs).knots) == 1
    with pytest.raises(WorkError, match="more than 200 deep"):
        worked([{"motif": "m119"}], motifs=motifs)
