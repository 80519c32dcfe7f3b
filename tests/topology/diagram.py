"""The crossings of closed polylines seen from one side, as a planar diagram (PD) code.

A crossing is where two edges cross in the projection; the nearer one is over. Labels number the
arcs between crossings, along each curve in turn. The code of a crossing lists the four arcs round
it counter-clockwise, from the one on which the under strand comes in: the convention of
Spherogram and of most tables of knots.

Only for polylines whose projection is in general position; directions are tried until one is.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Curve = npt.NDArray[np.float64]  # (n, 3), closed: the last point is joined to the first

MARGIN = 1e-9  # how near to an edge's end (as a part of the edge) a crossing may not lie
TRIES = 12  # directions looked along; the diagram with the fewest crossings is kept


class DegenerateProjectionError(Exception):
    """Seen from here, curves meet at a vertex or touch in space."""


@dataclass(frozen=True, slots=True)
class Crossing:
    """Two edges that cross in the projection.

    Args:
        over: curve number and position along it (edge number + part of the edge) of the near one.
        under: the same of the far one.
        sign: +1 if right-handed, else -1.
    """

    over: tuple[int, float]
    under: tuple[int, float]
    sign: int


@dataclass(frozen=True, slots=True)
class Diagram:
    """What a set of closed curves looks like from one side.

    Args:
        pd: for each crossing its four arcs.
        crossings: the same crossings, in the same order.
        curves: how many curves there are.
        apart: how many of them cross nothing, themselves included, and so are not in ``pd``.
    """

    pd: tuple[tuple[int, int, int, int], ...]
    crossings: tuple[Crossing, ...]
    curves: int
    apart: int

    def linking(self, a: int, b: int) -> int:
        """Linking number of curves ``a`` and ``b``: half the sum of the signs between them."""
        between = [c.sign for c in self.crossings if {c.over[0], c.under[0]} == {a, b}]
        return sum(between) // 2


def diagram(curves: list[Curve], seed: int = 1) -> Diagram:
    """The simplest diagram among some directions of view, the same at each call.

    Raises:
        DegenerateProjectionError: no direction is in general position: curves touch.
    """
    rng = np.random.default_rng(seed)
    found: list[Diagram] = []
    for _ in range(TRIES):
        rotation, _r = np.linalg.qr(rng.normal(size=(3, 3)))
        rotation *= np.sign(np.linalg.det(rotation))
        try:
            crossings = find_crossings([c @ rotation.T for c in curves])
        except DegenerateProjectionError:
            continue
        found.append(_from_crossings(crossings, len(curves)))
    if not found:
        raise DegenerateProjectionError("the curves touch: no projection tells over from under")
    return min(found, key=lambda d: len(d.pd))


def find_crossings(curves: list[Curve]) -> list[Crossing]:
    """All crossings as seen against the z axis: the greater z is over."""
    ends = np.cumsum([0, *(len(c) for c in curves)])
    start = np.concatenate(curves)
    step = np.concatenate([np.roll(c, -1, axis=0) - c for c in curves])
    curve_of = np.repeat(np.arange(len(curves)), [len(c) for c in curves])
    following = np.concatenate(
        [e + np.roll(np.arange(len(c)), -1) for c, e in zip(curves, ends[:-1], strict=True)]
    )
    crossings = []
    for i in range(len(start) - 1):
        others = np.arange(i + 1, len(start))
        others = others[(others != following[i]) & (following[others] != i)]
        for j, here, there in _edges_crossed(start, step, i, others):
            z = start[i, 2] + here * step[i, 2] - start[j, 2] - there * step[j, 2]
            if abs(z) < MARGIN:
                raise DegenerateProjectionError(f"edges {i} and {j} touch")
            a = (int(curve_of[i]), i - int(ends[curve_of[i]]) + here)
            b = (int(curve_of[j]), j - int(ends[curve_of[j]]) + there)
            turn = step[i, 0] * step[j, 1] - step[i, 1] * step[j, 0]
            over, under = (a, b) if z > 0 else (b, a)
            crossings.append(Crossing(over, under, 1 if (turn > 0) == (z > 0) else -1))
    return crossings


def _edges_crossed(
    start: Curve, step: Curve, i: int, others: npt.NDArray[np.intp]
) -> list[tuple[int, float, float]]:
    """Which of the other edges cross edge ``i`` in the x-y plane, and at which part of each."""
    p, d = start[i, :2], step[i, :2]
    q, e = start[others, :2], step[others, :2]
    turn = d[0] * e[:, 1] - d[1] * e[:, 0]
    way = q - p
    with np.errstate(divide="ignore", invalid="ignore"):  # parallel edges: not finite, no crossing
        here = (way[:, 0] * e[:, 1] - way[:, 1] * e[:, 0]) / turn
        there = (way[:, 0] * d[1] - way[:, 1] * d[0]) / turn
        inside = (here > -MARGIN) & (here < 1 + MARGIN) & (there > -MARGIN) & (there < 1 + MARGIN)
    crossed = []
    for k in np.nonzero(inside)[0]:
        if min(here[k], 1 - here[k], there[k], 1 - there[k]) < MARGIN:
            raise DegenerateProjectionError(f"edge {i} is met at a vertex")
        crossed.append((int(others[k]), float(here[k]), float(there[k])))
    return crossed


def _from_crossings(crossings: list[Crossing], curves: int) -> Diagram:
    """Number the arcs along each curve and write down the four round each crossing."""
    into: dict[tuple[int, bool], int] = {}  # (crossing, whether over) -> arc that comes in
    out: dict[tuple[int, bool], int] = {}
    arcs = apart = 0
    for curve in range(curves):
        passes = sorted(
            (position, n, over)
            for n, crossing in enumerate(crossings)
            for (c, position), over in ((crossing.over, True), (crossing.under, False))
            if c == curve
        )
        apart += not passes
        for k, (_, n, over) in enumerate(passes):
            into[n, over] = arcs + k
            out[n, over] = arcs + (k + 1) % len(passes)
        arcs += len(passes)
    pd = []
    for n, crossing in enumerate(crossings):
        # Counter-clockwise from the incoming under strand: at a right-handed crossing the over
        # strand leaves on that side, at a left-handed one it comes in there.
        second, fourth = (out, into) if crossing.sign > 0 else (into, out)
        pd.append((into[n, False], second[n, True], out[n, False], fourth[n, True]))
    return Diagram(tuple(pd), tuple(crossings), curves, apart)
