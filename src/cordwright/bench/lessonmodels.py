"""What is said of lessons over the wire; the words are those of ``cordwright teach``."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from cordwright.bench.wire import PieceName, Revision, Wire
from cordwright.knots.spec import KnotName  # noqa: TC001 - pydantic reads it at run time

MOST_WORDS = 400


class PaceEntry(Wire):
    """An entry of the maker's own log: so many of a knot, and how long they took."""

    knot: KnotName
    count: float = Field(gt=0.0, le=1e6, allow_inf_nan=False)
    minutes: float = Field(gt=0.0, le=1e6, allow_inf_nan=False)


class LessonRequest(Wire):
    """Which lesson is to be made of a piece."""

    language: Literal["en", "de", "fr"] = "en"
    units: Literal["metric", "inch", "both"] = "metric"
    paper: Literal["a4", "letter"] = "a4"
    left_handed: bool = Field(default=False, description="The edition for left-handers.")
    editions: list[Annotated[str, Field(max_length=MOST_WORDS)]] = Field(
        default_factory=list,
        max_length=6,
        description="Size editions, as in 'small: arm=12 cm, cord main=3 mm'.",
    )
    licence: str = Field(
        default="", max_length=MOST_WORDS, description="What buyers may do with the booklet."
    )
    version: str = Field(default="1", max_length=40, description="The booklet's own version.")
    risk: float = Field(
        default=5.0, gt=0.0, lt=50.0, description="How many in 100 strands may be too short."
    )
    maker: str = Field(default="", max_length=200, description="Whose hands tie it.")
    pace: list[PaceEntry] = Field(
        default_factory=list,
        max_length=1000,
        description="The maker's own log, from which the time is told.",
    )


class LessonFile(Wire):
    """A file of a lesson."""

    name: str
    size: int = Field(description="Bytes.")
    pages: int = Field(description="Pages that can be looked at; 0 for what is no PDF.")


class Lesson(Wire):
    """A lesson that was made."""

    number: int = Field(ge=1, description="Under which its files are.")
    piece: PieceName
    revision: Revision
    asked: LessonRequest
    files: list[LessonFile]


class Making(Wire):
    """Something that takes a while, as it stands."""

    number: int = Field(ge=1, description="Under which it is asked for.")
    state: Literal["waiting", "running", "done", "cancelled", "failed"]
    what: str = Field(description="What is being done, in words.")
    share: float | None = Field(description="How much of it is done, 0 to 1; null if unknown.")
    trouble: str = Field(description="Why it failed; empty if it did not.")
    remedy: str = Field(description="What to try then.")
