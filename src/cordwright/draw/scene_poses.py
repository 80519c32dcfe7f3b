"""Where everything of a scene is: enough to draw it for who has its parts already.

A small change of a plan moves knots and bends cord, and leaves every knot's shape as it is. So
poses of knots and curves of free cord, a few kilobytes, stand for a whole new scene; the parts are
in `cordwright.draw.scene_parts`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.piece_colours import linear, rgb_of
from cordwright.draw.scene_knots import knot_shapes, quaternions, scene_points, strand_surface
from cordwright.draw.scene_surface import surface
from cordwright.draw.scene_things import things

if TYPE_CHECKING:
    from collections.abc import Iterator

    from cordwright.draw.placed import Placed
    from cordwright.draw.placed_cell import Points

START, TAIL = 1, 2
"""Which ends of free cord are cut ends, and closed: its first, its last; both added up."""


@dataclass(frozen=True, slots=True)
class Skin:
    """What one of the plan's cords looks like.

    Args:
        name: the plan's.
        surface: name of its surface.
        colour: linear red, green and blue, 0 to 1.
    """

    name: str
    surface: str
    colour: tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class PosedThing:
    """What the piece hangs on or holds: its part's key, and where it is, metres."""

    key: str
    at: tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Poses:
    """Where everything is; metres, y up, the front towards +z.

    Args:
        shapes: keys of the shapes of knots.
        skins: what cords look like.
        things: what is no cord.
        strands: names of the strands.
        skin: index of each strand's skin.
        knots: how many there are.
        cords: how many free lengths there are.
        numbers: little-endian 32-bit floats. For every knot: index of its shape, its number in the
            piece, how many strands it has, x, y, z, the unit quaternion x, y, z, w, metres for one
            d, and its strands by place. Then for every free length: its strand, its closed ends (1
            the first, 2 the last, 3 both), its thickness, after how much of it its surface
            repeats, how many cubic Bézier curves it runs along, and their control points, x, y, z
            each; a curve begins where the last one ends.
    """

    shapes: tuple[str, ...]
    skins: tuple[Skin, ...]
    things: tuple[PosedThing, ...]
    strands: tuple[str, ...]
    skin: tuple[int, ...]
    knots: int
    cords: int
    numbers: bytes


def poses(what: Placed) -> Poses:
    """Where everything of a piece is.

    Args:
        what: the piece in space.
    """
    piece = what.piece
    shapes: dict[str, int] = {}
    rows = [*_knots(what, shapes), *_cords(what)]
    numbers = np.concatenate(rows) if rows else np.empty(0)
    kinds = list(piece.plan.cords)
    return Poses(
        tuple(shapes),
        tuple(
            Skin(name, surface(spec.build).name, _three(np.array(linear(rgb_of(spec.colour)))))
            for name, spec in piece.plan.cords.items()
        ),
        tuple(PosedThing(t.key, _three(scene_points(t.at))) for t in things(what)),
        tuple(piece.name(s.id) for s in piece.strands),
        tuple(kinds.index(piece.cords[s.cord].cord) for s in piece.strands),
        len(what.knots),
        len(what.cords),
        numbers.astype("<f4").tobytes(),
    )


def _knots(what: Placed, shapes: dict[str, int]) -> Iterator[Points]:
    """Every knot's numbers; ``shapes`` takes in the keys of their shapes."""
    keys: dict[object, str] = {}
    turns = quaternions(what.knots)
    for (k, shape), turn in zip(knot_shapes(what), turns, strict=True):
        if shape not in keys:
            keys[shape] = shape.key
        at = shapes.setdefault(keys[shape], len(shapes))
        where = scene_points(k.origin)
        head = at, k.knot, len(k.strands), *where, *turn, 0.001 * k.d
        yield np.array([*head, *k.strands], dtype=float)


def _cords(what: Placed) -> Iterator[Points]:
    pitch = [strand_surface(what, s.id).pitch for s in what.piece.strands]
    for cord in what.cords:
        ends = START * (cord.part == "start") + TAIL * (cord.part == "tail")
        thick = 0.001 * cord.thick
        head = cord.strand, ends, thick, pitch[cord.strand] * thick, len(cord.curves)
        # A curve's first point is the last one's last.
        points = np.concatenate([cord.curves[0, :1], cord.curves[:, 1:].reshape(-1, 3)])
        yield np.concatenate([head, scene_points(points).ravel()])


def _three(values: Points) -> tuple[float, float, float]:
    x, y, z = (float(v) for v in values)
    return x, y, z
