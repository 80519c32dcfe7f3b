"""The lesson as a list of shots, with planned minutes, stages to have tied, and chapter marks.

How long a shot is to be is planned from what is said and what is shown in it:

* what is said takes `WORDS_PER_MINUTE` (common practice for speech that is to be followed, from
  memory, unchecked);
* a knot that comes for the first time is shown `SHOWN` times, `SLOWER` times as slow as it is
  tied; later steps show one of each at the usual pace, and steps done over again none. The rest is
  tied while the camera is off, and the piece comes back as a *stage*;
* a shot is as long as the longer of the two, rounded up to `ROUNDED_S`, and at least `LEAST_S`.

Everything is computed from the lesson's own times and words, so another pace gives another sheet.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from cordwright.teach.knotnames import alike

if TYPE_CHECKING:
    from cordwright.teach.steps import Lesson, Step
    from cordwright.teach.told import Told, ToldStep

WORDS_PER_MINUTE = 130.0
SHOWN = 2
SLOWER = 2.0
LEAST_S = 10
ROUNDED_S = 5
OPENING_S = 30
CLOSING_S = 20
SWAP_FROM_S = 60.0
"""Seconds of tying off camera from which on a stage is worth having ready."""

Kind = Literal["opening", "materials", "cutting", "step", "finishing", "closing"]


@dataclass(frozen=True, slots=True)
class Shot:
    """One thing to film.

    Args:
        number: from 1.
        kind: what it is of.
        section: heading of the part of the work; empty outside it.
        step: number of the lesson's step; 0 outside the steps.
        begins_s: when it begins in the film.
        seconds: how long it is planned.
        says: what to say, in paragraphs.
        notes: the maker's own notes.
        off_s: tying that goes on afterwards with the camera off, in seconds.
        stage: number of the stage that the piece comes back as; 0 if it goes on as it is.
        title: what the step is about; empty outside the steps.
    """

    number: int
    kind: Kind
    section: str
    step: int
    begins_s: int
    seconds: int
    says: tuple[str, ...]
    notes: tuple[str, ...] = ()
    off_s: float = 0.0
    stage: int = 0
    title: str = ""


@dataclass(frozen=True, slots=True)
class Stage:
    """The piece, tied so far, to swap in.

    Args:
        number: from 1.
        section: heading of the part of the work it is in.
        step: the lesson's step that is done in it.
        tied_s: seconds to tie the piece so far from nothing.
        off_s: seconds of it since the last shot.
        title: what that step is about.
    """

    number: int
    section: str
    step: int
    tied_s: float
    off_s: float
    title: str = ""


@dataclass(frozen=True, slots=True)
class Chapter:
    """Where a part of the film begins."""

    begins_s: int
    kind: Kind
    title: str


@dataclass(frozen=True, slots=True)
class Film:
    """A film, planned."""

    shots: tuple[Shot, ...]
    stages: tuple[Stage, ...]
    chapters: tuple[Chapter, ...]

    @property
    def seconds(self) -> int:
        """Length of the film."""
        return sum(shot.seconds for shot in self.shots)

    @property
    def off_s(self) -> float:
        """Tying while the camera is off, in all."""
        return sum(shot.off_s for shot in self.shots)


def clock(seconds: int) -> str:
    """A chapter mark.

    >>> clock(75), clock(3675)
    ('01:15', '1:01:15')
    """
    minutes, rest = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02}:{rest:02}" if hours else f"{minutes:02}:{rest:02}"


def planned(seconds: float) -> int:
    """Seconds as they are planned.

    >>> planned(3.0), planned(61.0)
    (10, 65)
    """
    return max(LEAST_S, math.ceil(seconds / ROUNDED_S) * ROUNDED_S)


def spoken_s(lines: Sequence[str]) -> float:
    """How long it takes to say these lines."""
    return sum(len(line.split()) for line in lines) * 60.0 / WORDS_PER_MINUTE


def film(lesson: Lesson, told: Told) -> Film:
    """Plans the film of a lesson.

    Args:
        lesson: its times and knots.
        told: its words, in the film's language.
    """
    shots: list[Shot] = []
    stages: list[Stage] = []
    having = [line.text for line in (*told.materials, *told.tools)]
    cuts = [line.text for line in told.cuts.values()]
    _add(shots, "opening", [told.title, told.about], OPENING_S)
    _add(shots, "materials", having)
    _add(shots, "cutting", cuts)
    tied = 0.0
    seen: set[object] = set()
    for section in told.sections:
        for step in section.steps:
            tied += step.step.time.likely_s
            _add_step(shots, stages, lesson, section.heading, step, tied, seen)
    ends = [line.text for line in (*told.finishing, *told.using)]
    _add(shots, "finishing", ends, section=told.headings["end"])
    _add(shots, "closing", [line.text for line in told.cautions], CLOSING_S)
    return Film(tuple(shots), tuple(stages), tuple(_chapters(shots)))


def _add(
    shots: list[Shot], kind: Kind, says: Sequence[str], least_s: float = 0.0, section: str = ""
) -> None:
    """A shot outside the steps; none where there is nothing to say and no time of its own."""
    words = tuple(line for line in says if line)
    if not words and not least_s:
        return
    seconds = planned(max(least_s, spoken_s(words)))
    shots.append(Shot(len(shots) + 1, kind, section, 0, _end(shots), seconds, words))


def _add_step(
    shots: list[Shot],
    stages: list[Stage],
    lesson: Lesson,
    section: str,
    told: ToldStep,
    tied: float,
    seen: set[object],
) -> None:
    step = told.step
    says = tuple(line.text for line in told.lines) + tuple(line.text for _, line in told.checks)
    slow, usual = shown_s(lesson, step, seen)
    seen.update(alike(lesson.knots[k]) for k in _knots(step))
    off = max(0.0, step.time.likely_s - slow - usual)
    seconds = planned(max(spoken_s(says), SLOWER * slow + usual))
    swapped = off >= SWAP_FROM_S
    if swapped:
        stages.append(Stage(len(stages) + 1, section, step.number, tied, off, told.title))
    shots.append(
        Shot(
            len(shots) + 1, "step", section, step.number, _end(shots), seconds, says,
            (told.note,) if told.note else (), off if swapped else 0.0,
            len(stages) if swapped else 0, told.title,
        )
    )  # fmt: skip


def shown_s(lesson: Lesson, step: Step, seen: Collection[object]) -> tuple[float, float]:
    """Seconds of tying that are shown of a step, at the usual pace: slowly, and as it is tied.

    Args:
        lesson: for the knots' times.
        step: which step.
        seen: knots that were shown before, by what is `alike` in them.
    """
    if step.verb == "again":
        return 0.0, 0.0
    knots = _knots(step)
    if not knots:
        return 0.0, step.time.likely_s
    time = {k: lesson.knots[k].time.likely_s for k in knots}
    known = {k for k in knots if alike(lesson.knots[k]) in seen}
    slow = sum(min(n, SHOWN) * time[k] for k, n in knots.items() if k not in known)
    return slow, sum(time[k] for k in knots if k in known)


def _knots(step: Step) -> Counter[int]:
    """How many of each knot are tied in a step."""
    groups = (group for row in step.rows for group in row.groups)
    return Counter(tie.knot for group in groups for tie in group.ties)


def _end(shots: Sequence[Shot]) -> int:
    return shots[-1].begins_s + shots[-1].seconds if shots else 0


def _chapters(shots: Sequence[Shot]) -> list[Chapter]:
    """A chapter wherever the kind of shot or the part of the work changes."""
    found: list[Chapter] = []
    last: tuple[str, str] | None = None
    for shot in shots:
        here = (shot.kind, shot.section)
        if here != last:
            found.append(Chapter(shot.begins_s, shot.kind, shot.section))
        last = here
    return found
