"""Test data: made-up figures of tight knots, simple numbers of plausible size, and short plans."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import strategies as st

from cordwright.errors import KnotError
from cordwright.knots.spec import KnotFigures, KnotName, KnotSpec, Role
from cordwright.piece.work import work as work_plan
from cordwright.plan.model import Plan

if TYPE_CHECKING:
    from cordwright.piece.model import Piece

W, F, H = Role.WORKING, Role.FILLER, Role.HOLDING


def _flat(spec: KnotSpec, height: float, take: float) -> KnotFigures:
    """Two working strands round straight fillers."""
    n = spec.strands
    more = take + 0.5 * (n - 2) * spec.filler_d
    order = list(range(n))
    if spec.name is KnotName.HALF_KNOT:
        order[0], order[-1] = order[-1], order[0]
    return KnotFigures(
        spec,
        height,
        n + 1.0,
        3.0,
        (W, *(F,) * (n - 2), W),
        (more, *(height,) * (n - 2), more),
        tuple(order),
    )


def _hitch(spec: KnotSpec) -> KnotFigures:
    n = spec.strands
    last = spec.hand == "right"
    take = 5.0 + spec.filler_d
    roles = (*(F,) * (n - 1), W) if last else (W, *(F,) * (n - 1))
    takes = (*(1.5,) * (n - 1), take) if last else (take, *(1.5,) * (n - 1))
    return KnotFigures(spec, 1.5, n + 0.5, 2.5, roles, takes, tuple(range(n)))


def made_up(spec: KnotSpec) -> KnotFigures:
    """Made-up figures of one knot."""
    n = spec.strands
    straight = tuple(range(n))
    match spec.name:
        case KnotName.LARKS_HEAD:
            take = 4.0 + 1.5 * spec.over_d
            return KnotFigures(
                spec, 2.0 + spec.over_d, 3.0, 3.0, (W, W), (take, take + 0.25), straight
            )
        case KnotName.SQUARE_KNOT:
            return _flat(spec, 4.0, 15.0)
        case KnotName.HALF_KNOT:
            return _flat(spec, 2.0, 7.5)
        case KnotName.HALF_HITCH:
            return _hitch(spec)
        case KnotName.DOUBLE_HALF_HITCH:
            way = 2.0 / math.cos(math.radians(spec.slant_deg))
            return KnotFigures(spec, 2.5, 2.0, 3.0, (H, W), (way, 9.0 + spec.filler_d), (1, 0))
        case KnotName.OVERHAND:
            return KnotFigures(spec, 3.0 + n, n + 2.0, n, (W,) * n, (10.0 + n,) * n, straight)
        case KnotName.GATHERING:
            height = spec.turns + 1.0
            wrap = spec.turns * (math.pi + n)
            return KnotFigures(
                spec, height, n, n, (W, *(F,) * (n - 1)), (wrap, *(height,) * (n - 1)), straight
            )
        case KnotName.BRAID:
            return KnotFigures(spec, 6.0, n, 2.0, (W,) * n, (7.0,) * n, straight)


class MadeUpFigures:
    """A source of made-up figures that notes what it was asked."""

    def __init__(self) -> None:
        self.asked: list[KnotSpec] = []

    def figures(self, spec: KnotSpec) -> KnotFigures:
        if spec.strands > 60:
            raise KnotError(f"A {spec.name} of {spec.strands} strands cannot be tied.")
        self.asked.append(spec)
        return made_up(spec)


Given = dict[str, Any]
Work = list[dict[str, Any]]


@pytest.fixture(scope="session")
def figures() -> MadeUpFigures:
    return MadeUpFigures()


def mount(count: int, holder: Given | None = None, **cord: Any) -> Given:
    return {**(holder or {"nothing": {}}), "cords": [{"cord": "main", "count": count, **cord}]}


def plan(work: Work, **other: Any) -> Plan:
    given: Given = {
        "cordwright": 1,
        "title": "Trial",
        "cords": {"main": {"fibre": "cotton", "diameter": "4 mm"}},
        "mount": mount(4),
        "work": work,
    }
    return Plan.model_validate({**given, **other})


@pytest.fixture(scope="session")
def mount_of() -> Callable[..., Given]:
    """Makes a mount of equal cords, on nothing unless told otherwise."""
    return mount


@pytest.fixture(scope="session")
def plan_of() -> Callable[..., Plan]:
    """Makes a plan: 4 mm cord, four cords folded on nothing (strands 0 to 7) unless told else."""
    return plan


@pytest.fixture(scope="session")
def worked(figures: MadeUpFigures) -> Callable[..., Piece]:
    """Works the steps given, on the plan of `plan_of`."""

    def worked(work: Work, **other: Any) -> Piece:
        return work_plan(plan(work, **other), figures)

    return worked


def _ties() -> st.SearchStrategy[Given]:
    """Ties on 4 of 8 or more strands."""
    return st.builds(
        lambda at, knot, times, free, gap, hand: {
            "tie": knot,
            "on": f"{at} to {at + 3}",
            "times": times,
            "free": f"{free} mm",
            "gap": f"{gap} mm",
            "hand": hand,
        },
        st.integers(1, 5),
        st.sampled_from(["square-knot", "half-knot", "half-hitch", "overhand"]),
        st.integers(0, 3),
        st.integers(0, 30),
        st.integers(0, 9),
        st.sampled_from(["left", "right", "alternate"]),
    )


@pytest.fixture(scope="session")
def steps() -> st.SearchStrategy[Work]:
    """Work on eight strands or more, of every verb that does not end strands."""
    hitches = st.builds(
        lambda way, slant, rows: {"hitch": way, "slant": slant, "rows": rows},
        st.sampled_from(["left", "right"]),
        st.sampled_from(["level", "diagonal", 20]),
        st.integers(1, 2),
    )
    others = st.sampled_from(
        [
            {"rows": 3, "tie": "half-knot", "each": 4, "shift": 2, "gap": "3 mm"},
            {"hitch": "left", "cord": "main", "tail": "5 cm"},
            {"pass": "1-3", "behind": "4-5"},
            {"reorder": [2, 1]},
            {"seam": 3},
            {"braid": 4, "times": 2, "on": "5-8"},
            {"gather": "2-5", "turns": 3},
            {"gather": "2-5", "turns": 3, "with": 4},
            {"add": 1, "cord": "main", "after": 3},
            {"free": "12 mm", "on": "2-6"},
            {"section": "Part", "work": [{"tie": "overhand", "on": "2-4"}]},
        ]
    )
    return st.lists(st.one_of(_ties(), hitches, others), max_size=8)
