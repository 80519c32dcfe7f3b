"""Things that a piece holds: a pot (frustum), a bowl, a sphere, a box.

Each is a convex body standing on the level plane z = 0 about the z axis, with a signed distance.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

import numpy as np

if TYPE_CHECKING:
    from cordwright.hang.frame import Floats, Points


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
    # Cord never comes out through the top: from inside, the way out is the side or the base.
    depth = depth[:, :-1]
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


def sphere(across: float) -> Turned:
    """A ball of so many mm across."""
    r = across / 2
    angle = np.linspace(-0.5 * np.pi, 0.5 * np.pi, 41)
    return Turned(tuple((float(r * np.cos(q)), float(r + r * np.sin(q))) for q in angle))


def bowl(across: float, high: float) -> Turned:
    """A spherical cap, open above: mm across the rim and high."""
    radius = (across**2 / 4 + high**2) / (2 * high)
    end = np.arcsin(np.clip((high - radius) / radius, -1.0, 1.0))
    angle = np.linspace(-0.5 * np.pi, end, 32)
    side = [(float(radius * np.cos(q)), float(radius + radius * np.sin(q))) for q in angle]
    return Turned((*side, (0.0, high)))


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
