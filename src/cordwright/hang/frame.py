"""A piece as nodes, bars and spans: what is solved for when it hangs.

Every knot is a bar from the middle of its upper edge to the middle of its lower one; strands come
in and go out at *ports* beside the bar, where they do in the tight knot. Free cord between two
knots is a span between two ports: it pulls when it is taut and never pushes. A port moves with its
bar: it is a fixed combination of the bar's two ends, given which way the knot faces.

Lengths in mm, forces in N; x to the right, y away from the viewer, z up; depth 0 is z = 0.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Points = NDArray[np.float64]


def cross(a: Points, b: Points) -> Points:
    """(p, 3) float: vector products, row by row; for few rows much quicker than NumPy's."""
    out: Points = a[:, [1, 2, 0]] * b[:, [2, 0, 1]] - a[:, [2, 0, 1]] * b[:, [1, 2, 0]]
    return out


@dataclass(frozen=True, slots=True)
class Ports:
    """Points fixed to bars.

    A port lies at ``along_top * T + along_bottom * B + aside * (B - T) x facing`` where T and B
    are the ends of its bar. An anchor or a plain node has ``top == bottom`` and no ``aside``.

    Args:
        top: (p,) int, node at the bar's upper end.
        bottom: (p,) int, node at its lower end.
        along: (p,) float, share of the way from top to bottom.
        aside: (p,) float, distance to the right of the bar over the bar's length.
        facing: (p, 3) float, unit vector away from the viewer of the knot.
    """

    top: Ints
    bottom: Ints
    along: Floats
    aside: Floats
    facing: Points

    def at(self, x: Points) -> Points:
        """(p, 3) float: where the ports lie for node positions x, mm."""
        t, b = x[self.top], x[self.bottom]
        along = self.along[:, None]
        across = cross(b - t, self.facing)
        where: Points = (1.0 - along) * t + along * b + self.aside[:, None] * across
        return where

    def slopes(self, direction: Points) -> tuple[Points, Points]:
        """((p, 3), (p, 3)) float: how a direction's component changes with T and with B."""
        along = self.along[:, None]
        swing = self.aside[:, None] * cross(self.facing, direction)
        return (1.0 - along) * direction - swing, along * direction + swing

    def part(self, rows: Ints) -> Ports:
        """Some of the ports."""
        return Ports(
            self.top[rows],
            self.bottom[rows],
            self.along[rows],
            self.aside[rows],
            self.facing[rows],
        )

    def turned(self, facing: Points) -> Ports:
        """The same ports with their knots facing another way."""
        return Ports(self.top, self.bottom, self.along, self.aside, facing)

    def __len__(self) -> int:
        return len(self.top)


def ports(rows: list[tuple[int, int, float, float, tuple[float, float, float]]]) -> Ports:
    """Ports from rows of top, bottom, along, aside and facing."""
    n = len(rows)
    return Ports(
        np.array([r[0] for r in rows], dtype=np.int64),
        np.array([r[1] for r in rows], dtype=np.int64),
        np.array([r[2] for r in rows], dtype=np.float64),
        np.array([r[3] for r in rows], dtype=np.float64),
        np.array([r[4] for r in rows], dtype=np.float64).reshape(n, 3),
    )


@dataclass(frozen=True, slots=True)
class Spans:
    """Free cord between two ports.

    Args:
        a: upper ports.
        b: lower ports.
        rest: (s,) float, length in mm; the shape decides it where it is not given.
        given: (s,) bool, whether the length is given.
        strand: (s,) int, strand of the piece, -1 for none.
        stop: (s,) int, index in the strand's course of the knot at the lower end.
        row: (s,) bool, whether it runs from hitch to hitch along a holding cord.
        weight: (s,) float, N, of the cord in it.
        thick: (s,) float, mm, of that cord.
        give: (s,) float, 1/N, share of its length that the cord stretches for every N; 0 where it
            does not.
    """

    a: Ports
    b: Ports
    rest: Floats
    given: NDArray[np.bool_]
    strand: Ints
    stop: Ints
    row: NDArray[np.bool_]
    weight: Floats
    thick: Floats
    give: Floats | float = 0.0

    def __len__(self) -> int:
        return len(self.rest)


@dataclass(frozen=True, slots=True)
class Bars:
    """Knots as stiff bars.

    Args:
        top: (k,) int, node at the upper end.
        bottom: (k,) int, node at the lower end.
        height: (k,) float, mm.
        width: (k,) float, mm.
        depth: (k,) float, front to back, mm.
        facing: (k, 3) float, unit vector away from the viewer.
        knot: (k,) int, knot of the piece, -1 for none.
    """

    top: Ints
    bottom: Ints
    height: Floats
    width: Floats
    depth: Floats
    facing: Points
    knot: Ints

    def __len__(self) -> int:
        return len(self.top)


@dataclass(frozen=True, slots=True)
class Frame:
    """Everything that hangs.

    Args:
        start: (n, 3) float, mm, first guess of the nodes.
        free: (n, 3) bool, coordinates that may move.
        own: (n,) float, N, pulling down at each node beside the spans' weight.
        bars: the knots.
        spans: the free cord.
        below: (c, 2) int, pairs of bars of which the second hangs from the first.
        beside: (c, 2) int, pairs of bars side by side in a row, the left one first.
        stiff: (c, 2) int, pairs of bars that stay parallel: neighbours in a sinnet or on a
            holding cord.
    """

    start: Points
    free: NDArray[np.bool_]
    own: Floats
    bars: Bars
    spans: Spans
    below: Ints
    beside: Ints
    stiff: Ints

    @property
    def weight(self) -> Floats:
        """(n,) float: N, pulling down at each node; a span pulls at both of its ends."""
        half, count = 0.5 * self.spans.weight, len(self.start)
        upper = np.bincount(self.spans.a.bottom, half, minlength=count)
        lower = np.bincount(self.spans.b.top, half, minlength=count)
        total: Floats = self.own + upper + lower
        return total
