"""Tight lengths that others published, and how each is computed here.

``python -m benchmarks.solver_tables literature`` prints them side by side.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache, partial
from typing import TYPE_CHECKING

import numpy as np

from cordwright.knots.drawn.bundles import clasp, overhand
from cordwright.knots.tighten import STAGES, Stage, Tight, extrapolated, tighten
from tests.knots import reference

if TYPE_CHECKING:
    from cordwright.knots.tangle import Tangle

ASHTON = (
    "T. Ashton, J. Cantarella, M. Piatek & E. Rawdon, 'Knot Tightening by Constrained Gradient"
    " Descent' (2011)"
)
MINIMUM = (
    "exact: J. Cantarella, R. Kusner & J. Sullivan, 'On the minimum ropelength of knots and"
    " links' (2002)"
)
GEHRING = (
    "J. Cantarella, J. Fu, R. Kusner, J. Sullivan & N. Wrinkle, 'Criticality for the Gehring link"
    " problem' (2006)"
)
PIERANSKI = "P. Pieranski and others (2001)"
BOHR = "J. Bohr & K. Olsen (2011)"

CLOSE = 0.002
"""Share by which a computed figure may differ from a published one."""

REACH = 5.0
"""How far away the ends of the clasp are held, in d."""


@dataclass(frozen=True, slots=True)
class Check:
    """A published figure.

    Args:
        what: what was measured, with its unit.
        published: the figure.
        rounding: half of its last published digit; 0 for exact ones.
        source: who published it.
        start: the tangle from which it is computed.
        measure: the figure, from the tightening of the tangle.
        stages: how it is tightened.
    """

    what: str
    published: float
    rounding: float
    source: str
    start: Callable[[], Tangle]
    measure: Callable[[tuple[Tight, ...]], float]
    stages: tuple[Stage, ...] = STAGES

    @property
    def tolerance(self) -> float:
        """How far a computed figure may lie from the published one."""
        return max(CLOSE * self.published, self.rounding)


@cache
def tightened(check: Check) -> tuple[Tight, ...]:
    """Its tightening, done once."""
    return tighten(check.start(), stages=check.stages)


def computed(check: Check) -> float:
    """The figure as it comes out here."""
    return check.measure(tightened(check))


def _lengths(results: tuple[Tight, ...]) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    coarse, fine = results[-2:]
    return extrapolated(coarse.lengths, fine.lengths, STAGES[-1].per_d / STAGES[-2].per_d)


def total(results: tuple[Tight, ...]) -> float:
    """Length of all courses together, in d."""
    return float(_lengths(results).sum())


def first(results: tuple[Tight, ...]) -> float:
    """Length of the first course, in d."""
    return float(_lengths(results)[0])


def clasp_excess(results: tuple[Tight, ...]) -> float:
    """Length of two hooked bights less that of their legs, in d."""
    return total(results) - 4.0 * REACH


def span_excess(results: tuple[Tight, ...]) -> float:
    """Length of an open course beyond the height between its ends, in d."""
    return total(results) - float(np.ptp(results[-1].curve(0)[:, 2]))


def lay_angle(results: tuple[Tight, ...]) -> float:
    """Angle of laid strands from level, in degrees."""
    fine = results[-1]
    return float(np.degrees(np.arcsin(fine.state.period / fine.lengths[0])))


def laying(per_d: float) -> tuple[Stage, ...]:
    """Stages for laid strands: the length hardly depends on the angle, so it must settle well."""
    return (*STAGES[:2], Stage(per_d, 500, 3e-3, 100), Stage(per_d, 4000, 1e-6, 300))


CHECKS = (
    Check("trefoil, length / d", 16.3718, 0, ASHTON, partial(reference.torus, 2, 3), total),
    Check("figure-eight, length / d", 21.044, 0, ASHTON, reference.figure_eight, total),
    Check("5_1, length / d", 23.601, 0, ASHTON, reference.five_one, total),
    Check("4^2_1, length of both / d", 20.006, 0, ASHTON, reference.four_two_one, total),
    Check("Hopf link, length of both / d", 4 * np.pi, 0, MINIMUM, reference.hopf, total),
    *(
        Check(
            f"chain of {k} rings, length of all / d",
            (2 * np.pi + 2) * k - 4,
            0,
            MINIMUM,
            partial(reference.chain, k),
            total,
        )
        for k in (3, 4)
    ),
    *(
        Check(
            f"ring round {n} parallel cord{'s' if n > 1 else ''}, its length / d",
            2 * np.pi + (n if n > 1 else 0),
            0,
            MINIMUM,
            partial(reference.ring_round, n),
            first,
        )
        for n in range(1, 6)
    ),
    Check("simple clasp, excess / d", 4.2629, 0, GEHRING, partial(clasp, REACH), clasp_excess),
    # Published to three digits: what rounds to 10.1 is right, and that is wider than 0.2 %.
    Check(
        "open overhand knot, excess / d", 10.1, 0.05, PIERANSKI, partial(overhand, 1), span_excess
    ),
    *(
        Check(
            f"zero-twist lay of {n}, degrees from level",
            angle,
            0.05,
            BOHR,
            partial(reference.lay, n),
            lay_angle,
            laying(per_d),
        )
        for n, angle, per_d in ((2, 39.4, 16), (3, 42.8, 10), (4, 43.8, 8))
    ),
)
