from __future__ import annotations

import io
import json
import struct
from functools import cache
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
import trimesh

from cordwright.draw.scene import scene
from cordwright.draw.scene_mesh import box, tube, turned
from cordwright.draw.scene_surface import BRAIDED, BRUSHED, SINGLE, TWISTED, normal_map, surface
from cordwright.hang.vessel import pot
from tests.draw.pieces import flat, lying, planter, worked_up

if TYPE_CHECKING:
    from cordwright.draw.scene_knots import Detail

SIZE = {5126: 4, 5123: 2, 5125: 4}
WIDE = {"SCALAR": 1, "VEC2": 2, "VEC3": 3}


@cache
def drawn(detail: Detail) -> bytes:
    return scene(planter(), detail=detail)


def parts(data: bytes) -> tuple[dict[str, Any], bytes]:
    """The two chunks of a file, as the specification says that they lie."""
    magic, version, length = struct.unpack_from("<4sII", data)
    assert (magic, version, length) == (b"glTF", 2, len(data))
    size, kind = struct.unpack_from("<I4s", data, 12)
    assert kind == b"JSON"
    assert size % 4 == 0
    text = data[20 : 20 + size]
    rest, kind = struct.unpack_from("<I4s", data, 20 + size)
    assert kind == b"BIN\0"
    assert 28 + size + rest == len(data)
    return json.loads(text), data[28 + size :]


def values(text: dict[str, Any], data: bytes, index: int) -> np.ndarray:
    accessor = text["accessors"][index]
    view = text["bufferViews"][accessor["bufferView"]]
    kind = {5126: "<f4", 5123: "<u2", 5125: "<u4"}[accessor["componentType"]]
    wide = WIDE[accessor["type"]]
    count = accessor["count"] * wide
    assert view["byteLength"] == count * SIZE[accessor["componentType"]]
    assert view["byteOffset"] % SIZE[accessor["componentType"]] == 0
    return np.frombuffer(data, kind, count, view["byteOffset"]).reshape(-1, wide)


@pytest.mark.parametrize("detail", ["low", "high"])
def test_keeps_to_the_rules_of_the_format(detail: Detail) -> None:
    """Khronos Group, glTF 2.0 specification, sections 3.6 to 3.9."""
    text, data = parts(drawn(detail))
    assert text["asset"]["version"] == "2.0"
    assert text["buffers"][0]["byteLength"] <= len(data)
    for mesh in text["meshes"]:
        for p in mesh["primitives"]:
            accessor = text["accessors"][p["attributes"]["POSITION"]]
            points = values(text, data, p["attributes"]["POSITION"])
            normals = values(text, data, p["attributes"]["NORMAL"])
            indices = values(text, data, p["indices"])
            assert accessor["min"] == points.min(axis=0).tolist()
            assert accessor["max"] == points.max(axis=0).tolist()
            assert np.allclose(np.linalg.norm(normals, axis=1), 1.0, atol=1e-4)
            assert len(points) == len(normals)
            assert int(indices.max()) < len(points)
            assert len(indices) % 3 == 0
            assert p["material"] < len(text["materials"])
    for node in text["nodes"]:
        turn = node.get("rotation")
        assert turn is None or np.linalg.norm(turn) == pytest.approx(1.0, abs=1e-5)
        assert node["mesh"] < len(text["meshes"])


def test_every_knot_is_an_instance() -> None:
    text, _ = parts(drawn("high"))
    knots = [n for n in text["nodes"] if n["name"].startswith("knot ")]
    assert len(knots) == len(planter().piece.knots)
    assert len({n["mesh"] for n in knots}) < 12
    assert {n["name"] for n in text["nodes"] if n not in knots} == {
        "free main", "ring", "held",
    }  # fmt: skip


def test_all_cord_says_which_strand_it_is() -> None:
    text, data = parts(drawn("low"))
    what = planter()
    (scenes,) = text["scenes"]
    assert scenes["extras"]["strands"] == [what.piece.name(s.id) for s in what.piece.strands]
    knots = {n["name"]: n for n in text["nodes"] if n["name"].startswith("knot ")}
    for knot in what.knots:
        node = knots[f"knot {knot.knot + 1}"]
        assert node["extras"]["strands"] == list(knot.strands)
        assert len(text["meshes"][node["mesh"]]["primitives"]) == len(knot.strands)
    (free,) = (n for n in text["nodes"] if n["name"].startswith("free "))
    (primitive,) = text["meshes"][free["mesh"]]["primitives"]
    attributes = primitive["attributes"]
    strands = values(text, data, attributes["_STRAND"]).ravel()
    points = values(text, data, attributes["POSITION"]) * 1000.0
    assert len(strands) == len(points)
    for cord in what.cords[::9]:
        end = np.array([cord.curves[-1, -1, 0], cord.curves[-1, -1, 2], -cord.curves[-1, -1, 1]])
        near = np.linalg.norm(points - end, axis=1) <= 0.53 * cord.thick  # led on into knots
        assert cord.strand in strands[near]


