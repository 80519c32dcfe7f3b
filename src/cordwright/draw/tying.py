"""How a knot is tied, in three to six pictures made from the tight knot itself.

The tight curves, drawn with thinner cord, are the knot slackened: tightening tubes k times as thick
gives the same curves k times as large. Each step shows every cord as far as it has been laid; where
steps end follows from where the cords cross (``moves.py``). The last picture is the tight knot.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.caption import colours, title
from cordwright.draw.crossings import crossings
from cordwright.draw.curves import at, lengths, part
from cordwright.draw.ink import FLAX, PAPER, RIGID, Ink, mixed
from cordwright.draw.knotfigure import Figure, Frame, around, composed, inks_of, page_of
from cordwright.draw.layers import Run, Tube, layers
from cordwright.draw.moves import Interval, moves
from cordwright.draw.poses import Pose, tying_pose
from cordwright.draw.wording import Wording, english

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from cordwright.draw.cords import Cord
    from cordwright.draw.crossings import Crossing
    from cordwright.draw.strokes import Page
    from cordwright.knots.atlas import Atlas
    from cordwright.knots.spec import KnotSpec, Role

    Floats = NDArray[np.float64]

DRAWN_UP = 1.35
"""How much larger than in the steps before the tight knot is drawn."""

QUIET = (FLAX, RIGID)
"""Inks that are pale as they are."""

FADED = 0.5
"""By how much what was laid before pales against the paper."""


@dataclass(frozen=True, slots=True)
class Pass:
    """One crossing that a moving strand makes.

    Args:
        over: whether it goes over.
        place: place of the other strand in the line-up; None for a ring or rod.
        role: what the other cord does.
        itself: whether the other cord is the strand itself.
    """

    over: bool
    place: int | None
    role: Role
    itself: bool


@dataclass(frozen=True, slots=True)
class Moved:
    """What one strand does in a step.

    Args:
        place: its place in the line-up, from the left where strands come in.
        ink: how it is drawn.
        passes: what it crosses, in the order in which it does.
    """

    place: int | None
    ink: Ink
    passes: tuple[Pass, ...]


@dataclass(frozen=True, slots=True)
class Step:
    """One picture of the tying.

    Args:
        number: from 1.
        figure: the picture.
        moved: which strands move, and how; none in the last step, which draws the knot up.
        shown: for each cord of the picture, from where to where it is to be seen, as arc lengths
            along it in d.
    """

    number: int
    figure: Figure
    moved: tuple[Moved, ...]
    shown: tuple[Interval, ...]


def tying(atlas: Atlas, spec: KnotSpec, wording: Wording | None = None) -> tuple[Step, ...]:
    """The steps in which a knot is tied; the last one is the tight knot.

    Args:
        atlas: where tight curves come from.
        spec: which knot.
        wording: how titles and descriptions are written; English if None.

    Raises:
        KnotError: if the knot cannot be tied as specified.
    """
    pose = tying_pose(atlas, spec)
    cords, inks = pose.cords, inks_of(pose.cords)
    slack = tuple(pose.slackened(c) for c in cords)
    crossed = crossings(slack)
    frame = _room(around(slack))
    before, rounds = moves(cords, slack, crossed)
    said = wording or english()
    name, seen = title(spec, said), colours(inks, said)
    steps: list[Step] = []
    for number, now in enumerate(rounds, start=1):
        heading = said.say("step", knot=name, number=number, of=len(rounds) + 1)
        figure = _picture(slack, inks, before, now, frame, (heading, seen))
        moved = _moved(cords, inks, crossed, before, now)
        steps.append(Step(number, figure, moved, now))
        before = now
    number = len(steps) + 1
    heading = said.say("step-last", knot=name, number=number, of=number)
    return (*steps, _last(pose, frame, number, (heading, seen)))


def _room(frame: Frame) -> Frame:
    """The frame with room for arrows."""
    return Frame(frame.left - 0.8, frame.right + 0.8, frame.bottom - 1.6, frame.top + 0.4)


def _picture(
    slack: Sequence[Tube],
    inks: Sequence[Ink],
    before: Sequence[Interval],
    now: Sequence[Interval],
    frame: Frame,
    words: tuple[str, str],
) -> Figure:
    tubes = tuple(
        replace(t, points=part(t.points, i.start, i.end)) for t, i in zip(slack, now, strict=True)
    )
    # What was laid before, along the part that is shown now.
    old = [Interval(b.start - n.start, b.end - n.start) for b, n in zip(before, now, strict=True)]
    still = [b == n for b, n in zip(before, now, strict=True)]
    runs = _split(layers(tubes), old)
    shades = [_shade(inks[r.cord], old[r.cord], r, still[r.cord]) for r in runs]
    page = page_of(frame)
    arrows = [
        arrow
        for tube, i, b, n in zip(tubes, inks, before, now, strict=True)
        for arrow in _arrows(tube, i, b, n, page)
    ]
    heads = [f'<g stroke-width=".5">{"".join(arrows)}</g>'] if arrows else []
    return composed(tubes, runs, shades, frame, *words, heads)


def _split(runs: Sequence[Run], old: Sequence[Interval]) -> tuple[Run, ...]:
    """Runs cut where what was laid before ends, so that both parts can have shades of their own."""
    found: list[Run] = []
    for run in runs:
        i = old[run.cord]
        cuts = [s for s in (i.start, i.end) if run.start + 1e-6 < s < run.end - 1e-6]
        ends = [run.start, *cuts, run.end]
        found += [Run(run.cord, a, b) for a, b in pairwise(ends)]
    return tuple(found)


def _shade(ink: Ink, old: Interval, run: Run, still: bool) -> Ink:
    """The ink of a run: pale where it was laid before, and quiet cords as they are."""
    laid = still or old.start <= (run.start + run.end) / 2 <= old.end
    return _faded(ink) if laid and ink not in QUIET else ink


def _faded(ink: Ink) -> Ink:
    return replace(
        ink,
        fill=mixed(ink.fill, PAPER, FADED),
        edge=mixed(ink.edge, PAPER, FADED),
        mark_colour=mixed(ink.mark_colour, PAPER, FADED),
    )


HEAD = (1.5, 0.85)
"""Length and half width of an arrow head, in d."""


def _arrows(tube: Tube, ink: Ink, before: Interval, now: Interval, page: Page) -> list[str]:
    """Heads at the ends of a cord that have just moved."""
    total = float(lengths(tube.points)[-1])
    found = []
    if now.end > before.end + 1e-6:
        found.append(_head(tube.points, total, -1.0, ink, page))
    if now.start < before.start - 1e-6:
        found.append(_head(tube.points, 0.0, 1.0, ink, page))
    return found


def _head(points: Floats, tip: float, back: float, ink: Ink, page: Page) -> str:
    """A triangle that goes on from one end of a cord."""
    by = 0.3
    end = at(points, np.array([tip]))[0, :2]
    way = end - at(points, np.array([tip + back * by]))[0, :2]
    while float(np.hypot(*way)) < 0.2 and by < 3.0:
        # The end points at the viewer or away: it is shown the way it came.
        by *= 1.5
        way = end - at(points, np.array([tip + back * by]))[0, :2]
    way = way / max(float(np.hypot(*way)), 1e-9)
    aside = np.array([-way[1], way[0]])
    corners = page.on(np.array([end + HEAD[1] * aside, end + HEAD[0] * way, end - HEAD[1] * aside]))
    text = "L".join(f"{x:.2f} {y:.2f}" for x, y in corners)
    return f'<path d="M{text}Z" fill="{ink.fill}" stroke="{ink.edge}"/>'


def _moved(
    cords: Sequence[Cord],
    inks: Sequence[Ink],
    crossed: Sequence[Crossing],
    before: Sequence[Interval],
    now: Sequence[Interval],
) -> tuple[Moved, ...]:
    """The strands that move in a step, with the crossings that they make with what is laid."""
    found = []
    for i, (b, n) in enumerate(zip(before, now, strict=True)):
        ways = []
        if n.end > b.end + 1e-6:
            ways.append(_passes(i, b.end, n.end, cords, crossed, now))
        if n.start < b.start - 1e-6:
            ways.append(_passes(i, b.start, n.start, cords, crossed, now))
        found += [Moved(cords[i].place, inks[i], w) for w in ways]
    return tuple(found)


def _passes(
    cord: int,
    start: float,
    end: float,
    cords: Sequence[Cord],
    crossed: Sequence[Crossing],
    now: Sequence[Interval],
) -> tuple[Pass, ...]:
    """What a strand crosses between two arc lengths, in the order in which its end meets it."""
    low, high = min(start, end), max(start, end)
    met = []
    for c in crossed:
        for over, at_, other, other_at in (
            (True, c.over_at, c.under, c.under_at),
            (False, c.under_at, c.over, c.over_at),
        ):
            mine = (c.over if over else c.under) == cord and low < at_ <= high
            if not mine or not now[other].start <= other_at <= now[other].end:
                continue
            if (
                other == cord
                and abs(other_at - start) > abs(at_ - start)
                and low < other_at <= high
            ):
                # Its own earlier part is met when the end comes back to it, not before.
                continue
            what = cords[other]
            met.append((abs(at_ - start), Pass(over, what.place, what.role, other == cord)))
    return tuple(p for _, p in sorted(met, key=lambda m: m[0]))


def _last(pose: Pose, frame: Frame, number: int, words: tuple[str, str]) -> Step:
    """The knot drawn up, in the middle of the same frame."""
    inks = inks_of(pose.tight)
    tubes = [Tube(DRAWN_UP * pose.view.seen(c.points), DRAWN_UP * c.diameter) for c in pose.tight]
    own = around(tubes)
    shift = np.array(
        [
            (frame.left + frame.right - own.left - own.right) / 2,
            (frame.bottom + frame.top - own.bottom - own.top) / 2,
            0.0,
        ]
    )
    tubes = [replace(t, points=t.points + shift) for t in tubes]
    runs = layers(tubes)
    figure = composed(tubes, runs, [inks[r.cord] for r in runs], frame, *words)
    shown = tuple(Interval(0.0, float(lengths(t.points)[-1])) for t in tubes)
    return Step(number, figure, (), shown)
