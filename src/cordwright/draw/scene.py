"""The piece as a scene in three dimensions: cords as tubes, each kind of knot swept once."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from cordwright import __version__
from cordwright.draw.gltf import Gltf
from cordwright.draw.piece_colours import linear, rgb_of
from cordwright.draw.piece_curves import line
from cordwright.draw.piece_measures import sampled
from cordwright.draw.placed import unit
from cordwright.draw.scene_knots import (
    FINENESS,
    Detail,
    Fineness,
    KnotShape,
    in_scene,
    knot_shapes,
    quaternions,
    scene_points,
    strand_surface,
    thinned,
)
from cordwright.draw.scene_mesh import Mesh, joined, tube
from cordwright.draw.scene_surface import normal_map, surface
from cordwright.draw.scene_things import things

if TYPE_CHECKING:
    from collections.abc import Sequence

    from cordwright.draw.placed import Placed
    from cordwright.draw.placed_cell import Points
    from cordwright.draw.placed_cords import FreeCord

FREE_BYTES = 3_200_000
"""What free cord may take; with more of it rings have fewer corners, then there are fewer."""

FEWEST = 5
"""Corners of a ring at least."""

INTO = 0.12
"""How far free cord is led on into knots, in its diameters."""

COARSER = (1.0, 1.5, 2.5, 4.0, 8.0)
"""How much more than wanted free cord may turn from ring to ring where there is much of it."""


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
    _things(what, file, fine)
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


def _knots(what: Placed, file: Gltf, material: Sequence[int], fine: Fineness) -> None:
    """Every knot as a node; those of one shape share vertices, those of one look their mesh."""
    shapes: dict[KnotShape, list[dict[str, Any]]] = {}
    meshes: dict[tuple[object, ...], int] = {}
    turns = quaternions(what.knots)
    for (k, shape), turn in zip(knot_shapes(what), turns, strict=True):
        if shape not in shapes:
            shapes[shape] = [file.shape(in_scene(m, 1.0)) for m in shape.tubes(k.cell, fine)]
        look = shape, tuple(material[s] for s in k.strands)
        if look not in meshes:
            primitives = [
                {**part, "material": material[s]}
                for part, s in zip(shapes[shape], k.strands, strict=True)
            ]
            meshes[look] = file.mesh(k.cell.spec.name.value, primitives)
        where, size = scene_points(k.origin), k.d / 1000.0
        extras = {"strands": list(k.strands)}
        file.node(f"knot {k.knot + 1}", meshes[look], where, turn, size, extras)


def _free(
    what: Placed, file: Gltf, kind: Sequence[str], cords: dict[str, int], fine: Fineness
) -> None:
    """Free cord, that of one kind in one mesh."""
    ways, sides = _free_ways(what.cords, fine)
    tubes: dict[str, list[tuple[int, Mesh]]] = {}
    for cord, way in zip(what.cords, ways, strict=True):
        caps = False, cord.part != "free"  # starts lead upwards from the first knot
        found = tube(way, cord.thick, sides, strand_surface(what, cord.strand).pitch, caps)
        tubes.setdefault(kind[cord.strand], []).append((cord.strand, found))
    for name, parts in tubes.items():
        strands = np.repeat([strand for strand, _ in parts], [len(m.points) for _, m in parts])
        shape = file.shape(in_scene(joined([m for _, m in parts]), 0.001), strands=strands)
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
    return [thinned(w, turn) for w in ways], max(sides, FEWEST)


def _free_way(cord: FreeCord) -> Points:
    points = sampled(cord.curves, 13)
    steps = np.linalg.norm(np.diff(points, axis=0), axis=1)
    distinct = points[np.concatenate([[True], steps > 1e-9])]
    if len(distinct) < 2:
        # Knots that touch: a stretch as thin as nothing keeps the strand whole.
        distinct = np.stack([points[0], points[0] - [0.0, 0.0, 0.01 * cord.thick]])
    found: Points = distinct.copy()
    # Led on into the knots, so that no light falls through where two tubes meet.
    into = INTO * cord.thick
    found[0] -= into * unit(distinct[1] - distinct[0])
    if cord.part == "free":
        found[-1] += into * unit(distinct[-1] - distinct[-2])
    return found


def _things(what: Placed, file: Gltf, fine: Fineness) -> None:
    """Ring or rod, and what is held."""
    for thing in things(what):
        name = "pot" if thing.name == "held" else thing.name
        colour = linear(thing.colour)
        material = file.material(name, colour, rough=thing.rough, metal=thing.metal)
        shape = file.shape(in_scene(thing.mesh(fine.round_sides), 0.001), mapped=False)
        mesh = file.mesh(thing.name, [{**shape, "material": material}])
        file.node(thing.name, mesh, scene_points(thing.at))
