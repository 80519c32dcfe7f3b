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
        axis = r < 1e-9  # on the axis every way out is as good
        far = np.where(axis, 1.0, r)
        d, aside, up = _to_outline(r, p[:, 2], np.array(self.outline))
        x = np.where(axis, 1.0, p[:, 0]) / far
        return d, np.stack([aside * x, aside * p[:, 1] / far, up], axis=1)


def _to_outline(r: Floats, z: Floats, outline: Points) -> tuple[Floats, Floats, Floats]:
    """Signed distance in the plane to an open outline whose ends lie on the axis.

    Args:
        r: (n,) float, mm, from the axis.
        z: (n,) float, mm, height.
        outline: (k, 2) float, mm, the outline's corners.

    Returns:
        The distance, and the normal outwards and upwards, (n,) float each.
    """
    # One row for every side of the outline, so that few and long array operations do.
    first, d = outline[:-1, :, None], np.diff(outline, axis=0)[:, :, None]
    right, high = r - first[:, 0], z - first[:, 1]
    dr, dz = d[:, 0], d[:, 1]
    length2 = np.maximum(dr * dr + dz * dz, 1e-18)
    t = np.minimum(np.maximum((right * dr + high * dz) / length2, 0.0), 1.0)
    away_r, away_z = right - t * dr, high - t * dz
    dist2 = away_r * away_r + away_z * away_z
    # Going from the base outwards and up, the outside lies on the right hand.
    length = np.sqrt(length2)
    side_r, side_z = dz / length, -dr / length
    depth = right * side_r + high * side_z
    inside = depth.max(axis=0) <= 0.0
    # Cord that is deep inside does not come out through the top: the way out is the side or the
    # base. Over the rim the top is a face like any other.
    depth[-1] = np.where(depth[-1] > -LIP, depth[-1], -np.inf)
    k, rows = dist2.argmin(axis=0), np.arange(len(r))
    best = np.sqrt(dist2[k, rows])
    face = np.where(inside, depth.argmax(axis=0), k)
    flat, far = inside | (best < 1e-9), np.maximum(best, 1e-9)
    out = np.where(flat, side_r[face, 0], away_r[k, rows] / far)
    up = np.where(flat, side_z[face, 0], away_z[k, rows] / far)
    return np.where(inside, depth[face, rows], best), out, up


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
