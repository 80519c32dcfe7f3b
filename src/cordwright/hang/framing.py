"""From a worked piece to the frame that hangs.

First guess: knots lie at the depth that adding up gives, beside each other in the order of the
line-up; round pieces about an axis, every round as wide as it is worked (`cordwright.hang.rounds`),
knots that take every strand on the axis. Flat parts of round pieces are drawn up to the side by
themselves; what is worked flat on from a round stays on the side that its strands come from.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

import numpy as np

from cordwright.hang import mounts, rounds
from cordwright.hang.frame import Bars, Frame, Spans, ports
from cordwright.hang.stretching import give
from cordwright.hang.worked import side_by_side
from cordwright.knots.spec import KnotName, Role
from cordwright.piece.weight import weight
from cordwright.plan.model import RingMount
from cordwright.units.force import GRAVITY

if TYPE_CHECKING:
    from cordwright.hang.frame import Floats, Points
    from cordwright.hang.mounts import Spot
    from cordwright.knots.spec import KnotFigures
    from cordwright.piece.model import Knot, Piece, Stop, Strand

PITCH = 2.0
"""Width of a slot of the line-up in cord diameters: half a lark's head (its tight width is 4 d)."""

CORD_G_PER_MM2_M = 0.7
"""Mass of cord whose fibre is not known, in g per metre and mm^2 of diameter squared: cotton at
three fifths packing. From memory, unchecked; it only matters for what hangs by its own weight."""

Row = tuple[int, int, float, float, tuple[float, float, float]]


@dataclass(slots=True)
class Layout:
    """What building a frame collects.

    Args:
        piece: the worked piece.
        round: whether the piece is closed on itself anywhere.
        ring: whether it hangs from one point: then its flat parts are arms round the middle.
        level_ring: whether it hangs on a ring that lies level.
        around: for every knot whether it lies about the axis.
        angles: by strand, where round the axis it is since it was last worked in the round.
    """

    piece: Piece
    round: bool
    ring: bool
    level_ring: bool = False
    around: list[bool] = field(default_factory=list)
    angles: dict[int, float] = field(default_factory=dict)
    nodes: list[tuple[float, float, float]] = field(default_factory=list)
    held: list[int] = field(default_factory=list)
    level: list[int] = field(default_factory=list)
    weights: list[float] = field(default_factory=list)
    tops: list[int] = field(default_factory=list)
    bottoms: list[int] = field(default_factory=list)
    facing: list[tuple[float, float, float]] = field(default_factory=list)
    upper: list[Row] = field(default_factory=list)
    lower: list[Row] = field(default_factory=list)
    rest: list[float] = field(default_factory=list)
    given: list[bool] = field(default_factory=list)
    strand: list[int] = field(default_factory=list)
    stop: list[int] = field(default_factory=list)
    row: list[bool] = field(default_factory=list)
    span_weight: list[float] = field(default_factory=list)
    thick: list[float] = field(default_factory=list)
    give: list[float] = field(default_factory=list)
    newtons: dict[str, float] = field(default_factory=dict)  # of a millimetre, by cord
    below: dict[tuple[int, int], None] = field(default_factory=dict)
    stiff: dict[tuple[int, int], None] = field(default_factory=dict)

    def node(self, where: tuple[float, float, float], *, held: bool = False) -> int:
        """A new node; gives its index."""
        self.nodes.append(where)
        self.weights.append(0.0)
        if held:
            self.held.append(len(self.nodes) - 1)
        return len(self.nodes) - 1


def frame_of(piece: Piece) -> Frame:
    """The frame of a piece.

    Args:
        piece: as worked.
    """
    is_round = any(k.shape == "round" for k in piece.knots)
    ring = isinstance(piece.plan.mount.on, RingMount)
    out = Layout(piece, is_round, ring, mounts.lies_level(piece))
    for knot in piece.knots:
        _lay_knot(out, knot)
    for strand in piece.strands:
        _lay_strand(out, strand)
    return _finished(out)


def diameter(piece: Piece, knot: Knot) -> float:
    """Diameter in mm of a knot's working cord: its d."""
    return piece.values[f"d:{knot.cord}"]


