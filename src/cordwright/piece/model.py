"""A piece as worked: cords, strands with their courses, knots, and the line-up's changes.

All of it is frozen. Strands, cords and knots are known by their index in the piece's tuples. Depths
run downwards from the top of what the piece hangs on; every depth and length is a `Form`, whose
value in mm is ``form.at(piece.values)``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal, NamedTuple

if TYPE_CHECKING:
    from cordwright.cords.handling import Handling
    from cordwright.errors import Place
    from cordwright.knots.spec import KnotFigures, KnotSpec, Role
    from cordwright.piece.record import Done
    from cordwright.plan.model import Plan
    from cordwright.plan.sums import Amount
    from cordwright.units.form import Form

Half = Literal["left", "right", "whole"]
Shape = Literal["flat", "round"]
Fold = Literal["middle", "needed", "none"]
Part = Literal["mount", "added", "holding", "wrap"]
EndKind = Literal["tail", "fringe", "leave", "laid in"]


class Stop(NamedTuple):
    """One knot on a strand's course.

    Args:
        knot: which knot of the piece.
        place: the strand's place in that knot, as in `KnotSpec`; a cord that lark's heads are
            tied on has the place after the last.
        role: what the strand does there.
        free: free cord between the point before and this knot.
        take_up: cord used in the knot.
        asked: whether the plan asks for just that free cord; else it is what adding up leaves,
            and the hanging shape decides it.
    """

    knot: int
    place: int
    role: Role
    free: Form
    take_up: Form
    asked: bool = False


class Knot(NamedTuple):
    """One knot of the piece.

    Args:
        id: its index in `Piece.knots`, in the order of working.
        spec: which tight knot.
        cord: name of the plan's cord whose diameter is the knot's d.
        strands: strands by place.
        over: the strand that a lark's head is tied on, where it is a cord of the piece.
        top: depth of its upper edge.
        height: how far it reaches down.
        section: names of the sections it stands in, outermost first.
        row: row within its step, from 0.
        column: group within its row, from the left, from 0.
        number: place within its sinnet, or within a row of hitches, from 0.
        step: where in the plan file it is asked for.
        slots: slots in the whole line-up, from 0, that its strands hold when they come in (a
            cord laid in holds none).
        of: slots that the line-up has then.
        shape: flat or round, then.
    """

    id: int
    spec: KnotSpec
    cord: str
    strands: tuple[int, ...]
    over: int | None
    top: Form
    height: Form
    section: tuple[str, ...]
    row: int
    column: int
    number: int
    step: Place | None
    slots: tuple[int, ...] = ()
    of: int = 0
    shape: Shape = "flat"


class End(NamedTuple):
    """How and where a strand ends.

    Args:
        kind: a plain tail, part of a fringe, left out half-way, or the far tail of a cord that
            was laid in.
        depth: where its last point is: the lower edge of its last knot.
        length: cord below that point.
        section: names of the sections it ends in, outermost first.
        step: where in the plan file, None for the default tail.
    """

    kind: EndKind
    depth: Form
    length: Form
    section: tuple[str, ...]
    step: Place | None


class Strand(NamedTuple):
    """One hanging end of a cord, with its course from top to bottom.

    Args:
        id: its index in `Piece.strands`.
        cord: index of its cord in `Piece.cords`.
        half: which half of a folded cord, or the whole of an unfolded one.
        begins: depth where its course begins.
        start: cord above that point: the tail of an unfolded cord.
        course: its knots.
        end: how it ends.
    """

    id: int
    cord: int
    half: Half
    begins: Form
    start: Form
    course: tuple[Stop, ...]
    end: End


class PieceCord(NamedTuple):
    """One cord as cut.

    Args:
        id: its index in `Piece.cords`.
        cord: the plan's name of the cord.
        part: mounted at the top, added half-way, laid in as a holding cord, or as a wrap.
        fold: folded in the middle, folded where its two strands need it, or not folded.
        strands: its strands: left and right, or one.
        mount: cord used in mounting it (counted in the strands' first stops too).
        cut: its length where the plan says that it is already cut.
        step: where in the plan file it comes in.
    """

    id: int
    cord: str
    part: Part
    fold: Fold
    strands: tuple[int, ...]
    mount: Form
    cut: Form | None
    step: Place | None


class Change(NamedTuple):
    """A change in the line-up.

    Args:
        depth: mm from the top, at the time of working; never less than that of an earlier
            change that it builds on.
        before: strands concerned, from left to right, before the change.
        after: strands in the same slots after it. Where strands come in, ``before`` is their
            neighbour (empty if there is none) and ``after`` the neighbour with them, in order;
            where strands leave, ``after`` is empty.
        shape: the new shape, where the change closes or opens the work; then ``before`` and
            ``after`` hold the strand that is number one.
    """

    depth: float
    before: tuple[int, ...]
    after: tuple[int, ...]
    shape: Shape | None = None


class Pass(NamedTuple):
    """Two neighbouring groups changing places, nothing tied.

    Args:
        depth: where the lowest of the strands last was.
        front: strands passing in front, from left to right.
        behind: strands passing behind, from left to right.
        step: where in the plan file.
    """

    depth: Form
    front: tuple[int, ...]
    behind: tuple[int, ...]
    step: Place | None


class Remark(NamedTuple):
    """Something a maker should know though the plan can be worked.

    Args:
        what: one sentence.
        step: where in the plan file, if at one place.
    """

    what: str
    step: Place | None = None


@dataclass(frozen=True, slots=True)
class Piece:
    """A plan, worked.

    Args:
        plan: the plan that it was worked from.
        values: value in mm of every symbol that forms may use.
        cords: the cords as cut, in order of appearance.
        strands: every strand of these cords.
        knots: every knot in the order of working.
        changes: every change of the line-up in the order of working, from none at all.
        passes: groups that pass each other.
        figures: figures of the tight knots used.
        handling: by the cord's name, how knots in it differ from ideal cord's.
        warnings: what the maker should know.
        amounts: the plan's named sizes as it was worked with them.
        done: what every step of the plan did, in order; empty unless it was asked for.
    """

    plan: Plan
    values: Mapping[str, float]
    cords: tuple[PieceCord, ...]
    strands: tuple[Strand, ...]
    knots: tuple[Knot, ...]
    changes: tuple[Change, ...]
    passes: tuple[Pass, ...]
    figures: Mapping[KnotSpec, KnotFigures]
    handling: Mapping[str, Handling]
    warnings: tuple[Remark, ...]
    amounts: Mapping[str, Amount] = field(default_factory=dict, compare=False, repr=False)
    done: tuple[Done, ...] = field(default=(), compare=False, repr=False)

    def mm(self, form: Form) -> float:
        """Value of a form in mm, with this piece's diameters and sizes."""
        return form.at(self.values)

    def name(self, strand: int) -> str:
        """A strand's name for people: its cord's number, with L or R for the half."""
        s = self.strands[strand]
        return strand_name(s.cord, s.half)


def strand_name(cord: int, half: Half) -> str:
    """A strand's name for people.

    >>> strand_name(2, "left"), strand_name(2, "whole")
    ('3L', '3')
    """
    return f"{cord + 1}{_LETTER[half]}"


_LETTER = {"left": "L", "right": "R", "whole": ""}
