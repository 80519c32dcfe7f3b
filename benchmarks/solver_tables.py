"""Prints the tables of docs/solver.md, computed afresh.

Run ``python -m benchmarks.solver_tables literature`` or ``... sensitivity`` from the project's
folder; the first takes some twenty seconds, the second about two minutes.
"""

from __future__ import annotations

import sys
from dataclasses import replace
from typing import TYPE_CHECKING

import click
import numpy as np

from cordwright.knots.compute import REFINE, SCOUT, SEEDS
from cordwright.knots.drawn.hitches import ROW_PUSH, double_half_hitch
from cordwright.knots.drawn.sinnets import PUSH, half_knot, square_knot
from cordwright.knots.spec import Role
from cordwright.knots.tighten import STAGES, Tight, extrapolated, tighten, work
from tests.knots.literature import CHECKS, computed

if TYPE_CHECKING:
    from cordwright.knots.tangle import Tangle

FINER = STAGES[-1].per_d / STAGES[-2].per_d


def pushed(tangle: Tangle, push: float, drawn: float = PUSH) -> Tangle:
    """The same tangle with its cells pressed together with another force than it was drawn for."""
    if tangle.repeat is None:
        raise ValueError("only what repeats is pushed together")
    return replace(tangle, repeat=replace(tangle.repeat, push=tangle.repeat.push - drawn + push))


def taut(tangle: Tangle, tension: float) -> Tangle:
    """The same tangle with its fillers pulled with another force."""
    if tangle.repeat is None:
        raise ValueError("only what repeats has fillers")
    extra = sum(tension - c.tension for c in tangle.courses if c.role is Role.FILLER)
    courses = tuple(
        replace(c, tension=tension) if c.role is Role.FILLER else c for c in tangle.courses
    )
    repeat = replace(tangle.repeat, push=tangle.repeat.push - extra)
    return replace(tangle, courses=courses, repeat=repeat)


def held(tension: float) -> Tangle:
    """A level double half hitch with its holding cord pulled with another force."""
    tangle = double_half_hitch(0.0)
    if tangle.repeat is None:
        raise ValueError("only what repeats is pushed together")
    holding, hitch = tangle.courses
    repeat = replace(tangle.repeat, push=ROW_PUSH - tension)
    return replace(tangle, courses=(replace(holding, tension=tension), hitch), repeat=repeat)


def limit(results: tuple[Tight, ...], course: int) -> tuple[float, float, float]:
    """Period in d, twist in degrees, length of a course in d, extrapolated to no mesh."""
    rows = [
        np.array([r.state.period, np.degrees(r.state.twist), r.lengths[course]])
        for r in results[-2:]
    ]
    period, twist, used = (float(v) for v in extrapolated(rows[0], rows[1], FINER))
    return period, twist, used


def literature() -> None:
    click.echo("| what | published | computed | difference | allowed | source |")
    click.echo("| --- | --- | --- | --- | --- | --- |")
    for check in CHECKS:
        value = computed(check)
        off = 100 * (value / check.published - 1)
        allowed = 100 * check.tolerance / check.published
        click.echo(
            f"| {check.what} | {check.published:.6g} | {value:.4f} | {off:+.3f} %"
            f" | {allowed:.1f} % | {check.source} |"
        )


def sensitivity() -> None:
    click.echo("| knot | choice | period / d | twist | working cord / d |")
    click.echo("| --- | --- | --- | --- | --- |")
    for push in (0.0, 0.5, 1.0, 2.0, 4.0):
        row(f"half knot, two fillers | push {push:g}", pushed(half_knot(2), push), 0)
    for push in (0.0, 0.5, 1.0, 2.0, 4.0, 8.0):
        hitch = pushed(double_half_hitch(0.0), push, ROW_PUSH)
        row(f"double half hitch, level | push {push:g}", hitch, 1)
    for tension in (4.0, 6.0, 10.0):
        row(f"double half hitch, level | holding pull {tension:g}", held(tension), 1)
    for push in (0.0, 1.0, 4.0):
        row(f"square knot, two fillers | push {push:g}", pushed(square_knot(2), push), 0)
    for tension in (4.0, 6.0, 10.0):
        row(f"square knot, two fillers | filler pull {tension:g}", taut(square_knot(2), tension), 0)
    for tension in (4.0, 6.0, 10.0):
        row(f"half knot, two fillers | filler pull {tension:g}", taut(half_knot(2), tension), 0)


def row(name: str, tangle: Tangle, course: int) -> None:
    # As the atlas does it: the start with the least work is tightened to the end.
    scouts = [tighten(tangle, stages=SCOUT, seed=seed)[-1] for seed in SEEDS]
    results = tighten(tangle, stages=REFINE, resume=min(scouts, key=work))
    period, twist, used = limit(results, course)
    click.echo(f"| {name} | {period:.3f} | {twist:.1f} | {used:.2f} |")


if __name__ == "__main__":
    {"literature": literature, "sensitivity": sensitivity}[sys.argv[1]]()
