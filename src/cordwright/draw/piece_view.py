"""Knots as they look from the front: few pictures, each used wherever a knot looks alike.

A knot's attitude is a turn in the picture, which every use of a picture can have of its own, and
what is left: a tilt towards the viewer and a turn about its own axis. These two are taken to the
nearest step; where strands come in and go out is computed for the attitude that is drawn, so that
free cord meets it exactly.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from cordwright.draw.placed import Instance, Placed
    from cordwright.draw.placed_cell import Cell, Points

STEP = float(np.radians(7.5))
"""Steps of tilt and turn: half a step moves the outermost cord of a sinnet by a sixth of its
diameter, which is about the width of its outline."""


@dataclass(frozen=True, slots=True)
class Look:
    """What a knot's picture depends on.

    Args:
        cell: its curves, by identity of the tight knot.
        tilt: of its axis towards the viewer, in steps.
        turn: about its axis, in steps.
        styles: how each strand is drawn, by place.
        thick: diameter of each strand in hundredths of d.
    """

    cell: Cell
    tilt: int
    turn: int
    styles: tuple[int, ...]
    thick: tuple[int, ...]

    def shape(self) -> tuple[object, ...]:
        """What its shape depends on, whatever its colours."""
        ring = tuple(np.round(w.points[[0, -1]], 2).tobytes() for w in self.cell.ways[-1:])
        return self.cell.spec, ring, self.tilt, self.turn, self.thick

    def key(self) -> tuple[object, ...]:
        """What tells looks apart."""
        return *self.shape(), self.styles

    def seen(self) -> list[Points]:
        """(n, 3) float for each way, d: right, up and away as its picture shows it."""
        axes = attitude(0.0, self.tilt, self.turn)
        order = [0, 2, 1]
        return [(w.points @ axes.T)[:, order] for w in self.cell.ways]


@dataclass(frozen=True, slots=True)
class Seen:
    """A piece with every knot in the attitude in which it is drawn.

    Args:
        knots: by index; their axes are those that are drawn.
        looks: distinct looks, in order of first use.
        look: index of each knot's look.
        lean: turn of each knot in the picture, radians from upright to the right.
    """

    knots: tuple[Instance, ...]
    looks: tuple[Look, ...]
    look: tuple[int, ...]
    lean: tuple[float, ...]


def seen_from_the_front(what: Placed, styles: Sequence[int], mount: int, coarse: int = 1) -> Seen:
    """Every knot's look.

    Args:
        what: the piece in space.
        styles: how each strand of the piece is drawn.
        mount: how the ring or rod is drawn.
        coarse: steps of tilt and turn that are taken at once, where knots are small.
    """
    piece = what.piece
    thick = [piece.values[f"d:{piece.cords[s.cord].cord}"] for s in piece.strands]
    known: dict[tuple[object, ...], int] = {}
    looks: list[Look] = []
    knots, look, leans = [], [], []
    for k in what.knots:
        lean, tilt, turn = split(k.axes, coarse)
        on_style, on_thick = _on(what, k, styles, mount)
        found = Look(
            k.cell,
            tilt,
            turn,
            (*(styles[s] for s in k.strands), *on_style),
            (*(round(100 * thick[s] / k.d) for s in k.strands), *on_thick),
        )
        key = found.key()
        if key not in known:
            known[key] = len(looks)
            looks.append(found)
        knots.append(replace(k, axes=attitude(lean, tilt, turn)))
        look.append(known[key])
        leans.append(lean)
    return Seen(tuple(knots), tuple(looks), tuple(look), tuple(leans))


def _on(
    what: Placed, knot: Instance, styles: Sequence[int], mount: int
) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Style and thickness of what a lark's head is tied on; nothing for other knots."""
    if len(knot.cell.ways) == len(knot.strands):
        return (), ()
    over = what.piece.knots[knot.knot].over
    style = mount if over is None else styles[over]
    return (style,), (round(100 * knot.cell.spec.over_d),)


def split(axes: Points, coarse: int = 1) -> tuple[float, int, int]:
    """A knot's turn in the picture (radians), its tilt and its turn about its axis (steps)."""
    step = coarse * STEP
    up = axes[:, 2]
    across = float(np.hypot(up[0], up[2]))
    lean = float(np.arctan2(up[0], up[2])) if across > 0.1 else 0.0
    tilt = coarse * round(float(np.arctan2(-up[1], across)) / step)
    level = attitude(lean, tilt, 0).T @ axes
    turn = coarse * round(float(np.arctan2(level[1, 0], level[0, 0])) / step)
    turn %= round(2 * np.pi / STEP)
    return lean, tilt, turn


def attitude(lean: float, tilt: int, turn: int) -> Points:
    """(3, 3) float: axes of a knot that leans to the right, tilts to the viewer and is turned."""
    cl, sl = np.cos(lean), np.sin(lean)
    ct, st = np.cos(tilt * STEP), np.sin(tilt * STEP)
    cr, sr = np.cos(turn * STEP), np.sin(turn * STEP)
    in_picture = np.array([[cl, 0.0, sl], [0.0, 1.0, 0.0], [-sl, 0.0, cl]])
    towards = np.array([[1.0, 0.0, 0.0], [0.0, ct, -st], [0.0, st, ct]])
    about = np.array([[cr, -sr, 0.0], [sr, cr, 0.0], [0.0, 0.0, 1.0]])
    out: Points = in_picture @ towards @ about
    return out
