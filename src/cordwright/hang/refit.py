"""The other way round: named sizes with which a piece fits a given pot, hook and cord.

Two steps, each on the true shape. First the net: while it clamps what is held, its free lengths are
made longer together; while that comes out or falls through, shorter. Then heights, length and cord
in hand: how each of these changes with each free size is taken from adding up, which is exact where
strands hang straight, and the least change that meets all of them is a mixed-integer linear
programme (HiGHS, in SciPy); the shape is solved again and what is still off is corrected, up to
``ROUNDS`` times. Change is counted as a share of the room between a size's bounds.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from cordwright.errors import PlanError
from cordwright.hang.fit import body_of, cord_to_cut, fit_report
from cordwright.hang.fitanswer import ChangeReport, LengthenReport, RefitReport
from cordwright.hang.freesizes import Free, free_sizes
from cordwright.hang.holding import held_of
from cordwright.hang.sitting import sit
from cordwright.piece.lengths import finished_length
from cordwright.piece.work import work
from cordwright.plan.hung import hung
from cordwright.plan.sizes import resolve_sizes

if TYPE_CHECKING:
    from cordwright.cords.handling import Handling
    from cordwright.hang.fitanswer import FitReport
    from cordwright.piece.figures import FiguresSource
    from cordwright.piece.model import Piece
    from cordwright.piece.risk import Known
    from cordwright.plan.model import Plan

Report = Callable[[str, float], None]
"""Told what is tried, and the share of the work that is done."""

Floats = NDArray[np.float64]

ROUNDS = 4
NET_TRIES = 7
NET_STEP = 1.06
LENGTHEN_TRIES = 4
MOST_NAMES = 3
NEAR = 3.0
"""Mm within which a length that is asked for counts as reached."""

COUNT = 3.0
"""What changing a count costs against a length: fewer knots look different, shorter cord less."""

TOO_MUCH = 1000.0
"""What a mm (of cord: a dm) too much costs, against the whole room of one size: it is last."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What the piece shall come to, beside holding what it holds and keeping clear of the floor.

    Args:
        cord_mm: most cord to cut in all.
        length_mm: from the hook to the lowest end.
        base_mm: height above the floor of the base of what is held.
    """

    cord_mm: float | None = None
    length_mm: float | None = None
    base_mm: float | None = None


@dataclass(frozen=True, slots=True)
class Hands:
    """Who ties it.

    Args:
        handling: how knots come out in their cord and hands, by the cord's name.
        known: what their swatches tell.
    """

    handling: Mapping[str, Handling] = field(default_factory=dict)
    known: Known | None = None


IDEAL = Hands()
"""Ideal cord and hands: what the tight knots say."""


@dataclass(frozen=True, slots=True)
class Refit:
    """What was found.

    Args:
        changes: new value of every size that changes, as written.
        before: their values before, as written.
        report: how the piece fits with them.
        missed: what is still off, a sentence each, with the bound that stops it; empty if it fits.
    """

    changes: Mapping[str, str]
    before: Mapping[str, str]
    report: FitReport
    missed: tuple[str, ...]

    def answer(self) -> FitReport:
        """How the piece fits, with what was changed and what is still off."""
        changes = [
            ChangeReport(size=name, before=self.before[name], after=after)
            for name, after in self.changes.items()
        ]
        told = RefitReport(changes=changes, missed=list(self.missed))
        return self.report.model_copy(update={"refit": told})


@dataclass(frozen=True, slots=True)
class _Tried:
    values: Mapping[str, float]
    piece: Piece
    report: FitReport


def refit(
    plan: Plan, figures: FiguresSource, asked: Asked, report: Report, hands: Hands = IDEAL
) -> Refit:
    """Find sizes with which a piece fits.

    Args:
        plan: with the thing to hold and the hook that it shall fit.
        figures: tight knots.
        asked: what else is asked.
        report: told of every try.
        hands: who ties it.

    Raises:
        CordwrightError: the plan cannot be worked, or hangs from nothing or holds nothing.
    """
    free = free_sizes(plan, work(plan, figures, handling=hands.handling))
    search = _Search(plan, figures, free, asked, report, hands)
    now = search.net(search.attempt({f.name: f.value for f in free}))
    for k in range(ROUNDS):
        wanted = search.nearest(now)
        if wanted == now.values:
            break
        now = search.attempt(wanted, (NET_TRIES + k) / (NET_TRIES + ROUNDS))
    changed = [f for f in free if now.values[f.name] != f.value]
    return Refit(
        {f.name: f.text(now.values[f.name]) for f in changed},
        {f.name: plan.sizes[f.name].value.text for f in changed},
        now.report,
        tuple(search.missed(now)),
    )


@dataclass(frozen=True, slots=True)
class _Goal:
    """One thing that is asked: its value now lies within ``[low, high]``.

    Args:
        what: its name in words.
        now: its value.
        low: least, or minus infinity.
        high: most, or infinity.
        slopes: by size, how it changes.
    """

    what: str
    now: float
    low: float
    high: float
    slopes: Mapping[str, float]

    @property
    def off(self) -> float:
        """How much it is off, mm."""
        return max(self.low - self.now, self.now - self.high, 0.0)


def lengthening(
    plan: Plan, figures: FiguresSource, found: FitReport, report: Report, hands: Hands = IDEAL
) -> list[LengthenReport]:
    """Named sizes of which each alone would let sit what is now clamped, to one step of 6 %.

    Args:
        plan: as it is.
        figures: tight knots.
        found: how it fits.
        report: told of every try.
        hands: who ties it.
    """
    names = [name for s in found.short for name in s.sizes]
    names = names or [f.name for f in free_sizes(plan, work(plan, figures)) if f.net]
    now, result = resolve_sizes(plan), []
    for name in list(dict.fromkeys(names))[:MOST_NAMES]:
        for k in range(1, LENGTHEN_TRIES + 1):
            mm = float(round(now.mm(name) * NET_STEP**k))
            sizes = {name: f"{mm / 10:g} cm"}
            try:
                resolved = resolve_sizes(plan, sizes)
            except PlanError:  # beyond its bounds
                break
            report(f"{name} {sizes[name]}", k / LENGTHEN_TRIES)
            piece = work(plan, figures, sizes=sizes, handling=hands.handling)
            told = hung(plan.hang, resolved) if plan.hang else None
            if sit(piece, held_of(body_of(piece, told))).holds:
                result.append(LengthenReport(size=name, now_mm=now.mm(name), at_least_mm=mm))
                break
    return result


LONGER = frozenset({"too tight", "not down", "cannot go in", "tips"})
SHORTER = frozenset({"falls through", "gap", "comes out", "not at rest"})


@dataclass(frozen=True, slots=True)
class _Search:
    plan: Plan
    figures: FiguresSource
    free: tuple[Free, ...]
    asked: Asked
    report: Report
    hands: Hands

    def attempt(self, values: Mapping[str, float], share: float = 0.0) -> _Tried:
        """The piece with these sizes, on the true shape."""
        changed = [f for f in self.free if values[f.name] != f.value]
        told = ", ".join(f"{f.name} {f.text(values[f.name])}" for f in changed)
        self.report(told or "the plan as it is", share)
        sizes = {f.name: f.text(values[f.name]) for f in changed}
        piece = self._worked(sizes)
        resolved = resolve_sizes(self.plan, sizes)
        hang = hung(self.plan.hang, resolved) if self.plan.hang else None
        found = fit_report(piece, hang, resolved, known=self.hands.known)
        return _Tried(values, piece, found)

    def _worked(self, sizes: Mapping[str, str]) -> Piece:
        return work(self.plan, self.figures, sizes=sizes, handling=self.hands.handling)

    def net(self, first: _Tried) -> _Tried:
        """The nearest lengths of the net with which what is held sits, or the best that was tried.

        Where one step is too tight and the next too loose, the middle of both is tried.
        """
        names = [f for f in self.free if f.net and not f.count]
        now, step, way = first, NET_STEP, 0
        best = first
        for tried in range(NET_TRIES):
            towards = _towards(now.report)
            if not towards or not names:
                break
            step = step**0.5 if way and towards != way else step
            way = towards
            values = {
                **now.values,
                **{f.name: f.bounded(now.values[f.name] * step**towards) for f in names},
            }
            if values == now.values:
                break
            now = self.attempt(values, (tried + 1) / (NET_TRIES + ROUNDS))
            best = min(best, now, key=lambda t: len(t.report.troubles))
        return now if not _towards(now.report) else best

    def nearest(self, now: _Tried) -> Mapping[str, float]:
        """The sizes of least change that meet all goals as far as adding up knows."""
        goals = self.goals(now)
        free = self.adjustable()
        if not free or not any(g.off > 0.0 for g in goals):
            return now.values
        found = _least_change(free, now.values, goals)
        return {**now.values, **{f.name: f.bounded(v) for f, v in zip(free, found, strict=True)}}

    def adjustable(self) -> tuple[Free, ...]:
        """Sizes that leave the net alone; all of them where there are no others."""
        return tuple(f for f in self.free if not f.net) or self.free

    def goals(self, now: _Tried) -> list[_Goal]:
        """What is asked, with what it is now and how it changes."""
        slopes = {f.name: self._slope(now, f) for f in self.adjustable()}
        report, asked, inf = now.report, self.asked, float("inf")
        long = {n: s[0] for n, s in slopes.items()}
        goals = []
        if report.hook_mm is not None:
            goals.append(
                _Goal(
                    "hanging length", report.length_mm, -inf, report.hook_mm - report.clear_mm, long
                )
            )
        if asked.length_mm is not None:
            low, high = asked.length_mm - NEAR, asked.length_mm + NEAR
            goals.append(_Goal("hanging length", report.length_mm, low, high, long))
        if asked.base_mm is not None and report.base.above_floor_mm is not None:
            low, high = asked.base_mm - NEAR, asked.base_mm + NEAR
            up = {n: -s[1] for n, s in slopes.items()}
            goals.append(
                _Goal(
                    f"height of the {report.holds}'s base",
                    report.base.above_floor_mm,
                    low,
                    high,
                    up,
                )
            )
        if asked.cord_mm is not None:
            cord = {n: s[2] for n, s in slopes.items()}
            goals.append(_Goal("cord to cut", report.cord_mm, -inf, asked.cord_mm, cord))
        return goals

    def _slope(self, now: _Tried, size: Free) -> tuple[float, float, float]:
        """How length, depth of the base and cord change with a size, by adding up, per mm or 1."""
        value = now.values[size.name]
        step = 1.0 if size.count else 20.0
        step = step if value + step <= size.most else -step
        changed = {
            f.name: f.text(now.values[f.name]) for f in self.free if now.values[f.name] != f.value
        }
        piece = self._worked({**changed, size.name: size.text(value + step)})
        known = self.hands.known
        pairs = zip(_added_up(piece, known), _added_up(now.piece, known), strict=True)
        long, deep, cord = ((after - before) / step for after, before in pairs)
        return long, deep, cord

    def missed(self, now: _Tried) -> list[str]:
        """What is still off, in words, with the bounds that stop it."""
        told = []
        for goal in self.goals(now):
            if goal.off > 0.5:
                way = "more" if goal.now > goal.high else "less"
                told.append(
                    f"The {goal.what} stays {goal.now:.0f} mm, {goal.off:.0f} mm {way} than asked"
                    f"{_stopped(self.adjustable(), now.values, goal)}."
                )
        net = [f for f in self.free if f.net and not f.count]
        towards = _towards(now.report)
        end = "most" if towards > 0 else "least"
        at = [
            f"'{f.name}' is at its {end}, {f.text(now.values[f.name])}"
            for f in net
            if abs(now.values[f.name] - (f.most if towards > 0 else f.least)) < 1.0
        ]
        for trouble in now.report.troubles:
            if trouble.kind == "too low":
                continue  # it is one of the goals
            why = f" ({'; '.join(at)})" if at else "" if net else " (no size of the net is free)"
            told.append(f"{trouble.what.removesuffix('.')}{why}.")
        return told


def _towards(report: FitReport) -> int:
    """1 where the net needs longer cord, -1 where it needs shorter, 0 where it is right."""
    kinds = {t.kind for t in report.troubles}
    return 1 if kinds & LONGER else -1 if kinds & SHORTER else 0


def _stopped(free: tuple[Free, ...], values: Mapping[str, float], goal: _Goal) -> str:
    """Which bounds keep a goal from being met."""
    way = 1.0 if goal.now < goal.low else -1.0
    stops = []
    for f in free:
        slope = way * goal.slopes.get(f.name, 0.0)
        if slope > 1e-6 and values[f.name] >= f.most - 0.5:
            stops.append(f"'{f.name}' is at its most, {f.text(f.most)}")
        elif slope < -1e-6 and values[f.name] <= f.least + 0.5:
            stops.append(f"'{f.name}' is at its least, {f.text(f.least)}")
    return f": {'; '.join(stops)}" if stops else "" if free else ": no size is free"


def _added_up(piece: Piece, known: Known | None) -> tuple[float, float, float]:
    """Length, depth of the lowest round of knots, and cord to cut, by adding up, mm."""
    rounds = [k for k in piece.knots if k.shape == "round"] or list(piece.knots)
    deep = max(piece.mm(k.top) for k in rounds)
    return piece.mm(finished_length(piece)), deep, cord_to_cut(piece, known)


def _least_change(free: tuple[Free, ...], now: Mapping[str, float], goals: list[_Goal]) -> Floats:
    """(f,) float: values within their bounds that meet the goals, or miss them by the least."""
    from scipy.optimize import Bounds, LinearConstraint, milp

    n, m = len(free), len(goals)
    span = np.array([f.span for f in free])
    start = np.array([f.value for f in free])
    here = np.array([now[f.name] for f in free])
    dear = np.where([f.count for f in free], COUNT, 1.0)
    cost = np.concatenate([np.zeros(n), dear / span, np.full(m, TOO_MUCH)])
    slope = np.array([[g.slopes[f.name] for f in free] for g in goals])
    scale = np.array([0.01 if g.what == "cord to cut" else 1.0 for g in goals])
    eye, none = np.eye(n), np.zeros((n, m))
    change = np.block([[eye, -eye, none], [-eye, -eye, none]])
    most = slope @ here + np.array([g.high - g.now for g in goals])
    least = slope @ here + np.array([g.low - g.now for g in goals])
    off = np.diag(1.0 / scale)
    rows = np.block([[slope, np.zeros((m, n)), -off], [-slope, np.zeros((m, n)), -off]])
    found = milp(
        cost,
        integrality=np.concatenate([[f.count for f in free], np.zeros(n + m)]),
        bounds=Bounds(
            np.concatenate([[f.least for f in free], np.zeros(n + m)]),
            np.concatenate([[f.most for f in free], np.full(n + m, np.inf)]),
        ),
        constraints=[
            LinearConstraint(change, -np.inf, np.concatenate([start, -start])),
            LinearConstraint(rows, -np.inf, np.concatenate([most, -least])),
        ],
    )
    values: Floats = here if found.x is None else found.x[:n]
    return values
