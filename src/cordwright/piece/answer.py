"""Every field of the cut list for programs, with its meaning and unit."""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

from cordwright.piece.lengths import Use  # noqa: TC001 - pydantic reads it at run time


class _Report(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class FormReport(_Report):
    """A length as an exact sum: mm + the sum of each coefficient times its symbol's value in mm."""

    mm: float = Field(description="Fixed part, mm.")
    terms: dict[str, float] = Field(
        description="Coefficients by symbol: d:NAME is the diameter of a cord, s:NAME a size, "
        "h:STRAND.KNOT free cord above that knot of that strand (h:3L.2: above the second knot of "
        "3L), which the plan leaves open and the shape as worked gives, for these values."
    )


class CordReport(_Report):
    """Equal cords to cut."""

    id: str = Field(description="A, B, C … by order of appearance in the piece.")
    count: int = Field(ge=1, description="How many.")
    cord: str = Field(description="The plan's name of the cord.")
    fibre: str = Field(description="What it is made of, as the plan says.")
    colour: str | None = Field(description="Its colour, if the plan says.")
    diameter_mm: float = Field(gt=0, description="Diameter, mm.")
    length_mm: float = Field(ge=0, description="Length to cut each, mm; spare included.")
    fold: Literal["middle", "uneven", "none"] = Field(description="How each is folded.")
    fold_mm: tuple[float, float] | None = Field(
        description="Left and right part of a cord folded unevenly, mm; they sum to length_mm."
    )
    used_mm: float = Field(description="What the neediest of these cords uses, mm.")
    spare_mm: float = Field(ge=0, description="Spare in its length, mm.")
    spare_knots_mm: float = Field(description="Part of the spare that is for its knots, mm.")
    spare_free_mm: float = Field(description="Part of the spare that is for its free cord, mm.")
    rounding_mm: float = Field(
        description="The rest of its length, mm: rounding up, common lengths, an even fold."
    )
    chance: float = Field(
        ge=0, le=1, description="Chance that the worse strand of each of these is long enough."
    )
    already_cut: bool = Field(description="Whether the plan says that it is already cut.")
    part: Literal["mount", "added", "holding", "wrap"] = Field(
        description="How the first of these cords comes into the piece."
    )
    numbers: list[int] = Field(description="Which cords of the piece these are, from 1.")
    forms: list[FormReport] = Field(
        description="Used length of each strand of the neediest cord, as an exact sum."
    )


class StrandReport(_Report):
    """One hanging end of a cord."""

    id: str = Field(description="Number of its cord in the piece, with L or R for its half.")
    cord: str = Field(description="The plan's name of the cord.")
    cut: str = Field(description="Id of its entry under cords.")
    half: Literal["left", "right", "whole"] = Field(description="Which half of the cord.")
    used_mm: float = Field(ge=0, description="Cord that it uses, tails included, mm.")
    over_mm: float = Field(description="What it ends with over, beyond its planned end, mm.")
    uses_mm: dict[Use, float] = Field(description="What it uses by role, mm; sums to used_mm.")
    ends: Literal["tail", "fringe", "leave", "laid in"] = Field(description="How it ends.")
    end_mm: float = Field(ge=0, description="Cord planned below its last knot, mm.")
    form: FormReport = Field(description="used_mm as an exact sum.")


class KindReport(_Report):
    """All cord of one kind."""

    cord: str = Field(description="The plan's name of the cord.")
    diameter_mm: float = Field(gt=0, description="Diameter, mm.")
    cut_mm: float = Field(ge=0, description="Cord cut, mm.")
    used_mm: float = Field(ge=0, description="Cord used, mm.")
    weight_g: float | None = Field(
        description="Weight of the cord cut, g; null if the fibre's weight is not known."
    )
    weight_low_g: float | None = Field(description="The least that it may weigh, g.")
    weight_high_g: float | None = Field(description="The most that it may weigh, g.")


class SectionReport(_Report):
    """Cord used in one section of the plan."""

    path: list[str] = Field(description="Names of the sections, outermost first; [] outside all.")
    used_mm: float = Field(description="Cord used there (not in sections inside it), mm.")


class SpareParts(_Report):
    """What spare is added, as parts of the cord it is added for."""

    knots: dict[str, float] = Field(
        description="Spare for knots as a part of the knotted cord, by the cord's name; the mean "
        "of its strands."
    )
    free: dict[str, float] = Field(
        description="Spare for free cord as a part of it, by the cord's name; the mean of its "
        "strands."
    )
    known_from: dict[str, Literal["published figures", "swatches"]] = Field(
        description="What the chance of each cord rests on, by the cord's name: the maker's "
        "swatches and finished pieces, or the spread of published figures where there are none."
    )
    risk: float | None = Field(
        description="Chance that a strand is too short, which the spare is for, 0 to 1; 0.05 "
        "unless the maker chooses another. Null if spare was added as fixed parts of the cord."
    )
    why_knots: str = Field(description="Why knotted cord needs spare.")
    why_free: str = Field(description="Why free cord needs spare.")


class WarningReport(_Report):
    """Something the maker should know."""

    what: str = Field(description="One sentence.")
    file: str | None = Field(description="The plan file, if at one place.")
    line: int | None = Field(description="Line in it, from 1.")
    column: int | None = Field(description="Column in it, from 1.")


class CutReport(_Report):
    """A cut list. All lengths are in mm, all weights in g."""

    model_config = ConfigDict(title="Cordwright cut list")

    format: Literal[1] = Field(description="Version of this format.")
    title: str = Field(description="The plan's title.")
    system: Literal["metric", "inch"] = Field(description="What lengths are rounded up in.")
    cords: list[CordReport] = Field(description="What to cut.")
    total_mm: float = Field(description="All cord cut: the sum of count times length_mm.")
    used_mm: float = Field(description="All cord used by the strands.")
    finished_length_mm: float = Field(
        description="From the top to the deepest end, by adding up, mm; tails included."
    )
    finished_length_form: FormReport = Field(description="The same as an exact sum.")
    width_mm: float | None = Field(
        description="Width of a flat piece over its knots, as they lie when worked, mm; null in "
        "the round, where it depends on what the piece holds."
    )
    height_mm: float | None = Field(
        description="Height of a flat piece as its knots lie when worked, tails included, mm; null "
        "in the round."
    )
    knots: int = Field(ge=0, description="How many knots.")
    strands: list[StrandReport] = Field(description="Every strand, cord by cord.")
    uses_mm: dict[Use, float] = Field(description="Cord used by role in the whole piece, mm.")
    kinds: list[KindReport] = Field(description="Totals by kind of cord.")
    sections: list[SectionReport] = Field(description="Cord used by section.")
    values_mm: dict[str, float] = Field(description="Value of every symbol of the sums, mm.")
    spare_parts: SpareParts = Field(description="What spare is added and why.")
    warnings: list[WarningReport] = Field(description="What the maker should know.")