def _lay_knot(out: Layout, knot: Knot) -> None:
    piece, d = out.piece, diameter(out.piece, knot)
    height, top = piece.mm(knot.height), piece.mm(knot.top)
    mounted = knot.spec.name is KnotName.LARKS_HEAD
    out.around.append(not mounted and _lies_round(out, knot))
    x, y, z, facing = _place(out, knot, d) if not mounted else _on_mount(out, knot)
    t = out.node((x, y, z - (0.0 if mounted else top)), held=mounted)
    b = out.node((x, y, z - (0.0 if mounted else top) - height), held=mounted)
    out.tops.append(t)
    out.bottoms.append(b)
    out.facing.append(facing)


def _lies_round(out: Layout, knot: Knot) -> bool:
    """Whether a knot lies about an axis: in the round, in arms of a ring, or on from a round."""
    return out.round and (
        knot.shape == "round" or out.ring or any(s in out.angles for s in knot.strands)
    )


def _place(out: Layout, knot: Knot, d: float) -> Spot:
    slots = sorted(knot.slots) or [0]
    if not _lies_round(out, knot):
        middle = sum(slots) / len(slots) - 0.5 * (knot.of - 1)
        return middle * PITCH * d, 0.0, 0.0, (0.0, 1.0, 0.0)
    if len(slots) >= knot.of:
        return 0.0, 0.0, 0.0, (0.0, 1.0, 0.0)
    angle = _angle(out, knot, slots)
    radius = knot.of * PITCH * d / (2 * math.pi)
    sin, cos = math.sin(angle), math.cos(angle)
    return radius * sin, -radius * cos, 0.0, (-sin, cos, 0.0)


def _angle(out: Layout, knot: Knot, slots: list[int]) -> float:
    """Where round the axis a knot lies."""
    before = [out.angles[s] for s in knot.strands if s in out.angles]
    if knot.shape != "round" and before:
        # The line-up may have fewer places now, but its strands hang where they did.
        east, north = sum(map(math.cos, before)), sum(map(math.sin, before))
        return math.atan2(north, east) % (2 * math.pi)
    # A group over the seam has its slots at both ends of the line-up.
    if slots[-1] - slots[0] > knot.of / 2:
        slots = [s - knot.of if s > knot.of / 2 else s for s in slots]
    angle = 2 * math.pi * (sum(slots) / len(slots) + 0.5) / knot.of
    if not out.ring and out.piece.plan.mount.nothing is None:
        # Below a flat panel the round's seam is at the back, so that nothing crosses over.
        angle -= math.pi
    if knot.shape == "round":
        out.angles.update(dict.fromkeys(knot.strands, angle))
    return angle


def _on_mount(out: Layout, knot: Knot) -> Spot:
    """Lark's heads stand side by side on what they are tied on."""
    return mounts.mounted(out.piece, _mount_widths(out.piece), knot, level=out.level_ring)


def _mount_widths(piece: Piece) -> list[float]:
    return [
        piece.figures[k.spec].width_d * diameter(piece, k)
        for k in piece.knots
        if k.spec.name is KnotName.LARKS_HEAD
    ]


def _lay_strand(out: Layout, strand: Strand) -> None:
    piece = out.piece
    cord = piece.cords[strand.cord].cord
    stops = [(i, s) for i, s in enumerate(strand.course) if not _lies_in(piece, s)]
    for (_, a), (i, b) in itertools.pairwise(stops):
        free = piece.mm(b.free)
        out.upper.append(_port(out, a, leaving=True))
        out.lower.append(_port(out, b, leaving=False))
        _span(out, free, b.asked, strand, i)
        out.row[-1] = a.role is b.role is Role.HOLDING and free < 1e-6
        if Role.HOLDING not in (a.role, b.role):
            out.below[(a.knot, b.knot)] = None
        if out.row[-1] or _one_sinnet(piece.knots[a.knot], piece.knots[b.knot], free):
            out.stiff[(a.knot, b.knot)] = None
    spanned = {i for i, _ in stops[1:]}
    if stops and _begin(out, strand, *stops[0]):
        spanned.add(stops[0][0])
    if strand.course:
        # Tails weigh on the knots that they come from.
        _hang_weight(out, [out.tops[strand.course[0].knot]], cord, piece.mm(strand.start))
        tail = piece.mm(strand.end.length)
        _hang_weight(out, [out.bottoms[strand.course[-1].knot]], cord, tail)
    for i, s in enumerate(strand.course):
        # What pulls on nothing, such as a wrap, has its weight all the same.
        loose = 0.0 if i in spanned else piece.mm(s.free)
        ends = [out.tops[s.knot], out.bottoms[s.knot]]
        _hang_weight(out, ends, cord, piece.mm(s.take_up) + loose)


