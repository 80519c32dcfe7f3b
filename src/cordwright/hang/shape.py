"""The hanging shape of a piece, with what it holds.

Two passes. *As worked* (``worked.py``): knots are drawn up to each other, which gives the length of
every span that the plan leaves open, and the cord that slants between knots. *As hung*: lengths
are fixed, the weight of cord and of what is held pulls, and everything comes to rest.

What is held stands upright and does not tilt; there is no friction between it and the cord.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from cordwright.errors import WorkError
from cordwright.hang import forces
from cordwright.hang.counted import left_open, lengths
from cordwright.hang.dividing import divided
from cordwright.hang.framing import frame_of
from cordwright.hang.lying import lying
from cordwright.hang.settle import Contacts, Settled, settle
from cordwright.hang.touching import abreast, joined
from cordwright.hang.worked import worked
from cordwright.knots.spec import KnotName

if TYPE_CHECKING:
    from cordwright.hang.frame import Floats, Frame, Ints, Points
    from cordwright.hang.vessel import Vessel
    from cordwright.piece.model import Piece

FINE = 0.2
"""Length of the parts that cord round a held thing is cut into, against its radius."""

MOST_PARTS = 8


@dataclass(frozen=True, slots=True)
class Held:
    """What a piece holds.

    Args:
        vessel: its shape.
        weight: N.
    """

    vessel: Vessel
    weight: float


@dataclass(frozen=True, slots=True)
class Shape:
    """A piece at rest.

    Args:
        piece: as worked.
        settled: its nodes, bars and spans where they came to rest.
        open_mm: length in mm of every span that the plan leaves open, by strand and stop.
        held: what it holds, if anything.
        vessel_node: node at the middle of the held thing's base; -1 if nothing is held.
        outside: (p,) int, nodes of cord and knots that stay outside of what is held.
        start: (n, 3) float, mm, where its nodes were before they hung.
    """

    piece: Piece
    settled: Settled
    open_mm: Mapping[tuple[int, int], float]
    held: Held | None
    vessel_node: int
    outside: Ints
    start: Points

    @property
    def frame(self) -> Frame:
        """What hangs."""
        return self.settled.frame

    @property
    def x(self) -> Points:
        """(n, 3) float: where its nodes are, mm."""
        return self.settled.x


def check_mount(piece: Piece) -> None:
    """See to it that a piece has something to hang from.

    Raises:
        WorkError: it is mounted on nothing.
    """
    mount = piece.plan.mount
    if mount.nothing is not None:
        raise WorkError(
            "The piece is mounted on nothing, so there is nothing that it hangs from; Cordwright "
            "cannot hang work by its last knot.",
            remedy="mount the cords on a ring, a rod or a holding cord",
            place=mount.nothing.where or mount.where,
        )


def hang(piece: Piece, held: Held | None = None, after: Shape | None = None) -> Shape:
    """Let a piece hang.

    Args:
        piece: as worked.
        held: what stands in it.
        after: the shape before a small change of a size or a weight: if the piece still has the
            same knots and spans, it goes on from there, which takes far fewer steps.
    """
    frame = frame_of(piece)
    start = worked(frame)
    rest = lengths(frame, start)
    open_mm = left_open(frame, rest)
    node, outside = -1, np.empty(0, np.int64)
    if held is not None:
        start = _round_it(piece, frame, start, held)
        frame, start, rest, outside, node = _with_vessel(piece, frame, start, rest, held)
    contacts = _contacts(frame, start, held, node)
    settled = _settled(frame, rest, contacts, start, after)
    return Shape(piece, settled, open_mm, held, node, outside, start)


def again(
    shape: Shape, start: Points, frame: Frame | None = None, rest: Floats | None = None
) -> Shape:
    """Let a piece settle again from another start.

    Args:
        shape: the piece at rest, or nearly.
        start: (n, 3) float, mm, where its nodes begin.
        frame: what hangs, if that has changed: the same knots, the same nodes first.
        rest: (s,) float, mm, lengths of its spans, if these have changed.
    """
    frame = shape.frame if frame is None else frame
    rest = shape.settled.rest if rest is None else rest
    contacts = _contacts(frame, shape.start, shape.held, shape.vessel_node)
    return replace(shape, settled=settle(frame, rest, contacts, start))


def _contacts(frame: Frame, upright: Points, held: Held | None, node: int) -> Contacts:
    """What may not pass through what: knots of a row, and everything through what is held.

    Args:
        frame: what hangs.
        upright: (n, 3) float, mm, nodes as worked: knots keep their order to the side from there.
        held: what is held, if anything.
        node: node at the middle of its base.
    """
    beside = abreast(frame, upright)
    if held is None:
        return lambda _frame, _x: beside
    around = lying(frame, held.vessel, node)
    return lambda _frame, x: joined([beside, around(x)])


def _settled(
    frame: Frame,
    rest: Floats,
    contacts: Contacts,
    start: Points,
    after: Shape | None,
) -> Settled:
    """From the last shape, moved as the piece as worked has moved, where that comes to rest."""
    if after is not None and _alike(frame, rest, after.settled):
        near = after.x + (start - after.start)
        settled = settle(frame, rest, contacts, near, after.settled)
        if settled.balanced:
            return settled
    return settle(frame, rest, contacts, start)


def _alike(one: Frame, rest: Floats, after: Settled) -> bool:
    """Whether two frames have the same nodes, knots, joints and spans, whatever their sizes."""
    a, other = one.spans, after.frame
    b = other.spans
    pairs = (
        (one.free, other.free),
        (a.strand, b.strand),
        (a.stop, b.stop),
        (a.a.top, b.a.top),
        (a.b.top, b.b.top),
        (one.bars.top, other.bars.top),
        (forces.Pull(rest, 1.0).joint, after.pull.joint),
    )
    return all(np.array_equal(x, y) for x, y in pairs)


def tensions(shape: Shape) -> dict[tuple[int, int], float]:
    """Pull in N in the cord above every stop, by strand and index of the stop in its course."""
    settled = shape.settled
    found: dict[tuple[int, int], float] = {}
    spans = settled.frame.spans
    for strand, stop, pulled in zip(
        spans.strand,
        spans.stop,
        forces.tensions(settled.frame, settled.x, settled.pull),
        strict=True,
    ):
        key = (int(strand), int(stop))
        found[key] = max(found.get(key, 0.0), float(pulled))
    return found


def _round_it(piece: Piece, frame: Frame, x: Points, held: Held) -> Points:
    """Work in the round, as worked, pulled open so far that what is held has room in it."""
    thickest = max(v for s, v in piece.values.items() if s.startswith("d:"))
    wide = [
        k.id
        for k in piece.knots
        if k.shape == "round" and len(k.slots) < k.of and k.spec.name is not KnotName.LARKS_HEAD
    ]
    x, out = x.copy(), frame.bars.facing[wide, :2]
    for ends in (frame.bars.top[wide], frame.bars.bottom[wide]):
        x[ends, :2] = -(held.vessel.widest + thickest) * out
    return x


def _with_vessel(
    piece: Piece, frame: Frame, x: Points, rest: Floats, held: Held
) -> tuple[Frame, Points, Floats, Ints, int]:
    """The frame with the held thing in it, and the nodes that must stay outside of it."""
    radius = held.vessel.widest
    parts = np.where(frame.spans.row, 1, np.ceil(rest / (FINE * radius)))
    parts = np.clip(parts, 1, MOST_PARTS).astype(np.int64)
    frame, x, rest, inner = divided(frame, x, rest, parts)
    node = len(x)
    base = np.array([[0.0, 0.0, _base(piece, frame, x)]])
    frame = replace(
        frame,
        start=np.concatenate([frame.start, base]),
        free=np.concatenate([frame.free, np.ones((1, 3), dtype=bool)]),
        own=np.concatenate([frame.own, [held.weight]]),
    )
    points = np.concatenate([frame.bars.top, frame.bars.bottom, inner])
    return frame, np.concatenate([x, base]), rest, points, node


def _base(piece: Piece, frame: Frame, x: Points) -> float:
    """Height of the held thing's base at first: where all strands of the round come together."""
    tops = x[frame.bars.top, 2]
    foot = [k.id for k in piece.knots if k.shape == "round" and len(k.slots) >= k.of]
    if foot:
        return float(tops[foot].max())
    around = [k.id for k in piece.knots if k.shape == "round"]
    return float(tops[around].min() if around else tops.min())


def clearance(frame: Frame) -> Floats:
    """(n,) float: mm from each node to the outside of its cord or knot."""
    clear = np.zeros(len(frame.start))
    spans = frame.spans
    np.maximum.at(clear, spans.a.top, 0.5 * spans.thick)
    np.maximum.at(clear, spans.b.top, 0.5 * spans.thick)
    for ends in (frame.bars.top, frame.bars.bottom):
        clear[ends] = 0.5 * frame.bars.depth
    return clear
