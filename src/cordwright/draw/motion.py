"""A knot's tying as motion: every strand along its slackened course, and then all of it drawn up.

The slackened knot is the tight one enlarged, with cord as thick as before, as in the steps of a
tying (``tying.py``). Strands are laid along it without moving what is laid; so no strand can pass
through another. Drawing up takes every point straight to its place in the tight knot: between the
two all curves are enlarged by some factor between the slack one and 1, so that centre lines stay at
least as far apart as in the tight knot, where cords touch. Rings and rods keep their size and place
all the time; the cord round them begins wider. Straight ends are led on while it is drawn up, as
cord is pulled out of the knot.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.curves import lengths, part
from cordwright.draw.knotfigure import inks_of
from cordwright.draw.moves import Interval
from cordwright.draw.poses import tying_pose
from cordwright.draw.tying import tying
from cordwright.draw.winding import winding
from cordwright.knots.spec import KnotName, Role

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from cordwright.draw.cords import Cord
    from cordwright.draw.ink import Ink
    from cordwright.draw.poses import Pose
    from cordwright.draw.tying import Step
    from cordwright.draw.wording import Wording
    from cordwright.knots.atlas import Atlas
    from cordwright.knots.spec import KnotSpec

    Points = NDArray[np.float64]

LED = 0.4
"""How far straight ends are led on beyond the slack curves, in d."""

PACE = 9.0
"""Cord laid in a second, in d; common practice has no figure for it, it is what the eye follows."""

LEAST_S, MOST_S = 1.2, 4.0
"""Shortest and longest time of one move, in seconds."""

REST_S = 0.5
"""Time between two moves, in seconds."""

DRAW_UP_S = 2.4
"""Time of drawing up, for each form that is gone through, in seconds."""


@dataclass(frozen=True, slots=True)
class Moving:
    """One cord of a motion.

    Args:
        place: which strand of the line-up it is; None for rings and rods.
        role: what it does.
        fixed: a ring or rod.
        diameter: in d.
        ink: how it is drawn.
    """

    place: int | None
    role: Role
    fixed: bool
    diameter: float
    ink: Ink


@dataclass(frozen=True, slots=True)
class Key:
    """How things are at one time; between two keys everything goes evenly.

    Args:
        at_s: when, in seconds at a normal pace.
        step: number of the step that it belongs to, from 1.
        form: index of the motion's form that the cords have.
        shown: from where to where each cord is there, as arc lengths along that form, in d.
    """

    at_s: float
    step: int
    form: int
    shown: tuple[Interval, ...]


@dataclass(frozen=True, slots=True)
class Motion:
    """A tying as motion.

    Args:
        cords: that take part.
        forms: for each form the curve of every cord, (n, 3) float in d: to the right, up, towards
            the viewer. A cord has as many points in each form; the last form is the tight knot.
        keys: in the order of time; the first is at 0 s.
        steps: the pictures of the same tying.
    """

    cords: tuple[Moving, ...]
    forms: tuple[tuple[Points, ...], ...]
    keys: tuple[Key, ...]
    steps: tuple[Step, ...]


def motion(atlas: Atlas, spec: KnotSpec, wording: Wording | None = None) -> Motion:
    """A knot's tying as motion; its last frame is the tight knot.

    Args:
        atlas: where tight curves come from.
        spec: which knot.
        wording: how titles and descriptions of its pictures are written; English if None.

    Raises:
        KnotError: if the knot cannot be tied as specified.
    """
    pose = tying_pose(atlas, spec)
    steps = tying(atlas, spec, wording)
    if spec.name is KnotName.GATHERING:
        cords, forms = _wound(atlas, spec, pose)
    else:
        cords, forms = pose.tight, _opened(pose)
    was = [float(lengths(pose.slackened(c).points)[-1]) for c in pose.cords]
    now = [float(lengths(p)[-1]) for p in forms[0]]
    led = [0.0 if c.fixed else LED for c in cords]
    laid = [
        tuple(_carried(i, *ends) for i, *ends in zip(step.shown, was, now, led, strict=True))
        for step in steps[:-1]
    ]
    begun = _begun(laid[0], steps[0], cords, now)
    inks = inks_of(pose.cords)
    moving = tuple(
        Moving(c.place, c.role, c.fixed, c.diameter, ink)
        for c, ink in zip(cords, inks, strict=True)
    )
    return Motion(moving, forms, _keys([begun, *laid], forms), steps)


def _carried(shown: Interval, was: float, now: float, led: float) -> Interval:
    """An interval of a slackened cord as one of the same cord with its ends led on."""
    whole = was if led else now
    start = 0.0 if shown.start <= 1e-6 else shown.start * _grown(was, now, led) + led
    end = now if shown.end >= whole - 1e-6 else shown.end * _grown(was, now, led) + led
    return Interval(start, min(end, now))


def _grown(was: float, now: float, led: float) -> float:
    return (now - 2 * led) / was


def _begun(
    first: Sequence[Interval], step: Step, cords: Sequence[Cord], whole: Sequence[float]
) -> tuple[Interval, ...]:
    """What is there before the first step: strands that move are only just there."""
    moved = {m.place for m in step.moved}
    folded = any(c.fixed for c in cords)
    found = []
    for cord, now, total in zip(cords, first, whole, strict=True):
        if cord.fixed or cord.role is not Role.WORKING or cord.place not in moved:
            found.append(now)
        elif folded:  # a folded cord is laid from its middle
            found.append(Interval(total / 2 - 0.05, total / 2 + 0.05))
        else:
            found.append(Interval(0.0, min(LED + 1.0, now.end)))
    return tuple(found)


def _opened(pose: Pose) -> tuple[tuple[Points, ...], ...]:
    """The slack form and the tight one, about the same middle."""
    seen = [pose.view.seen(c.points) for c in pose.tight]
    middle = _middle(pose.tight, seen)
    k = pose.slack.by * np.array([pose.slack.across, 1.0, 1.0])
    slack, tight = [], []
    for cord, points in zip(pose.tight, seen, strict=True):
        own = points - middle
        if cord.fixed:
            slack.append(own)
            tight.append(own)
            continue
        wide = own * k
        slack.append(_led(wide, (LED, LED)))
        tight.append(_led(own, _reach(slack[-1], own)))
    return tuple(slack), tuple(tight)


def _middle(cords: Sequence[Cord], seen: Sequence[Points]) -> Points:
    """(3,) float: what stays where it is: the middle of a ring or rod, or of the knot."""
    rigid = [p for c, p in zip(cords, seen, strict=True) if c.fixed]
    if rigid:
        nearest: Points = rigid[0][np.abs(rigid[0][:, 0]).argmin()]
        return nearest
    low = np.min([p.min(axis=0) for p in seen], axis=0)
    high = np.max([p.max(axis=0) for p in seen], axis=0)
    middle: Points = (low + high) / 2
    return middle


def _ways(points: Points) -> tuple[Points, Points]:
    """Unit vectors in which a curve would go on beyond its first and its last point."""
    first, last = points[0] - points[1], points[-1] - points[-2]
    return first / np.linalg.norm(first), last / np.linalg.norm(last)


def _reach(slack: Points, tight: Points) -> tuple[float, float]:
    """How far both ends of a tight cord are led on until they are where the slack ones end."""
    first, last = _ways(tight)
    return (
        max(LED, float((slack[0] - tight[0]) @ first)),
        max(LED, float((slack[-1] - tight[-1]) @ last)),
    )


def _led(points: Points, by: tuple[float, float]) -> Points:
    first, last = _ways(points)
    return np.concatenate([[points[0] + by[0] * first], points, [points[-1] + by[1] * last]])


def _wound(
    atlas: Atlas, spec: KnotSpec, pose: Pose
) -> tuple[tuple[Cord, ...], tuple[tuple[Points, ...], ...]]:
    """A gathering knot's forms: open; with its turns closed; with its loop drawn under them."""
    cords, stages = winding(atlas, spec)
    seen = [[pose.view.seen(p) for p in stage] for stage in stages]
    middle = _middle(cords, seen[-1])
    middle[1] = _middle(cords, [s[:1] for s in seen[-1]])[1]
    placed = [[p - middle for p in stage] for stage in seen]
    opened = [p * pose.slack.by for p in placed[0]]
    forms = [opened, *placed]
    return cords, tuple(tuple(_led(p, (LED, LED)) for p in form) for form in forms)


