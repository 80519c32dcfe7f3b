"""The piece as a scene in three dimensions: cords as tubes, each kind of knot swept once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

import numpy as np

from cordwright import __version__
from cordwright.draw.gltf import Gltf
from cordwright.draw.ink import CLAY
from cordwright.draw.piece_colours import linear, rgb_of
from cordwright.draw.piece_curves import Line, line
from cordwright.draw.piece_measures import sampled
from cordwright.draw.piece_things import Ring, Rod, mount, mount_colour
from cordwright.draw.scene_mesh import Mesh, box, joined, tube, turned
from cordwright.draw.scene_surface import normal_map, surface
from cordwright.hang.vessel import Box, Turned
from cordwright.knots.spec import KnotName

if TYPE_CHECKING:
    from collections.abc import Sequence

    from cordwright.draw.placed import Instance, Placed
    from cordwright.draw.placed_cell import Points
    from cordwright.draw.placed_cords import FreeCord
    from cordwright.hang.vessel import Vessel

Detail = Literal["low", "high"]

FREE_BYTES = 3_200_000
"""What free cord may take; with more of it rings have fewer corners, then there are fewer."""

FEWEST = 5
"""Corners of a ring at least."""

COARSER = (1.0, 1.5, 2.5, 4.0, 8.0)
"""How much more than wanted free cord may turn from ring to ring where there is much of it."""


@dataclass(frozen=True, slots=True)
class Fineness:
    """How fine tubes are.

    Args:
        sides: corners of a ring, in knots.
        turn: radians that a tube turns from ring to ring at most.
        free_sides: corners of a ring, in free cord.
    """

    sides: int
    turn: float
    free_sides: int


FINENESS: dict[Detail, Fineness] = {
    "high": Fineness(12, 0.3, 10),
    "low": Fineness(6, 0.6, 5),
}


def scene(what: Placed, *, detail: Detail = "high") -> bytes:
    """The scene as glTF binary.

    Everything of cord says which strand it is: a knot's node lists the strands of its primitives,
    free cord has them by vertex, and the scene lists the strands' names.

    Args:
        what: the piece in space.
        detail: low is for turning it while it is looked at.
    """
    fine = FINENESS[detail]
    file = Gltf(f"Cordwright {__version__}")
    cords = _cord_materials(what, file)
    kind = [what.piece.cords[s.cord].cord for s in what.piece.strands]
    _knots(what, file, [cords[k] for k in kind], fine)
    _free(what, file, kind, cords, fine)
    _things(what, file, 48 if detail == "high" else 20)
    names = [what.piece.name(s.id) for s in what.piece.strands]
    return file.finished(what.piece.plan.title, names)


def _cord_materials(what: Placed, file: Gltf) -> dict[str, int]:
    textures: dict[str, int] = {}
    found = {}
    for name, spec in what.piece.plan.cords.items():
        look = surface(spec.build)
        if look.name not in textures:
            textures[look.name] = file.normal_texture(look.name, normal_map(look))
        found[name] = file.material(
            name, linear(rgb_of(spec.colour)), rough=0.9, normals=textures[look.name]
        )
    return found


def _pattern(what: Placed, strand: int) -> float:
    piece = what.piece
    return surface(piece.plan.cords[piece.cords[piece.strands[strand].cord].cord].build).pitch


def _knots(what: Placed, file: Gltf, material: Sequence[int], fine: Fineness) -> None:
    """Every knot as a node; those of one shape share vertices, those of one look their mesh."""
    from scipy.spatial.transform import Rotation

    shapes: dict[tuple[object, ...], list[dict[str, Any]]] = {}
    meshes: dict[tuple[object, ...], int] = {}
    piece = what.piece
    thick = [piece.values[f"d:{piece.cords[s.cord].cord}"] for s in piece.strands]
    turns = _quaternions(Rotation, what.knots)
    for k, turn in zip(what.knots, turns, strict=True):
        ratio = tuple(round(thick[s] / k.d, 2) for s in k.strands)
        pattern = tuple(_pattern(what, s) for s in k.strands)
        shape = k.cell.spec, ratio, pattern
        if shape not in shapes:
            shapes[shape] = [file.shape(_in_scene(m, 1.0)) for m in _tubes(k, ratio, pattern, fine)]
        look = (*shape, tuple(material[s] for s in k.strands))
        if look not in meshes:
            primitives = [
                {**part, "material": material[s]}
                for part, s in zip(shapes[shape], k.strands, strict=True)
            ]
            meshes[look] = file.mesh(k.cell.spec.name.value, primitives)
        name = f"knot {k.knot + 1}"
        where, size = _scene_points(k.origin), k.d / 1000.0
        file.node(name, meshes[look], where, turn, size, strands=k.strands)


def _quaternions(rotation: Any, knots: Sequence[Instance]) -> Points:
    """(n, 4) float: x, y, z, w of every knot's attitude, in the scene's axes."""
    if not knots:
        return np.empty((0, 4))
    swap = np.array([[1.0, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, -1.0, 0.0]])
    axes = np.stack([swap @ k.axes @ swap.T for k in knots])
    found: Points = rotation.from_matrix(axes).as_quat()
    return found


def _tubes(
    knot: Instance, ratio: Sequence[float], pattern: Sequence[float], fine: Fineness
) -> list[Mesh]:
    """One tube for each strand of a knot, in d, closed at both ends."""
    found = []
    for way, thick, repeat in zip(knot.cell.ways, ratio, pattern, strict=False):
        sides = fine.sides
        if knot.cell.spec.name is KnotName.GATHERING and way.place:
            sides = max(4, fine.sides // 2)  # hidden under the turns, but for both ends
        found.append(tube(thinned_way(way.points, fine.turn), thick, sides, repeat))
    return found


def thinned_way(points: Points, turn: float) -> Points:
    """The points of a way between which it turns by no more than so many radians."""
    return _thinned(line(points), turn)


def _thinned(way: Line, turn: float) -> Points:
    count = max(1, int(np.ceil(way.turned[-1] / turn)))
    at = np.searchsorted(way.turned, np.linspace(0.0, way.turned[-1], count + 1)[1:-1])
    keep = sorted({0, *at.tolist(), len(way.points) - 1})
    kept: Points = way.points[keep]
    return kept


def _free(
    what: Placed, file: Gltf, kind: Sequence[str], cords: dict[str, int], fine: Fineness
) -> None:
    """Free cord, that of one kind in one mesh."""
    ways, sides = _free_ways(what.cords, fine)
    tubes: dict[str, list[tuple[int, Mesh]]] = {}
    for cord, way in zip(what.cords, ways, strict=True):
        caps = cord.part == "start", cord.part == "tail"
        found = tube(way, cord.thick, sides, _pattern(what, cord.strand), caps)
        tubes.setdefault(kind[cord.strand], []).append((cord.strand, found))
    for name, parts in tubes.items():
        strands = np.repeat([strand for strand, _ in parts], [len(m.points) for _, m in parts])
        shape = file.shape(_in_scene(joined([m for _, m in parts]), 0.001), strands=strands)
        file.node(f"free {name}", file.mesh(f"free {name}", [{**shape, "material": cords[name]}]))


def _free_ways(cords: Sequence[FreeCord], fine: Fineness) -> tuple[list[Points], int]:
    """Ways of free cord and corners of its rings, as fine as what it may take lets them be."""
    ways = [line(_free_way(c)) for c in cords]
    turned = np.array([w.turned[-1] for w in ways])
    turn, sides = fine.turn, FEWEST
    for coarser in COARSER:
        turn = coarser * fine.turn
        rings = int(np.maximum(1.0, np.ceil(turned / turn)).sum()) + len(ways)
        # A corner takes 36 bytes as a vertex and 12 in its two triangles.
        sides = min(fine.free_sides, FREE_BYTES // (48 * max(rings, 1)) - 1)
        if sides >= FEWEST:
            break
    return [_thinned(w, turn) for w in ways], max(sides, FEWEST)


def _free_way(cord: FreeCord) -> Points:
    points = sampled(cord.curves, 13)
    steps = np.linalg.norm(np.diff(points, axis=0), axis=1)
    distinct = points[np.concatenate([[True], steps > 1e-9])]
    if len(distinct) < 2:
        # Knots that touch: a stretch as thin as nothing keeps the strand whole.
        distinct = np.stack([points[0], points[0] - [0.0, 0.0, 0.01 * cord.thick]])
    found: Points = distinct
    return found


def _things(what: Placed, file: Gltf, sides: int) -> None:
    """Ring or rod, and what is held."""
    thing = mount(what.piece)
    colour = linear(mount_colour(what.piece))
    if isinstance(thing, Ring):
        on = file.material("ring", colour, rough=0.35, metal=0.8)
        angle = np.linspace(0.0, 2 * np.pi, 2 * sides + 1)
        across, along = thing.radius * np.sin(angle), -thing.radius * np.cos(angle)
        flat = np.full_like(angle, thing.middle)
        way = np.stack(
            [across, along, flat] if thing.level else [across, 0 * angle, flat + along], axis=1
        )
        _add(file, "ring", tube(way, thing.wire, max(8, sides // 3), 1.0, (False, False)), on)
    elif isinstance(thing, Rod):
        on = file.material("rod", colour, rough=0.7)
        half = 0.5 * thing.length
        way = np.array([[-half, 0.0, thing.axis], [half, 0.0, thing.axis]])
        _add(file, "rod", tube(way, thing.thick, max(12, sides // 2), 1.0), on)
    if what.held is not None and what.base is not None:
        body = body_mesh(what.held.vessel, sides)
        moved = Mesh(body.points + what.base, body.normals, body.uv, body.faces)
        _add(file, "held", moved, file.material("pot", linear(CLAY), rough=0.85))


def body_mesh(vessel: Vessel, sides: int) -> Mesh:
    """A held thing as a mesh, standing on z = 0."""
    if isinstance(vessel, Box):
        return box(vessel.wide, vessel.deep, vessel.high)
    if isinstance(vessel, Turned):
        return turned(np.array(vessel.outline), sides)
    z = np.linspace(0.0, vessel.height, 24)
    side = np.stack([vessel.radius(z), z], axis=1)
    return turned(np.concatenate([[[0.0, 0.0]], side, [[0.0, vessel.height]]]), sides)


def _add(file: Gltf, name: str, mesh: Mesh, material: int) -> None:
    shape = file.shape(_in_scene(mesh, 0.001), mapped=False)
    file.node(name, file.mesh(name, [{**shape, "material": material}]))


def _scene_points(points: Points) -> Points:
    """Points in mm as metres, y up and the front towards +z."""
    swapped: Points = 0.001 * np.stack([points[..., 0], points[..., 2], -points[..., 1]], axis=-1)
    return swapped


def _in_scene(mesh: Mesh, scale: float) -> Mesh:
    """A mesh in the scene's axes."""
    points = _scene_points(mesh.points) * (1000.0 * scale)
    return Mesh(points, _scene_points(mesh.normals) * 1000.0, mesh.uv, mesh.faces)
