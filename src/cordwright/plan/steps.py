"""The steps of a plan, one class for each verb.

The meaning of every key is in the plan format's table of steps (docs/plan-format.md). Steps are
frozen. ``note`` is the maker's own text; ``where`` is the step's place in the file, filled in by
the reader, no part of equality, schema or writing.
"""

from __future__ import annotations

from typing import Annotated, Any, Final, Literal, Self

from pydantic import (
    ConfigDict,
    Discriminator,
    Field,
    Tag,
    model_validator,
)

from cordwright.plan.fields import (
    ALL,
    ONE,
    SLANT_DEG,
    ZERO,
    AmountSum,
    CountSum,
    FreeText,
    LengthSum,
    NameText,
    PlaceList,
    Slant,
    Workers,
    problem,
)
from cordwright.plan.spot import Spot
from cordwright.plan.strands import Places  # noqa: TC001 - pydantic reads it at run time

KnotWord = Literal["square-knot", "half-knot", "half-hitch", "overhand"]
"""The knots that ``tie`` and ``rows`` can tie."""
HandWord = Literal["left", "right", "alternate"]
Fold = Literal["needed", "middle", "none"]
Trim = Literal["level", "point", "slant", "as it falls"]


class _Step(Spot):
    note: FreeText | None = Field(default=None, description="Free text for the reader.")


_WORKERS = (
    "Working strands: outer (square and half knots, if left out), inner, first (half hitch, if "
    "left out), last, or places within the group."
)


def _on() -> Any:
    return Field(default=ALL, description="The strands this step works on; all if left out.")


def _zero(description: str) -> Any:
    return Field(default=ZERO, description=description)


class TieStep(_Step):
    """Ties a knot on groups of strands, or sinnets of it."""

    tie: KnotWord = Field(description="The knot to tie.")
    on: PlaceList = _on()
    each: CountSum | None = Field(
        default=None, description="Strands in a group; all places are one group if left out."
    )
    skip: CountSum = _zero("Strands left alone before the first group.")
    times: CountSum = Field(default=ONE, description="Knots in a sinnet, one below the other.")
    gap: LengthSum = _zero("Free cord between the knots of a sinnet.")
    free: LengthSum = _zero("Free cord above the first knot.")
    hand: HandWord = Field(default="left", description="The working cord that starts in front.")
    workers: Workers | None = Field(default=None, description=_WORKERS)


class RowsStep(_Step):
    """Rows of one knot, straight or alternating."""

    rows: CountSum = Field(description="How many rows.")
    tie: KnotWord = Field(description="The knot to tie.")
    on: PlaceList = _on()
    each: CountSum | None = Field(
        default=None, description="Strands in a group; all places are one group if left out."
    )
    shift: CountSum = _zero("Strands that every second row starts further on; 0 is straight.")
    gap: LengthSum = _zero("Free cord between rows.")
    times: CountSum = Field(default=ONE, description="Knots in a sinnet of each group of a row.")
    hand: HandWord = Field(default="left", description="The working cord that starts in front.")
    workers: Workers | None = Field(default=None, description=_WORKERS)
    shrink: CountSum = _zero("Strands more left out at each side from row to row.")
    grow: CountSum = _zero("Strands more taken in at each side from row to row.")

    @model_validator(mode="after")
    def _one_way(self) -> Self:
        if self.shrink != ZERO and self.grow != ZERO:
            raise problem(
                "Rows cannot shrink and grow at once.", "make two steps of it", self.where
            )
        return self


class FreeStep(_Step):
    """Leaves free cord before the next knot."""

    free: LengthSum = Field(description="The least free cord before the next knot.")
    on: PlaceList = _on()


class HitchStep(_Step):
    """Rows of double half hitches on a holding cord."""

    hitch: Literal["right", "left"] = Field(description="Which way the holding cord runs.")
    on: PlaceList = _on()
    cord: NameText | None = Field(
        default=None, description="A new cord laid in as holding cord; else the first or last."
    )
    tail: LengthSum | None = Field(
        default=None, description="Tail of the laid-in cord on both sides; the plan's tail else."
    )
    slant: Slant = Field(
        default="level",
        description="How far the holding cord dips: level 0°, diagonal 45°, steep 60°, or degrees.",
    )
    free: LengthSum = _zero("Free cord above the row.")
    rows: CountSum = Field(default=ONE, description="Rows, each on the strand that then leads.")

    @property
    def slant_deg(self) -> float:
        """Degrees below level, 0 to 60."""
        return SLANT_DEG[self.slant] if isinstance(self.slant, str) else float(self.slant)

    @model_validator(mode="after")
    def _tail_needs_cord(self) -> Self:
        if self.tail is not None and self.cord is None:
            raise problem(
                "'tail' goes with a laid-in holding cord.",
                "add cord:, or take tail out",
                self.where,
            )
        return self


