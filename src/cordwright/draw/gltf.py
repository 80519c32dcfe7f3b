"""glTF 2.0 binary files (Khronos Group, glTF 2.0 specification; ISO/IEC 12113), written directly.

Positions are in metres, y up, the front towards +z, as the format asks.
"""

from __future__ import annotations

import json
import struct
from typing import TYPE_CHECKING, Any

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import NDArray

    from cordwright.draw.placed_cell import Points
    from cordwright.draw.scene_mesh import Mesh

FLOAT, USHORT, UINT = 5126, 5123, 5125
VERTICES, INDICES = 34962, 34963
REPEAT, LINEAR, MIPMAPS = 10497, 9729, 9987


class Gltf:
    """A file in the making: what is added gets an index by which the rest refers to it."""

    def __init__(self, generator: str) -> None:
        self._data = bytearray()
        self._json: dict[str, Any] = {
            "asset": {"version": "2.0", "generator": generator},
            "scene": 0,
        }

    def _add(self, kind: str, value: dict[str, Any]) -> int:
        every = self._json.setdefault(kind, [])
        every.append(value)
        return len(every) - 1

    def _view(self, data: bytes, target: int | None) -> int:
        while len(self._data) % 4:
            self._data.append(0)
        view: dict[str, Any] = {
            "buffer": 0,
            "byteOffset": len(self._data),
            "byteLength": len(data),
        }
        if target is not None:
            view["target"] = target
        self._data += data
        return self._add("bufferViews", view)

    def _vertices(self, values: Points, *, bounds: bool = False) -> int:
        exact = np.ascontiguousarray(values, dtype="<f4")
        accessor: dict[str, Any] = {
            "bufferView": self._view(exact.tobytes(), VERTICES),
            "componentType": FLOAT,
            "count": len(exact),
            "type": f"VEC{exact.shape[1]}",
        }
        if bounds:
            accessor["min"] = [float(v) for v in exact.min(axis=0)]
            accessor["max"] = [float(v) for v in exact.max(axis=0)]
        return self._add("accessors", accessor)

    def _numbers(self, values: NDArray[np.int64]) -> int:
        """(n,) whole numbers below 2**24, as the format's floats, which hold them exactly."""
        accessor = {
            "bufferView": self._view(values.astype("<f4").tobytes(), VERTICES),
            "componentType": FLOAT,
            "count": len(values),
            "type": "SCALAR",
        }
        return self._add("accessors", accessor)

    def shape(
        self, mesh: Mesh, *, mapped: bool = True, strands: NDArray[np.int64] | None = None
    ) -> dict[str, Any]:
        """A mesh's vertices and triangles, to be used by any number of primitives.

        Args:
            mesh: the triangles.
            mapped: whether it has a place on a texture.
            strands: (n,) which strand every vertex is of, as the attribute ``_STRAND``; the format
                leaves names that begin with a line to those who write it.
        """
        few = len(mesh.points) < 65535
        indices = mesh.faces.astype("<u2" if few else "<u4")
        attributes = {
            "POSITION": self._vertices(mesh.points, bounds=True),
            "NORMAL": self._vertices(mesh.normals),
        }
        if mapped:
            attributes["TEXCOORD_0"] = self._vertices(mesh.uv)
        if strands is not None:
            attributes["_STRAND"] = self._numbers(strands)
        accessor = {
            "bufferView": self._view(indices.tobytes(), INDICES),
            "componentType": USHORT if few else UINT,
            "count": int(indices.size),
            "type": "SCALAR",
        }
        return {"attributes": attributes, "indices": self._add("accessors", accessor)}

    def mesh(self, name: str, primitives: Sequence[dict[str, Any]]) -> int:
        """A mesh of primitives: shapes with a material each."""
        return self._add("meshes", {"name": name, "primitives": list(primitives)})

    def normal_texture(self, name: str, png: bytes) -> int:
        """A texture that repeats in both directions."""
        if "samplers" not in self._json:
            sampler = {"magFilter": LINEAR, "minFilter": MIPMAPS, "wrapS": REPEAT, "wrapT": REPEAT}
            self._add("samplers", sampler)
        view = self._view(png, None)
        image = self._add("images", {"name": name, "bufferView": view, "mimeType": "image/png"})
        return self._add("textures", {"sampler": 0, "source": image})

    def material(
        self,
        name: str,
        colour: Sequence[float],
        *,
        rough: float,
        metal: float = 0.0,
        normals: int | None = None,
    ) -> int:
        """A material: linear red, green and blue from 0 to 1."""
        value: dict[str, Any] = {
            "name": name,
            "pbrMetallicRoughness": {
                "baseColorFactor": [*(round(float(c), 5) for c in colour), 1.0],
                "metallicFactor": metal,
                "roughnessFactor": rough,
            },
        }
        if normals is not None:
            value["normalTexture"] = {"index": normals}
        return self._add("materials", value)

    def node(
        self,
        name: str,
        mesh: int,
        where: Points | None = None,
        turn: NDArray[np.float64] | None = None,
        size: float | None = None,
        extras: Mapping[str, Any] | None = None,
    ) -> int:
        """A mesh put somewhere: moved, turned by a unit quaternion (x, y, z, w), and scaled.

        ``extras`` is what it says of itself, for programs that know of it.
        """
        value: dict[str, Any] = {"name": name, "mesh": mesh}
        if extras is not None:
            value["extras"] = dict(extras)
        if where is not None:
            value["translation"] = [round(float(v), 6) for v in where]
        if turn is not None:
            value["rotation"] = [round(float(v), 6) for v in turn]
        if size is not None:
            value["scale"] = [round(size, 7)] * 3
        return self._add("nodes", value)

    def finished(self, name: str, strands: Sequence[str] = ()) -> bytes:
        """The file.

        Args:
            name: of the scene.
            strands: names of the strands that nodes and vertices mean by number.
        """
        scene: dict[str, Any] = {"name": name, "nodes": list(range(len(self._json["nodes"])))}
        if strands:
            scene["extras"] = {"strands": list(strands)}
        self._json["scenes"] = [scene]
        self._json["buffers"] = [{"byteLength": len(self._data)}]
        text = json.dumps(self._json, separators=(",", ":"), ensure_ascii=False).encode()
        text += b" " * (-len(text) % 4)
        data = bytes(self._data) + b"\0" * (-len(self._data) % 4)
        head = struct.pack("<4sII", b"glTF", 2, 12 + 8 + len(text) + 8 + len(data))
        chunks = struct.pack("<I4s", len(text), b"JSON") + text
        return head + chunks + struct.pack("<I4s", len(data), b"BIN\0") + data
