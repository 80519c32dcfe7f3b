"""What every step of a lesson is made with: the piece, its cut list, names and knot kinds."""

from __future__ import annotations

from dataclasses import asdict
from typing import TYPE_CHECKING

from cordwright.teach.amounts import Length
from cordwright.teach.needs import KnotKind
from cordwright.teach.steps import Begun

if TYPE_CHECKING:
    from cordwright.knots.spec import KnotSpec
    from cordwright.piece.cutlist import CutList
    from cordwright.piece.model import Knot, Piece, Strand
    from cordwright.teach.pace import Pace
    from cordwright.units.form import Form


class Context:
    """A piece while it is turned into steps.

    Args:
        piece: as worked, with the free cord that its shape makes.
        cuts: its cut list.
        pace: how fast its maker works.
    """

    def __init__(self, piece: Piece, cuts: CutList, pace: Pace) -> None:
        self.piece = piece
        self.cuts = cuts
        self.pace = pace
        self._ids: dict[KnotSpec, int] = {}
        self._counts: dict[KnotSpec, int] = {}
        self._first: dict[KnotSpec, Knot] = {}
        for knot in piece.knots:
            self._ids.setdefault(knot.spec, len(self._ids))
            self._first.setdefault(knot.spec, knot)
            self._counts[knot.spec] = self._counts.get(knot.spec, 0) + 1
        self._stops = [{stop.knot: i for i, stop in enumerate(s.course)} for s in piece.strands]
        self._entry = {cord: e.id for e in cuts.entries for cord in e.cords}

    def length(self, form: Form) -> Length:
        """A form, with its value."""
        return Length(self.piece.mm(form), form.mm, dict(form.terms))

    def name(self, strand: int) -> str:
        """A strand's name."""
        return self.piece.name(strand)

    def names(self, strands: tuple[int, ...]) -> tuple[str, ...]:
        """Names of strands."""
        return tuple(self.piece.name(s) for s in strands)

    def kind(self, knot: Knot) -> int:
        """Index of a knot's kind in the lesson."""
        return self._ids[knot.spec]

    def kinds(self) -> tuple[KnotKind, ...]:
        """Every kind of knot, in the order in which they are first tied."""
        return tuple(self._kind(spec, i) for spec, i in self._ids.items())

    def _kind(self, spec: KnotSpec, index: int) -> KnotKind:
        figures, first = self.piece.figures[spec], self._first[spec]
        d = self.piece.values[f"d:{first.cord}"]
        return KnotKind(
            index,
            spec.name.value,
            spec.hand,
            {**asdict(spec), "name": spec.name.value},
            tuple(role.value for role in figures.roles),
            figures.exit_order,
            self.piece.mm(first.height),
            figures.width_d * d,
            first.cord,
            self._counts[spec],
            self.pace.of(spec.name.value),
        )

    def stop(self, strand: int, knot: int) -> int:
        """Which of a strand's stops a knot is."""
        return self._stops[strand][knot]

    def free(self, strand: int, knot: int) -> Length:
        """A strand's free cord above a knot."""
        return self.length(self.piece.strands[strand].course[self.stop(strand, knot)].free)

    def part_mm(self, strand: Strand) -> float:
        """How much of its cord, as cut, a strand has."""
        cord = self.piece.cords[strand.cord]
        return self.cuts.cords[cord.id].parts_mm[cord.strands.index(strand.id)]

    def begun(self, cord: int, line_up: tuple[int, ...]) -> Begun:
        """A cord as it comes into the piece.

        Args:
            cord: its index.
            line_up: strands by place, with it.
        """
        taken = self.piece.cords[cord]
        strands = [self.piece.strands[s] for s in taken.strands]
        parts = tuple(self.part_mm(s) for s in strands)
        uneven = self.cuts.cords[cord].fold_mm is not None
        laid = strands[0].end.kind == "laid in"
        faces = [
            self.piece.knots[s.course[0].knot].spec.face
            for s in strands
            if s.course and self.piece.knots[s.course[0].knot].spec.name == "larks-head"
            and not laid
        ]  # fmt: skip
        return Begun(
            cord + 1,
            self._entry[cord],
            taken.cord,
            self.names(taken.strands),
            tuple(line_up.index(s) + 1 for s in taken.strands if s in line_up),
            self.length(strands[0].start),
            self.length(strands[0].end.length) if laid else None,
            faces[0] if faces and len(strands) > 1 else "",
            self.name(strands[parts.index(max(parts))].id) if uneven else "",
            parts,
        )
