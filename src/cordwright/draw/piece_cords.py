"""Free cord in the picture: lengths that do not overlap share one path."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.piece_curves import path
from cordwright.draw.piece_symbols import THIRDS, Brush, bands

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from cordwright.draw.placed_cell import Points
    from cordwright.draw.placed_cords import FreeCord

    Ints = NDArray[np.int64]

SHORT = 0.12
"""Free lengths shorter than this, in diameters, do not show between two knots."""

INTO = 0.3
"""How far free cord is led on into knots, under them, in diameters."""

TOUCH = 0.9
"""Cords nearer than this, in diameters, overlap; side by side they lie one diameter apart."""


@dataclass(frozen=True, slots=True)
class Strip:
    """One free length in the picture.

    Args:
        curves: (k, 4, 2) float, page mm, y down.
        depth: mm away from the viewer.
        thick: page mm.
        style: how its strand is drawn.
    """

    curves: Points
    depth: float
    thick: float
    style: int


def strip(cord: FreeCord, style: int, scale: float, origin: Points) -> Strip | None:
    """A free length on the page; None if nothing of it shows.

    Args:
        cord: in space.
        style: how its strand is drawn.
        scale: page mm for each mm.
        origin: (2,) float, where on the page x = z = 0 is.
    """
    curves = cord.curves
    span = float(np.linalg.norm(curves[-1, 3] - curves[0, 0]))
    if cord.part == "free" and span < SHORT * cord.thick:
        return None
    into = INTO * cord.thick
    led = [] if cord.part == "start" and cord.stop == 0 else [_lead(curves[0], into, back=True)]
    led.append(curves)
    if cord.part == "free":
        led.append(_lead(curves[-1], into, back=False))
    whole = np.concatenate(led)
    flat = np.stack([whole[:, :, 0], -whole[:, :, 2]], axis=2) * scale + origin
    return Strip(flat, float(curves[:, :, 1].mean()), cord.thick * scale, style)


def _lead(curve: Points, reach: float, *, back: bool) -> Points:
    """(1, 4, 3) float: straight on before the curve's beginning, or behind its end."""
    at, inner = (curve[0], curve[1]) if back else (curve[3], curve[2])
    along = at - inner
    size = float(np.linalg.norm(along))
    share = reach / size if size > 1e-9 else 0.0
    way: Points = (at + THIRDS * share * along)[None]
    return way[:, ::-1] if back else way


def painted_strips(strips: Sequence[Strip], brush: Brush, digits: int) -> str:
    """All strips, the farthest first; those of one look that overlap nothing in one path."""
    if not strips:
        return ""
    groups: dict[tuple[int, int, float], list[Points]] = {}
    for s, layer in zip(strips, layers(strips), strict=True):
        groups.setdefault((layer, s.style, round(s.thick, 3)), []).append(s.curves)
    parts = []
    for (_, style, thick), chains in sorted(groups.items(), key=lambda g: g[0]):
        d = path(chains, digits)
        parts.append(bands(d, d, style, thick, brush))
    return "".join(parts)


def layers(strips: Sequence[Strip]) -> list[int]:
    """In which layer each strip lies: above all that overlap it and are farther away."""
    from scipy.spatial import cKDTree

    samples = [_sampled(s) for s in strips]
    of = np.repeat(np.arange(len(strips)), [len(p) for p in samples])
    thick = np.array([s.thick for s in strips])
    tree = cKDTree(np.concatenate(samples))
    pairs = tree.query_pairs(TOUCH * float(thick.max()), output_type="ndarray")
    if not len(pairs):
        return [0] * len(strips)
    a, b = of[pairs[:, 0]], of[pairs[:, 1]]
    near = np.linalg.norm(tree.data[pairs[:, 0]] - tree.data[pairs[:, 1]], axis=1)
    keep = (a != b) & (near < TOUCH * 0.5 * (thick[a] + thick[b]))
    neighbours: list[set[int]] = [set() for _ in strips]
    for i, j in zip(a[keep].tolist(), b[keep].tolist(), strict=True):
        neighbours[i].add(j)
        neighbours[j].add(i)
    found = [-1] * len(strips)
    for i in sorted(range(len(strips)), key=lambda i: -strips[i].depth):
        found[i] = 1 + max((found[j] for j in neighbours[i]), default=-1)
    return found


def _sampled(s: Strip) -> Points:
    """(n, 2) float: points along a strip, closer than half its thickness."""
    length = float(np.linalg.norm(np.diff(s.curves, axis=1), axis=2).sum())
    per = max(2, int(np.ceil(2.0 * length / (s.thick * len(s.curves)))))
    t = np.linspace(0.0, 1.0, min(per, 200))[None, :, None]
    p0, p1, p2, p3 = (s.curves[:, i, None, :] for i in range(4))
    u = 1 - t
    points: Points = u**3 * p0 + 3 * u * u * t * p1 + 3 * u * t * t * p2 + t**3 * p3
    return points.reshape(-1, 2)