def test_is_as_large_as_the_piece() -> None:
    loaded = trimesh.load_scene(io.BytesIO(drawn("high")), file_type="glb")
    low, high = loaded.bounds * 1000.0
    what = planter()
    lowest = min(float(c.curves[:, :, 2].min()) for c in what.cords)
    assert low[1] == pytest.approx(lowest, abs=3.0)
    assert high[1] == pytest.approx(56.0, abs=6.0)  # the ring's top
    assert high[0] - low[0] == pytest.approx(160.0, abs=40.0)


def test_knots_lie_where_they_hang() -> None:
    loaded = trimesh.load_scene(io.BytesIO(drawn("low")), file_type="glb")
    for knot in planter().knots[::7]:
        node = f"knot {knot.knot + 1}"
        matrix = loaded.graph.get(node)[0]
        point = np.array([1.0, 0.5, -2.0])
        swapped = np.array([point[0], point[2], -point[1], 1.0])
        there = knot.at(point[None])[0]
        there = np.array([there[0], there[2], -there[1]])
        assert np.allclose(1000.0 * (matrix @ swapped)[:3], there, atol=0.01)


def test_low_detail_is_smaller() -> None:
    assert len(drawn("low")) < 0.6 * len(drawn("high"))


def test_a_thousand_knots_take_less_than_five_megabytes() -> None:
    mount = {"nothing": {}, "cords": [{"cord": "main", "count": 40, "fold": "none"}]}
    work = [{"rows": 106, "tie": "square-knot", "each": 4, "shift": 2, "gap": "1 cm"}]
    what = lying(worked_up(mount=mount, work=work))
    assert len(what.knots) >= 1000
    assert len(scene(what)) < 5_000_000


def test_tubes_are_closed_and_face_outwards() -> None:
    angle = np.linspace(0.0, 9.0, 60)
    way = np.stack([3 * np.cos(angle), 3 * np.sin(angle), 0.4 * angle], axis=1)
    mesh = tube(way, 1.0, 16, 2.0)
    body = trimesh.Trimesh(mesh.points, mesh.faces)
    body.merge_vertices(merge_tex=True, merge_norm=True)
    assert body.is_watertight
    length = float(np.linalg.norm(np.diff(way, axis=0), axis=1).sum())
    # A sixteen-sided section is sin(2 pi / 16) / (2 pi / 16) of a round one.
    section = 16 / 2 * np.sin(2 * np.pi / 16) * 0.25
    assert body.volume == pytest.approx(section * length, rel=0.02)
    across = np.einsum("ij,ij->i", mesh.normals[: 60 * 17], mesh.points[: 60 * 17])
    assert np.isfinite(across).all()


def test_frames_do_not_turn_about_the_curve() -> None:
    """In a plane the least turning frame keeps its normal: after a half circle it is the same."""
    angle = np.linspace(0.0, np.pi, 40)
    way = np.stack([np.cos(angle), np.sin(angle), 0 * angle], axis=1)
    mesh = tube(way, 0.1, 8, 1.0, (False, False))
    normals = mesh.normals.reshape(40, 9, 3)
    up = normals[:, :, 2]
    assert np.allclose(up, up[0], atol=1e-6)


def test_pots_and_boxes_are_closed() -> None:
    frustum = turned(np.array(pot(160.0, 110.0, 140.0).outline), 90)
    for mesh, volume in (
        (frustum, np.pi * 140 / 12 * (160**2 + 160 * 110 + 110**2)),
        (box(20.0, 6.0, 28.0), 20.0 * 6.0 * 28.0),
    ):
        body = trimesh.Trimesh(mesh.points, mesh.faces)
        body.merge_vertices(merge_tex=True, merge_norm=True)
        assert body.is_watertight
        assert body.volume == pytest.approx(volume, rel=0.01)


def test_colours_and_surfaces_are_the_cords() -> None:
    text, data = parts(scene(flat("ledger-bookmark")))
    used = {m["name"]: m for m in text["materials"]}
    assert set(used) == set(flat("ledger-bookmark").piece.plan.cords)
    assert all("normalTexture" in m for m in used.values())
    view = text["bufferViews"][text["images"][0]["bufferView"]]
    assert data[view["byteOffset"] :].startswith(b"\x89PNG")


def test_builds_look_different() -> None:
    maps = {normal_map(s) for s in (BRAIDED, BRUSHED, SINGLE, TWISTED)}
    assert len(maps) == 4
    assert surface("brushed single strand") is BRUSHED
    assert surface("hollow braid") is BRAIDED
    assert surface(None) is TWISTED
    for each in maps:
        assert len(each) < 15_000
