"""The plan of a piece, as frozen values; docs/plan-format.md says what every part means."""

from __future__ import annotations

from typing import Annotated, Any, Final, Literal, Self

from pydantic import Discriminator, Field, Tag, model_validator

from cordwright.cords.cord import Cord
from cordwright.plan.fields import (
    ONE,
    AmountSum,
    CountSum,
    Diameter,
    FreeText,
    LengthSum,
    MassText,
    NameText,
    problem,
)
from cordwright.plan.hanging import Hang
from cordwright.plan.marks import MarkedDict, place_of
from cordwright.plan.measures import ForceText  # noqa: TC001 - pydantic reads it at run time
from cordwright.plan.spot import Spot
from cordwright.plan.steps import (
    VERBS,
    AddStep,
    BraidStep,
    Fold,
    FreeStep,
    FringeStep,
    GatherStep,
    HitchStep,
    KnotWord,
    LeaveStep,
    MotifStep,
    NewCord,
    PassStep,
    ReorderStep,
    RepeatStep,
    RowsStep,
    SectionStep,
    ShapeStep,
    Step,
    TieStep,
)
from cordwright.plan.sums import Sum, length
from cordwright.units.force import parse_force

FORMAT_VERSION: Final = 1


class CordSpec(Spot):
    """One kind of cord that the plan uses."""

    fibre: str = Field(min_length=1, max_length=60, description="What it is made of.")
    diameter: Diameter = Field(description="Diameter of the cord, written out.")
    build: str | None = Field(
        default=None, max_length=60, description="How it is made: single twist, 3-ply, braided…"
    )
    colour: str | None = Field(default=None, max_length=60, description="Colour, in any words.")

    weight: MassText | None = Field(
        default=None, description="Mass of a metre, if it was weighed: 9.5 g/m."
    )
    strength: ForceText | None = Field(
        default=None, description="Force that breaks it, new, dry and without knots: 800 N."
    )
    shelf: str | None = Field(
        default=None,
        min_length=1,
        max_length=200,
        description="Name of a cord on the maker's shelf, which fills in what is not said here.",
    )

    @property
    def weighed_g_per_m(self) -> float | None:
        """The weighed mass of a metre in g, if it is given."""
        return float(self.weight.removesuffix("g/m")) if self.weight else None

    @property
    def breaking_n(self) -> float | None:
        """The force in N that breaks it, new, dry and without knots, if it is given."""
        return parse_force(self.strength) if self.strength else None

    @property
    def diameter_mm(self) -> float:
        """The diameter in mm."""
        return length(self.diameter, {}).mm

    @property
    def bought(self) -> Cord:
        """The cord as the room of cords knows it, for its weight."""
        return Cord(
            fibre=self.fibre,
            diameter_mm=self.diameter_mm,
            build=self.build or "",
            colour=self.colour or "",
            weighed_g_per_m=self.weighed_g_per_m,
        )


class SizeSpec(Spot):
    """A named length or count, with the bounds in which it may be changed."""

    value: AmountSum = Field(description="The length or count.")
    at_least: AmountSum | None = Field(default=None, description="The least it may be set to.")
    at_most: AmountSum | None = Field(default=None, description="The most it may be set to.")
    about: FreeText | None = Field(default=None, description="What it is, for the reader.")

    @model_validator(mode="before")
    @classmethod
    def _bare(cls, data: Any) -> Any:
        """A bare value is short for ``{value: ...}``."""
        if isinstance(data, (dict, cls)):
            return data
        return {"value": data, "where": place_of(data)}


class RingMount(Spot):
    """The cords hang on a ring of wire."""

    inside: LengthSum = Field(description="Inside diameter of the ring.")
    wire: LengthSum = Field(description="Diameter of the ring's wire.")
    lies: Literal["level", "upright"] | None = Field(
        default=None,
        description="How it hangs: level with the cords all round it, or upright from one point. "
        "Left out, it lies level where the work is round from the ring on.",
    )


class RodMount(Spot):
    """The cords hang on a straight rod."""

    length: LengthSum = Field(description="Length of the rod.")
    thick: LengthSum = Field(description="Diameter of the rod.")


class CordMount(Spot):
    """The cords hang on a holding cord."""

    cord: NameText = Field(description="Which of the plan's cords is the holding cord.")
    tail: LengthSum | None = Field(
        default=None, description="What stands out at both sides; the plan's tail if left out."
    )


class NothingMount(Spot):
    """The cords hang on nothing: they are held while the work starts."""

    tail: LengthSum | None = Field(
        default=None, description="Cord left above the work; the plan's tail if left out."
    )


class MountCord(Spot):
    """Equal cords that are mounted side by side."""

    cord: NameText = Field(description="Which of the plan's cords.")
    count: CountSum = Field(default=ONE, description="How many.")
    fold: Fold = Field(
        default="needed", description="Folded where needed, in the middle, or not at all."
    )
    knot: Literal["larks-head"] | None = Field(
        default=None, description="The mounting knot; a lark's head for folded cords on a mount."
    )
    face: Literal["face", "reverse"] = Field(
        default="face", description="The side of the lark's head that shows."
    )
    tail: LengthSum | None = Field(
        default=None, description="Tail above, for unfolded cords; the plan's tail if left out."
    )
    cut: LengthSum | None = Field(default=None, description="Length of a cord that is already cut.")

    @model_validator(mode="after")
    def _tail_and_knot_fit(self) -> Self:
        if self.tail is not None and self.fold != "none":
            raise problem(
                "'tail' goes with an unfolded cord.", "add fold: none, or take tail out", self.where
            )
        if self.knot is not None and self.fold == "none":
            raise problem(
                "A lark's head needs a folded cord.", "take fold: none or knot out", self.where
            )
        return self


