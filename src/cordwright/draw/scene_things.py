"""What is no cord in a scene: the ring or rod, and what is held."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.ink import CLAY
from cordwright.draw.piece_things import Ring, Rod, mount, mount_colour
from cordwright.draw.scene_mesh import Mesh, box, tube, turned
from cordwright.hang.vessel import Box, Turned

if TYPE_CHECKING:
    from cordwright.draw.placed import Placed
    from cordwright.draw.placed_cell import Points
    from cordwright.hang.vessel import Vessel


@dataclass(frozen=True, slots=True)
class Thing:
    """Something that the piece hangs on or holds.

    Args:
        name: ring, rod or held.
        body: what it is like, from which its mesh is made.
        colour: sRGB.
        rough: how matt it is, 0 to 1.
        metal: 1 for metal.
        at: (3,) float, mm, where its mesh's origin is.
    """

    name: str
    body: Ring | Rod | Vessel
    colour: str
    rough: float
    metal: float
    at: Points

    @property
    def key(self) -> str:
        """A name that things of other shapes or colours do not have."""
        told = repr((self.name, self.body, self.colour, self.rough, self.metal))
        return hashlib.sha256(told.encode()).hexdigest()[:16]

    def mesh(self, sides: int) -> Mesh:
        """Its mesh, mm, with so many corners round it."""
        if isinstance(self.body, Ring):
            return _ring_mesh(self.body, sides)
        if isinstance(self.body, Rod):
            half = 0.5 * self.body.length
            way = np.array([[-half, 0.0, self.body.axis], [half, 0.0, self.body.axis]])
            return tube(way, self.body.thick, max(12, sides // 2), 1.0)
        return body_mesh(self.body, sides)


def things(what: Placed) -> Iterator[Thing]:
    """What a piece hangs on, if that is no cord, and what it holds."""
    on, colour = mount(what.piece), mount_colour(what.piece)
    if isinstance(on, Ring):
        yield Thing("ring", on, colour, 0.35, 0.8, np.zeros(3))
    elif isinstance(on, Rod):
        yield Thing("rod", on, colour, 0.7, 0.0, np.zeros(3))
    if what.held is not None and what.base is not None:
        yield Thing("held", what.held.vessel, CLAY, 0.85, 0.0, what.base)


def _ring_mesh(ring: Ring, sides: int) -> Mesh:
    angle = np.linspace(0.0, 2 * np.pi, 2 * sides + 1)
    across, along = ring.radius * np.sin(angle), -ring.radius * np.cos(angle)
    flat = np.full_like(angle, ring.middle)
    way = [across, along, flat] if ring.level else [across, 0 * angle, flat + along]
    return tube(np.stack(way, axis=1), ring.wire, max(8, sides // 3), 1.0, (False, False))


def body_mesh(vessel: Vessel, sides: int) -> Mesh:
    """A held thing as a mesh, standing on z = 0."""
    if isinstance(vessel, Box):
        return box(vessel.wide, vessel.deep, vessel.high)
    if isinstance(vessel, Turned):
        return turned(np.array(vessel.outline), sides)
    z = np.linspace(0.0, vessel.height, 24)
    side = np.stack([vessel.radius(z), z], axis=1)
    return turned(np.concatenate([[[0.0, 0.0]], side, [[0.0, vessel.height]]]), sides)
