"""Knots of a scene: what their tubes depend on, the tubes, and how each knot is turned."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

import numpy as np

from cordwright.draw.piece_curves import Line, line
from cordwright.draw.scene_mesh import Mesh, tube
from cordwright.draw.scene_surface import Surface, surface
from cordwright.knots.spec import KnotName

if TYPE_CHECKING:
    from cordwright.draw.placed import Instance, Placed
    from cordwright.draw.placed_cell import Cell, Points
    from cordwright.knots.spec import KnotSpec

Detail = Literal["low", "high"]


@dataclass(frozen=True, slots=True)
class Fineness:
    """How fine tubes are.

    Args:
        sides: corners of a ring, in knots.
        turn: radians that a tube turns from ring to ring at most.
        free_sides: corners of a ring, in free cord.
        round_sides: corners round a ring, a rod or what is held.
    """

    sides: int
    turn: float
    free_sides: int
    round_sides: int


FINENESS: dict[Detail, Fineness] = {
    "high": Fineness(12, 0.3, 10, 48),
    "low": Fineness(6, 0.6, 5, 20),
}


@dataclass(frozen=True, slots=True)
class KnotShape:
    """What the tubes of a knot depend on, wherever it is tied and in whatever colours.

    Args:
        spec: which knot.
        ratio: thickness of each strand in d, by place.
        pattern: after how many of its diameters each strand's surface repeats.
    """

    spec: KnotSpec
    ratio: tuple[float, ...]
    pattern: tuple[float, ...]

    @property
    def key(self) -> str:
        """A name that other shapes do not have."""
        return hashlib.sha256(repr(self).encode()).hexdigest()[:16]

    def tubes(self, cell: Cell, fine: Fineness) -> list[Mesh]:
        """One tube for each strand, in d, closed at both ends; its axes are the cell's.

        Args:
            cell: the knot's curves.
            fine: how fine.
        """
        found = []
        for way, thick, repeat in zip(cell.ways, self.ratio, self.pattern, strict=False):
            sides = fine.sides
            if self.spec.name is KnotName.GATHERING and way.place:
                sides = max(4, fine.sides // 2)  # hidden under the turns, but for both ends
            found.append(tube(thinned(line(way.points), fine.turn), thick, sides, repeat))
        return found


def knot_shapes(what: Placed) -> Iterator[tuple[Instance, KnotShape]]:
    """Every knot with its shape."""
    piece = what.piece
    thick = [piece.values[f"d:{piece.cords[s.cord].cord}"] for s in piece.strands]
    pitch = [strand_surface(what, s.id).pitch for s in piece.strands]
    for k in what.knots:
        ratio = tuple(round(thick[s] / k.d, 2) for s in k.strands)
        yield k, KnotShape(k.cell.spec, ratio, tuple(pitch[s] for s in k.strands))


def strand_surface(what: Placed, strand: int) -> Surface:
    """What a strand's cord looks like."""
    piece = what.piece
    return surface(piece.plan.cords[piece.cords[piece.strands[strand].cord].cord].build)


def thinned(way: Line, turn: float) -> Points:
    """The points of a way between which it turns by no more than so many radians."""
    count = max(1, int(np.ceil(way.turned[-1] / turn)))
    at = np.searchsorted(way.turned, np.linspace(0.0, way.turned[-1], count + 1)[1:-1])
    keep = sorted({0, *at.tolist(), len(way.points) - 1})
    kept: Points = way.points[keep]
    return kept


def quaternions(knots: Sequence[Instance]) -> Points:
    """(n, 4) float: x, y, z, w of every knot's attitude, in the scene's axes."""
    if not knots:
        return np.empty((0, 4))
    from scipy.spatial.transform import Rotation

    swap = np.array([[1.0, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, -1.0, 0.0]])
    axes = np.stack([swap @ k.axes @ swap.T for k in knots])
    found: Points = Rotation.from_matrix(axes).as_quat()
    return found


def scene_points(points: Points) -> Points:
    """Points in mm as metres, y up and the front towards +z."""
    swapped: Points = 0.001 * np.stack([points[..., 0], points[..., 2], -points[..., 1]], axis=-1)
    return swapped


def in_scene(mesh: Mesh, scale: float) -> Mesh:
    """A mesh in the scene's axes, so many times as large."""
    points = scene_points(mesh.points) * (1000.0 * scale)
    return Mesh(points, scene_points(mesh.normals) * 1000.0, mesh.uv, mesh.faces)