class PassStep(_Step):
    """Two neighbouring groups change places; nothing is tied."""

    passing: PlaceList = Field(alias="pass", description="The group that passes.")
    in_front_of: PlaceList | None = Field(
        default=None, description="The neighbouring group it passes in front of."
    )
    behind: PlaceList | None = Field(
        default=None, description="The neighbouring group it passes behind."
    )

    @model_validator(mode="after")
    def _one_side(self) -> Self:
        if (self.in_front_of is None) == (self.behind is None):
            raise problem(
                "A pass needs the group that is passed, on one side.",
                "add in_front_of: 5-8 or behind: 5-8",
                self.where,
            )
        return self

    @property
    def passed(self) -> Places:
        """The group that is passed, whichever side."""
        return self.behind if self.in_front_of is None else self.in_front_of  # type: ignore[return-value]


class ReorderStep(_Step):
    """Gives the strands of each group a new order."""

    reorder: Annotated[
        tuple[Annotated[int, Field(ge=1, le=1000)], ...], Field(min_length=2, max_length=1000)
    ] = Field(description="Old places in their new order, from the left: [2, 1, 4, 3].")
    each: CountSum | None = Field(
        default=None, description="Strands in a group; as many as the order names if left out."
    )
    on: PlaceList = _on()

    @model_validator(mode="after")
    def _whole(self) -> Self:
        if sorted(self.reorder) != list(range(1, len(self.reorder) + 1)):
            raise problem(
                f"The order does not name each of the places 1 to {len(self.reorder)} once.",
                "write every place once, for example [2, 1, 4, 3]",
                self.where,
            )
        return self


class ShapeStep(_Step):
    """Joins flat work into a round, opens a round, or moves the seam (after either)."""

    model_config = ConfigDict(
        json_schema_extra={
            "anyOf": [{"required": ["join"]}, {"required": ["open"]}, {"required": ["seam"]}]
        }
    )

    join: Literal["round"] | None = Field(
        default=None, description="Closes flat work into a round."
    )
    open: Literal["flat"] | None = Field(default=None, description="Opens a round at the seam.")
    seam: CountSum | None = Field(default=None, description="The strand that becomes number 1.")

    @model_validator(mode="after")
    def _one_shape(self) -> Self:
        if self.join is not None and self.open is not None:
            raise problem(
                "A step cannot join and open at once.", "make two steps of it", self.where
            )
        return self


class BraidStep(_Step):
    """Braids groups of three or four strands."""

    braid: Literal[3, 4] = Field(description="Strands in a braid.")
    each: CountSum | None = Field(
        default=None, description="Strands in a group; as many as the braid if left out."
    )
    length: LengthSum | None = Field(
        default=None, description="Length to reach; the whole rounds that do are braided."
    )
    times: CountSum | None = Field(default=None, description="Full rounds of the braid.")
    on: PlaceList = _on()

    @model_validator(mode="after")
    def _one_measure(self) -> Self:
        if (self.length is None) == (self.times is None):
            raise problem(
                "A braid needs either a length or a number of rounds.",
                "add length: 12 cm or times: 8",
                self.where,
            )
        return self


class NewCord(Spot):
    """A new cord of one of the plan's kinds."""

    cord: NameText = Field(description="Which of the plan's cords.")


Wrap = Annotated[
    Annotated[NewCord, Tag("<NewCord>")] | Annotated[CountSum, Tag("<strand>")],
    Discriminator(lambda v: "<NewCord>" if isinstance(v, (dict, NewCord)) else "<strand>"),
]
"""What wraps: a new cord, or a strand by its place."""


class GatherStep(_Step):
    """A gathering (wrapping) knot."""

    gather: PlaceList = Field(description="The strands it goes round.")
    turns: CountSum | None = Field(default=None, description="Turns of the wrap.")
    height: LengthSum | None = Field(default=None, description="Height to wrap.")
    with_: Wrap | None = Field(
        default=None,
        alias="with",
        description="A new cord, or the strand that wraps; a new cord of the first strand's kind "
        "if left out.",
    )

    @model_validator(mode="after")
    def _one_measure(self) -> Self:
        if (self.turns is None) == (self.height is None):
            raise problem(
                "A gathering knot needs either turns or a height.",
                "add turns: 8 or height: 3 cm",
                self.where,
            )
        return self


class AddStep(_Step):
    """Adds new cords to the line-up."""

    add: CountSum = Field(description="How many cords.")
    cord: NameText = Field(description="Which of the plan's cords.")
    after: AmountSum = Field(description="The place they follow; 0 is the left end, end the right.")
    fold: Fold = Field(default="needed", description="Where they are folded, if at all.")
    tail: LengthSum | None = Field(
        default=None, description="Tail above, for unfolded cords; the plan's tail if left out."
    )

    @model_validator(mode="after")
    def _tail_needs_none(self) -> Self:
        if self.tail is not None and self.fold != "none":
            raise problem(
                "'tail' goes with an unfolded cord.", "add fold: none, or take tail out", self.where
            )
        return self


