"""Where the steps of a tying begin and end, found from where the cords cross.

Three ways of working cover the atlas. Round something that stays straight (fillers, a holding cord,
a rod) a strand is laid in passes: a pass ends when the strand changes from its front to its back
or meets the same cord again. A strand knotted on itself is laid crossing by crossing. Strands
plaited with each other move together, from one height of crossings to the next.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.curves import lengths
from cordwright.knots.spec import Role

if TYPE_CHECKING:
    from cordwright.draw.cords import Cord
    from cordwright.draw.crossings import Crossing
    from cordwright.draw.layers import Tube

MOST = 5
"""Most moves before the knot is drawn up."""

STUB = 1.4
"""How far before its first crossing a cord that waits is cut, in d."""


HEAD = 1.6
"""Room for an arrow between a cord's end and something thick, in d."""


@dataclass(frozen=True, slots=True)
class Interval:
    """From where to where along a cord, in d."""

    start: float
    end: float


@dataclass(frozen=True, slots=True)
class Event:
    """A crossing as one of its cords meets it: where along it, whether over, and the other cord."""

    at: float
    over: bool
    other: int
    other_at: float


Shown = tuple[Interval, ...]


def moves(
    cords: Sequence[Cord], slack: Sequence[Tube], crossed: Sequence[Crossing]
) -> tuple[Shown, tuple[Shown, ...]]:
    """What is shown before the first step, and after each step but the last.

    Args:
        cords: the cords of the knot.
        slack: the same slackened, as they are seen.
        crossed: where these cross.
    """
    totals = [float(lengths(t.points)[-1]) for t in slack]
    core = {i for i, c in enumerate(cords) if c.role is not Role.WORKING}
    working = [i for i in range(len(cords)) if i not in core]
    events = {i: _events(i, crossed) for i in range(len(cords))}
    if any(cords[i].fixed for i in core):
        beside = max(slack[i].diameter for i in core) / 2
        ways = _from_the_fold(working[0], totals, events, core, beside)
    elif core:
        ways = _round_a_core(working, totals, events, core)
    elif len(working) > 1 and _plaited(working, events):
        ways = _plait(working, totals, events)
    else:
        ways = _on_itself(working, totals, events)
    whole = [Interval(0.0, t) for t in totals]
    shown = [tuple(w.get(i, whole[i]) for i in range(len(cords))) for w in ways]
    return shown[0], tuple(shown[1:])


Way = dict[int, Interval]
"""What is shown of each working cord at one time."""


def _events(cord: int, crossed: Sequence[Crossing]) -> list[Event]:
    found = [
        e
        for c in crossed
        for e in ([Event(c.over_at, True, c.under, c.under_at)] if c.over == cord else [])
        + ([Event(c.under_at, False, c.over, c.over_at)] if c.under == cord else [])
    ]
    return sorted(found, key=lambda e: e.at)


def _round_a_core(
    working: Sequence[int], totals: Sequence[float], events: dict[int, list[Event]], core: set[int]
) -> list[Way]:
    """Pass after pass, the strand first that goes in front."""
    # A strand that works alone winds: laid along the core it may meet the same cord again.
    winds = len(working) == 1
    cuts = {w: _passes(events[w], core, totals[w], again=winds) for w in working}
    now = {w: Interval(0.0, _stub(events[w], totals[w])) for w in working}
    ways = [dict(now)]
    for turn in range(max(len(c) for c in cuts.values())):
        ready = [w for w in working if turn < len(cuts[w])]
        for w in sorted(ready, key=lambda w: (not cuts[w][turn][1], w)):
            now[w] = Interval(0.0, cuts[w][turn][0])
            ways.append(dict(now))
    return _few(ways, whole=1 if winds else 0)


def _passes(
    events: Sequence[Event], core: set[int], total: float, *, again: bool = False
) -> list[tuple[float, bool]]:
    """Where each pass over or under the core ends, and whether it goes in front.

    Args:
        events: what the strand crosses, in order.
        core: the cords that it is worked round.
        total: length of the strand, in d.
        again: whether one pass may cross the same cord more than once.
    """
    passes: list[list[Event]] = []
    for e in events:
        if e.other not in core:
            continue
        last = passes[-1] if passes else None
        met = last is not None and any(f.other == e.other for f in last)
        if last is None or last[-1].over != e.over or (met and not again):
            passes.append([e])
        else:
            last.append(e)
    ends = [(a[-1].at + b[0].at) / 2 for a, b in pairwise(passes)]
    return [(end, p[0].over) for end, p in zip([*ends, total], passes, strict=True)]


