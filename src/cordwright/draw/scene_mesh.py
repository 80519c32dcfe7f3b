"""Tubes swept along curves, and bodies turned about an axis, as triangles.

A tube's rings follow the curve without turning about it: each ring's frame is the last one's, moved
on by double reflection (W. Wang, B. Juettler, D. Zheng & Y. Liu, 'Computation of rotation
minimizing frames', ACM Transactions on Graphics 27, 2008).
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from cordwright.draw.placed_cell import Points

    Faces = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Mesh:
    """A triangle mesh.

    Args:
        points: (n, 3) float.
        normals: (n, 3) unit vectors outwards.
        uv: (n, 2) float: once round the cord, and along it in patterns of its surface.
        faces: (m, 3) int, counter-clockwise from outside.
    """

    points: Points
    normals: Points
    uv: Points
    faces: Faces


def joined(meshes: Sequence[Mesh]) -> Mesh:
    """All meshes as one."""
    counts = np.cumsum([0, *(len(m.points) for m in meshes)])
    return Mesh(
        np.concatenate([m.points for m in meshes]),
        np.concatenate([m.normals for m in meshes]),
        np.concatenate([m.uv for m in meshes]),
        np.concatenate([m.faces + n for m, n in zip(meshes, counts, strict=False)]),
    )


def tube(
    way: Points, thick: float, sides: int, pattern: float, caps: tuple[bool, bool] = (True, True)
) -> Mesh:
    """A round tube.

    Args:
        way: (n, 3) float, two or more points of its axis.
        thick: its diameter, in the unit of the points.
        sides: of each ring.
        pattern: length along it after which its surface repeats, in diameters.
        caps: whether its beginning and its end are closed.
    """
    tangents, across = frames(way)
    angle = np.linspace(0.0, 2 * np.pi, sides + 1)
    other = _cross(tangents, across)
    out = (
        np.cos(angle)[None, :, None] * across[:, None]
        + np.sin(angle)[None, :, None] * other[:, None]
    )
    points = way[:, None] + 0.5 * thick * out
    along = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(way, axis=0), axis=1))])
    v = np.broadcast_to(along[:, None] / (pattern * thick), out.shape[:2])
    u = np.broadcast_to(angle[None] / (2 * np.pi), out.shape[:2])
    skin = Mesh(
        points.reshape(-1, 3),
        out.reshape(-1, 3),
        np.stack([u, v], axis=2).reshape(-1, 2),
        _grid(len(way), sides + 1),
    )
    parts = [skin]
    if caps[0]:
        parts.append(_cap(points[0, :-1], way[0], -tangents[0]))
    if caps[1]:
        parts.append(_cap(points[-1, :-1][::-1], way[-1], tangents[-1]))
    return joined(parts)


def frames(way: Points) -> tuple[Points, Points]:
    """Unit tangents of a curve and unit normals that do not turn about it, (n, 3) float each."""
    steps = np.diff(way, axis=0)
    ahead = steps / np.maximum(np.linalg.norm(steps, axis=1), 1e-12)[:, None]
    tangents = np.concatenate([ahead[:1], ahead[1:] + ahead[:-1], ahead[-1:]])
    tangents /= np.maximum(np.linalg.norm(tangents, axis=1), 1e-12)[:, None]
    across = np.empty_like(way)
    first = np.eye(3)[int(np.abs(tangents[0]).argmin())]
    r = np.cross(tangents[0], first)
    across[0] = r / np.linalg.norm(r)
    for i in range(len(way) - 1):
        across[i + 1] = _moved_on(way[i], way[i + 1], tangents[i], tangents[i + 1], across[i])
    return tangents, across


def _cross(a: Points, b: Points) -> Points:
    """Cross products of (n, 3) rows; NumPy's own takes four times as long for the short ways."""
    out = np.empty_like(a)
    for i, j, k in ((0, 1, 2), (1, 2, 0), (2, 0, 1)):
        out[:, i] = a[:, j] * b[:, k] - a[:, k] * b[:, j]
    return out


def _moved_on(a: Points, b: Points, ta: Points, tb: Points, r: Points) -> Points:
    step = b - a
    size = float(step @ step)
    if size < 1e-18:
        return r
    mirrored_r = r - (2.0 / size) * float(step @ r) * step
    mirrored_t = ta - (2.0 / size) * float(step @ ta) * step
    between = tb - mirrored_t
    size = float(between @ between)
    out = mirrored_r
    if size > 1e-18:
        out = mirrored_r - (2.0 / size) * float(between @ mirrored_r) * between
    out = out - float(out @ tb) * tb
    unit: Points = out / float(out @ out) ** 0.5
    return unit


@lru_cache(maxsize=256)
def _grid(rows: int, columns: int) -> Faces:
    """Triangles of a grid of vertices whose columns go round counter-clockwise."""
    i, j = np.meshgrid(np.arange(rows - 1), np.arange(columns - 1), indexing="ij")
    a = (i * columns + j).ravel()
    b, c, d = a + 1, a + columns, a + columns + 1
    faces: Faces = np.concatenate([np.stack([a, b, c], axis=1), np.stack([b, d, c], axis=1)])
    faces.flags.writeable = False  # the same for every tube of as many rings
    return faces


def _cap(rim: Points, middle: Points, normal: Points) -> Mesh:
    n = len(rim)
    points = np.concatenate([rim, middle[None]])
    i = np.arange(n)
    faces = np.stack([np.full(n, n), (i + 1) % n, i], axis=1)
    return Mesh(points, np.tile(normal, (n + 1, 1)), np.zeros((n + 1, 2)), faces)


def turned(outline: Points, sides: int) -> Mesh:
    """A body of revolution about the z axis.

    Args:
        outline: (n, 2) float: radius and height, from the axis at the base round to the axis at
            the top.
        sides: round it.
    """
    angle = np.linspace(0.0, 2 * np.pi, sides + 1)
    parts = []
    for (r0, z0), (r1, z1) in itertools.pairwise(outline):
        size = float(np.hypot(r1 - r0, z1 - z0))
        if size < 1e-9:
            continue
        out, up = (z1 - z0) / size, -(r1 - r0) / size
        ring = np.stack([np.cos(angle), np.sin(angle), 0 * angle], axis=1)
        normals = ring * [out, out, 0.0] + [0.0, 0.0, up]
        low = ring * [r0, r0, 0.0] + [0.0, 0.0, z0]
        high = ring * [r1, r1, 0.0] + [0.0, 0.0, z1]
        faces = _grid(2, sides + 1)
        # Where a side touches the axis, half of its triangles have no area.
        faces = faces[sides:] if r0 < 1e-9 else faces[:sides] if r1 < 1e-9 else faces
        both = np.concatenate([low, high])
        parts.append(Mesh(both, np.concatenate([normals] * 2), np.zeros((len(both), 2)), faces))
    return joined(parts)


def box(wide: float, deep: float, high: float) -> Mesh:
    """A box standing on z = 0, its middle on the z axis."""
    parts = []
    for axis in range(3):
        for side in (-1.0, 1.0):
            u, v = np.eye(3)[(axis + 1) % 3], np.eye(3)[(axis + 2) % 3]
            normal = side * np.eye(3)[axis]
            around = [
                normal + a * u + side * b * v for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1))
            ]
            points = 0.5 * np.array(around) * [wide, deep, high] + [0.0, 0.0, 0.5 * high]
            parts.append(
                Mesh(
                    points,
                    np.tile(normal, (4, 1)),
                    np.zeros((4, 2)),
                    np.array([[0, 1, 2], [0, 2, 3]]),
                )
            )
    return joined(parts)
