"""Things that a piece holds: a pot (frustum), a bowl, a sphere, a box.

Each is a convex body standing on the level plane z = 0 about the z axis, with a signed distance.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

import numpy as np

if TYPE_CHECKING:
    from cordwright.hang.frame import Floats, Points


LIP = 5.0
"""Mm below its top within which cord inside of a body comes out upwards."""


class Vessel(Protocol):
    """A convex body on the plane z = 0."""

    @property
    def height(self) -> float:
        """Mm from base to top."""
        ...

    @property
    def widest(self) -> float:
        """Largest distance of its surface from the z axis, mm."""
        ...

    def distance(self, p: Points) -> tuple[Floats, Points]:
        """((n,), (n, 3)): signed distance of points in mm (negative inside), outward normals."""
        ...

    def radius(self, z: Floats) -> Floats:
        """(n,) float: distance of its surface from the axis at a height, mm; 0 outside of it."""
        ...


@dataclass(frozen=True, slots=True)
class Turned:
    """A body of revolution with a convex outline.

    Args:
        outline: (k, 2) float, mm: radius and height of the outline's corners, from the axis at the
            base outwards, up, and back to the axis at the top.
    """

    outline: tuple[tuple[float, float], ...]

    @property
    def height(self) -> float:
        """Mm."""
        return max(z for _, z in self.outline)

    @property
    def widest(self) -> float:
        """Mm."""
        return max(r for r, _ in self.outline)

    def radius(self, z: Floats) -> Floats:
        """Mm, 0 above and below."""
        side = [(zz, r) for r, zz in self.outline[1:-1]]
        heights, radii = np.array(side).T
        found: Floats = np.interp(z, heights, radii, left=0.0, right=0.0)
        return found

    def distance(self, p: Points) -> tuple[Floats, Points]:
        """Signed distance to the surface."""
        r = np.hypot(p[:, 0], p[:, 1])
        out = np.stack([p[:, 0], p[:, 1]], axis=1) / np.maximum(r, 1e-9)[:, None]
        out[r < 1e-9] = (1.0, 0.0)  # on the axis every way out is as good
        d, n = _to_outline(np.stack([r, p[:, 2]], axis=1), np.array(self.outline))
        return d, np.concatenate([n[:, :1] * out, n[:, 1:]], axis=1)


def _to_outline(p: Points, outline: Points) -> tuple[Floats, Points]:
    """Signed distance in the plane to an open outline whose ends lie on the axis."""
    a, b = outline[:-1], outline[1:]
    d = b - a
    length2 = np.maximum((d**2).sum(axis=1), 1e-18)
    t = np.clip(((p[:, None, :] - a) * d).sum(axis=2) / length2, 0.0, 1.0)
    nearest = a + t[:, :, None] * d
    away = p[:, None, :] - nearest
    dist = np.linalg.norm(away, axis=2)
    k = dist.argmin(axis=1)
    rows = np.arange(len(p))
    # Going from the base outwards and up, the outside lies on the right hand.
    side = np.stack([d[:, 1], -d[:, 0]], axis=1) / np.sqrt(length2)[:, None]
    depth = ((p[:, None, :] - a) * side).sum(axis=2)
    inside = (depth <= 0.0).all(axis=1)
    # Cord that is deep inside does not come out through the top: the way out is the side or the
    # base. Over the rim the top is a face like any other.
    depth[:, -1] = np.where(depth[:, -1] > -LIP, depth[:, -1], -np.inf)
    best, vector = dist[rows, k], away[rows, k]
    normal = np.where(
        (inside | (best < 1e-9))[:, None],
        side[np.where(inside, depth.argmax(axis=1), k)],
        vector / np.maximum(best, 1e-9)[:, None],
    )
    return np.where(inside, depth.max(axis=1), best), normal


def pot(rim: float, base: float, height: float) -> Turned:
    """A frustum: diameters at rim and base, and height, mm."""
    return Turned(((0.0, 0.0), (base / 2, 0.0), (rim / 2, height), (0.0, height)))


@dataclass(frozen=True, slots=True)
class Cap:
    """A part of a sphere below a level plane: a bowl, or all of it: a ball.

    Args:
        ball: mm, radius of the sphere.
        high: mm, height of the plane above its lowest point.
    """

    ball: float
    high: float

    @property
    def height(self) -> float:
        """Mm."""
        return self.high

    @property
    def widest(self) -> float:
        """Mm."""
        return self.ball if self.high >= self.ball else self.rim

    @property
    def rim(self) -> float:
        """Radius where the plane cuts it, mm; 0 for a ball."""
        return float(np.sqrt(max(0.0, self.ball**2 - (self.high - self.ball) ** 2)))

    def radius(self, z: Floats) -> Floats:
        """Mm, 0 above and below."""
        found = np.sqrt(np.maximum(0.0, self.ball**2 - (z - self.ball) ** 2))
        return np.where((z >= 0.0) & (z <= self.high), found, 0.0)

    def distance(self, p: Points) -> tuple[Floats, Points]:
        """Signed distance to the surface; the top counts where cord comes over the rim."""
        q = p - np.array([0.0, 0.0, self.ball])
        far = np.linalg.norm(q, axis=1)
        out = q / np.maximum(far, 1e-9)[:, None]
        out[far < 1e-9] = (1.0, 0.0, 0.0)
        d, n = far - self.ball, out
        if self.rim <= 0.0:
            return d, n
        up = p[:, 2] - self.high
        r = np.hypot(p[:, 0], p[:, 1])
        # Where the sphere's nearest place is cut off, it is the rim or the top.
        over = (self.ball + self.ball * out[:, 2] > self.high) & ((up > 0.0) | (d > 0.0))
        aside = np.maximum(0.0, r - self.rim) / np.maximum(r, 1e-9)
        away = np.stack([aside * p[:, 0], aside * p[:, 1], up], axis=1)
        near = np.linalg.norm(away, axis=1)
        d = np.where(over, near, d)
        n = np.where(over[:, None], away / np.maximum(near, 1e-9)[:, None], n)
        lip = (up <= 0.0) & (up > -LIP) & (up > d) & (d < 0.0)
        d = np.where(lip, up, d)
        n = np.where(lip[:, None], np.array([0.0, 0.0, 1.0]), n)
        return d, n


def sphere(across: float) -> Cap:
    """A ball of so many mm across."""
    return Cap(0.5 * across, across)


def bowl(across: float, high: float) -> Cap:
    """A spherical cap, open above: mm across the rim and high."""
    return Cap((across**2 / 4 + high**2) / (2 * high), high)


@dataclass(frozen=True, slots=True)
class Box:
    """A box of so many mm: x, y and z."""

    wide: float
    deep: float
    high: float

    @property
    def height(self) -> float:
        """Mm."""
        return self.high

    @property
    def widest(self) -> float:
        """Mm, along the diagonal."""
        return 0.5 * float(np.hypot(self.wide, self.deep))

    def radius(self, z: Floats) -> Floats:
        """Half the diagonal within its height."""
        return np.where((z >= 0) & (z <= self.high), self.widest, 0.0)

    def distance(self, p: Points) -> tuple[Floats, Points]:
        """Signed distance to the surface."""
        half = 0.5 * np.array([self.wide, self.deep, self.high])
        q = p - np.array([0.0, 0.0, half[2]])
        over = np.abs(q) - half
        outside = np.maximum(over, 0.0)
        far = np.linalg.norm(outside, axis=1)
        inner = np.minimum(over.max(axis=1), 0.0)
        axis = np.eye(3)[over.argmax(axis=1)] * np.where(q >= 0, 1.0, -1.0)
        normal = np.where(
            (far > 1e-9)[:, None], np.sign(q) * outside / np.maximum(far, 1e-12)[:, None], axis
        )
        return far + inner, normal
