"""What a maker can hold a rule against before going on; all of it computed from the piece."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Literal

from cordwright.knots.spec import Role
from cordwright.teach.steps import Check, Rest
from cordwright.units.form import Form

if TYPE_CHECKING:
    from cordwright.piece.model import Knot
    from cordwright.piece.record import Done
    from cordwright.teach.context import Context
    from cordwright.teach.steps import Step

LEAST_KNOTS = 3
"""Knots on a strand within one step from which on its rest is worth measuring."""


def checks_of(at: Context, done: Done, step: Step) -> tuple[Check, ...]:
    """What to check after a step."""
    knots = [at.piece.knots[k] for k in done.knots]
    found: list[Check] = []
    if step.verb == "gather":
        found.append(_range(at, "wrap", (k.height for k in knots)))
    elif step.verb in ("tie", "braid") and len(step.rows) > 1:
        found.append(_range(at, "rows", [_reach(at, knots)]))
    elif step.verb in ("tie", "braid") and step.times > 1:
        found.append(_range(at, "sinnet", _sinnets(at, knots)))
    if step.verb in ("tie", "braid", "hitch"):
        found += _left(at, knots)
    return tuple(found)


def depth_of(at: Context, done: Done) -> Check | None:
    """How deep the work now is."""
    if not done.depths or not len(done.knots):
        return None
    return _range(at, "depth", [max(done.depths, key=at.piece.mm)])


def _range(
    at: Context, kind: Literal["sinnet", "rows", "wrap", "depth"], forms: Iterable[Form]
) -> Check:
    known = sorted(forms, key=at.piece.mm)
    return Check(kind, at.length(known[0]), at.length(known[-1]))


def _sinnets(at: Context, knots: list[Knot]) -> Iterator[Form]:
    columns: dict[int, list[Knot]] = {}
    for knot in knots:
        columns.setdefault(knot.column, []).append(knot)
    for column in columns.values():
        yield _reach(at, column)


def _reach(at: Context, knots: list[Knot]) -> Form:
    """From the highest upper edge to the lowest lower edge."""
    top = min((k.top for k in knots), key=at.piece.mm)
    return max((k.top + k.height for k in knots), key=at.piece.mm) - top


def _left(at: Context, knots: list[Knot]) -> Iterator[Check]:
    """What the strands that work, and those that hold, have left."""
    last: dict[int, int] = {}
    tied: dict[Role, dict[int, int]] = {Role.WORKING: {}, Role.HOLDING: {}}
    for knot in knots:
        roles = at.piece.figures[knot.spec].roles
        for strand, role in zip(knot.strands, roles, strict=True):
            last[strand] = knot.id
            if role in tied and at.piece.strands[strand].end.kind != "laid in":
                tied[role][strand] = tied[role].get(strand, 0) + 1
    for role, counts in tied.items():
        many = {s: last[s] for s, count in counts.items() if count >= LEAST_KNOTS}
        if many:
            yield _rest(at, "working" if role is Role.WORKING else "holding", many)


def _rest(at: Context, role: Literal["working", "holding"], strands: dict[int, int]) -> Check:
    used = {s: _used(at, s, k) for s, k in strands.items()}
    left = {s: at.length(Form(at.part_mm(at.piece.strands[s])) - form) for s, form in used.items()}
    least, most = (choose(left, key=lambda s: left[s].mm) for choose in (min, max))
    distinct: dict[object, Rest] = {}
    for s, form in used.items():
        like = (at.part_mm(at.piece.strands[s]), form.mm, tuple(form.terms.items()))
        distinct.setdefault(like, Rest(at.name(s), at.length(form)))
    rests = tuple(distinct.values())
    return Check("left", left[least], left[most], role, (at.name(least),), rests)


def _used(at: Context, strand: int, knot: int) -> Form:
    """What a strand has used of its part of the cord down to a knot."""
    s = at.piece.strands[strand]
    used = s.start
    for stop in s.course[: at.stop(strand, knot) + 1]:
        used = used + stop.free + stop.take_up
    return used
