"""What may not pass through what: knots beside and below each other, and the thing held.

Contacts are half-spaces, taken anew at every step: point a stays on its side of point b,
``normal . (a - b) >= gap``. Knots are boxes of their tight width and height: two that overlap in
both are kept apart across whichever overlap is less; one that hangs from another stays below it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from cordwright.hang.frame import Ports

if TYPE_CHECKING:
    from cordwright.hang.frame import Bars, Floats, Frame, Ints, Points
    from cordwright.hang.vessel import Vessel


@dataclass(frozen=True, slots=True)
class Touching:
    """Contacts.

    Args:
        a: points kept on one side.
        b: points that they are kept from.
        normal: (c, 3) float, from b to a: unit vectors, shorter where contact is softer.
        gap: (c,) float, mm, least distance along the normal, times its length.
    """

    a: Ports
    b: Ports
    normal: Points
    gap: Floats

    def between(self, x: Points) -> Points:
        """(c, 3) float: from b to a, mm."""
        return self.a.at(x) - self.b.at(x)

    def slopes(self) -> tuple[Ints, Points]:
        """((c, 4) int, (c, 4, 3) float): nodes, and how the distance along the normal changes."""
        at, ab = self.a.slopes(self.normal)
        bt, bb = self.b.slopes(self.normal)
        nodes = np.stack([self.a.top, self.a.bottom, self.b.top, self.b.bottom], axis=1)
        return nodes, np.stack([at, ab, -bt, -bb], axis=1)


def joined(parts: list[Touching]) -> Touching:
    """All contacts in one."""
    return Touching(
        _joined_ports([p.a for p in parts]),
        _joined_ports([p.b for p in parts]),
        np.concatenate([p.normal for p in parts]),
        np.concatenate([p.gap for p in parts]),
    )


def softly(touching: Touching, share: float) -> Touching:
    """The same contacts with a share of their stiffness: energy goes with the squared overlap."""
    root = float(np.sqrt(share))
    return Touching(touching.a, touching.b, root * touching.normal, root * touching.gap)


def _joined_ports(parts: list[Ports]) -> Ports:
    return Ports(
        np.concatenate([p.top for p in parts]),
        np.concatenate([p.bottom for p in parts]),
        np.concatenate([p.along for p in parts]),
        np.concatenate([p.aside for p in parts]),
        np.concatenate([p.facing for p in parts]),
    )


def none() -> Touching:
    """No contact at all."""
    empty = plain(np.empty(0, np.int64))
    return Touching(empty, empty, np.empty((0, 3)), np.empty(0))


def plain(nodes: Ints) -> Ports:
    """Ports that are just nodes."""
    zero = np.zeros(len(nodes))
    return Ports(nodes, nodes, zero, zero, np.zeros((len(nodes), 3)))


def _middles(bars: Bars, rows: Ints, along: float = 0.5) -> Ports:
    count = len(rows)
    return Ports(
        bars.top[rows],
        bars.bottom[rows],
        np.full(count, along),
        np.zeros(count),
        bars.facing[rows],
    )


def stacked(frame: Frame, x: Points) -> Touching:
    """Knots stay below the knots that they hang from."""
    bars, upper, lower = frame.bars, frame.below[:, 0], frame.below[:, 1]
    down = x[bars.bottom[upper]] - x[bars.top[upper]]
    down = down / np.maximum(np.linalg.norm(down, axis=1), 1e-9)[:, None]
    return Touching(
        _middles(bars, lower, 0.0), _middles(bars, upper, 1.0), down, np.zeros(len(upper))
    )


def abreast(frame: Frame, x: Points) -> Touching:
    """Knots side by side in a row do not overlap."""
    bars, left, right = frame.bars, frame.beside[:, 0], frame.beside[:, 1]
    down = x[bars.bottom] - x[bars.top]
    down = down / np.maximum(np.linalg.norm(down, axis=1), 1e-9)[:, None]
    to_right = np.cross(down, bars.facing)
    axis = to_right[left] + to_right[right]
    size = np.linalg.norm(axis, axis=1)
    # Knots that face away from each other, across a round, do not meet.
    near = size > 1.0
    axis = axis[near] / size[near, None]
    left, right = left[near], right[near]
    wide = 0.5 * (bars.width[left] + bars.width[right])
    return Touching(_middles(bars, right), _middles(bars, left), axis, wide)


def against(vessel: Vessel, node: int, points: Ports, clear: Floats, x: Points) -> Touching:
    """Points of the piece stay outside of what it holds.

    Args:
        vessel: its shape, about its base's middle.
        node: the node at its base's middle.
        points: what must stay outside.
        clear: (p,) float, mm, how far (half a cord's thickness).
        x: (n, 3) float, mm, positions of all nodes.
    """
    where = points.at(x)
    distance, normal = vessel.distance(where - x[node])
    near = distance < clear + 40.0
    rows = np.flatnonzero(near)
    held = plain(np.full(len(rows), node, dtype=np.int64))
    part = Ports(
        points.top[rows],
        points.bottom[rows],
        points.along[rows],
        points.aside[rows],
        points.facing[rows],
    )
    now = np.einsum("ij,ij->i", normal[rows], where[rows] - x[node])
    return Touching(part, held, normal[rows], clear[rows] - distance[rows] + now)
