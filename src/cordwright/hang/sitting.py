"""Whether what is held sits: tight or loose, fallen through, and how it gives when pushed aside.

Cord without stretch or friction can hold a body in more than one way. If the first way jams (cord
pulls far more than the load, clamping the body between its foot and its rim), it is tried again
with the body let in from higher up, as a maker does; only if that jams too is the net too tight.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from cordwright.hang.forces import tensions
from cordwright.hang.frame import Ports, Spans
from cordwright.hang.shape import Held, again, hang
from cordwright.hang.touching import plain

if TYPE_CHECKING:
    from cordwright.hang.frame import Floats
    from cordwright.hang.shape import Shape
    from cordwright.piece.model import Piece

JAMMED = 3.0
"""Pull in one strand against all weight, above which the cord clamps and does not carry. A strand
that carries half of the load pulls that much only 10 degrees from level: 1 / (2 sin 10) = 2.9."""

CLAMPED = 1.0
"""Pull in one strand against all weight, from which on its cord counts as too short, where the net
clamps: a strand that carries everything, straight down, pulls that much."""

LIFTS = (0.75, 1.0, 0.4)
"""How much higher the body is let in, against its height, if it jammed at first."""

RESTS = 0.01
"""Largest force out of balance, against all weight, with which it counts as held: some slack cord
still swings, and heights no longer change."""

FAR = 2e4
"""Length in mm of the cords of the device that pushes; so long that their directions stay."""


@dataclass(frozen=True, slots=True)
class Stretched:
    """Free cord that is too short.

    Args:
        strand: index of the strand.
        stop: index in its course of the knot below.
        mm: how much longer it is pulled than it is.
        pull: N.
    """

    strand: int
    stop: int
    mm: float
    pull: float


@dataclass(frozen=True, slots=True)
class Sitting:
    """How a body is held.

    Args:
        shape: the piece at rest.
        stretched: free cord that is too short, the worst first.
        strain: largest pull in one strand against all weight.
        fallen: whether the body has left the net downwards.
    """

    shape: Shape
    stretched: tuple[Stretched, ...]
    strain: float
    fallen: bool

    @property
    def tight(self) -> bool:
        """Whether the net clamps it."""
        return not self.fallen and self.strain > JAMMED

    @property
    def holds(self) -> bool:
        """Whether it hangs at rest in the net, and is not clamped."""
        return not self.fallen and not self.tight and self.still

    @property
    def still(self) -> bool:
        """Whether it has come to rest, as far as heights show it."""
        return self.shape.settled.residual < RESTS


def sit(piece: Piece, held: Held) -> Sitting:
    """Let a piece hang with a body in it.

    Args:
        piece: as worked.
        held: the body.
    """
    first = found = _judged(hang(piece, held))
    for lift in LIFTS:
        if found.holds:
            return found
        again = _judged(_let_in(first.shape, lift * held.vessel.height))
        if again.holds or _better(again, found):
            found = again
    return found


def _better(a: Sitting, b: Sitting) -> bool:
    if a.fallen != b.fallen:
        return b.fallen
    return a.strain < b.strain and a.shape.settled.residual <= b.shape.settled.residual


def _judged(shape: Shape) -> Sitting:
    settled = shape.settled
    spans = settled.frame.spans
    length = np.linalg.norm(spans.a.at(shape.x) - spans.b.at(shape.x), axis=1)
    load = float(settled.frame.weight.sum())
    pull = tensions(settled.frame, shape.x, settled.pull)
    over = np.maximum(0.0, length - settled.rest)
    strain = float(pull.max(initial=0.0)) / load if load > 0.0 else 0.0
    return Sitting(shape, tuple(_stretched(spans, over, pull, load)), strain, left(shape))


def _stretched(spans: Spans, over: Floats, pull: Floats, load: float) -> Iterator[Stretched]:
    total: dict[tuple[int, int], tuple[float, float]] = {}
    for strand, stop, mm, n in zip(spans.strand, spans.stop, over, pull, strict=True):
        before, most = total.get((int(strand), int(stop)), (0.0, 0.0))
        total[int(strand), int(stop)] = before + float(mm), max(most, float(n))
    order = sorted(total.items(), key=lambda item: (-item[1][0], item[0]))
    for (strand, stop), (mm, n) in order:
        if n > CLAMPED * load:
            yield Stretched(strand, stop, mm, n)


def left(shape: Shape) -> bool:
    """Whether the body has left the net: all of it lies below or beside every knot."""
    if shape.held is None:
        return False
    knots = shape.x[shape.frame.bars.bottom]
    base, vessel = shape.x[shape.vessel_node], shape.held.vessel
    reach = float(np.hypot(knots[:, 0] - base[0], knots[:, 1] - base[1]).min())
    over = knots[:, 2] > base[2] + vessel.height
    low = knots[~over]
    if not len(low):
        return True
    angle = np.sort(np.arctan2(low[:, 1] - base[1], low[:, 0] - base[0]))
    around_it = np.diff(np.append(angle, angle[0] + 2 * np.pi)).max(initial=0.0) < np.pi
    return reach > 2.0 * vessel.widest and not around_it


def _let_in(shape: Shape, lift: float) -> Shape:
    """The same piece with the body let in so many mm higher."""
    start = shape.frame.start.copy()
    start[shape.vessel_node, 2] += lift
    return again(shape, start)


def pushed(shape: Shape, force: float) -> Shape:
    """The shape with its body pushed to the right by a steady force, by the middle of its base.

    The force comes from a weight on a cord: a long level cord from the body goes to a weight, which
    hangs on another cord from a far point at 45 degrees; then the level cord pulls as much as it
    weighs.

    Args:
        shape: a piece at rest with a body in it.
        force: N.
    """
    frame, spans = shape.frame, shape.frame.spans
    x = shape.x[shape.vessel_node]
    weight, far = len(shape.x), len(shape.x) + 1
    nodes = x + np.array([[FAR, 0.0, 0.0], [2 * FAR, 0.0, FAR]])
    after = replace(
        frame,
        start=np.concatenate([frame.start, nodes]),
        free=np.concatenate([frame.free, [[True] * 3, [False] * 3]]),
        own=np.concatenate([frame.own, [force, 0.0]]),
        spans=Spans(
            _and(spans.a, [shape.vessel_node, weight]),
            _and(spans.b, [weight, far]),
            np.append(spans.rest, [FAR, FAR * np.sqrt(2.0)]),
            np.append(spans.given, [True, True]),
            np.append(spans.strand, [-1, -1]),
            np.append(spans.stop, [-1, -1]),
            np.append(spans.row, [False, False]),
            np.append(spans.weight, [0.0, 0.0]),
            np.append(spans.thick, [1.0, 1.0]),
        ),
    )
    rest = np.append(shape.settled.rest, [FAR, FAR * np.sqrt(2.0)])
    return again(shape, np.concatenate([shape.x, nodes]), after, rest)


def _and(ports: Ports, nodes: list[int]) -> Ports:
    more = plain(np.array(nodes, dtype=np.int64))
    return Ports(
        np.concatenate([ports.top, more.top]),
        np.concatenate([ports.bottom, more.bottom]),
        np.concatenate([ports.along, more.along]),
        np.concatenate([ports.aside, more.aside]),
        np.concatenate([ports.facing, more.facing]),
    )