def _keys(laid: Sequence[Sequence[Interval]], forms: Sequence[Sequence[Points]]) -> tuple[Key, ...]:
    keys = [Key(0.0, 1, 0, tuple(laid[0]))]
    at = REST_S
    for number, (before, now) in enumerate(pairwise(laid), start=1):
        keys.append(Key(at, number, 0, tuple(before)))
        far = max(max(n.end - b.end, b.start - n.start) for b, n in zip(before, now, strict=True))
        at += min(MOST_S, max(LEAST_S, far / PACE))
        keys.append(Key(at, number, 0, tuple(now)))
        at += REST_S
    last = len(laid)
    keys.append(Key(at, last, 0, tuple(laid[-1])))
    for index, form in enumerate(forms[1:], start=1):
        at += DRAW_UP_S / (1 if len(forms) == 2 else 2)
        whole = tuple(Interval(0.0, float(lengths(p)[-1])) for p in form)
        keys.append(Key(at, last, index, whole))
    return tuple(keys)


def at_key(made: Motion, index: int) -> tuple[Points, ...]:
    """Curves of a motion's key as they are there, (n, 3) float in d."""
    key = made.keys[index]
    return tuple(
        part(p, i.start, i.end) for p, i in zip(made.forms[key.form], key.shown, strict=True)
    )
