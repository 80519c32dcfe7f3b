"""Parts and poses: together they are the scene."""

from __future__ import annotations

import io
from functools import partial
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
import trimesh

from cordwright.draw.scene import scene
from cordwright.draw.scene_parts import scene_parts
from cordwright.draw.scene_poses import poses
from tests.draw.pieces import flat, lying, planter, worked_up
from tests.draw.test_scene import parts, values

if TYPE_CHECKING:
    from collections.abc import Callable

    from cordwright.draw.placed import Placed
    from cordwright.draw.scene_knots import Detail

PIECES: dict[str, Callable[[], Placed]] = {"planter": planter, "flat": partial(flat, "tally-fob")}


class Numbers:
    """The numbers of poses, read one after the other."""

    def __init__(self, data: bytes) -> None:
        self.values, self.at = np.frombuffer(data, "<f4").astype(float), 0

    def some(self, count: int) -> np.ndarray:
        self.at += count
        found: np.ndarray = self.values[self.at - count : self.at]
        return found


def turned(points: np.ndarray, q: np.ndarray) -> np.ndarray:
    """Points turned by a unit quaternion x, y, z, w (W. R. Hamilton: v + 2 u x (u x v + w v))."""
    u, w = q[:3], q[3]
    found: np.ndarray = points + 2.0 * np.cross(u, np.cross(u, points) + w * points)
    return found


def shapes_of(data: bytes) -> tuple[dict[str, list[np.ndarray]], dict[str, Any]]:
    """Vertices of every shape by key and place, and the file's text."""
    text, binary = parts(data)
    found = {}
    for node in text["nodes"]:
        if "shape" in node["extras"]:
            primitives = text["meshes"][node["mesh"]]["primitives"]
            at = [p["attributes"]["POSITION"] for p in primitives]
            found[node["extras"]["shape"]] = [values(text, binary, i) for i in at]
    return found, text


@pytest.mark.parametrize("detail", ["low", "high"])
@pytest.mark.parametrize("piece", PIECES)
def test_knots_are_where_the_scene_has_them(piece: str, detail: Detail) -> None:
    what = PIECES[piece]()
    shapes, _ = shapes_of(scene_parts(what, detail))
    text, binary = parts(scene(what, detail=detail))
    nodes = {n["name"]: n for n in text["nodes"]}
    told = poses(what)
    numbers = Numbers(told.numbers)
    assert told.knots == len(what.knots)
    for _ in range(told.knots):
        shape, knot, count = (int(v) for v in numbers.some(3))
        pose, strands = numbers.some(8), numbers.some(count)
        node = nodes[f"knot {knot + 1}"]
        assert strands.tolist() == node["extras"]["strands"]
        primitives = text["meshes"][node["mesh"]]["primitives"]
        ways = shapes[told.shapes[shape]]
        assert len(ways) == len(primitives) == count
        for mine, primitive in zip(ways, primitives, strict=True):
            vertices = values(text, binary, primitive["attributes"]["POSITION"])
            where = turned(vertices * node["scale"][0], np.array(node["rotation"]))
            posed = turned(mine * pose[7], pose[3:7]) + pose[:3]
            assert np.allclose(posed, where + node["translation"], atol=5e-6)
    rest = sum(5 + 3 * (1 + 3 * len(c.curves)) for c in what.cords)
    assert numbers.at + rest == len(numbers.values)


def cords_of(what: Placed) -> list[tuple[np.ndarray, np.ndarray]]:
    told = poses(what)
    numbers = Numbers(told.numbers)
    for _ in range(told.knots):
        numbers.some(8 + int(numbers.some(3)[2]))
    found = []
    for _ in range(told.cords):
        head = numbers.some(5)
        found.append((head, numbers.some(3 * (1 + 3 * int(head[4]))).reshape(-1, 3)))
    return found


def test_free_cord_runs_as_it_is_placed() -> None:
    what = planter()
    told = cords_of(what)
    assert len(told) == len(what.cords)
    for cord, (head, points) in zip(what.cords, told, strict=True):
        assert head[0] == cord.strand
        assert head[1] == {"free": 0, "start": 1, "tail": 2}[cord.part]
        assert head[2] == pytest.approx(0.001 * cord.thick)
        for i, curve in enumerate(cord.curves):
            mm = 1000.0 * points[3 * i : 3 * i + 4]
            assert np.allclose(mm, curve[:, [0, 2, 1]] * [1.0, 1.0, -1.0], atol=1e-3)


def test_strands_have_the_skins_of_their_cords() -> None:
    what = planter()
    told = poses(what)
    piece = what.piece
    for strand, skin in zip(piece.strands, told.skin, strict=True):
        assert told.skins[skin].name == piece.cords[strand.cord].cord
    assert told.strands == tuple(piece.name(s.id) for s in piece.strands)


def test_what_is_held_stands_where_the_scene_has_it() -> None:
    what = planter()
    told = {t.key: t.at for t in poses(what).things}
    glb = trimesh.load_scene(io.BytesIO(scene(what, detail="low")), file_type="glb")
    _, text = shapes_of(scene_parts(what, "low"))
    (held,) = (n["extras"]["thing"] for n in text["nodes"] if n["name"] == "held")
    corners = glb.geometry["held"].bounding_box.vertices
    matrix = glb.graph.get("held")[0]
    assert np.allclose(told[held], matrix[:3, 3], atol=1e-6)
    assert what.base is not None
    low = (corners @ matrix[:3, :3].T + matrix[:3, 3])[:, 1].min()
    assert 1000.0 * low == pytest.approx(float(what.base[2]), abs=1e-3)


def test_a_shape_is_known_by_its_key_alone() -> None:
    knots, shapes = poses(planter()).knots, poses(planter()).shapes
    assert len(set(shapes)) == len(shapes) < knots
    twisted, braided = (
        poses(lying(worked_up(mount=on, work=[{"tie": "square-knot", "each": 4}]))).shapes
        for on in (
            {"rod": {"length": "20 cm", "thick": "12 mm"}, "cords": [{"cord": c, "count": 2}]}
            for c in ("main", "trim")
        )
    )
    assert len(twisted) == len(braided)
    assert not {*twisted} & {*braided}  # where a surface repeats is part of the shape