def _one_sinnet(a: Knot, b: Knot, free: float) -> bool:
    return free < 1e-6 and set(a.strands) == set(b.strands)


def _begin(out: Layout, strand: Strand, index: int, first: Stop) -> bool:
    """Strands that begin at the top without a knot hang from there; whether this one does."""
    piece = out.piece
    knot = piece.knots[first.knot]
    part = piece.cords[strand.cord].part
    if knot.spec.name is KnotName.LARKS_HEAD or part != "mount":
        return False
    row = _port(out, first, leaving=False)
    x, y, _ = out.nodes[row[0]]
    # It is held at its height and finds its own place to the side.
    anchor = out.node((x, y, 0.0))
    out.level.append(anchor)
    out.upper.append((anchor, anchor, 0.0, 0.0, (0.0, 0.0, 0.0)))
    out.lower.append(row)
    _span(out, piece.mm(first.free), True, strand, index)
    return True


def _lies_in(piece: Piece, stop: Stop) -> bool:
    """A wrap and the cord that lark's heads are tied on pull on nothing."""
    knot = piece.knots[stop.knot]
    if knot.spec.name is KnotName.GATHERING and stop.place == 0:
        return True
    return stop.place >= len(knot.strands)


def _span(out: Layout, rest: float, given: bool, strand: Strand, stop: int) -> None:
    cord = out.piece.cords[strand.cord].cord
    out.rest.append(max(rest, 0.0))
    out.given.append(given)
    out.strand.append(strand.id)
    out.stop.append(stop)
    out.row.append(False)
    out.span_weight.append(max(rest, 0.0) * _newtons(out, cord))
    d = out.piece.values[f"d:{cord}"]
    out.thick.append(d)
    out.give.append(give(out.piece.plan.cords[cord], d))


def _hang_weight(out: Layout, nodes: list[int], cord: str, mm: float) -> None:
    newtons = mm * _newtons(out, cord)
    for n in nodes:
        out.weights[n] += newtons / len(nodes)


def _newtons(out: Layout, cord: str) -> float:
    """Weight in N of a millimetre of cord."""
    if cord not in out.newtons:
        out.newtons[cord] = cord_newtons(out.piece, cord, 1.0)
    return out.newtons[cord]


def cord_newtons(piece: Piece, cord: str, mm: float) -> float:
    """Weight in N of a length of cord in mm."""
    found = weight(piece, cord, mm)
    if found is not None:
        return found.g / 1000.0 * GRAVITY
    return CORD_G_PER_MM2_M * piece.values[f"d:{cord}"] ** 2 * mm * 1e-6 * GRAVITY


def _port(out: Layout, stop: Stop, *, leaving: bool) -> Row:
    """Where a strand comes into a knot or leaves it."""
    piece, knot = out.piece, out.piece.knots[stop.knot]
    figures, d = piece.figures[knot.spec], diameter(piece, knot)
    height = max(piece.mm(knot.height), 1e-6)
    t, b, facing = out.tops[knot.id], out.bottoms[knot.id], out.facing[knot.id]
    if knot.spec.name is KnotName.DOUBLE_HALF_HITCH and stop.place == 0:
        along, aside = _held(knot.spec.hand, knot.spec.slant_deg, figures, d, leaving=leaving)
        return t, b, 0.5 + along / height, aside / height, facing
    aside = strand_side(figures, stop.place, leaving=leaving) * d
    if out.round and 0 < knot.of <= len(knot.slots):
        # All strands of a round in one knot come together from all sides, not in a line.
        aside = 0.0
    return t, b, 1.0 if leaving else 0.0, aside / height, facing


