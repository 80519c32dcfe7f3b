"""From a spec to a tight knot: draw, tighten from several starts, measure."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from cordwright.errors import KnotError, TighteningError
from cordwright.knots.drawn import draw
from cordwright.knots.drawn.bundles import GATHERED_MOST, OVERHAND_MOST, clasp
from cordwright.knots.measure import figures
from cordwright.knots.places import exit_order, roles
from cordwright.knots.spec import KnotFigures, KnotName, KnotSpec
from cordwright.knots.tighten import STAGES, Stage, Tight, extrapolated, tighten, work

if TYPE_CHECKING:
    from cordwright.knots.tangle import Tangle

Progress = Callable[[float], None]

SEEDS = (None, 1, 2)
"""Starts from which a knot is tightened on the coarse mesh; the least energy goes on."""

SCOUT = STAGES[:2]
REFINE = STAGES[2:]

COARSE_SCOUT = (Stage(2.5, 20, 3e-2, 250), Stage(2.5, 100, 2e-2, 80))
COARSE_REFINE = (Stage(3, 500, 1e-2, 80), Stage(3, 4000, 5e-3, 80), Stage(5, 4000, 5e-3, 60))
"""For thick bundles: a mesh half as fine, so that they take seconds and not minutes."""

LARGE = 100.0
"""Cord drawn in a tangle, in d, above which the coarse stages are used, from one start."""

SAME = 0.01
"""Starts whose work is within this share of the least are counted as the same shape."""


@dataclass(frozen=True, slots=True)
class TightKnot:
    """A knot of the atlas: its figures, its curves and how far it can be trusted.

    Args:
        figures: heights, take-ups, residuals.
        tight: the curves, on the finest mesh.
        spread_d: largest difference in a course's length between the starts that came out as
            the same shape, in d; how well the shape is determined.
        starts: how many starts were tried.
    """

    figures: KnotFigures
    tight: Tight
    spread_d: float
    starts: int


def compute(spec: KnotSpec, progress: Progress | None = None) -> TightKnot:
    """Tighten a knot and measure it.

    Args:
        spec: a canonical spec (``canonical.canonical``).
        progress: is told the share done, 0 to 1.

    Raises:
        KnotError: the parameters make no knot.
        TighteningError: the tightening cannot be trusted.
    """
    if spec.name is KnotName.OVERHAND and spec.strands > OVERHAND_MOST:
        return _thick_bundle(spec, progress)
    tangle = draw(spec)
    large = drawn_length(tangle) > LARGE
    scout, refine = (COARSE_SCOUT, COARSE_REFINE) if large else (SCOUT, REFINE)
    seeds = SEEDS[:1] if large else SEEDS
    scouts = []
    for i, seed in enumerate(seeds):
        part = _part(progress, 0.4 * i / len(seeds), 0.4 * (i + 1) / len(seeds))
        scouts.append(tighten(tangle, stages=scout, seed=seed, progress=part)[-1])
    best = min(scouts, key=work)
    least = work(best)
    same = [t.lengths for t in scouts if work(t) - least < SAME * abs(least)]
    results = tighten(tangle, stages=refine, resume=best, progress=_part(progress, 0.4, 1.0))
    found = figures(spec, results)
    if spec.name is KnotName.GATHERING:
        found = _wound(found, spec.turns)
    _trust(spec, results[-1], found)
    return TightKnot(found, results[-1], float(np.ptp(same, axis=0).max()), len(seeds))


def _wound(turn: KnotFigures, turns: int) -> KnotFigures:
    """A gathering knot of so many turns, from one turn of it and the clasp under the turns.

    Under the turns two legs of the wrapping cord run the whole height, hooked into one another.
    The quarter bends by which the cord comes out of the coil at either end are not counted.
    """
    wrap, *fillers = turn.take_up_d
    height = turns * turn.height_d
    wound = turns * wrap + 2.0 * height + clasp_excess()
    return replace(
        turn,
        height_d=height,
        take_up_d=(wound, *(turns * f for f in fillers)),
        mesh_error_d=turns * turn.mesh_error_d,
    )


BUNDLE_ERROR = 0.08
"""Share by which an overhand knot of a thick bundle may be wrong: twice the most by which any
two bundles of 2 to 6 strands miss the rule (3.8 %, tests/knots/test_compute.py), because it is
carried on to ten times as many."""


def _thick_bundle(spec: KnotSpec, progress: Progress | None) -> TightKnot:
    """An overhand knot of many strands: as of the most that are tightened, of the same section.

    The bundle's section grows with the number of strands, so lengths grow with its root.
    """
    if spec.strands > GATHERED_MOST:
        raise KnotError(
            f"an overhand knot of {spec.strands} strands was asked for",
            remedy=f"knot at most {GATHERED_MOST} strands together, or in two bundles",
        )
    base = compute(replace(spec, strands=OVERHAND_MOST), progress)
    k = float(np.sqrt(spec.strands / OVERHAND_MOST))
    f = base.figures
    take_up = k * f.take_up_d[0]
    scaled = replace(
        f,
        spec=spec,
        height_d=k * f.height_d,
        width_d=k * f.width_d,
        depth_d=k * f.depth_d,
        roles=roles(spec),
        take_up_d=(take_up,) * spec.strands,
        exit_order=exit_order(spec),
        # More strands than were tightened: evenly across the bundle.
        enter_d=tuple(float(x) for x in k * np.linspace(*_edges(f.enter_d), spec.strands)),
        mesh_error_d=BUNDLE_ERROR * take_up,
    )
    return replace(base, figures=scaled)


def _edges(enter: tuple[float, ...]) -> tuple[float, float]:
    return min(enter), max(enter)


def clasp_excess() -> float:
    """Cord in two bights hooked into one another beyond the way between their ends, in d.

    4.2629 in J. Cantarella, J. Fu, R. Kusner, J. Sullivan & N. Wrinkle, 'Criticality for the
    Gehring link problem', Geometry & Topology 10 (2006).
    """
    reach = 5.0
    coarse, fine = tighten(clasp(reach))[-2:]
    total = extrapolated(coarse.lengths, fine.lengths, 8 / 5)
    return float(np.sum(total)) - 4.0 * reach


def drawn_length(tangle: Tangle) -> float:
    """Cord in the drawing, in d; rigid things left out."""
    return sum(
        float(np.linalg.norm(np.diff(c.points, axis=0), axis=1).sum())
        for c in tangle.courses
        if not c.fixed
    )


def _part(progress: Progress | None, start: float, end: float) -> Progress | None:
    """Progress through one part of the work, told as a share of the whole."""
    if progress is None:
        return None
    return lambda share: progress(start + share * (end - start))


OVERLAP_LIMIT = 0.02
"""Largest overlap of two tubes in d with which a shape is still believed."""

ERROR_LIMIT = 0.02
"""Largest share of a take-up by which the mesh may be wrong."""


def _trust(spec: KnotSpec, tight: Tight, found: KnotFigures) -> None:
    numbers = (found.height_d, found.width_d, found.depth_d, *found.take_up_d)
    if not all(np.isfinite(numbers)) or found.height_d <= 0:
        raise TighteningError(f"tightening a {spec.name.value} gave no finite shape")
    if tight.overlap > OVERLAP_LIMIT:
        raise TighteningError(
            f"tightening a {spec.name.value} left cords {tight.overlap:.3f} d inside one another",
            remedy="try other diameters or fewer strands",
        )
    if found.mesh_error_d > ERROR_LIMIT * max(found.take_up_d):
        raise TighteningError(
            f"tightening a {spec.name.value} did not settle: its take-up is known only to"
            f" {found.mesh_error_d:.2f} d",
            remedy="try other diameters or fewer strands",
        )