class MountRepeat(Spot):
    """A run of cords that is mounted several times over: stripes, or a pattern of colours."""

    repeat: CountSum = Field(description="How many times.")
    cords: tuple[MountCord, ...] = Field(min_length=1, description="The run, from left to right.")


Mounted = Annotated[
    Annotated[MountCord, Tag("<MountCord>")] | Annotated[MountRepeat, Tag("<MountRepeat>")],
    Discriminator(
        lambda v: (
            "<MountRepeat>"
            if isinstance(v, MountRepeat) or (isinstance(v, dict) and "repeat" in v)
            else "<MountCord>"
        )
    ),
]
"""Equal cords, or a repeated run of cords."""


class Mount(Spot):
    """What the piece hangs on, and the cords on it from left to right."""

    ring: RingMount | None = None
    rod: RodMount | None = None
    cord: CordMount | None = None
    nothing: NothingMount | None = None
    cords: tuple[Mounted, ...] = Field(min_length=1, description="From left to right.")

    @model_validator(mode="before")
    @classmethod
    def _empty_nothing(cls, data: Any) -> Any:
        """``nothing:`` without more is ``nothing: {}``."""
        if isinstance(data, MarkedDict) and "nothing" in data and data["nothing"] is None:
            filled = MarkedDict(data)
            filled.place, filled.places, filled.key_places = (
                data.place,
                data.places,
                data.key_places,
            )
            filled["nothing"] = {}
            return filled
        return data

    @model_validator(mode="after")
    def _one_holder(self) -> Self:
        given = [h for h in (self.ring, self.rod, self.cord, self.nothing) if h is not None]
        if len(given) != 1:
            what = "says nothing of what the piece hangs on" if not given else "names two holders"
            raise problem(
                f"The mount {what}.", "give one of ring, rod, cord or nothing", self.where
            )
        return self

    @property
    def on(self) -> RingMount | RodMount | CordMount | NothingMount:
        """What the piece hangs on."""
        return next(h for h in (self.ring, self.rod, self.cord, self.nothing) if h is not None)


class Motif(Spot):
    """Work that is planned once and used in several places."""

    takes: dict[NameText, AmountSum] = Field(
        default_factory=dict, description="Parameters with their defaults."
    )
    work: tuple[Step, ...] = Field(description="Steps; places are numbered within the motif.")


Use = Literal["hung", "carried", "worn", "plain"]
"""What becomes of a piece."""


class Plan(Spot):
    """A whole plan."""

    cordwright: Literal[1] = Field(description="Version of the plan format.")
    title: str = Field(min_length=1, max_length=200, description="Name of the piece.")
    about: FreeText = Field(default="", description="What it is, for the reader.")
    cords: dict[NameText, CordSpec] = Field(min_length=1, description="The cords, by name.")
    sizes: dict[NameText, SizeSpec] = Field(
        default_factory=dict, max_length=1000, description="Named lengths and counts."
    )
    tail: LengthSum = Field(
        default=Sum.parse("10 cm"), description="Left on strands that nothing else ends."
    )
    mount: Mount
    use: Use | None = Field(
        default=None,
        description="What becomes of the piece: hung up, carried with something in it, worn, or "
        "plain, which is none of these; with hang: it is hung unless it says otherwise.",
    )
    hang: Hang | None = Field(
        default=None, description="What the piece hangs from and holds, and what is asked of it."
    )
    motifs: dict[NameText, Motif] = Field(default_factory=dict, description="Motifs, by name.")
    work: tuple[Step, ...] = Field(description="Steps, top to bottom.")

    @model_validator(mode="before")
    @classmethod
    def _use_fits(cls, data: Any) -> Any:
        """What becomes of the piece goes with its mount and with ``hang:``."""
        if not isinstance(data, dict):
            return data
        use, mount = data.get("use"), data.get("mount")
        place = place_of(use)
        if use == "hung" and isinstance(mount, dict) and "nothing" in mount:
            raise problem(
                "The piece is to be hung, but has nothing to hang from.",
                "mount the cords on a ring, a rod or a holding cord, or give it another use: "
                "carried, worn or plain",
                place,
            )
        if use in ("worn", "plain") and "hang" in data:
            raise problem(
                f"The plan says how the piece hangs, but its use is '{use}'.",
                "leave hang: out, or say use: hung or use: carried",
                place,
            )
        return data

    @property
    def used(self) -> Use | None:
        """What becomes of the piece; None where the plan does not say."""
        return self.use or ("hung" if self.hang is not None else None)


__all__ = [
    "FORMAT_VERSION",
    "VERBS",
    "AddStep",
    "BraidStep",
    "CordMount",
    "CordSpec",
    "FreeStep",
    "FringeStep",
    "GatherStep",
    "Hang",
    "HitchStep",
    "KnotWord",
    "LeaveStep",
    "Motif",
    "MotifStep",
    "Mount",
    "MountCord",
    "MountRepeat",
    "NewCord",
    "NothingMount",
    "PassStep",
    "Plan",
    "ReorderStep",
    "RepeatStep",
    "RingMount",
    "RodMount",
    "RowsStep",
    "SectionStep",
    "ShapeStep",
    "SizeSpec",
    "Spot",
    "Step",
    "TieStep",
    "Use",
]
