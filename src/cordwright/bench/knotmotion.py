"""Jobs of the knot room: a knot's figure, and its tying in pictures, words and motion."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from cordwright.bench.knotlist import knot, name_of
from cordwright.bench.models_knots import KnotMotion, MotionKey, MotionStep, MovingCord
from cordwright.draw.caption import title
from cordwright.draw.wording import english

if TYPE_CHECKING:
    from collections.abc import Sequence

    from cordwright.bench.jobs import Kept
    from cordwright.bench.models_knots import Knot
    from cordwright.draw.motion import Key, Motion, Moving
    from cordwright.knots.spec import KnotSpec


@dataclass(frozen=True, slots=True)
class Tied:
    """How a knot is tied.

    Args:
        motion: JSON of its `KnotMotion`.
        steps: SVG of every step.
    """

    motion: bytes
    steps: tuple[bytes, ...]


@dataclass(frozen=True, slots=True)
class Figure:
    """Draw a tight knot."""

    spec: KnotSpec

    def run(self, kept: Kept) -> bytes:
        """SVG."""
        from cordwright.draw.knotfigure import knot_figure

        return knot_figure(kept.atlas, self.spec).svg.encode()


@dataclass(frozen=True, slots=True)
class Measure:
    """Measure a knot that the atlas does not come with: it may have to be tightened."""

    spec: KnotSpec
    cord_mm: float

    def run(self, kept: Kept) -> Knot:
        """Its measures.

        Raises:
            KnotError: it cannot be tied so.
        """
        return knot(kept.atlas, self.spec, self.cord_mm)


@dataclass(frozen=True, slots=True)
class Tie:
    """Tie a knot, step by step and as motion."""

    spec: KnotSpec

    def run(self, kept: Kept) -> Tied:
        """Its motion and the pictures of its steps."""
        from cordwright.draw.motion import motion
        from cordwright.teach.labels import Labels
        from cordwright.teach.moves import told_moves
        from cordwright.teach.words import Words

        made = motion(kept.atlas, self.spec)
        told = told_moves(self.spec, made.steps, Labels(Words("en", "metric")))
        answer = as_told(self.spec, made, told)
        pictures = tuple(step.figure.svg.encode() for step in made.steps)
        return Tied(answer.model_dump_json().encode(), pictures)


def as_told(spec: KnotSpec, made: Motion, told: Sequence[str]) -> KnotMotion:
    """A motion as it goes over the wire.

    Args:
        spec: which knot.
        made: its motion.
        told: what is done in every step.
    """
    return KnotMotion(
        name=name_of(spec),
        hand=spec.hand,
        title=title(spec, english()),
        cords=[_cord(c) for c in made.cords],
        forms=[[[round(float(v), 4) for v in p.ravel()] for p in form] for form in made.forms],
        keys=[_key(k) for k in made.keys],
        steps=[_step(n, words, made.keys) for n, words in enumerate(told, start=1)],
    )


def _cord(cord: Moving) -> MovingCord:
    return MovingCord(
        place=cord.place,
        role=cord.role,
        fixed=cord.fixed,
        diameter=cord.diameter,
        colour=english().say(f"colour-{cord.ink.name}"),
        fill=cord.ink.fill,
        edge=cord.ink.edge,
        mark=cord.ink.mark.name,
        mark_colour=cord.ink.mark_colour,
    )


def _key(key: Key) -> MotionKey:
    shown = [(round(i.start, 4), round(i.end, 4)) for i in key.shown]
    return MotionKey(at_s=round(key.at_s, 3), step=key.step, form=key.form, shown=shown)


def _step(number: int, words: str, keys: Sequence[Key]) -> MotionStep:
    mine = [round(k.at_s, 3) for k in keys if k.step == number]
    return MotionStep(number=number, text=words, from_s=mine[0], to_s=mine[-1])
