"""The chart's signs: each knot's own crossing picture, strongly simplified.

Every strand of the tight knot is drawn with as few straight lines as still cross each other as
often, and the same way round, as the knot itself does. Nothing else is drawn, so a sign can be read
as the knot, and knots that look alike have signs that look alike.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.chart_gaps import Lying, Part, parted, whole
from cordwright.draw.piece_layers import painted
from cordwright.draw.placed_cell import Cell, Way, evenly
from cordwright.knots.places import exit_order
from cordwright.knots.spec import KnotName

if TYPE_CHECKING:
    from cordwright.draw.placed_cell import Points

COARSEST = (0.4, 0.3, 0.2, 0.1)
"""How far, in d, a simplified strand may stray from its way; the first that keeps all crossings."""

DOWN = 0.38
"""Lanes of the chart for each d downwards."""

HITCH = 0.5
"""Lanes for each d to the right, in hitches: they stand two diameters apart, a lane each."""

GRAZE = 0.8
"""Two crossings of the same strands nearer than this, d, with the same one in front undo each
other: the strands lie side by side, and either may be seen on either side."""

LINED_UP = (KnotName.SQUARE_KNOT, KnotName.HALF_KNOT, KnotName.HALF_HITCH, KnotName.BRAID)
"""Knots whose strands come in side by side and go out side by side."""

FILLS = 0.6
"""A strand that goes no farther than so much to the side, d, only fills."""

EDGES = 0.15
"""How far from a knot's upper and lower edge its sign's corners keep, d."""

TURNS = 3
"""Turns of a wrap that its sign shows at most."""

BREAK = 0.26
"""How wide the space is that a strand in front makes in one behind it, lanes."""


FLATTENED, STEP = 0.05, 0.04
"""Depth of a sign against its width, and the distance of the places along its strands, lanes, at
which it is found what lies over what."""


@dataclass(frozen=True, slots=True)
class Line:
    """One stretch of a sign.

    Args:
        place: of its strand in the knot.
        part: lanes: to the right of the knot's middle, and down from its top.
    """

    place: int
    part: Part


@dataclass(frozen=True, slots=True)
class Sign:
    """A knot's sign.

    Args:
        lines: in the order in which they are painted.
        height: lanes.
    """

    lines: tuple[Line, ...]
    height: float


def sign(cell: Cell) -> Sign:
    """The sign of a knot."""
    if cell.spec.name is KnotName.OVERHAND:
        return _bundled(cell)
    if cell.spec.name is KnotName.GATHERING:
        return _wrapped(_shown(cell))
    ways = cell.ways[: cell.spec.strands]
    plain = simplified([w.points[:, [0, 2, 1]] for w in ways])
    scaled = [p * [1.0, -DOWN, 1.0] for p in _in_lanes(cell, plain)]
    lines = [Line(ways[i].place, part) for i, part in _with_gaps(scaled)]
    return Sign(tuple(lines), cell.height * DOWN)


def _in_lanes(cell: Cell, plain: Sequence[Points]) -> list[Points]:
    """Strands in lanes to the right; where it changes no crossing, they come and go in lanes."""
    across = _across(cell)
    scaled = [p * [across, 1.0, 1.0] for p in plain]
    if cell.spec.name not in LINED_UP:
        return scaled
    # What reaches beyond the knot's edges would cross its fillers above where they begin.
    inner = [_within(p, cell.height) for p in plain]
    lanes = np.arange(len(plain), dtype=np.float64) - 0.5 * (len(plain) - 1)
    seats = np.array([p[0, 0] for p in plain])
    scaled = [p * [across, 1.0, 1.0] for p in inner]
    if cell.spec.name is not KnotName.BRAID and bool((np.diff(seats) > 0.0).all()):
        scaled = [_spread(p, seats, lanes) for p in inner]
    for p, come, go in zip(scaled, lanes, lanes[list(exit_order(cell.spec))], strict=True):
        p[[0, -1], 0] = come, go
    fillers = {i for i, p in enumerate(plain) if float(np.ptp(p[:, 0])) < FILLS}
    # Fillers that lie straight in lanes do not turn about each other as in a bundle.
    wanted, found = (
        {pair: n for pair, n in crossings(w).items() if not fillers.issuperset(pair)}
        for w in (inner, scaled)
    )
    return scaled if wanted == found else [p * [across, 1.0, 1.0] for p in plain]


def _within(strand: Points, height: float) -> Points:
    """A strand that, but for its ends, keeps a little away from its knot's edges."""
    found = strand.copy()
    found[1:-1, 1] = np.clip(strand[1:-1, 1], EDGES - height, -EDGES)
    return found