def strand_side(figures: KnotFigures, place: int, *, leaving: bool) -> float:
    """Diameters to the right of a knot's middle at which a strand comes in or leaves."""
    enter = figures.enter_d
    if not enter:
        # Figures without a tight curve (made up in a test): evenly across.
        count = figures.spec.strands
        enter = tuple((i - 0.5 * (count - 1)) * figures.width_d / count for i in range(count))
    if figures.spec.name is KnotName.DOUBLE_HALF_HITCH:
        return -enter[place] if leaving else enter[place]
    return enter[figures.exit_order[place]] if leaving else enter[place]


def _held(
    hand: str, slant_deg: float, figures: KnotFigures, d: float, *, leaving: bool
) -> tuple[float, float]:
    """Down and to the right of a hitch's middle, mm, where its holding cord comes in or leaves."""
    half = 0.5 * figures.width_d * d
    slant = math.radians(slant_deg)
    way = half if leaving else -half
    right = way if hand == "right" else -way
    return way * math.sin(slant), right * math.cos(slant)


def _finished(out: Layout) -> Frame:
    piece = out.piece
    start = np.array(out.nodes, dtype=np.float64).reshape(-1, 3)
    free = np.ones_like(start, dtype=bool)
    free[out.held] = False
    free[out.level, 2] = False
    if not out.round:
        free[:, 1] = False
    d = [diameter(piece, k) for k in piece.knots]
    figures = [piece.figures[k.spec] for k in piece.knots]
    bars = Bars(
        np.array(out.tops, dtype=np.int64),
        np.array(out.bottoms, dtype=np.int64),
        _floats([piece.mm(k.height) for k in piece.knots]),
        _floats([f.width_d * m for f, m in zip(figures, d, strict=True)]),
        _floats([f.depth_d * m for f, m in zip(figures, d, strict=True)]),
        np.array(out.facing, dtype=np.float64).reshape(-1, 3),
        np.arange(len(piece.knots)),
    )
    spans = Spans(
        ports(out.upper),
        ports(out.lower),
        _floats(out.rest),
        np.array(out.given, dtype=bool),
        np.array(out.strand, dtype=np.int64),
        np.array(out.stop, dtype=np.int64),
        np.array(out.row, dtype=bool),
        _floats(out.span_weight),
        _floats(out.thick),
        _floats(out.give),
    )
    below = np.array(list(out.below), dtype=np.int64).reshape(-1, 2)
    beside = np.array(_neighbours(piece), dtype=np.int64).reshape(-1, 2)
    stiff = np.array(list(out.stiff), dtype=np.int64).reshape(-1, 2)
    frame = Frame(start, free, _floats(out.weights), bars, spans, below, beside, stiff)
    return replace(frame, start=_rounded(out, frame)) if out.round else frame


def _rounded(out: Layout, frame: Frame) -> Points:
    """The start with flat parts drawn up, and every round as wide as it is worked."""
    flat = [
        k.spec.name is KnotName.LARKS_HEAD or (not around and len(k.slots) < k.of)
        for around, k in zip(out.around, out.piece.knots, strict=True)
    ]
    drawn = side_by_side(frame, np.array(flat))
    of, least = rounds.rounds(out.piece, out.around, frame.bars.width)
    return rounds.drawn_in(replace(frame, start=drawn), of, least)


def _neighbours(piece: Piece) -> list[tuple[int, int]]:
    """Pairs of knots side by side in one row, the left one first.

    The holding cord keeps the hitches of a row apart, and what lark's heads are tied on keeps
    those: they are not among them.
    """
    rows: dict[tuple[object, ...], dict[int, Knot]] = {}
    apart = {KnotName.DOUBLE_HALF_HITCH, KnotName.LARKS_HEAD}
    for k in piece.knots:
        if k.spec.name not in apart:
            rows.setdefault((k.step, k.section, k.row, k.number), {})[k.column] = k
    pairs: list[tuple[int, int]] = []
    for row in rows.values():
        for column, k in row.items():
            right = row.get(column + 1)
            if right is None and k.shape == "round" and column == max(row) and len(row) > 2:
                right = row.get(0)
            if right is not None and right.id != k.id:
                pairs.append((k.id, right.id))
    return pairs


def _floats(values: list[float]) -> Floats:
    return np.array(values, dtype=np.float64)
