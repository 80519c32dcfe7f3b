"""What a plan can get wrong that no single value shows: names, kinds of sums, circles of motifs.

Everything here is known without working the piece. Whether strands and knots fit together is
found when it is worked.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from graphlib import CycleError, TopologicalSorter

from cordwright.errors import Place, PlanError
from cordwright.plan import hung
from cordwright.plan.model import (
    AddStep,
    GatherStep,
    Hang,
    HitchStep,
    Motif,
    MotifStep,
    Mounted,
    MountRepeat,
    NewCord,
    Plan,
    RepeatStep,
    SectionStep,
    Spot,
    Step,
)
from cordwright.plan.problems import nearest
from cordwright.plan.sizes import Sizes, resolve_sizes
from cordwright.plan.strands import Places
from cordwright.plan.sums import Sum, count, length


@dataclass(slots=True)
class _Check:
    plan: Plan
    sizes: Sizes
    errors: list[PlanError] = field(default_factory=list)

    def cord(self, name: str, place: Place | None) -> None:
        if name not in self.plan.cords:
            self.errors.append(
                PlanError(
                    f"The plan has no cord called '{name}'.",
                    remedy=nearest(name, self.plan.cords),
                    place=place,
                )
            )

    def sums(self, part: Spot, local: frozenset[str]) -> None:
        """The sums and places that stand directly in a part of the plan."""
        for name in type(part).model_fields:
            value = getattr(part, name)
            if isinstance(value, Sum):
                here = local | {"end"} if name == "after" else local
                self.sum(value, here)
            elif isinstance(value, Places):
                for run in value.runs:
                    self.sum(run.first, local | {"end"})
                    if run.last is not None:
                        self.sum(run.last, local | {"end"})

    def sum(self, value: Sum, local: frozenset[str]) -> None:
        unknown_names = sorted(value.names - local - self.sizes.env.keys())
        if unknown_names or value.names & local:
            for unknown in unknown_names:
                self.errors.append(
                    PlanError(
                        f"'{value.text}' uses '{unknown}', which is not a name that is known here.",
                        remedy=nearest(unknown, [*self.sizes.env, *sorted(local)]),
                        place=value.place,
                    )
                )
            return
        try:
            if value.wants == "length":
                length(value, self.sizes.env, self.sizes.values)
            elif value.wants == "count":
                count(value, self.sizes.env, self.sizes.values)
            else:
                value.evaluate(self.sizes.env, self.sizes.values)
        except PlanError as error:
            self.errors.append(error)

    def steps(self, work: tuple[Step, ...], local: frozenset[str]) -> None:
        for step in work:
            self.sums(step, local)
            match step:
                case HitchStep(cord=str(name)) | AddStep(cord=name):
                    self.cord(name, step.where)
                case GatherStep(with_=NewCord(cord=name)):
                    self.cord(name, step.where)
                case MotifStep():
                    self.motif(step, local)
                case RepeatStep(counter=counter):
                    self.steps(step.work, local | {counter} if counter else local)
                case SectionStep():
                    self.steps(step.work, local)
                case _:
                    pass

    def mounted(self, cords: tuple[Mounted, ...], local: frozenset[str]) -> None:
        for mounted in cords:
            self.sums(mounted, local)
            if isinstance(mounted, MountRepeat):
                self.mounted(mounted.cords, local)
            else:
                self.cord(mounted.cord, mounted.where)

    def hang(self, hang: Hang) -> None:
        before = len(self.errors)
        thing = hang.holds.thing if hang.holds is not None else None
        for part in (hang, hang.screw, thing):
            if part is not None:
                self.sums(part, frozenset())
        if thing is not None and self.plan.mount.nothing is not None:
            self.errors.append(
                PlanError(
                    "The piece holds something, but has nothing to hang from.",
                    remedy="mount the cords on a ring, a rod or a holding cord",
                    place=self.plan.mount.nothing.where or thing.where,
                )
            )
        if len(self.errors) == before:
            self.errors += hung.problems(hang, self.sizes)

    def motif(self, step: MotifStep, local: frozenset[str]) -> None:
        for value in step.with_.values():
            self.sum(value, local)
        motif = self.plan.motifs.get(step.motif)
        if motif is None:
            self.errors.append(
                PlanError(
                    f"The plan has no motif called '{step.motif}'.",
                    remedy=nearest(step.motif, self.plan.motifs),
                    place=step.where,
                )
            )
            return
        for name in step.with_.keys() - motif.takes.keys():
            self.errors.append(
                PlanError(
                    f"The motif '{step.motif}' takes no '{name}'.",
                    remedy=nearest(name, motif.takes),
                    place=step.with_[name].place or step.where,
                )
            )


def check_plan(plan: Plan) -> list[PlanError]:
    """Everything that is wrong with the names, kinds and motifs of a plan."""
    try:
        sizes = resolve_sizes(plan)
    except PlanError as error:
        return [error]
    check = _Check(plan, sizes)
    nothing: frozenset[str] = frozenset()
    check.sums(plan, nothing)
    check.sums(plan.mount.on, nothing)
    if plan.mount.cord is not None:
        check.cord(plan.mount.cord.cord, plan.mount.cord.where)
    check.mounted(plan.mount.cords, nothing)
    if plan.hang is not None:
        check.hang(plan.hang)
    for motif in plan.motifs.values():
        for value in motif.takes.values():
            check.sum(value, nothing)
        check.steps(motif.work, frozenset(motif.takes))
    check.steps(plan.work, nothing)
    return [*check.errors, *_circles(plan.motifs)]


def _circles(motifs: Mapping[str, Motif]) -> Iterator[PlanError]:
    used = {name: {s.motif for s in _motif_steps(m.work)} for name, m in motifs.items()}
    try:
        TopologicalSorter(used).prepare()
    except CycleError as error:
        circle = list(reversed(error.args[1]))
        yield PlanError(
            f"The motifs go round in a circle: {' works '.join(circle[:6])}.",
            remedy=f"plan '{circle[0]}' without '{circle[1]}'",
            place=motifs[circle[0]].where,
        )


def _motif_steps(work: tuple[Step, ...]) -> Iterator[MotifStep]:
    for step in work:
        if isinstance(step, MotifStep):
            yield step
        elif isinstance(step, (RepeatStep, SectionStep)):
            yield from _motif_steps(step.work)
