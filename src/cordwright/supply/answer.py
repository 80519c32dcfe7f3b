"""Every field of the answers of ``cordwright supply`` for programs, with its meaning and unit."""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel, ConfigDict, Field


class _Report(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class PieceReport(_Report):
    """Equal pieces."""

    id: str = Field(description="As in the cut list.")
    length_mm: float = Field(gt=0, description="Of each, mm.")
    count: int = Field(ge=1, description="How many.")


class SpoolReport(_Report):
    """One spool, cut."""

    id: str = Field(description="Which spool at hand, or which put-up.")
    bought: bool = Field(description="Whether it is to be bought.")
    number: int = Field(ge=1, description="Which one, of those that are bought of one put-up.")
    length_mm: float = Field(description="Cord on it before, mm.")
    pieces: list[PieceReport] = Field(description="What is cut from it.")
    rest_mm: float = Field(ge=0, description="What is left, mm.")
    kept: bool = Field(description="Whether the rest is worth keeping.")


class CordSupply(_Report):
    """The cutting plan of one cord."""

    cord: str = Field(description="The plan's name of the cord.")
    needs: list[PieceReport] = Field(description="What is to be cut, for all kits.")
    need_mm: float = Field(description="All of it together, mm.")
    spools: list[SpoolReport] = Field(description="Every spool that is opened.")
    missing: list[PieceReport] = Field(description="What could not be cut.")
    enough: bool = Field(description="Whether everything is cut.")
    lost_mm: float = Field(description="Rests that are not kept, mm.")
    kept_mm: float = Field(description="Rests that are, mm.")
    set_ups: int = Field(description="How often a length is measured anew.")
    cost_mm: float = Field(description="Rests lost, purchases and set-ups, as mm of cord.")
    bound_mm: float = Field(description="No plan that cuts as much costs less, mm of cord.")
    first_fit_mm: float | None = Field(
        description="What first-fit decreasing would cost, mm of cord; null if it cuts less."
    )
    gap: float = Field(
        description="What a better plan could save at most, as a part of all cord that is cut, "
        "lost or bought."
    )
    proved: bool = Field(description="Whether no plan can be better.")
    end: Literal["proved", "time", "size"] = Field(description="Why the search ended.")


class WeightReport(_Report):
    """What one kit weighs."""

    cord_g: float | None = Field(description="Its cord, g; null if not known.")
    low_g: float | None = Field(description="The least that the cord may weigh, g.")
    high_g: float | None = Field(description="The most that the cord may weigh, g.")
    things_g: float | None = Field(description="Fittings and packing, g; null if one has none.")
    gross_g: float | None = Field(description="All together, g.")
    box_mm: tuple[float, float, float] | None = Field(description="Sides of the box, mm.")
    volumetric_g: float | None = Field(description="Weight that the box is charged as, g.")


class FittingReport(_Report):
    """A ring, rod or pot that the plan names, and what the shelf has of it."""

    sort: Literal["ring", "rod", "pot"] = Field(description="What it is.")
    measures_mm: tuple[float, float] = Field(
        description="Of a ring inside and wire, of a rod length and thickness, of a pot across the "
        "rim and height, mm."
    )
    needed: int = Field(ge=1, description="How many, for all kits.")
    on_shelf: str | None = Field(description="Its name on the shelf; null if none there fits.")
    count: int = Field(ge=0, description="How many the shelf has (had, if they were taken).")
    short: int = Field(ge=0, description="How many are not there.")
    price: str | None = Field(description="The shelf's price of one, with its currency.")


class LineReport(_Report):
    """One line of the costs."""

    what: str = Field(description="What it is for.")
    amount: str = Field(description="For all kits, as a decimal number.")


class PriceReport(_Report):
    """What the run costs and what to ask. Amounts are decimal numbers, written as text."""

    currency: str = Field(description="Code of ISO 4217.")
    lines: list[LineReport] = Field(description="Every part of the costs.")
    total: str = Field(description="Of the lines.")
    per_kit: str = Field(description="The total over the kits, rounded up.")
    wholesale: str = Field(description="Price of a kit.")
    retail: str = Field(description="Price of a kit.")
    asked: str = Field(description="The price that the break-even is for.")
    break_even: int | None = Field(
        description="Sales that earn back what is spent once; null if none do."
    )
    unpriced: list[str] = Field(description="What has no price and is not in it.")


class SupplyReport(_Report):
    """What to cut from which spool for a run of kits, what it weighs and what it costs."""

    format: Literal[1] = Field(description="Version of this answer.")
    title: str = Field(description="Of the piece.")
    kits: int = Field(ge=1, description="How many.")
    keep_mm: float = Field(description="The least rest that is worth keeping, mm.")
    cords: list[CordSupply] = Field(description="One for each cord that is cut.")
    enough: bool = Field(description="Whether everything is cut.")
    weight: WeightReport = Field(description="Of one kit.")
    fittings: list[FittingReport] = Field(
        description="What the plan names that goes into each kit, but for what --fitting gives."
    )
    price: PriceReport | None = Field(description="Null without a currency.")
    taken: int | None = Field(
        description="Entry of the shelf's log, where everything was taken off the shelf."
    )


class SizeReport(_Report):
    """One size."""

    name: str = Field(description="Its name in the plan.")
    value: str = Field(description="As written in a plan.")


class ResizedReport(_Report):
    """A piece with other sizes."""

    share: float = Field(
        description="Of the way from the planned sizes to their bounds: up to 1 downwards, to -1 "
        "upwards."
    )
    sizes: list[SizeReport] = Field(description="Every size that differs.")


class MakeableReport(_Report):
    """Whether one plan can be made."""

    file: str = Field(description="The plan.")
    title: str | None = Field(description="Of the piece; null if the plan cannot be worked.")
    fits: Literal["yes", "no", "not found"] | None = Field(
        description="As planned; null if the plan cannot be worked."
    )
    together: ResizedReport | None = Field(
        description="All free sizes changed alike: no smaller than need be, or as large as goes."
    )
    alone: list[ResizedReport] = Field(description="The same for each size that helps alone.")
    lacking: list[str] = Field(description="Cords of which there is none at all.")
    trouble: str | None = Field(description="Why the plan cannot be worked.")


class MakeReport(_Report):
    """What can be made of the plans in a folder."""

    format: Literal[1] = Field(description="Version of this answer.")
    folder: str = Field(description="Where the plans are.")
    plans: list[MakeableReport] = Field(description="By file name.")