def _spread(strand: Points, seats: Points, lanes: Points) -> Points:
    """A strand with the places at which strands come in spread to their lanes."""
    x = np.interp(strand[:, 0], seats, lanes)
    x += DOWN * (np.minimum(strand[:, 0] - seats[0], 0.0) + np.maximum(strand[:, 0] - seats[-1], 0))
    if float(np.ptp(strand[:, 0])) < FILLS:
        x[:] = x[0]
    return np.stack([x, strand[:, 1], strand[:, 2]], axis=1)


def _with_gaps(strands: Sequence[Points]) -> list[tuple[int, Part]]:
    """Parts of strands that are seen, with the number of each one's strand, from back to front.

    Args:
        strands: (n, 3) float each, lanes: to the right, down and away from the viewer.
    """
    fine = [evenly(p * [1.0, 1.0, FLATTENED], STEP) for p in strands]
    order = painted(fine, [BREAK] * len(fine))
    # Each goes on a little over those beside it, so that no seam shows.
    ends = [(s.cord, max(0, s.first - 1), s.last + 2) for s in order]
    stretches = [Lying(fine[i][a:b, :2], i, STEP * a) for i, a, b in ends]
    return [
        (stretch.strand, Part(thinned(part.left), thinned(part.right)))
        for stretch, parts in zip(stretches, parted(stretches), strict=True)
        for part in parts
    ]


def _bundled(cell: Cell) -> Sign:
    """Strands knotted together as one line through the knot, and their ends to either side."""
    n, high = cell.spec.strands, cell.height * DOWN
    middle = np.mean([evenly_many(w.points) for w in cell.ways], axis=0)
    plain = simplified([middle[:, [0, 2, 1]]])[0]
    reach = float(np.abs(plain[:, 0]).max()) or 1.0
    inner = plain * [min(0.35 * n + 0.4, 1.6) / reach, -0.7 * DOWN, 1.0] + [0.0, 0.15 * high, 0.0]
    lines = [Line(0, part) for _, part in _with_gaps([inner])]
    for i in range(n):
        lane = i - 0.5 * (n - 1)
        lines.append(Line(i, whole(np.array([[lane, 0.0], inner[0, :2]]))))
        lines.append(Line(i, whole(np.array([inner[-1, :2], [lane, high]]))))
    return Sign(tuple(lines), high)


def _wrapped(cell: Cell) -> Sign:
    """Strands side by side in their lanes, and that half of each turn that is in front of them."""
    lanes = np.arange(cell.spec.strands - 1) - 0.5 * (cell.spec.strands - 2)
    high = cell.height * DOWN
    strands = [np.array([[x, 0.0, 0.0], [x, high, 0.0]]) for x in lanes]
    turns = next(w for w in cell.ways if w.place == 0).points
    front = np.concatenate([[0], (turns[:, 1] < turns[:, 1].mean()).astype(np.int8), [0]])
    edges = np.flatnonzero(np.diff(front))
    reach = lanes[-1] + 0.4
    for a, b in zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True):
        first, last = turns[a], turns[b - 1]
        if abs(last[0] - first[0]) > 0.5 * float(np.ptp(turns[:, 0])):
            side = float(np.sign(last[0] - first[0]))
            heights = -DOWN * first[2], -DOWN * last[2]
            strands.append(
                np.array([[-side * reach, heights[0], -1], [side * reach, heights[1], -1]])
            )
    count = len(lanes)
    lines = [Line(i + 1 if i < count else 0, part) for i, part in _with_gaps(strands)]
    return Sign(tuple(lines), high)


def evenly_many(points: Points, count: int = 200) -> Points:
    """(count, 3) float: the way with so many points."""
    at = np.linspace(0.0, len(points) - 1.0, count)
    return np.stack([np.interp(at, np.arange(len(points)), p) for p in points.T], axis=1)


