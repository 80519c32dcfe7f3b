"""What a scene is put together from: each shape of knot once, a sample of each surface, things.

Where all of them are is in `cordwright.draw.scene_poses`. Who shows a piece while it is changed
keeps the parts, which hardly ever change, and asks for poses alone.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from cordwright import __version__
from cordwright.draw.gltf import Gltf
from cordwright.draw.piece_colours import linear
from cordwright.draw.scene_knots import FINENESS, Detail, in_scene, knot_shapes
from cordwright.draw.scene_mesh import tube
from cordwright.draw.scene_surface import normal_map, surface
from cordwright.draw.scene_things import things

if TYPE_CHECKING:
    from cordwright.draw.placed import Placed
    from cordwright.draw.scene_knots import Fineness

WHITE = (1.0, 1.0, 1.0)


def scene_parts(what: Placed, detail: Detail) -> bytes:
    """The parts as glTF binary.

    Every node says in its extras which part it is: ``surface`` is a straight piece of cord whose
    material shows that surface in white; ``shape`` a knot in d, a primitive for each strand by
    place; ``thing`` the mount or what is held, in metres.

    Args:
        what: a piece in space that has these parts.
        detail: how fine.
    """
    fine = FINENESS[detail]
    file = Gltf(f"Cordwright {__version__}")
    _surfaces(what, file)
    _shapes(what, file, fine)
    for thing in things(what):
        colour = linear(thing.colour)
        material = file.material(thing.name, colour, rough=thing.rough, metal=thing.metal)
        shape = file.shape(in_scene(thing.mesh(fine.round_sides), 0.001), mapped=False)
        mesh = file.mesh(thing.name, [{**shape, "material": material}])
        file.node(thing.name, mesh, extras={"thing": thing.key})
    return file.finished(what.piece.plan.title)


def _surfaces(what: Placed, file: Gltf) -> None:
    sample = in_scene(tube(np.array([[0.0, 0.0, 0.0], [0.0, 0.0, -1.0]]), 1.0, 4, 1.0), 1.0)
    for look in {surface(c.build): None for c in what.piece.plan.cords.values()}:
        texture = file.normal_texture(look.name, normal_map(look))
        material = file.material(look.name, WHITE, rough=0.9, normals=texture)
        mesh = file.mesh(look.name, [{**file.shape(sample), "material": material}])
        file.node(look.name, mesh, extras={"surface": look.name})


def _shapes(what: Placed, file: Gltf, fine: Fineness) -> None:
    plain = file.material("cord", WHITE, rough=0.9)
    for shape, knot in {shape: knot for knot, shape in knot_shapes(what)}.items():
        primitives = [
            {**file.shape(in_scene(tube, 1.0)), "material": plain}
            for tube in shape.tubes(knot.cell, fine)
        ]
        name = shape.spec.name.value
        file.node(name, file.mesh(name, primitives), extras={"shape": shape.key})
