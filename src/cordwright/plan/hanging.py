"""What a piece hangs from and what it holds; docs/hanging.md says what every part means.

The names of woods, pot materials and contents are those of the tables in `cordwright.hang`; a test
holds the two together, so that a plan is refused as it is read, not when its loads are worked out.
"""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import ConfigDict, Field, model_validator

from cordwright.plan.fields import LengthSum, problem
from cordwright.plan.measures import VolumeText, WeightText, number
from cordwright.plan.spot import Spot
from cordwright.plan.sums import Sum

Wood = Literal[
    "ash", "beech", "birch", "cedar", "Douglas fir", "fir", "hemlock", "larch", "maple", "oak",
    "pine", "redwood", "southern pine", "spruce",
]  # fmt: skip
PotMaterial = Literal[
    "aluminium", "cast iron", "concrete", "copper", "glass", "plastic", "porcelain", "steel",
    "stoneware", "terracotta", "wood",
]  # fmt: skip
Content = Literal[
    "bark", "clay pebbles", "compost", "dry potting mix", "dry sand", "gravel", "wet garden soil",
    "wet loam", "wet potting mix", "wet sand", "wet sandy loam", "water",
]  # fmt: skip

Bump = Annotated[float, *number(1.0, 10.0, "bump: 2")]
Factor = Annotated[float, *number(1.0, 50.0, "factor: 12")]
Kept = Annotated[float, *number(0.05, 1.0, "wet: 0.8")]


class _Holding(Spot):
    """A thing that a piece holds; filled things say with what."""

    model_config = ConfigDict(populate_by_name=True)


class Pot(_Holding):
    """A pot: a frustum, standing on its base."""

    rim: LengthSum = Field(description="Across the rim, outside.")
    base: LengthSum = Field(description="Across the base, outside.")
    height: LengthSum = Field(description="From base to rim, outside.")
    weight: WeightText | None = Field(default=None, description="Of the empty pot, by the scales.")
    material: PotMaterial | None = Field(
        default=None, description="What it is made of, where it was not weighed."
    )
    wall: LengthSum | None = Field(default=None, description="How thick its wall and floor are.")
    filled: VolumeText | None = Field(
        default=None, description="Volume of what is in it; all that goes in if left out."
    )
    with_: Content = Field(
        default="wet potting mix", alias="with", description="What it is filled with."
    )

    @model_validator(mode="after")
    def _weighed_or_made(self) -> Self:
        if self.weight is None and (self.material is None or self.wall is None):
            raise problem(
                "What the empty pot weighs is not said.",
                "add weight: 900 g, or material: terracotta with wall: 8 mm",
                self.where,
            )
        return self


class Bowl(_Holding):
    """A bowl: a part of a sphere, open above."""

    across: LengthSum = Field(description="Across the rim.")
    high: LengthSum = Field(description="From its lowest point to the rim.")
    weight: WeightText = Field(description="Of the empty bowl.")
    filled: VolumeText | None = Field(default=None, description="Volume of what is in it.")
    with_: Content | None = Field(
        default=None, alias="with", description="What it is filled with; empty if left out."
    )


class Sphere(Spot):
    """A ball: a glass float, a gourd, a string of lights in a globe."""

    across: LengthSum = Field(description="Diameter.")
    weight: WeightText = Field(description="By the scales.")


class Box(Spot):
    """A box: a book, a bottle's case, a speaker."""

    wide: LengthSum = Field(description="From left to right.")
    deep: LengthSum = Field(description="From front to back.")
    high: LengthSum = Field(description="From bottom to top.")
    weight: WeightText = Field(description="By the scales.")


class Holds(Spot):
    """The one thing that a piece holds."""

    pot: Pot | None = None
    bowl: Bowl | None = None
    sphere: Sphere | None = None
    box: Box | None = None

    @model_validator(mode="after")
    def _one_thing(self) -> Self:
        given = [h for h in (self.pot, self.bowl, self.sphere, self.box) if h is not None]
        if len(given) != 1:
            raise problem(
                "The piece holds two things." if given else "What the piece holds is not said.",
                "give one of pot, bowl, sphere or box",
                self.where,
            )
        return self

    @property
    def thing(self) -> Pot | Bowl | Sphere | Box:
        """The thing that is held."""
        return next(h for h in (self.pot, self.bowl, self.sphere, self.box) if h is not None)


class ScrewHook(Spot):
    """A hook with a wood screw's thread, screwed straight up or in, across the grain."""

    thick: LengthSum = Field(description="Diameter of the screw over its thread.")
    thread: LengthSum = Field(description="Length of thread that is in the wood.")
    wood: Wood = Field(description="What it is screwed into.")


class Keeps(Spot):
    """Shares of a cord's strength that are kept, where a maker knows better than the tables."""

    knots: Kept | None = Field(default=None, description="At any loaded knot.")
    bend: Kept | None = Field(default=None, description="Over the ring or rod.")
    wet: Kept | None = Field(default=None, description="Wet, against dry.")
    outdoors: Kept | None = Field(default=None, description="Aged outdoors, against new.")
    shared: Kept | None = Field(
        default=None, description="Where strands side by side do not pull alike."
    )


class Hang(Spot):
    """What a piece hangs from and holds, and what is asked of it."""

    hook: LengthSum | None = Field(
        default=None, description="Height of the hook's lowest point above the floor."
    )
    clear: LengthSum = Field(
        default=Sum.parse("0"), description="Least height of the lowest end above the floor."
    )
    place: Literal["indoors", "outdoors"] = Field(
        default="indoors", description="Where it hangs; cord outdoors ages."
    )
    bump: Bump = Field(
        default=2.0, description="Load while somebody knocks or lifts it, against rest; 1 to 10."
    )
    factor: Factor = Field(
        default=12.0, description="Strength asked for, against the load with bump; 1 to 50."
    )
    keeps: Keeps | None = Field(
        default=None, description="Shares of strength that differ from the tables'."
    )
    screw: ScrewHook | None = Field(default=None, description="The screw hook, if it is one.")
    holds: Holds | None = Field(default=None, description="What the piece holds.")
