"""Every example is a plan that a maker could tie: it reads, works, and comes out as reasoned."""

from __future__ import annotations

import json
import math
from collections import Counter
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from jsonschema import Draft202012Validator

from cordwright.knots.atlas import FIGURES
from cordwright.knots.canonical import key
from cordwright.knots.spec import KnotName
from cordwright.piece.cutlist import cut_list
from cordwright.piece.lineup import line_up_at
from cordwright.piece.report import cut_json
from cordwright.piece.work import work
from cordwright.plan.model import AddStep
from cordwright.plan.read import read_plan
from cordwright.plan.write import plan_text
from cordwright.plan.yamltree import read_tree
from tests.examples.conftest import ATLAS, FOLDER, NAMES, piece_of, plan_of
from tests.examples.walk import every_step
from tests.piece.conftest import MadeUpFigures

if TYPE_CHECKING:
    from cordwright.piece.model import Piece

SCHEMA = json.loads(
    (Path(__file__).parents[2] / "docs" / "plan.schema.json").read_text(encoding="utf-8")
)
MOST_MM = 20_000.0  # nobody knots with a cord of more than 20 m: it would go on a bobbin
every_example = pytest.mark.parametrize("name", NAMES)


def test_no_example_is_forgotten() -> None:
    assert sorted(path.stem for path in FOLDER.glob("*.yaml")) == list(NAMES)


@every_example
def test_an_editor_with_the_schema_marks_nothing(name: str) -> None:
    tree = read_tree((FOLDER / f"{name}.yaml").read_text(encoding="utf-8"), name)
    assert [e.message for e in Draft202012Validator(SCHEMA).iter_errors(tree)] == []


@every_example
def test_writes_and_reads_back(name: str, tmp_path: Path) -> None:
    path = tmp_path / "again.yaml"
    path.write_text(plan_text(plan_of(name)), encoding="utf-8")
    assert read_plan(path) == plan_of(name)


@every_example
def test_comments_and_bounds_explain_what_may_change(name: str) -> None:
    text = (FOLDER / f"{name}.yaml").read_text(encoding="utf-8")
    assert sum(line.lstrip().startswith("#") for line in text.splitlines()) >= 3
    plan = plan_of(name)
    assert plan.about.endswith(".")
    named = [s for s in plan.sizes.values() if s.about]
    assert named
    assert all(s.at_least is not None and s.at_most is not None for s in named)


@every_example
def test_a_cut_list_without_a_warning(name: str) -> None:
    piece = piece_of(name)
    answer = cut_json(piece, cut_list(piece))
    assert answer["warnings"] == []
    for cord in answer["cords"]:
        assert 0 < cord["length_mm"] < MOST_MM
        if cord["fold_mm"] is not None:
            assert sum(cord["fold_mm"]) == pytest.approx(cord["length_mm"], abs=1e-6)


@every_example
def test_every_strand_is_accounted_for(name: str) -> None:
    piece = piece_of(name)
    answer = cut_json(piece, cut_list(piece))
    assert len(answer["strands"]) == len(piece.strands) == sum(len(c.strands) for c in piece.cords)
    assert {s for c in piece.cords for s in c.strands} == set(range(len(piece.strands)))
    assert line_up_at(piece, math.inf).strands == ()  # all ended on purpose
    assert all(s.end.kind != "tail" for s in piece.strands)
    used = sum(s["used_mm"] for s in answer["strands"])
    assert used == pytest.approx(sum(answer["uses_mm"].values()))
    assert used == pytest.approx(answer["used_mm"])
    for cord in answer["cords"]:
        parts = cord["used_mm"] + cord["spare_mm"] + cord["rounding_mm"]
        assert parts == pytest.approx(cord["length_mm"])


@every_example
def test_every_knot_is_shipped_so_the_first_run_is_quick(name: str) -> None:
    shipped = json.loads(FIGURES.read_text(encoding="utf-8"))["knots"]
    assert {key(spec) for spec in piece_of(name).figures} <= set(shipped)


