"""Every field of the account of loads for programs, with its meaning and unit."""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel, ConfigDict, Field


class _Report(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class PartReport(_Report):
    """One part of what hangs."""

    what: str = Field(description="What it is.")
    g: float = Field(ge=0, description="Likeliest weight, g.")
    low_g: float = Field(ge=0, description="Low end of its range, g.")
    high_g: float = Field(ge=0, description="High end of its range, g.")
    source: str = Field(description="Where the figure comes from.")


class FactorReport(_Report):
    """One share of its strength that a cord keeps."""

    name: Literal["knot", "bend", "shared", "wet", "outdoors"] = Field(description="Why.")
    about: str = Field(description="What exactly: which knot, what bend, which fibre.")
    share: float = Field(ge=0, le=1, description="Share of the strength that is kept.")
    source: str = Field(description="Where the figure comes from, or that the plan sets it.")


class SpotReport(_Report):
    """The worst place of one strand."""

    strand: str = Field(description="The strand's name: its cord's number, L or R for the half.")
    cord: str = Field(description="The plan's name of its cord.")
    place: str = Field(description="Where it is, in words.")
    knot: int = Field(ge=0, description="Index of the knot, in the order of working.")
    load_n: float = Field(ge=0, description="Tension at rest, N.")
    bumped_n: float = Field(ge=0, description="Tension with bump, N.")
    new_n: float = Field(ge=0, description="What parts the cord new, dry and straight, N.")
    new_about: str = Field(description="How that was found.")
    new_source: str = Field(description="Where that figure comes from.")
    fibre_known: bool = Field(
        description="Whether the figure is of this cord or fibre; else the weakest fibre counts."
    )
    factors: list[FactorReport] = Field(description="Shares that it keeps there.")
    strength_n: float = Field(ge=0, description="What parts it there: all of these multiplied, N.")
    factor: float = Field(ge=0, description="Strength over the load with bump.")


class RemedyReport(_Report):
    """One thing that would make it enough."""

    kind: Literal["thicker", "strands", "lighter"] = Field(description="What changes.")
    cord: str | None = Field(description="Which of the plan's cords, for a thicker cord.")
    value: float = Field(
        ge=0, description="Diameter in mm; times as many strands; g less; by kind."
    )
    text: str = Field(description="The same in words.")


class ScrewReport(_Report):
    """What a screw hook holds in wood; guidance only."""

    wood: str = Field(description="The wood.")
    gravity: float = Field(gt=0, description="Its specific gravity that was counted with.")
    load_n: float = Field(ge=0, description="Everything that hangs, with bump, N.")
    allowed_n: float = Field(ge=0, description="Load allowed for good by the formula, N.")
    ultimate_n: float = Field(ge=0, description="Force that draws it out by the formula, N.")
    within: bool = Field(description="Whether the load with bump is within what is allowed.")
    sources: list[str] = Field(description="Where the figures come from.")


class LoadReport(_Report):
    """What a piece's cords carry, and whether that is enough."""

    format: Literal[1] = Field(description="Version of this answer.")
    title: str = Field(description="The plan's title.")
    verdict: Literal["enough", "not enough", "nothing hangs", "not known"] = Field(
        description="Whether the factor reached is at least the one asked for; not known where the "
        "tensions cannot be believed."
    )
    doubts: list[str] = Field(
        description="Why the tensions, and all that follows from them, cannot be believed."
    )
    factor: float | None = Field(description="Factor reached at the weakest place.")
    asked: float = Field(ge=1, description="Factor asked for.")
    asked_source: str = Field(description="Why that factor, where it is not the plan's own choice.")
    bump: float = Field(ge=1, description="Load with bump over load at rest.")
    parts: list[PartReport] = Field(description="What hangs.")
    weight_g: float = Field(ge=0, description="All of it, g.")
    weight_low_g: float = Field(ge=0, description="Low end of its range, g.")
    weight_high_g: float = Field(ge=0, description="High end of its range, g.")
    unweighed: list[str] = Field(description="The plan's cords whose own weight is not known.")
    weakest: SpotReport | None = Field(description="The weakest place.")
    strands: list[SpotReport] = Field(description="The worst place of every loaded strand.")
    remedies: list[RemedyReport] = Field(description="What would make it enough.")
    screw: ScrewReport | None = Field(description="The screw hook, if the plan has one.")
    cautions: list[str] = Field(description="What goes with every answer; show all of them.")
