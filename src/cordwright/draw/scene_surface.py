"""What the surface of a cord looks like: a normal map made from how the cord is built."""

from __future__ import annotations

import struct
import zlib
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

PIXELS = 64


@dataclass(frozen=True, slots=True)
class Surface:
    """A surface that repeats along the cord; u runs once round it.

    Args:
        name: of the build that it stands for.
        plies: strands that show round the cord.
        pitch: length in diameters after which it repeats.
        depth: of the grooves between plies, in diameters.
        crossed: whether plies run both ways, as braided.
        hairs: finer lines on each ply.
        advance: by how many plies the twist goes round on that length.
    """

    name: str
    plies: int
    pitch: float
    depth: float
    crossed: bool = False
    hairs: int = 0
    advance: int = 1


TWISTED = Surface("twisted", 3, 3.2, 0.14, hairs=4)
SINGLE = Surface("single twist", 10, 3.4, 0.045, hairs=1, advance=4)
BRAIDED = Surface("braided", 8, 2.2, 0.07, crossed=True)
BRUSHED = Surface("brushed", 0, 5.0, 0.16)

FIBRES = ((17, 1), (23, -2), (29, 1), (31, 3), (19, -1))
"""Waves that together look like combed fibres: how often each goes round the cord, and how many
of its turns it makes along the length after which the surface repeats."""


def surface(build: str | None) -> Surface:
    """The surface of a cord, by the words for its build; twisted if nothing is known.

    >>> surface("braided").name, surface("3-ply").name, surface("single twist").name
    ('braided', 'twisted', 'single twist')
    >>> surface("brushed").name
    'brushed'
    """
    words = (build or "").lower()
    if "braid" in words or "plait" in words:
        return BRAIDED
    if "brush" in words or "comb" in words:
        return BRUSHED
    return SINGLE if "single" in words else TWISTED


def normal_map(what: Surface) -> bytes:
    """A PNG: normals in tangent space, red round the cord, green back along it."""
    at = (np.arange(PIXELS) + 0.5) / PIXELS
    u, v = np.meshgrid(at, at)
    height = what.depth * _height(what, u, v)
    # Differences against the next pixel, in diameters: the way round is pi of them.
    du = (np.roll(height, -1, axis=1) - np.roll(height, 1, axis=1)) * PIXELS / (2 * np.pi)
    dv = (np.roll(height, -1, axis=0) - np.roll(height, 1, axis=0)) * PIXELS / (2 * what.pitch)
    # In glTF's normal maps green points up the picture, against v.
    normals = np.stack([-du, dv, np.ones_like(du)], axis=2)
    normals /= np.linalg.norm(normals, axis=2, keepdims=True)
    return png(np.round(127.5 * (normals + 1.0)).astype(np.uint8))


def _height(what: Surface, u: Floats, v: Floats) -> Floats:
    """0 to 1 over the cord's surface."""
    if not what.plies:
        waves = [np.sin(2 * np.pi * (a * u + b * v + 0.37 * i)) for i, (a, b) in enumerate(FIBRES)]
        combed: Floats = 0.5 + 0.5 * np.mean(waves, axis=0)
        return combed
    one = np.abs(np.sin(np.pi * (what.plies * u - what.advance * v)))
    if what.crossed:
        other = np.abs(np.sin(np.pi * (what.plies * u + v)))
        # Checks in which one way lies over the other by turns.
        over = np.sin(2 * np.pi * what.plies * u) * np.sin(2 * np.pi * v) > 0
        out: Floats = np.where(over, one, other)
        return out
    fine = (
        np.abs(np.sin(np.pi * what.hairs * (what.plies * u - what.advance * v)))
        if what.hairs > 1
        else 0.0
    )
    ridged: Floats = one + 0.15 * fine
    return ridged


def png(pixels: NDArray[np.uint8]) -> bytes:
    """(h, w, 3) 8-bit RGB as PNG (ISO/IEC 15948)."""
    h, w, _ = pixels.shape
    rows = np.concatenate([np.zeros((h, 1), np.uint8), pixels.reshape(h, -1)], axis=1)
    parts = (
        (b"IHDR", struct.pack(">IIBBBBB", w, h, 8, 2, 0, 0, 0)),
        (b"IDAT", zlib.compress(rows.tobytes(), 9)),
        (b"IEND", b""),
    )
    chunks = [
        struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
        for kind, data in parts
    ]
    return b"\x89PNG\r\n\x1a\n" + b"".join(chunks)
