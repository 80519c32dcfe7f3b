"""What a piece hangs on and what it holds, in the picture."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.ink import CLAY, METAL, WOOD, mixed
from cordwright.hang.mounts import lies_level, ring_radius
from cordwright.hang.vessel import Box, Turned
from cordwright.plan.model import RingMount, RodMount

if TYPE_CHECKING:
    from cordwright.draw.placed import Placed
    from cordwright.draw.placed_cell import Points
    from cordwright.hang.vessel import Vessel
    from cordwright.piece.model import Piece

EDGE = 0.45
"""How much darker than a thing its outline is."""


@dataclass(frozen=True, slots=True)
class Ring:
    """A mounting ring.

    Args:
        radius: mm, of the axis of its wire.
        wire: mm, thickness.
        middle: mm, height of its middle.
        level: whether it lies level.
        turn: radians by which one that stands upright is turned out of the picture.
    """

    radius: float
    wire: float
    middle: float
    level: bool = False
    turn: float = 0.0

    @property
    def across(self) -> float:
        """Half of how wide the axis of its wire looks, mm."""
        return self.radius if self.level else self.radius * abs(float(np.cos(self.turn)))

    @property
    def height(self) -> float:
        """Half of how high it is, mm."""
        return (0.0 if self.level else self.radius) + 0.5 * self.wire


@dataclass(frozen=True, slots=True)
class Rod:
    """A mounting rod: length and thickness, height of its axis, mm."""

    length: float
    thick: float
    axis: float


def mount(piece: Piece, turn: float = 0.0) -> Ring | Rod | None:
    """What the piece hangs on, if that is no cord; lark's heads begin at its top, z = 0.

    Args:
        piece: as worked.
        turn: radians by which the piece is turned about the vertical; rods are not turned.
    """
    from cordwright.plan.sizes import resolve_sizes
    from cordwright.plan.sums import length

    on = piece.plan.mount.on
    env = resolve_sizes(piece.plan).env
    if isinstance(on, RingMount):
        wire = length(on.wire, env).at(piece.values)
        radius = ring_radius(piece)
        level = lies_level(piece)
        return Ring(radius, wire, (0.0 if level else radius) - 0.5 * wire, level, turn)
    if isinstance(on, RodMount):
        thick = length(on.thick, env).at(piece.values)
        return Rod(length(on.length, env).at(piece.values), thick, -0.5 * thick)
    return None


def mount_colour(piece: Piece) -> str:
    """Wood for rods, metal for rings."""
    return WOOD if isinstance(piece.plan.mount.on, RodMount) else METAL


def outline(vessel: Vessel) -> Points:
    """(n, 2) float: what a held thing looks like, mm: across, and up from its base."""
    if isinstance(vessel, Box):
        w, h = 0.5 * vessel.wide, vessel.high
        return np.array([[-w, 0.0], [w, 0.0], [w, h], [-w, h]])
    if isinstance(vessel, Turned):
        side = np.array(vessel.outline)
    else:
        z = np.linspace(0.0, vessel.height, 24)
        side = np.stack([vessel.radius(z), z], axis=1)
    return np.concatenate([side, side[::-1] * [-1.0, 1.0]])


def extent(what: Placed) -> Points:
    """(n, 2) float: corners of the mount and the held thing, mm: across and up."""
    parts = [np.empty((0, 2))]
    on = mount(what.piece, what.turn)
    if isinstance(on, Ring):
        r = on.across + 0.5 * on.wire
        parts.append(np.array([[-r, on.middle - on.height], [r, on.middle + on.height]]))
    elif isinstance(on, Rod):
        parts.append(np.array([[-0.5 * on.length, -on.thick], [0.5 * on.length, 0.0]]))
    if what.held is not None and what.base is not None:
        parts.append(outline(what.held.vessel) + what.base[[0, 2]])
    return np.concatenate(parts)


def mount_svg(what: Placed, scale: float, origin: Points) -> str:
    """The ring or rod; a ring that is turned out of the picture is an ellipse."""
    on = mount(what.piece, what.turn)
    colour = mount_colour(what.piece)
    dark, light = mixed(colour, "#000000", EDGE), mixed(colour, "#ffffff", 0.35)
    if isinstance(on, Ring) and on.level:  # seen from its edge
        thick = on.wire
        on = Rod(2 * on.radius + thick, thick, on.middle)
    if isinstance(on, Ring):
        x, y = origin[0], origin[1] - on.middle * scale
        bands = ((1.0, dark), (0.84, colour), (0.3, light))
        return "".join(
            f'<ellipse class="mount" cx="{x:.2f}" cy="{y:.2f}" '
            f'rx="{on.across * scale:.2f}" ry="{on.radius * scale:.2f}" '
            f'fill="none" stroke="{c}" stroke-width="{w * on.wire * scale:.3f}"/>'
            for w, c in bands
        )
    if isinstance(on, Rod):
        x, y = origin[0] - 0.5 * on.length * scale, origin[1]
        w, h = on.length * scale, on.thick * scale
        rim = 0.08 * h
        return (
            f'<rect class="mount" x="{x:.2f}" y="{y:.2f}" width="{w:.2f}" height="{h:.2f}" '
            f'rx="{0.3 * h:.2f}" fill="{dark}"/>'
            f'<rect x="{x + rim:.2f}" y="{y + rim:.2f}" width="{w - 2 * rim:.2f}" '
            f'height="{h - 2 * rim:.2f}" rx="{0.25 * h:.2f}" fill="{colour}"/>'
            f'<rect x="{x + 2 * rim:.2f}" y="{y + 0.35 * h:.2f}" width="{w - 4 * rim:.2f}" '
            f'height="{0.3 * h:.2f}" rx="{0.15 * h:.2f}" fill="{light}"/>'
        )
    return ""


def held_svg(what: Placed, scale: float, origin: Points) -> str:
    """The pot, bowl, ball or box."""
    if what.held is None or what.base is None:
        return ""
    shape = (outline(what.held.vessel) + what.base[[0, 2]]) * [1.0, -1.0] * scale + origin
    points = " ".join(f"{x:.2f},{y:.2f}" for x, y in shape)
    left, right = float(shape[:, 0].min()), float(shape[:, 0].max())
    shades = ((0.0, -0.25), (0.3, 0.18), (0.65, 0.0), (1.0, -0.35))
    stops = "".join(f'<stop offset="{at}" stop-color="{_shade(CLAY, s)}"/>' for at, s in shades)
    return (
        f'<linearGradient id="held" gradientUnits="userSpaceOnUse" x1="{left:.2f}" y1="0" '
        f'x2="{right:.2f}" y2="0">{stops}</linearGradient>'
        f'<polygon class="held" points="{points}" fill="url(#held)" '
        f'stroke="{mixed(CLAY, "#000000", EDGE)}" stroke-width=".3" stroke-linejoin="round"/>'
    )


def _shade(colour: str, by: float) -> str:
    return mixed(colour, "#ffffff" if by > 0 else "#000000", abs(by))