# Counted from the plans, by hand. A row of hitches on one of its own strands has one hitch less
# than strands; on a laid-in cord it has as many. Braids are the whole rounds that reach
# their length; a round of three is 6.0 d high, of four 8.2 d.
EXPECTED: dict[str, tuple[int, Counter[KnotName]]] = {
    # Arms of 6, each on 4 strands; two rounds of 4 groups, doubled. 4 * 12 half knots.
    "oxbow-planter": (
        16,
        Counter(
            {
                KnotName.LARKS_HEAD: 8,
                KnotName.GATHERING: 2,
                KnotName.SQUARE_KNOT: 4 * 6 + 2 * 4 * 2,
                KnotName.HALF_KNOT: 4 * 12,
            }
        ),
    ),
    # Arms of 28 cm: 41 mm a round, so 7. Tails of 10 cm: 30 mm a round, so 4.
    "pellow-planter": (
        12,
        Counter(
            {
                KnotName.LARKS_HEAD: 6,
                KnotName.GATHERING: 3 * 2 + 1,
                KnotName.BRAID: 3 * 7 + 4 * 4,
                KnotName.SQUARE_KNOT: 3 * 3 + 3 * 2,
                KnotName.OVERHAND: 4,
            }
        ),
    ),
    # A triangle of 6 down to 1; two bands of two rows on 12 strands, a crossing, 24 level ones.
    "lantry-wall-planter": (
        24,
        Counter(
            {
                KnotName.LARKS_HEAD: 12,
                KnotName.SQUARE_KNOT: 21 + 3 * 6,
                KnotName.DOUBLE_HALF_HITCH: 2 * 2 * 11 + 1 + 24,
                KnotName.GATHERING: 1,
            }
        ),
    ),
    # Per course: 4 crossings at the top, 3 at the sides, 4 * 2 bands of 7 down and as many up.
    # Then 4 crossings, two rows of 64; 8 knots in diamonds and a triangle of 16 down to 1.
    "weir-meadow-hanging": (
        64,
        Counter(
            {
                KnotName.LARKS_HEAD: 32,
                KnotName.DOUBLE_HALF_HITCH: 2 * (4 + 3 + 2 * 4 * 2 * 7) + 4 + 2 * 64,
                KnotName.SQUARE_KNOT: 8 + 16 * 17 // 2,
            }
        ),
    ),
    # 8 knots on the ring's 32 strands, 16 on 64, then 12 rounds; two rounds of 64 hitches.
    # Four braids of 35 cm at 24.6 mm a round: 15.
    "haverley-bag": (
        32,
        Counter(
            {
                KnotName.LARKS_HEAD: 16,
                KnotName.SQUARE_KNOT: 8 + 16 + 12 * 16,
                KnotName.DOUBLE_HALF_HITCH: 2 * 64,
                KnotName.BRAID: 4 * 15,
                KnotName.GATHERING: 1,
            }
        ),
    ),
    # 84 cm in links of 36 mm: 24, of two pairs and one. A link of 3 at the tip, and its last knot.
    "cobble-belt": (
        8,
        Counter(
            {
                KnotName.LARKS_HEAD: 4,
                KnotName.SQUARE_KNOT: 24 * 5 + 3 + 1,
                KnotName.DOUBLE_HALF_HITCH: 2 * 3,
            }
        ),
    ),
    # Ten chevrons: two bands of 3 and a crossing.
    "ledger-bookmark": (
        8,
        Counter(
            {
                KnotName.LARKS_HEAD: 4,
                KnotName.DOUBLE_HALF_HITCH: 10 * (3 + 3 + 1),
                KnotName.HALF_HITCH: 4 * 4,
                KnotName.OVERHAND: 2,
            }
        ),
    ),
    "tally-fob": (
        5,
        Counter({KnotName.LARKS_HEAD: 2, KnotName.SQUARE_KNOT: 7, KnotName.GATHERING: 1}),
    ),
    # Three blocks: rows of 10, 9, 10, 9 and a straight one of 10.
    "millrace-mat": (
        40,
        Counter({KnotName.OVERHAND: 20, KnotName.SQUARE_KNOT: 3 * (10 + 9 + 10 + 9 + 10)}),
    ),
    # 26 groups of four; one round, then ten.
    "cressing-shade": (
        104,
        Counter(
            {
                KnotName.LARKS_HEAD: 52,
                KnotName.DOUBLE_HALF_HITCH: 2 * 104,
                KnotName.SQUARE_KNOT: 26 * (1 + 10),
            }
        ),
    ),
    # Four rounds of 4, two pairs at the neck, two of three at the top; braids of 34 cm: 14 rounds.
    "ferry-sling": (
        16,
        Counter(
            {
                KnotName.GATHERING: 2,
                KnotName.SQUARE_KNOT: 4 * 4 + 2 * 2 + 2 * 3,
                KnotName.HALF_HITCH: 2 * 12,
                KnotName.BRAID: 2 * 14,
            }
        ),
    ),
    # Braids of 9 cm at 24 mm a round: 4, on four groups, three times. A leaf is 1 + 2 + 3 + 2 + 1.
    "hollin-tieback": (
        12,
        Counter(
            {
                KnotName.LARKS_HEAD: 6,
                KnotName.BRAID: 3 * 4 * 4,
                KnotName.SQUARE_KNOT: 2 * (9 + 1),
                KnotName.GATHERING: 1,
            }
        ),
    ),
}


