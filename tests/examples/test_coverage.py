"""Between them the examples use the whole plan language."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from cordwright.plan import steps
from cordwright.plan.fields import ALL, ZERO
from cordwright.plan.model import MountCord, MountRepeat, NewCord, Plan
from cordwright.plan.strands import Places
from cordwright.plan.sums import Sum
from tests.examples.conftest import NAMES, piece_of, plan_of
from tests.examples.walk import every_step

CONSTRUCTS = {
    *(f"{kind.__name__}" for kind in steps.VERBS.values()),
    *("mount ring", "mount rod", "mount cord", "mount nothing", "a repeated run of cords"),
    *("folded where needed", "folded in the middle", "not folded", "already cut"),
    *("face", "reverse", "several cords", "several diameters", "several colours"),
    *("tie square-knot", "tie half-knot", "tie half-hitch", "tie overhand"),
    *("a sinnet", "groups", "skipped strands", "free cord above a knot"),
    *("hand left", "hand right", "hand alternate"),
    *("workers outer", "workers inner", "workers last", "workers by place"),
    *("alternating rows", "gap between rows", "growing rows", "shrinking rows"),
    *("hitch left", "hitch right", "level", "diagonal", "steep", "a slant in degrees"),
    *("a laid-in holding cord", "a strand holds", "several rows of hitches"),
    *("pass in front", "pass behind", "a pass over the seam"),
    *("join", "open", "seam"),
    *("braid of 3", "braid of 4", "gather all", "gather some"),
    *("wrap of a new cord", "wrap with a strand", "turns of a wrap", "height of a wrap"),
    *("added folded", "added unfolded", "left out"),
    *("a motif's parameters", "a counter", "notes", "a named size", "bounds", "a function"),
    *("trim level", "trim point", "trim slant", "trim as it falls"),
    *("slant to left", "slant to right"),
}
SHOWN_ELSEWHERE = {"oxbow-planter", "weir-meadow-hanging"}
"""Examples whose every construct stands in another one too. They are there for what they make of
them, which `tests/examples/test_examples.py` holds them to: the demo, and bands that cross."""


def constructs(plan: Plan) -> Iterator[str]:
    """The names of all constructs of the language that a plan uses."""
    yield from _mounted(plan)
    yield from _kinds(plan)
    for step in every_step(plan):
        yield type(step).__name__
        if step.note:
            yield "notes"
        yield from _tying(step)
        yield from _hitching(step)
        yield from _moving(step)
        yield from _binding(step)
        yield from _ending(step)


def _mounted(plan: Plan) -> Iterator[str]:
    held = type(plan.mount.on).__name__.removesuffix("Mount").lower()
    yield f"mount {held}"
    for group in plan.mount.cords:
        if isinstance(group, MountRepeat):
            yield "a repeated run of cords"
        for cord in group.cords if isinstance(group, MountRepeat) else (group,):
            yield from _mounted_cord(cord, lies=held != "nothing")


def _mounted_cord(cord: MountCord, *, lies: bool) -> Iterator[str]:
    yield {"needed": "folded where needed", "middle": "folded in the middle"}.get(
        cord.fold, "not folded"
    )
    if cord.cut is not None:
        yield "already cut"
    if lies and cord.fold != "none":
        yield cord.face


def _kinds(plan: Plan) -> Iterator[str]:
    if len(plan.cords) > 1:
        yield "several cords"
    if len({c.diameter_mm for c in plan.cords.values()}) > 1:
        yield "several diameters"
    if len({c.colour for c in plan.cords.values()}) > 1:
        yield "several colours"
    sums = [s.value for s in plan.sizes.values()]
    if any(s.names for s in sums):
        yield "a named size"
    if any(s.at_least is not None and s.at_most is not None for s in plan.sizes.values()):
        yield "bounds"
    if any("ceil(" in s.text for s in sums):
        yield "a function"


def _tying(step: steps.Step) -> Iterator[str]:
    match step:
        case steps.TieStep() | steps.RowsStep():
            yield f"tie {step.tie}"
            yield f"hand {step.hand}"
            if step.each is not None:
                yield "groups"
            if step.times.text != "1":
                yield "a sinnet"
            if isinstance(step.workers, Places):
                yield "workers by place"
            elif step.workers is not None:
                yield f"workers {step.workers}"
    match step:
        case steps.TieStep():
            if step.skip != ZERO:
                yield "skipped strands"
            if step.free != ZERO:
                yield "free cord above a knot"
        case steps.RowsStep():
            asked = {
                "alternating rows": step.shift,
                "gap between rows": step.gap,
                "growing rows": step.grow,
                "shrinking rows": step.shrink,
            }
            yield from (what for what, value in asked.items() if value != ZERO)


def _hitching(step: steps.Step) -> Iterator[str]:
    if isinstance(step, steps.HitchStep):
        yield f"hitch {step.hitch}"
        yield step.slant if isinstance(step.slant, str) else "a slant in degrees"
        yield "a strand holds" if step.cord is None else "a laid-in holding cord"
        if step.rows.text != "1":
            yield "several rows of hitches"


def _moving(step: steps.Step) -> Iterator[str]:
    match step:
        case steps.PassStep():
            yield "pass behind" if step.in_front_of is None else "pass in front"
            if (step.passing.text, step.passed.text) == ("11-12", "1-2"):
                yield "a pass over the seam"
        case steps.ShapeStep():
            yield from (k for k in ("join", "open", "seam") if getattr(step, k) is not None)
        case steps.MotifStep() if step.with_:
            yield "a motif's parameters"
        case steps.RepeatStep() if step.counter is not None:
            yield "a counter"


def _binding(step: steps.Step) -> Iterator[str]:
    match step:
        case steps.BraidStep():
            yield f"braid of {step.braid}"
        case steps.GatherStep():
            yield "gather all" if step.gather == ALL else "gather some"
            yield "turns of a wrap" if step.turns is not None else "height of a wrap"
            if isinstance(step.with_, Sum):
                yield "wrap with a strand"
            if isinstance(step.with_, NewCord):
                yield "wrap of a new cord"


def _ending(step: steps.Step) -> Iterator[str]:
    match step:
        case steps.AddStep():
            yield "added unfolded" if step.fold == "none" else "added folded"
        case steps.LeaveStep() if step.leave != ALL:
            yield "left out"
        case steps.FringeStep():
            yield f"trim {step.trim}"
            if step.trim == "slant":
                yield f"slant to {step.to or 'right'}"


def test_every_construct_is_in_some_example() -> None:
    used = {what for name in NAMES for what in constructs(plan_of(name))}
    assert CONSTRUCTS - used == set()
    assert used - CONSTRUCTS == set()  # the list above is the whole


@pytest.mark.parametrize("name", sorted(set(NAMES) - SHOWN_ELSEWHERE))
def test_no_example_can_be_spared(name: str) -> None:
    others = {what for other in NAMES if other != name for what in constructs(plan_of(other))}
    kinds = {*constructs(plan_of(name))} - others
    assert kinds, f"all that {name} shows is shown elsewhere"


def test_groups_meet_new_neighbours_by_alternating() -> None:
    """A knot of the second row holds two strands of one knot above and two of the next."""
    rows = [k for k in piece_of("oxbow-planter").knots if k.section == ("Basket",)][:8:2]
    above = [set(range(4 * i, 4 * i + 4)) for i in range(4)]
    shares = [sorted(len(set(k.strands) & arm) for arm in above) for k in rows]
    assert shares == [[0, 0, 2, 2]] * 4


def test_fillers_and_working_strands_change_places() -> None:
    piece = piece_of("cobble-belt")
    roles = [s.role for s in piece.strands[0].course[1:9]]
    assert {r.value for r in roles} == {"working", "filler"}
