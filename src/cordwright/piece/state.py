"""What is known in the middle of working a plan.

This is the one mutable part of the room: `cordwright.piece.work` makes a `State`, the modules by
kind of step move it on, and what comes out is a frozen `Piece`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from cordwright.errors import Place, WorkError
from cordwright.piece.lineup import View, in_order
from cordwright.piece.model import (
    Change,
    End,
    Fold,
    Half,
    Knot,
    Part,
    Pass,
    PieceCord,
    Remark,
    Shape,
    Stop,
    Strand,
)
from cordwright.piece.record import Arranged
from cordwright.units.form import Form

if TYPE_CHECKING:
    from cordwright.cords.handling import Handling
    from cordwright.knots.spec import KnotFigures, KnotSpec
    from cordwright.piece.figures import FiguresSource
    from cordwright.piece.fit import Fit
    from cordwright.piece.record import Record
    from cordwright.plan.model import Plan
    from cordwright.plan.sums import Amount

MOST_KNOTS = 200_000
MOST_STEPS = 200_000
MOST_STRANDS = 1_000  # at once; docs/plan-format.md, Bounds
MOST_CORDS = 20_000  # in all: so that adding and leaving by turns ends too
MOST_VISITS = 2_000_000  # strands taken by steps and knots, in all: bounds time and memory
MOST_LEVELS = 200  # motifs, repeats and sections within each other
ZERO = Form()


class Hanging:
    """A strand while it is being worked.

    Args:
        strand: its index.
        cord: index of its cord.
        name: the plan's name of that cord.
        half: which half of it.
        depth: where it begins.
        at: the value of that, mm.
        start: its tail above.
    """

    __slots__ = (
        "at", "begins", "cord", "course", "depth", "end", "half", "last",
        "name", "owed", "owes", "start", "strand",
    )  # fmt: skip

    def __init__(
        self, strand: int, cord: int, name: str, half: Half, depth: Form, at: float, start: Form
    ) -> None:
        self.strand = strand
        self.cord = cord
        self.name = name
        self.half: Half = half
        self.begins = self.depth = depth
        self.at = at
        self.start = start
        self.owed = ZERO  # free cord before the next knot, and its value in mm
        self.owes = 0.0
        self.last = 0.0  # depth of its latest change of place, mm
        self.course: list[Stop] = []
        self.end: End | None = None

    def reach(self, depth: Form, at: float) -> None:
        """Leaves a knot at a depth; nothing is owed any more."""
        self.depth = depth
        self.at = at
        self.owed = ZERO
        self.owes = 0.0


@dataclass(slots=True)
class State:
    """Everything known so far.

    Args:
        plan: what is being worked.
        source: where tight knots' figures come from.
        values: value in mm of every symbol.
        handling: per cord of the plan, how its knots differ from the ideal cord's.
        sizes: the plan's named sizes.
        env: these, parameters and counters as the present step sees them.
        record: what every step does, where it is asked for.
    """

    plan: Plan
    source: FiguresSource
    values: Mapping[str, float]
    handling: Mapping[str, Handling]
    sizes: Mapping[str, Amount]
    env: Mapping[str, Amount]
    cords: list[PieceCord] = field(default_factory=list)
    strands: list[Hanging] = field(default_factory=list)
    knots: list[Knot] = field(default_factory=list)
    changes: list[Change] = field(default_factory=list)
    passes: list[Pass] = field(default_factory=list)
    warnings: dict[Remark, None] = field(default_factory=dict)
    figures: dict[KnotSpec, KnotFigures] = field(default_factory=dict)
    fits: dict[tuple[KnotSpec, tuple[str, ...]], Fit] = field(default_factory=dict)
    views: list[View] = field(default_factory=lambda: [View(())])
    shape: Shape = "flat"
    section: tuple[str, ...] = ()
    motifs: tuple[str, ...] = ()
    steps: int = 0
    visits: int = 0
    level: int = 0
    record: Record | None = None

    @property
    def view(self) -> View:
        """The places that the present step sees."""
        return self.views[-1]

    def shape_of(self, view: View) -> Shape:
        """A part of a round is flat; the whole is what the work is."""
        return self.shape if len(view.strands) == len(self.views[0].strands) else "flat"

    def diameter(self, cord: str) -> float:
        """Diameter in mm of a cord of the plan."""
        return self.values[f"d:{cord}"]

    def warn(self, what: str, step: Place | None = None) -> None:
        """Notes something the maker should know, once."""
        self.warnings[Remark(what, step)] = None

    def count_step(self, place: Place | None) -> None:
        """Counts a worked step.

        Raises:
            WorkError: if there are too many.
        """
        self.steps += 1
        if self.steps > MOST_STEPS:
            raise WorkError(
                f"The plan comes to more than {MOST_STEPS} steps.",
                remedy="repeat less often",
                place=place,
            )

    def visit(self, strands: int, place: Place | None) -> None:
        """Counts strands that a step or a knot takes in hand.

        Raises:
            WorkError: if there are too many in all.
        """
        self.visits += strands
        if self.visits > MOST_VISITS:
            raise WorkError(
                f"The plan's steps and knots take strands in hand more than {MOST_VISITS} times.",
                remedy="repeat less often, or make the piece in parts",
                place=place,
            )

    def new_cord(
        self, name: str, part: Part, fold: Fold, cut: Form | None, step: Place | None
    ) -> int:
        """Takes a new cord in hand, without strands yet; gives its index."""
        if len(self.cords) >= MOST_CORDS:
            raise WorkError(
                f"The plan takes more than {MOST_CORDS} cords.", remedy="add fewer", place=step
            )
        self.cords.append(PieceCord(len(self.cords), name, part, fold, (), ZERO, cut, step))
        return len(self.cords) - 1

    def new_strand(self, cord: int, half: Half, depth: Form, start: Form = ZERO) -> Hanging:
        """A new strand of a cord, not in the line-up yet."""
        taken = self.cords[cord]
        strand = Hanging(
            len(self.strands), cord, taken.cord, half, depth, depth.at(self.values), start
        )
        self.strands.append(strand)
        self.cords[cord] = taken._replace(strands=(*taken.strands, strand.strand))
        return strand

    def arrange(self, strands: Sequence[int], depth: float) -> None:
        """Lets strands, given from left to right, take the slots that they hold together.

        Args:
            strands: as they leave the knot.
            depth: mm from the top.
        """
        whole = self.views[0]
        held = in_order([whole.slots[s] for s in strands], len(whole.strands), self.shape)
        before = tuple(whole.strands[slot] for slot in held)
        for view in self.views:
            view.place(strands, shape=self.shape_of(view))
        after = tuple(strands)
        if self.record is not None:
            self.record.arranged.append(Arranged(len(self.knots), after))
        if before != after:
            self.changes.append(Change(self.changed(after, depth), before, after))

    def changed(self, strands: Sequence[int], depth: float) -> float:
        """Depth in mm of a change of these strands: not above their latest one."""
        concerned = [self.strands[s] for s in strands]
        depth = max(depth, *(s.last for s in concerned)) if concerned else depth
        for s in concerned:
            s.last = depth
        return depth

    def bring_in(self, strands: Sequence[int], after: int, step: Place | None) -> None:
        """Puts new strands into the line-up.

        Args:
            strands: from left to right.
            after: behind which place of the present view, counted from 1; 0 = at its left end.
            step: where in the plan file.

        Raises:
            WorkError: if there are too many strands then.
        """
        count = len(self.views[0].strands) + len(strands)
        if count > MOST_STRANDS:
            raise WorkError(
                f"{count} strands would hang at once; {MOST_STRANDS} is the most.",
                remedy="take fewer cords, or make the piece in parts",
                place=step,
            )
        seen = self.view.strands
        left = seen[after - 1] if after else None
        right = seen[0] if seen and not after else None
        for view in self.views:
            view.insert(strands, after=left, before=right)
        neighbour = () if left is None and right is None else (right if left is None else left,)
        both = (*strands, *neighbour) if left is None else (*neighbour, *strands)
        depth = self.changed(both, self.strands[strands[0]].begins.at(self.values))
        self.changes.append(Change(depth, tuple(s for s in neighbour if s is not None), both))

    def take_out(self, strands: Sequence[int]) -> None:
        """Takes strands that end out of the line-up."""
        for view in self.views:
            view.remove(strands)
        depth = max(self.strands[s].at for s in strands)
        self.changes.append(Change(self.changed(strands, depth), tuple(strands), ()))

    def turn_to(self, shape: Shape, first: int) -> None:
        """Closes, opens or renumbers the whole line-up.

        Args:
            shape: flat or round from here.
            first: the strand that becomes number one.
        """
        whole = self.views[0].strands
        for view in self.views:
            view.begin_at(first)
        self.shape = shape
        depth = self.changed(whole, max(self.strands[s].at for s in whole))
        self.changes.append(Change(depth, (whole[0],), (first,), shape))

    @contextmanager
    def seeing(self, strands: Sequence[int], env: Mapping[str, Amount]) -> Iterator[None]:
        """Works on some places only, numbered anew, with other names in force."""
        outer = self.env
        self.views.append(View(strands))
        self.env = env
        try:
            yield
        finally:
            self.views.pop()
            self.env = outer

    def finished(self) -> tuple[Strand, ...]:
        """All strands, with their courses; each must have ended."""
        done = []
        for s in self.strands:
            if s.end is None:
                raise WorkError(
                    f"Strand {s.strand + 1} has no end.", remedy="report this plan as a fault"
                )
            done.append(Strand(s.strand, s.cord, s.half, s.begins, s.start, tuple(s.course), s.end))
        return tuple(done)