@every_example
def test_as_many_knots_and_strands_as_counted_by_hand(name: str) -> None:
    strands, knots = EXPECTED[name]
    piece = piece_of(name)
    assert Counter(k.spec.name for k in piece.knots) == knots
    assert sum(len(c.strands) for c in piece.cords if c.part == "mount") == strands


def test_strands_come_and_go_half_way() -> None:
    bag = piece_of("haverley-bag")
    gathering = next(k for k in bag.knots if k.spec.name is KnotName.GATHERING)
    rim = max(
        bag.mm(k.top + k.height) for k in bag.knots if k.spec.name is KnotName.DOUBLE_HALF_HITCH
    )
    wall = line_up_at(bag, rim - 20.0)
    assert (wall.shape, len(wall.strands)) == ("round", 64)  # 32 on the ring, 16 cords added
    strap = line_up_at(bag, bag.mm(gathering.top))
    assert (strap.shape, len(strap.strands)) == ("flat", 16)
    sling = piece_of("ferry-sling")
    top = next(k for k in reversed(sling.knots) if k.spec.name is KnotName.GATHERING)
    assert len(line_up_at(sling, sling.mm(top.top)).strands) == 8  # eight ended at the neck


def test_the_wall_planter_is_flat_then_round_then_flat() -> None:
    piece = piece_of("lantry-wall-planter")
    shapes = [change.shape for change in piece.changes if change.shape is not None]
    assert shapes == ["round", "flat"]
    panel = [k for k in piece.knots if k.section == ("Panel",)]
    # The bands' holding cords are the two strands of either outer cord (places 1, 2 and 23, 24).
    held = {k.strands[0] for k in panel if k.spec.name is KnotName.DOUBLE_HALF_HITCH}
    assert {0, 1, 22, 23} <= held