def _shown(cell: Cell) -> Cell:
    """The cell; of a wrap no more than a few turns."""
    spec = cell.spec
    if spec.name is not KnotName.GATHERING or spec.turns <= TURNS:
        return cell
    share = TURNS / spec.turns
    ways = []
    for w in cell.ways:
        cut = w.points[w.points[:, 2] >= -share * cell.height - 0.6]
        if w.place == 0:
            cut = w.points[: max(2, round(share * len(w.points)))]
        ways.append(Way(w.place, cut))
    return Cell(spec, share * cell.height, cell.twist, tuple(ways))


def _across(cell: Cell) -> float:
    """Lanes for each d to the right: strands come in a lane apart."""
    spec = cell.spec
    if spec.name is KnotName.DOUBLE_HALF_HITCH:
        return HITCH
    if spec.name is KnotName.LARKS_HEAD:
        return HITCH
    seats = [float(w.points[0, 0]) for w in cell.ways]
    wide = max(seats) - min(seats)
    if wide < 0.5:
        return 0.6
    return max(0.25, (len(seats) - 1) / wide)


def simplified(cords: Sequence[Points]) -> list[Points]:
    """Strands with as few corners as keep every crossing.

    Args:
        cords: (n, 3) float each, d: right, up and away from the viewer.
    """
    wanted = crossings(cords)
    for tolerance in COARSEST:
        found = [thinned(c, tolerance) for c in cords]
        if crossings(found) == wanted:
            return found
    return list(cords)


def crossings(cords: Sequence[Points]) -> dict[tuple[int, int], int]:
    """How often each strand passes in front of each other one, by (front, behind)."""
    a = np.concatenate([c[:-1] for c in cords])
    b = np.concatenate([c[1:] for c in cords])
    of = np.repeat(np.arange(len(cords)), [len(c) - 1 for c in cords])
    number = np.concatenate([np.arange(len(c) - 1) for c in cords])
    i, j = np.triu_indices(len(a), 1)
    keep = (of[i] != of[j]) | (number[j] - number[i] > 1)
    i, j = i[keep], j[keep]
    r, s = (b - a)[i], (b - a)[j]
    gap = a[j] - a[i]
    cross = r[:, 0] * s[:, 1] - r[:, 1] * s[:, 0]
    safe = np.where(np.abs(cross) > 1e-12, cross, 1.0)
    t = (gap[:, 0] * s[:, 1] - gap[:, 1] * s[:, 0]) / safe
    u = (gap[:, 0] * r[:, 1] - gap[:, 1] * r[:, 0]) / safe
    hit = (np.abs(cross) > 1e-12) & (t >= 0) & (t < 1) & (u >= 0) & (u < 1)
    i, j, t, u = i[hit], j[hit], t[hit], u[hit]
    deeper = (a[i, 2] + t * (b - a)[i, 2]) > (a[j, 2] + u * (b - a)[j, 2])
    places: dict[tuple[int, int], list[Points]] = {}
    where = a[i, :2] + t[:, None] * r[hit, :2]
    for p, q, first_behind, at in zip(of[i], of[j], deeper, where, strict=True):
        key = (int(q), int(p)) if first_behind else (int(p), int(q))
        places.setdefault(key, []).append(at)
    counts = {key: _apart(at) for key, at in places.items()}
    return {key: n for key, n in counts.items() if n}


def _apart(places: list[Points]) -> int:
    """How many crossings are left where a strand does not only graze another there and back."""
    left = list(places)
    i = 0
    while i < len(left):
        near = [j for j in range(i + 1, len(left)) if _distance(left[i], left[j]) < GRAZE]
        if near:
            del left[near[0]], left[i]
        else:
            i += 1
    return len(left)


def _distance(a: Points, b: Points) -> float:
    return float(np.hypot(a[0] - b[0], a[1] - b[1]))


def thinned(points: Points, tolerance: float = 0.01) -> Points:
    """The way with only the corners that it needs (Douglas and Peucker 1973)."""
    keep = np.zeros(len(points), dtype=bool)
    keep[[0, -1]] = True
    open_ = [(0, len(points) - 1)]
    while open_:
        a, b = open_.pop()
        if b - a < 2:
            continue
        chord = points[b] - points[a]
        off = points[a + 1 : b] - points[a]
        share = np.clip(off @ chord / max(float(chord @ chord), 1e-18), 0.0, 1.0)
        away = np.linalg.norm(off - share[:, None] * chord, axis=1)
        worst = int(away.argmax())
        if away[worst] > tolerance:
            middle = a + 1 + worst
            keep[middle] = True
            open_ += [(a, middle), (middle, b)]
    return points[keep]