def _from_the_fold(
    cord: int,
    totals: Sequence[float],
    events: dict[int, list[Event]],
    core: set[int],
    beside: float,
) -> list[Way]:
    """A folded cord: both halves at once, from the fold outwards.

    Args:
        cord: its index.
        totals: lengths of all cords, d.
        events: what each cord crosses.
        core: what it is tied on.
        beside: half the thickness of that, d: the ends wait beside it, not on it.
    """
    middle = totals[cord] / 2
    halves = []
    for side in (-1.0, 1.0):
        mine = [
            Event(side * (e.at - middle), e.over, e.other, e.other_at)
            for e in events[cord]
            if side * (e.at - middle) > 0
        ]
        halves.append(sorted(mine, key=lambda e: e.at))
    cuts = [[end for end, _ in _passes(h, core, middle)] for h in halves]
    ends = [
        [_stub([e for e in h if e.other in core], middle, beside), *c]
        for h, c in zip(halves, cuts, strict=True)
    ]
    ways: list[Way] = [{cord: Interval(middle, middle)}]
    ways += [
        {cord: Interval(middle - left, middle + right)}
        for left, right in zip(ends[0], ends[1], strict=True)
    ]
    return _few(ways)


def _plaited(working: Sequence[int], events: dict[int, list[Event]]) -> bool:
    """Whether the strands cross each other only."""
    return all(e.other != w for w in working for e in events[w])


def _plait(
    working: Sequence[int], totals: Sequence[float], events: dict[int, list[Event]]
) -> list[Way]:
    """All strands down to one height of crossings after another."""
    order = _levels(working, events)
    now = {w: Interval(0.0, _stub(events[w], totals[w])) for w in working}
    ways = [dict(now)]
    laid: set[tuple[int, float]] = set()
    for level in order:
        laid |= level
        for w in {w for w, _ in level}:
            now[w] = Interval(0.0, _reached(w, events[w], laid, totals[w]))
        ways.append(dict(now))
    return _few(ways)


def _levels(working: Sequence[int], events: dict[int, list[Event]]) -> list[set[tuple[int, float]]]:
    """Crossings that can be made at the same time, one such set after the other."""
    done = dict.fromkeys(working, 0)
    levels: list[set[tuple[int, float]]] = []
    while True:
        level: set[tuple[int, float]] = set()
        for w in working:
            if done[w] < len(events[w]):
                e = events[w][done[w]]
                theirs = events[e.other]
                k = done[e.other]
                if k < len(theirs) and abs(theirs[k].at - e.other_at) < 1e-6:
                    level.add((w, e.at))
        if not level:
            return levels
        for w, _ in level:
            done[w] += 1
        levels.append(level)


def _reached(
    cord: int, events: Sequence[Event], laid: set[tuple[int, float]], total: float
) -> float:
    """Half way from the last crossing that is made to the next."""
    made = [e.at for e in events if (cord, e.at) in laid]
    left = [e.at for e in events if (cord, e.at) not in laid]
    return (max(made) + min(left)) / 2 if made and left else total if made else min(left) - STUB


def _on_itself(
    working: Sequence[int], totals: Sequence[float], events: dict[int, list[Event]]
) -> list[Way]:
    """Crossing by crossing of the first strand with itself; others beside it go as far."""
    first = working[0]
    own = [e for e in events[first] if e.other == first]
    closes = [e.at for e in own if e.at > e.other_at]
    places = sorted(e.at for e in own)
    cuts = []
    for c in closes[:-1]:
        following = min(p for p in places if p > c)
        cuts.append((c + following) / 2)
    shares = [max(0.05, places[0] - STUB) / totals[first]]
    shares += [c / totals[first] for c in cuts]
    shares.append(1.0)
    return _few([{w: Interval(0.0, s * totals[w]) for w in working} for s in shares])


def _stub(events: Sequence[Event], total: float, beside: float = 0.0) -> float:
    """How far a cord that waits is shown: to shortly before its first crossing."""
    return max(0.2, events[0].at - max(STUB, beside + HEAD)) if events else total


def _few(ways: Sequence[Way], whole: int = 0) -> list[Way]:
    """The same from first to last, with some of the moves taken together if they are too many.

    Args:
        ways: what is shown at first and after each move.
        whole: how many moves at the beginning stay moves of their own.
    """
    if len(ways) - 1 <= MOST:
        return list(ways)
    rest = np.round(np.linspace(whole, len(ways) - 1, MOST + 1 - whole)).astype(int)
    return [*ways[:whole], *(ways[i] for i in rest)]