def test_below_each_arm_hang_strands_of_both_other_arms() -> None:
    piece = piece_of("pellow-planter")
    nodes = [k for k in piece.knots if k.section == ("Basket",) and k.spec.strands == 4]
    arm = {s: s // 4 for s in range(12)}
    first = [[arm[s] for s in k.strands] for k in nodes[:9:3]]
    assert first == [[2, 2, 1, 1], [0, 0, 2, 2], [1, 1, 0, 0]]
    assert len(piece.passes) == 3


def test_bands_run_on_through_neighbouring_diamonds() -> None:
    piece = piece_of("weir-meadow-hanging")
    slanted = [k for k in piece.knots if k.spec.slant_deg]
    # The band that leaves the first diamond's upper corner to the right is its strand 8 (from 1),
    # crossed to place 9. It comes to place 16, crosses into the second diamond and goes down to
    # its lower corner, place 24; only bands of 16-strand diamonds hold slanted rows.
    strand = 7
    workers = {k.strands[1] for k in slanted if k.strands[0] == strand}
    assert any(8 <= w < 16 for w in workers)
    assert any(16 <= w < 32 for w in workers)
    hands = {k.spec.hand for k in slanted}
    assert hands == {"left", "right"}


def lengths(piece: Piece, *, without_end: bool = False) -> list[float]:
    """What each mounted strand uses, mm, in the order of the mount."""
    found = []
    for strand in piece.strands:
        if piece.cords[strand.cord].part == "mount":
            used = piece.mm(strand.start) + sum(
                piece.mm(s.free) + piece.mm(s.take_up) for s in strand.course
            )
            found.append(used if without_end else used + piece.mm(strand.end.length))
    return found


@pytest.mark.parametrize("name", ["oxbow-planter", "cobble-belt"])
def test_mirrored_plans_have_mirrored_strands(name: str) -> None:
    used = lengths(piece_of(name))
    assert used == pytest.approx(used[::-1], abs=0.01)  # mm; fillers' figures differ by microns


def test_a_slanted_fringe_alone_tells_left_from_right() -> None:
    piece = piece_of("hollin-tieback")
    used = lengths(piece, without_end=True)
    assert used == pytest.approx(used[::-1], abs=0.05)
    whole = lengths(piece)
    assert whole != pytest.approx(whole[::-1], abs=5.0)


@pytest.mark.parametrize(("name", "turn"), [("pellow-planter", 4), ("cressing-shade", 4)])
def test_round_plans_look_alike_from_all_sides(name: str, turn: int) -> None:
    used = lengths(piece_of(name))
    assert used == pytest.approx(used[turn:] + used[:turn], abs=0.05)


def test_opposite_sides_of_the_bag_are_alike() -> None:
    used = lengths(piece_of("haverley-bag"))
    assert used == pytest.approx(used[16:] + used[:16], abs=0.05)


# Finished lengths in cm, tails and fringe included, hanging straight; reasoned from the plan.
FINISHED = {
    # ring and crown 6, arms 4 + 10 + 18 + 9, net 2 * (9 + 3), under 8, foot 3 + 18
    "oxbow-planter": (95, 105),
    # arms 3 + 2 + 29 + 2, crossing 20 + 6, net 10 + 4, under 8, foot 4 + 2 + 12 + 3 + 4
    "pellow-planter": (104, 116),
    # triangle 12, bands that come below it 4 to 8, drop 8, net 2 * 5 + 5, under 8, foot 3 + 22
    "lantry-wall-planter": (70, 85),
    # two rows on rope 2 * 2, courses 2 * 13 and more, triangle 16 * 2 + 15 * 1.5, fringe 15 + 12
    "weir-meadow-hanging": (105, 130),
    # base 7, wall 12 * 2.6 and two rounds 2, strap 36 + 1 + 2 + 3
    "haverley-bag": (78, 90),
    # links 24 * 3.6, tip 3 and more, tail 3
    "cobble-belt": (92, 100),
    # chevrons at least 10 * 2 * 4 * 0.15 * 0.6, hitches and knots 3, fringe 4 to 5
    "ledger-bookmark": (14, 20),
    # lark's head 0.5, seven knots 5.6, wrap 0.8, fringe 3
    "tally-fob": (9.5, 10.5),
    # fringes 8, knots 2 * 3.7 + 15 * 2, three changes of columns 3 * 3.5
    "millrace-mat": (53, 59),
    # head 2, eleven rounds of some 1 (thick 1.2, fine 0.6) and ten meshes 12, edge 3, fringe 6
    "cressing-shade": (29, 36),
    # base 1 + 6, net 4 * 1.2 + 3 * 4, neck 6 + 2, strap 6 + 34 + 4, top 2 + 4
    "ferry-sling": (78, 90),
    # braids 3 * 9.6, leaves 2 * (5 * 1.6 + 1.6), wrap 2.4, fringe 10 to 13, ring 1
    "hollin-tieback": (60, 68),
}


@every_example
def test_as_long_as_reasoned(name: str) -> None:
    piece = piece_of(name)
    least, most = FINISHED[name]
    assert least <= cut_json(piece, cut_list(piece))["finished_length_mm"] / 10 <= most


@pytest.mark.parametrize(
    ("name", "size", "bound"),
    [
        (name, size, bound)
        for name in NAMES
        for size, spec in plan_of(name).sizes.items()
        for bound in ("at_least", "at_most")
        if getattr(spec, bound) is not None
    ],
)
def test_sizes_may_be_set_to_their_bounds(name: str, size: str, bound: str) -> None:
    value = getattr(plan_of(name).sizes[size], bound).text
    piece = work(plan_of(name), ATLAS, sizes={size: value})
    assert piece.warnings == ()
    assert cut_list(piece).cords
    assert lengths(piece) != pytest.approx(lengths(piece_of(name)))  # it is not idle


@every_example
@pytest.mark.parametrize("factor", [0.8, 1.25])
def test_diameters_may_be_changed(name: str, factor: float) -> None:
    # Made-up knots: other ratios to rings and rods are not in the atlas, and take seconds each.
    plan, made_up = plan_of(name), MadeUpFigures()
    other = {cord: spec.diameter_mm * factor for cord, spec in plan.cords.items()}
    before, after = work(plan, made_up), work(plan, made_up, diameters=other)
    assert len(after.strands) == len(before.strands)
    assert (
        Counter(k.spec.name for k in after.knots)[KnotName.SQUARE_KNOT]
        == (Counter(k.spec.name for k in before.knots)[KnotName.SQUARE_KNOT])
    )
    assert (sum(lengths(after)) > sum(lengths(before))) == (factor > 1)


def test_added_cords_name_a_cord_of_the_plan() -> None:
    added = [(n, s.cord) for n in NAMES for s in every_step(plan_of(n)) if isinstance(s, AddStep)]
    assert {name for name, _ in added} == {"haverley-bag", "hollin-tieback"}


@pytest.mark.parametrize(
    ("name", "round_", "section", "groups"),
    [
        ("oxbow-planter", "pot", "Basket", 4),
        ("pellow-planter", "pot", "Basket", 3),
        ("lantry-wall-planter", "pot", "Basket", 6),
        ("ferry-sling", "bottle", "Net", 4),
    ],
)
def test_what_hangs_in_the_net_goes_in(name: str, round_: str, section: str, groups: int) -> None:
    """From knot to knot each strand has enough free cord to go sideways, and some to go down.

    Knots of one round stand a `groups`-th of it apart, so those of the next hang in between, half
    of that away. A strand leaves its knot at the knot's side, half a width nearer.
    """
    piece = piece_of(name)
    knots = [k for k in piece.knots if k.section == (section,) and k.number == 0]
    apart = piece.values[f"s:{round_}"] / groups
    wide = min(piece.figures[k.spec].width_d * piece.values[f"d:{k.cord}"] for k in knots)
    sideways = (apart - wide) / 2
    for knot in knots:
        for strand in knot.strands:
            free = next(s.free for s in piece.strands[strand].course if s.knot == knot.id)
            assert piece.mm(free) > 1.2 * sideways
