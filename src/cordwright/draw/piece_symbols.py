"""The picture of one knot: outlined, rounded cords in true over and under."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.piece_curves import line, path
from cordwright.draw.piece_layers import painted

if TYPE_CHECKING:
    from collections.abc import Sequence

    from cordwright.draw.piece_view import Look
    from cordwright.draw.placed_cell import Points

OUTLINE = 0.08
"""Width of a cord's outline in its diameter; it lies inside, so that cords that touch show it."""

SHEEN = 0.3
"""Width of the lighter middle of a cord in its diameter."""

LAP = 0.16
"""How far a stretch reaches over the one that it continues, d: its outline would show a seam."""

ON = 0.06
"""How far a cord is led on beyond its knot, d: knots that follow each other show no gap."""

DIGITS = 2

THIRDS = np.arange(4.0)[:, None] / 3.0
"""(4, 1) float: where the control points of a straight curve lie along it."""


@dataclass(frozen=True, slots=True)
class Brush:
    """How all cords of a picture are drawn.

    Args:
        outline: width in diameters.
        sheen: whether a lighter middle is drawn.
        digits: decimals of coordinates, in diameters of the cord.
    """

    outline: float = OUTLINE
    sheen: bool = True
    digits: int = DIGITS


@dataclass(frozen=True, slots=True)
class Band:
    """One stretch of cord in a knot's picture.

    Args:
        place: of the way that it belongs to, counted from 0.
        outline: its path.
        colour: its path, reaching over the stretch that it continues.
    """

    place: int
    outline: str
    colour: str


def symbol(look: Look, brush: Brush, known: dict[tuple[object, ...], list[Band]]) -> str:
    """SVG paths of a knot, in diameters d of its cord; origin at its upper edge, y down.

    Args:
        look: what it looks like.
        brush: how all cords are drawn.
        known: stretches that were found for other colours; what is found is added.
    """
    key = look.shape()
    if key not in known:
        known[key] = _bands(look, brush)
    return "".join(
        bands(b.outline, b.colour, look.styles[b.place], look.thick[b.place] / 100.0, brush)
        for b in known[key]
    )


def _bands(look: Look, brush: Brush) -> list[Band]:
    ways = look.seen()
    lines = [line(w * [1.0, -1.0, 1.0]) for w in ways]
    thick = [t / 100.0 for t in look.thick]
    done: dict[int, set[int]] = {}
    found = []
    for stretch in painted(ways, thick):
        c = stretch.cord
        ends = done.setdefault(c, set())
        lap = stretch.first in ends, stretch.last in ends
        ends.update((stretch.first, stretch.last))
        curves = lines[c].fitted(stretch.first, stretch.last)
        curves = lapped(curves, (stretch.first == 0, stretch.last == len(ways[c]) - 1), ON)
        outline = path([curves[:, :, :2]], brush.digits)
        over = lapped(curves, lap, LAP * thick[c]) if any(lap) else None
        colour = outline if over is None else path([over[:, :, :2]], brush.digits)
        found.append(Band(c, outline, colour))
    return found


def bands(outline: str, colour: str, style: int, thick: float, brush: Brush) -> str:
    """The strokes of a path: its outline, and its colour and sheen that may reach farther."""
    inner = thick * (1.0 - 2.0 * brush.outline)
    text = f'<path class="e{style}" stroke-width="{thick:.3g}" d="{outline}"/>'
    text += f'<path class="f{style}" stroke-width="{inner:.3g}" d="{colour}"/>'
    if brush.sheen:
        text += f'<path class="s{style}" stroke-width="{SHEEN * thick:.3g}" d="{colour}"/>'
    return text


def lapped(curves: Points, ends: tuple[bool, bool], reach: float) -> Points:
    """The curves with short straight pieces before and behind, as asked."""
    parts: list[Points] = [curves]
    if ends[0]:
        parts.insert(0, _straight(curves[0, 0], curves[0, 0] - curves[0, 1], reach)[:, ::-1])
    if ends[1]:
        parts.append(_straight(curves[-1, 3], curves[-1, 3] - curves[-1, 2], reach))
    return np.concatenate(parts) if len(parts) > 1 else curves


def _straight(start: Points, along: Points, reach: float) -> Points:
    """(1, 4, 3) float: a short straight curve on from a point."""
    size = float(np.linalg.norm(along)) or 1.0
    out: Points = (start + THIRDS * (reach / size) * along)[None]
    return out


def styled(style: int, edge: str, fill: str, sheen: str) -> str:
    """CSS of one style."""
    return f".e{style}{{stroke:{edge}}}.f{style}{{stroke:{fill}}}.s{style}{{stroke:{sheen}}}"


def symbols(looks: Sequence[Look], brush: Brush) -> list[str]:
    """The pictures of all looks."""
    known: dict[tuple[object, ...], list[Band]] = {}
    return [symbol(look, brush, known) for look in looks]
