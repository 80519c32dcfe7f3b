"""Every step of a plan, those of its motifs, repeats and sections too."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from cordwright.plan.model import Plan, RepeatStep, SectionStep, Step


def every_step(plan: Plan) -> Iterator[Step]:
    yield from _walk(plan.work)
    for motif in plan.motifs.values():
        yield from _walk(motif.work)


def _walk(work: Iterable[Step]) -> Iterator[Step]:
    for step in work:
        yield step
        if isinstance(step, (RepeatStep, SectionStep)):
            yield from _walk(step.work)
