"""What the server tells of knots: figures, take-up, and how they are tied, as motion."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from cordwright.bench.wire import Mm, Wire
from cordwright.knots.spec import Role  # noqa: TC001 - pydantic reads it at run time

Diameters = float
"""In diameters d of the working cord."""


class KnotLength(Wire):
    """A length of a tight knot: in diameters of its working cord, and for one as thick as asked."""

    d: Diameters
    mm: Mm


class TakeUp(Wire):
    """Cord that strands of one role use in a knot, its height included."""

    role: Role
    strands: int = Field(description="How many do this.")
    each: KnotLength = Field(description="What one of them uses, on the mean.")


class Knot(Wire):
    """One tight shape of the atlas."""

    name: str = Field(description="As in addresses: square-knot-n4.")
    family: str = Field(description="The kind of knot: square-knot.")
    title: str = Field(description="What it is called, without its hand.")
    hand: Literal["left", "right"]
    strands: int = Field(description="Strands that take part.")
    height: KnotLength = Field(description="Along the strands; in a sinnet, to the next knot.")
    width: KnotLength = Field(description="Across; in a row, to the next knot.")
    depth: KnotLength = Field(description="Front to back.")
    twist_deg: float = Field(description="Turn to the next knot of a spiral, else 0.")
    take_up: list[TakeUp]


class KnotFamily(Wire):
    """Knots of one kind."""

    name: str
    title: str
    about: str = Field(description="What sets them apart.")
    usual: str = Field(description="Name of the one that stands for them.")
    knots: list[Knot]


class Knots(Wire):
    """The atlas."""

    cord_mm: Mm = Field(description="How thick the cord is that lengths in mm are for.")
    families: list[KnotFamily]


class MovingCord(Wire):
    """One cord of a motion."""

    place: int | None = Field(description="Which strand of the line-up; null for rings and rods.")
    role: Role
    fixed: bool = Field(description="A ring or rod.")
    diameter: Diameters
    colour: str = Field(description="In words.")
    fill: str = Field(description="The colour: #rrggbb.")
    edge: str = Field(description="The colour of its outline.")
    mark: str = Field(description="What tells it apart without colour: line, dots, ticks …")
    mark_colour: str


class MotionKey(Wire):
    """How things are at one time; between two keys everything goes evenly."""

    at_s: float = Field(description="Seconds from the beginning, at a normal pace.")
    step: int = Field(description="Number of the step that it belongs to, from 1.")
    form: int = Field(description="Which of the forms the cords have.")
    shown: list[tuple[float, float]] = Field(
        description="For each cord from where to where it is there: arc lengths along the form, d."
    )


class MotionStep(Wire):
    """One of the steps of a tying; its figure is at ``steps/NUMBER.svg``."""

    number: int
    text: str = Field(description="What is done.")
    from_s: float = Field(description="When it begins.")
    to_s: float = Field(description="When it has been done.")


class KnotMotion(Wire):
    """A knot's tying as motion; the last key is the tight knot."""

    name: str
    hand: Literal["left", "right"]
    title: str = Field(description="What it is called, with its hand.")
    cords: list[MovingCord]
    forms: list[list[list[float]]] = Field(
        description="For each form and cord: x, y, z of its points one after the other, in d; to "
        "the right, up and towards the viewer. A cord has as many points in every form."
    )
    keys: list[MotionKey]
    steps: list[MotionStep]
