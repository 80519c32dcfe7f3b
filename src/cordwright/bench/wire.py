"""What every value that goes over the wire has in common."""

from __future__ import annotations

from typing import Annotated, Final

from pydantic import BaseModel, ConfigDict, Field

MOST_TEXT: Final = 1_000_000
"""Characters of a plan at most, as the reader of plans has it."""

MOST_NAME: Final = 80
MOST_PATH: Final = 300

PieceName = Annotated[
    str,
    Field(
        min_length=1,
        max_length=MOST_NAME,
        description="Name of a piece: its file's name without the ending.",
        examples=["oxbow-planter"],
    ),
]
Revision = Annotated[
    int,
    Field(
        ge=1,
        le=2**53 - 1,
        description="Number of a state of a piece; every accepted change is one more.",
    ),
]
PlanPath = Annotated[
    str,
    Field(
        max_length=MOST_PATH,
        description="Where in the plan: keys and places in lists (from 0), joined by dots.",
        examples=["sizes.arm", "work.1.work.0.times", "mount.cords.0.count"],
    ),
]
Mm = Annotated[float, Field(description="mm")]


class Wire(BaseModel):
    """A frozen value that knows no keys but its own."""

    model_config = ConfigDict(frozen=True, extra="forbid")
