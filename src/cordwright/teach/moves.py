"""What happens in a picture of a knot's tying, in words: computed from what strands cross there."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from cordwright.knots.spec import KnotName, Role
from cordwright.teach.threads import own_ways

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from cordwright.draw.tying import Moved, Pass, Step
    from cordwright.knots.spec import KnotSpec
    from cordwright.teach.labels import Labels
    from cordwright.teach.threads import Own


def told_moves(spec: KnotSpec, steps: Sequence[Step], say: Labels) -> list[str]:
    """What is done in every picture of a knot's tying, in order.

    Args:
        spec: which knot.
        steps: its pictures; the last one draws it up.
        say: labels in the reader's language.
    """
    if spec.name == KnotName.GATHERING:
        return [*_wraps(steps[:-1], say), say("drawn-up-wrap")]
    if spec.name == KnotName.OVERHAND:
        return [*_on_itself(spec, steps, say), say("drawn-up")]
    inks = {m.place: m.ink.name for step in steps for m in step.moved if m.place is not None}
    return [*(_moves(spec, step, inks, say) for step in steps[:-1]), say("drawn-up")]


def _on_itself(spec: KnotSpec, steps: Sequence[Step], say: Labels) -> list[str]:
    """Strands that are knotted on themselves, all together."""
    colour = say(f"colour-{steps[0].moved[0].ink.name}")
    who = colour if spec.strands == 1 else say("together", n=spec.strands)

    def told(own: Own) -> str:
        return say(f"own-{own.what}", side="front" if own.front else "behind", n=spec.strands)

    then = say("then")
    return [say("move", colour=who, passes=then.join(map(told, does))) for does in own_ways(steps)]


def _wraps(steps: Sequence[Step], say: Labels) -> list[str]:
    """A gathering knot's cord: laid as a loop, wound round it, put through the loop in the end."""
    told = []
    wound = 0
    for i, step in enumerate(steps):
        passes = [p for moved in step.moved for p in moved.passes]
        if i == 0:  # nothing is wound yet
            told.append(say("wrap-loop"))
            continue
        turns = _turns(passes)
        first, wound = wound + 1, wound + turns
        said = [say("wrap-round", n=turns, first=first, last=wound)] if turns else []
        if not turns and any(not p.over and p.role is Role.FILLER for p in passes):
            said.append(say("wrap-behind"))
        if _through(passes):
            said.append(say("wrap-through"))
        told.append(" ".join(said))
    return told


def _turns(passes: Sequence[Pass]) -> int:
    """How often a strand goes in front of the bundle and of both sides of its own loop."""
    fronts = [list(found) for over, found in groupby(passes, key=lambda p: p.over) if over]
    return sum(sum(p.itself for p in front) > 1 for front in fronts)


def _through(passes: Sequence[Pass]) -> bool:
    """Whether the end leaves through its loop: over one side of it, and behind its bend."""
    own = [p.over for p in passes if p.itself]
    return own[-2:] == [True, False] and passes[-1].itself and not passes[-1].over


def _moves(spec: KnotSpec, step: Step, inks: Mapping[int, str], say: Labels) -> str:
    if all(not m.passes for m in step.moved):
        return say("fold", over=spec.over)
    both = len(step.moved) > len({m.place for m in step.moved})  # the halves of one folded cord
    whole = [m for m in step.moved if not _answered(m, step.moved)]
    return " ".join(dict.fromkeys(_move(spec, m, inks, say, both=both) for m in whole))


def _answered(moved: Moved, others: Sequence[Moved]) -> bool:
    """Whether strands that move in front of it in the same step say all that it does."""
    theirs = {m.place for m in others if m.place != moved.place}
    return all(not p.over and p.place in theirs for p in moved.passes)


def _move(spec: KnotSpec, moved: Moved, inks: Mapping[int, str], say: Labels, *, both: bool) -> str:
    who = say("both-ends") if both else say(f"colour-{moved.ink.name}")
    runs = [(over, _crossed(found)) for over, found in groupby(moved.passes, key=lambda p: p.over)]
    told = []
    for i, (over, crossed) in enumerate(runs):
        loop = _loop(runs, i, inks)
        if loop is not None:
            of = "fold" if both else loop
            told.append(say("through-front" if over else "through-back", loop=say("loop", of=of)))
            continue
        names = dict.fromkeys(_what(spec, p, inks, say) for p in crossed)
        what = say.words.listed(tuple(names)).text
        told.append(say("over" if over else "under", what=what))
    return say("move", colour=who, passes=say("then").join(told))


def _loop(runs: Sequence[tuple[bool, list[Pass]]], i: int, inks: Mapping[int, str]) -> str | None:
    """Whose loop the end comes through: it was on the other side of what that loop goes round.

    A working strand, or the same one, that lies round fillers, a holding cord or a ring makes a
    loop with them; an end that comes from behind these to the front of that strand is through it.
    """
    crossed = runs[i][1]
    before = runs[i - 1][1] if i else []
    if not any(p.role is not Role.WORKING for p in before):
        return None
    if any(p.role is not Role.WORKING for p in crossed):
        return None
    if crossed[0].itself:
        return "itself"
    return inks.get(crossed[0].place) if crossed[0].place is not None else None


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
