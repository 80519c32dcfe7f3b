"""Where every part of a plan is in the piece: its knots, and their depths as they add up."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from cordwright.piece.lengths import measure
from cordwright.plan.steps import MotifStep, RepeatStep, SectionStep

if TYPE_CHECKING:
    from cordwright.errors import Place
    from cordwright.piece.model import Piece
    from cordwright.plan.layout import Path
    from cordwright.plan.model import Plan
    from cordwright.plan.steps import Step


@dataclass(frozen=True, slots=True)
class Reach:
    """Where a part of a plan is.

    Args:
        ids: its knots in the piece.
        top_mm: depth of the highest of them, or of the highest end of a section without knots;
            None if it has neither.
        bottom_mm: depth of the lowest lower edge, ends that hang below it included.
        used_mm: cord used in a section and those within it; None for other parts.
        ends: strands that end in a section and hang below it; none for other parts.
    """

    ids: tuple[int, ...] = ()
    top_mm: float | None = None
    bottom_mm: float | None = None
    used_mm: float | None = None
    ends: tuple[int, ...] = ()

    @property
    def knots(self) -> int:
        """How many knots it ties."""
        return len(self.ids)


def reaches(plan: Plan, piece: Piece) -> Mapping[Path, Reach]:
    """Where every part of a plan is, motifs' own parts included.

    A section counts what is tied under its name, in motifs too. Another part counts the knots of
    its own steps; a step that works a motif those of the motif, wherever else it is worked.
    """
    by_step: defaultdict[Place, list[int]] = defaultdict(list)
    for knot in piece.knots:
        if knot.step is not None:
            by_step[knot.step].append(knot.id)
    walk = _Walk(plan, piece, by_step)
    return dict(walk.all())


class _Walk:
    def __init__(self, plan: Plan, piece: Piece, by_step: Mapping[Place, list[int]]) -> None:
        self.plan = plan
        self.piece = piece
        self.by_step = by_step
        self.by_section: defaultdict[tuple[str, ...], list[int]] = defaultdict(list)
        for knot in piece.knots:
            for depth in range(1, len(knot.section) + 1):
                self.by_section[knot.section[:depth]].append(knot.id)
        # Ends of wraps and of cords laid in do not hang down.
        self.ends = [
            (i, s.end)
            for i, s in enumerate(piece.strands)
            if piece.cords[s.cord].part in ("mount", "added")
        ]
        sections = measure(piece).sections
        self.used = {path: piece.mm(form) for path, form in sections.items()}
        self.twice = _doubled(plan.work, ())

    def all(self) -> Iterator[tuple[Path, Reach]]:
        yield from self.steps(self.plan.work, ("work",), ())
        for name, motif in self.plan.motifs.items():
            yield from self.steps(motif.work, ("motifs", name, "work"), ())

    def steps(
        self, steps: tuple[Step, ...], where: Path, section: tuple[str, ...]
    ) -> Iterator[tuple[Path, Reach]]:
        for i, step in enumerate(steps):
            at = (*where, i)
            inner = (*section, step.section) if isinstance(step, SectionStep) else section
            if isinstance(step, (SectionStep, RepeatStep)):
                yield from self.steps(step.work, (*at, "work"), inner)
            yield at, self.reach(step, inner, last=at == ("work", len(self.plan.work) - 1))

    def reach(self, step: Step, section: tuple[str, ...], *, last: bool) -> Reach:
        # A name that stands twice does not say which of its sections a knot is in.
        named = isinstance(step, SectionStep) and section not in self.twice
        ids = self.by_section.get(section, []) if named else sorted(set(self.under(step, ())))
        found = self.extent(ids)
        if not isinstance(step, SectionStep):
            return found
        inside = [mm for path, mm in self.used.items() if path[: len(section)] == section]
        # What ends in no section hangs below the last one.
        ends = [
            (i, end)
            for i, end in self.ends
            if end.section[: len(section)] == section or (last and not end.section)
        ]
        tops = [self.piece.mm(end.depth) for _, end in ends]
        lows = [self.piece.mm(end.length) + top for top, (_, end) in zip(tops, ends, strict=True)]
        low = [mm for mm in (found.bottom_mm, *lows) if mm is not None]
        return replace(
            found,
            used_mm=sum(inside) if named else None,
            top_mm=found.top_mm if found.ids else min(tops, default=None),
            bottom_mm=max(low, default=None),
            ends=tuple(i for i, _ in ends),
        )

    def under(self, step: Step, motifs: tuple[str, ...]) -> Iterator[int]:
        """Knots of a step and of the steps within it."""
        if isinstance(step, MotifStep):
            motif = self.plan.motifs.get(step.motif)
            if motif is not None and step.motif not in motifs:
                for inner in motif.work:
                    yield from self.under(inner, (*motifs, step.motif))
        elif isinstance(step, (SectionStep, RepeatStep)):
            for inner in step.work:
                yield from self.under(inner, motifs)
        elif step.where is not None:
            yield from self.by_step.get(step.where, ())

    def extent(self, ids: list[int]) -> Reach:
        if not ids:
            return Reach()
        knots = [self.piece.knots[i] for i in ids]
        tops = [self.piece.mm(k.top) for k in knots]
        lows = [t + self.piece.mm(k.height) for t, k in zip(tops, knots, strict=True)]
        return Reach(tuple(ids), min(tops), max(lows))


def _doubled(steps: tuple[Step, ...], section: tuple[str, ...]) -> set[tuple[str, ...]]:
    """Names of sections that stand more than once."""
    seen: set[tuple[str, ...]] = set()
    twice: set[tuple[str, ...]] = set()
    for name in _names(steps, section):
        (twice if name in seen else seen).add(name)
    return twice


def _names(steps: tuple[Step, ...], section: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    for step in steps:
        inner = (*section, step.section) if isinstance(step, SectionStep) else section
        if isinstance(step, SectionStep):
            yield inner
        if isinstance(step, (SectionStep, RepeatStep)):
            yield from _names(step.work, inner)