class LeaveStep(_Step):
    """Ends strands here; they leave the line-up."""

    leave: PlaceList = Field(description="The strands that end.")
    tail: LengthSum | None = Field(
        default=None, description="Cord left below; the plan's tail if left out."
    )


class MotifStep(_Step):
    """Works a motif on some strands."""

    motif: NameText = Field(description="Which of the plan's motifs.")
    on: PlaceList = _on()
    with_: dict[NameText, AmountSum] = Field(
        default_factory=dict, alias="with", description="Parameters that differ from the motif's."
    )


class RepeatStep(_Step):
    """Works its steps several times."""

    repeat: CountSum = Field(description="How many times.")
    counter: NameText | None = Field(default=None, description="A name that counts 1, 2, … inside.")
    work: tuple[Step, ...] = Field(description="The steps that are repeated.")


class SectionStep(_Step):
    """Names a part of the piece."""

    section: Annotated[str, Field(min_length=1, max_length=200)] = Field(
        description="Name of the part."
    )
    work: tuple[Step, ...] = Field(description="The steps of the part.")


class FringeStep(_Step):
    """Ends strands in a trimmed fringe."""

    fringe: LengthSum = Field(description="Length of the (shortest) fringe.")
    on: PlaceList = _on()
    trim: Trim = Field(default="level", description="The line along which it is trimmed.")
    to: Literal["right", "left"] | None = Field(
        default=None, description="The longest side of a slant; right if left out."
    )
    rise: LengthSum | None = Field(
        default=None, description="From the shortest to the longest, for point and slant."
    )

    @model_validator(mode="after")
    def _rise_fits(self) -> Self:
        sloping = self.trim in ("point", "slant")
        if sloping and self.rise is None:
            raise problem(
                f"A fringe trimmed to a {self.trim} needs its rise.", "add rise: 8 cm", self.where
            )
        if not sloping and self.rise is not None:
            raise problem(
                "'rise' goes with trim: point or trim: slant.", "take rise out", self.where
            )
        if self.to is not None and self.trim != "slant":
            raise problem("'to' goes with trim: slant.", "take to out", self.where)
        return self


VERBS: Final[dict[str, type[_Step]]] = {
    "hitch": HitchStep,
    "rows": RowsStep,
    "tie": TieStep,
    "gather": GatherStep,
    "braid": BraidStep,
    "pass": PassStep,
    "reorder": ReorderStep,
    "fringe": FringeStep,
    "motif": MotifStep,
    "repeat": RepeatStep,
    "section": SectionStep,
    "add": AddStep,
    "leave": LeaveStep,
    "join": ShapeStep,
    "open": ShapeStep,
    "seam": ShapeStep,
    "free": FreeStep,
}
"""Each verb with its step. Where a key of one step is another's verb (``rows`` of a hitch, ``tie``
of rows, ``free`` of a tie), the earlier verb decides."""


def step_tag(value: Any) -> str | None:
    """The tag of the step that a mapping (or a step) is; ``None`` if it has no verb."""
    if isinstance(value, _Step):
        return f"<{type(value).__name__}>"
    if isinstance(value, dict):
        return next((f"<{kind.__name__}>" for verb, kind in VERBS.items() if verb in value), None)
    return None


Step = Annotated[
    Annotated[HitchStep, Tag("<HitchStep>")]
    | Annotated[RowsStep, Tag("<RowsStep>")]
    | Annotated[TieStep, Tag("<TieStep>")]
    | Annotated[GatherStep, Tag("<GatherStep>")]
    | Annotated[BraidStep, Tag("<BraidStep>")]
    | Annotated[PassStep, Tag("<PassStep>")]
    | Annotated[ReorderStep, Tag("<ReorderStep>")]
    | Annotated[FringeStep, Tag("<FringeStep>")]
    | Annotated[MotifStep, Tag("<MotifStep>")]
    | Annotated[RepeatStep, Tag("<RepeatStep>")]
    | Annotated[SectionStep, Tag("<SectionStep>")]
    | Annotated[AddStep, Tag("<AddStep>")]
    | Annotated[LeaveStep, Tag("<LeaveStep>")]
    | Annotated[ShapeStep, Tag("<ShapeStep>")]
    | Annotated[FreeStep, Tag("<FreeStep>")],
    Discriminator(step_tag),
]
"""Any step."""

RepeatStep.model_rebuild()
SectionStep.model_rebuild()
