"""Every field of the account of how a piece fits what it holds, with its meaning and unit."""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

Trouble = Literal[
    "falls through",
    "comes out",
    "gap",
    "cannot go in",
    "too tight",
    "not at rest",
    "not down",
    "tips",
    "too low",
]


class _Report(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class TroubleReport(_Report):
    """One reason why it does not fit."""

    kind: Trouble = Field(description="What is wrong.")
    what: str = Field(description="The same in words, with figures.")
    remedy: str = Field(description="What to change.")


class HeightReport(_Report):
    """Where something comes."""

    below_hook_mm: float = Field(description="Below the hook's or holder's upper edge, mm.")
    above_floor_mm: float | None = Field(
        description="Above the floor, mm; null if the plan gives no hook."
    )


class PushReport(_Report):
    """How it gives when pushed aside; the tilt is an estimate."""

    push_n: float = Field(ge=0, description="Steady level push, N: a tenth of what is held.")
    held: bool = Field(description="Whether it stays in the net.")
    shift_mm: float = Field(ge=0, description="How far its base moves aside, solved, mm.")
    tilt_deg: float = Field(
        ge=0,
        description="Tilt if it swings with what it hangs from, estimated, degrees.",
    )
    middle_of_mass_mm: float = Field(ge=0, description="Height of its mass above its base, mm.")
    support_mm: float = Field(
        ge=0, description="Height above its base of the highest cord that touches it, mm."
    )


class GapReport(_Report):
    """The largest opening of the net round it."""

    across_mm: float = Field(ge=0, description="Diameter of the largest ball that passes, mm.")
    up_mm: float = Field(ge=0, description="Height of its middle above the base, mm.")
    passes_mm: float = Field(
        gt=0, description="Diameter of the round opening that lets the whole thing through, mm."
    )
    slips_mm: float = Field(
        gt=0, description="Diameter of the round opening that lets one end of it in, mm."
    )


class WayReport(_Report):
    """Loops of cord that it must pass when it is put in."""

    mouth_mm: float = Field(ge=0, description="The net's uppermost round, pulled open, mm.")
    round_mm: float = Field(gt=0, description="How far it is round the widest part, mm.")
    between_mm: float | None = Field(
        description="Longest loop between two neighbouring arms, mm; null if there is none."
    )
    girth_mm: float = Field(gt=0, description="Shortest loop that goes over all of it, mm.")


class ShortReport(_Report):
    """Free cord that is too short."""

    section: str = Field(description="Section of the plan; empty if it stands in none.")
    above: str = Field(description="The knot below it.")
    sizes: list[str] = Field(description="Named sizes that set this length.")
    strands: list[str] = Field(description="Names of the strands.")
    length_mm: float = Field(ge=0, description="Its length, mm.")
    stretched_mm: float = Field(ge=0, description="How much more it would need there, mm.")
    pull_n: float = Field(ge=0, description="Pull in it, N.")


class LengthenReport(_Report):
    """A named size that would let it sit."""

    size: str = Field(description="Name of the size.")
    now_mm: float = Field(ge=0, description="Its length now, mm.")
    at_least_mm: float = Field(ge=0, description="The length with which it sits, mm.")


class ChangeReport(_Report):
    """One size that was changed."""

    size: str = Field(description="Name of the size.")
    before: str = Field(description="Its value in the plan.")
    after: str = Field(description="Its new value.")


class RefitReport(_Report):
    """What a search for sizes came to."""

    changes: list[ChangeReport] = Field(description="The sizes that change.")
    missed: list[str] = Field(
        description="What cannot be had within the bounds, and by how much; empty if it fits."
    )


class FitReport(_Report):
    """How a piece fits what it holds, and where everything comes."""

    format: Literal[1] = Field(description="Version of this answer.")
    title: str = Field(description="The plan's title.")
    holds: str = Field(description="What is held, in a word.")
    fits: bool = Field(description="Whether nothing is wrong.")
    troubles: list[TroubleReport] = Field(description="Why it does not fit.")
    remarks: list[str] = Field(description="What is worth knowing.")
    weight_g: float = Field(ge=0, description="Weight of what is held, g.")
    base: HeightReport = Field(description="Where its base comes.")
    rim: HeightReport = Field(description="Where its top comes.")
    lowest: HeightReport = Field(description="Where the lowest end of the piece comes.")
    hook_mm: float | None = Field(description="Height of the hook above the floor, mm.")
    clear_mm: float = Field(ge=0, description="Least height asked for the lowest end, mm.")
    length_mm: float = Field(ge=0, description="From the hook to the lowest end, mm.")
    added_up_mm: float = Field(
        ge=0, description="The same if every strand hung straight, as lengths add up, mm."
    )
    cord_mm: float = Field(ge=0, description="Cord to cut in all, mm.")
    strain: float = Field(ge=0, description="Largest pull in one strand against all weight.")
    residual: float = Field(ge=0, description="Largest force out of balance against all weight.")
    under_mm: float | None = Field(
        description="From its base down to the nearest cord under it, mm; null if there is none."
    )
    push: PushReport | None = Field(description="How it gives; null if it does not sit.")
    gap: GapReport = Field(description="The largest opening.")
    way: WayReport | None = Field(description="How it is put in; null if no round closes the net.")
    short: list[ShortReport] = Field(description="Free cord that is too short.")
    lengthen: list[LengthenReport] = Field(description="What would let it sit, one at a time.")
    refit: RefitReport | None = Field(
        description="What a search for sizes came to; null if none was asked for."
    )
