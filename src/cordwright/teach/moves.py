"""What happens in a picture of a knot's tying, in words: computed from what strands cross there."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from cordwright.knots.spec import KnotName, Role

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from cordwright.draw.tying import Moved, Pass, Step
    from cordwright.knots.spec import KnotSpec
    from cordwright.teach.labels import Labels

MOST_RUNS = 4
MOST_LETTERS = 150
"""More than that below a small picture is not read; the arrows show it."""

WOUND = 0.25
"""Part of a wrap's crossings behind the bundle from which on it is wound, and not laid along."""


def told_moves(spec: KnotSpec, steps: Sequence[Step], say: Labels) -> list[str]:
    """What is done in every picture of a knot's tying, in order.

    Args:
        spec: which knot.
        steps: its pictures.
        say: labels in the reader's language.
    """
    inks = {m.place: m.ink.name for step in steps for m in step.moved if m.place is not None}
    last = max((step.number for step in steps if step.moved), default=0)
    told = []
    for step in steps:
        if not step.moved:
            told.append(say("drawn-up"))
        elif spec.name == KnotName.GATHERING:
            told.append(_wrap(step, step.number == last, say))
        else:
            told.append(_moves(spec, step, inks, say))
    return told


def _wrap(step: Step, last: bool, say: Labels) -> str:
    """A gathering knot's wrap: laid along the bundle, wound round it, drawn through its loop."""
    passes = [p for moved in step.moved for p in moved.passes]
    round_ = [p for p in passes if p.role is Role.FILLER]
    behind = sum(not p.over for p in round_)
    if behind < WOUND * max(1, len(round_)):
        return say("wrap-along")
    return say("wrap-end" if last and passes[-1].itself else "wrap-round")


def _moves(spec: KnotSpec, step: Step, inks: Mapping[int, str], say: Labels) -> str:
    told = dict.fromkeys(_move(spec, moved, inks, say) for moved in step.moved)
    words = " ".join(told)
    return words if len(words) <= MOST_LETTERS else say("moves-shown")


def _move(spec: KnotSpec, moved: Moved, inks: Mapping[int, str], say: Labels) -> str:
    colour = say(f"colour-{moved.ink.name}")
    runs = [(over, _crossed(found)) for over, found in groupby(moved.passes, key=lambda p: p.over)]
    if not runs or len(runs) > MOST_RUNS:
        return say("move-start", colour=colour)
    told = []
    for over, crossed in runs:
        names = dict.fromkeys(_what(spec, p, inks, say) for p in crossed)
        what = say.words.listed(tuple(names)).text
        told.append(say("over" if over else "under", what=what))
    return say("move", colour=colour, passes=say("then").join(told))


def _crossed(passes: object) -> list[Pass]:
    """What one run of crossings goes over or under; what lies on the fillers goes with them."""
    found: list[Pass] = list(passes)  # type: ignore[call-overload]
    fillers = [p for p in found if p.role is Role.FILLER]
    return fillers or found


def _what(spec: KnotSpec, crossed: Pass, inks: Mapping[int, str], say: Labels) -> str:
    if crossed.itself:
        return say("what-itself")
    if crossed.place is None:
        return say(f"what-{spec.over}" if spec.over != "none" else "what-holding")
    if crossed.role is Role.FILLER:
        return say("what-filler", n=spec.fillers)
    if crossed.role is Role.HOLDING:
        return say("what-holding")
    ink = inks.get(crossed.place)
    return say(f"what-{ink}") if ink is not None else say("what-other")
