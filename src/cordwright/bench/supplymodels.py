"""What is said of shelf, swatches and cutting plans over the wire.

Things of the shelf go as people write them, with units, as in ``cordwright shelf list --json``;
what is asked of a run of kits has the words of ``cordwright supply``.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from cordwright.bench.wire import PieceName, Revision, Wire
from cordwright.supply.answer import MakeReport, SupplyReport  # noqa: TC001 - pydantic reads them
from cordwright.supply.shelfanswer import EntryReport, SwatchReport  # noqa: TC001 - as above

MOST_WORDS = 400
MOST_TABLE = 300_000

Kind = Literal["cord", "put-up", "length", "ring", "rod", "pot", "swatch", "finished"]
Text = Annotated[str, Field(max_length=MOST_WORDS)]
Fields = Annotated[dict[Text, Text], Field(max_length=30)]


class ShelfField(Wire):
    """One field of a kind of thing."""

    word: str
    about: str = Field(description="What it means.")
    example: str = Field(description="How it is written.")
    required: bool = Field(description="Whether it cannot be left out.")


class ShelfKind(Wire):
    """A kind of thing, and all that the shelf has of it."""

    kind: Kind
    fields: list[ShelfField]
    things: list[dict[str, str]] = Field(description="Their fields; empty where not known.")


class Shelf(Wire):
    """All that is on the shelf."""

    kinds: list[ShelfKind]
    entries: list[EntryReport] = Field(description="What was carried out on it, newest last.")
    knots: list[str] = Field(description="Knots that a swatch can be of.")


class ThingRequest(Wire):
    """A thing to put on the shelf, or to change."""

    kind: Kind
    fields: Fields
    change: bool = Field(description="Whether it is there and is changed.")


class RemoveRequest(Wire):
    """A thing to take off the shelf for good."""

    kind: Kind
    name: Text


class TableRequest(Wire):
    """A table (CSV) to bring onto the shelf."""

    text: str = Field(max_length=MOST_TABLE)


class Imported(Wire):
    """What came of a table."""

    count: int


class UndoRequest(Wire):
    """An entry of the shelf's log that is undone."""

    entry: int = Field(ge=1, le=2**53 - 1)


class SwatchRequest(Wire):
    """A trial: knots tied in a cord of the shelf, with a measured working strand."""

    fields: Fields = Field(description="Of the swatch, as on the shelf, but for name and used.")
    start: Text = Field(description="One working strand before.")
    left: Text = Field(description="What is left of it after the knots.")


class FinishedRequest(Wire):
    """What a finished piece really used of a cord of the shelf."""

    cord: Text = Field(description="The plan's name of the cord.")
    cut: Text = Field(description="All that was cut of it.")
    left: Text = Field(description="All that was left over or trimmed off.")
    maker: Text = ""


class HandsRequest(Wire):
    """What swatches say of a cord."""

    cord: Text
    maker: Text = ""


class SupplyRequest(Wire):
    """A run of kits of a piece."""

    kits: int = Field(default=1, ge=1, le=10_000)
    buys: list[Text] = Field(
        default_factory=list, max_length=50, description="As in main=100m@12.50."
    )
    spools: list[Text] = Field(
        default_factory=list, max_length=50, description="As in main=100m@12.50x3."
    )
    keep: Text = "50cm"
    setup: Text = "1cm"
    seconds: float = Field(default=10.0, ge=0.0, le=600.0)
    currency: Text | None = None
    fittings: list[Text] = Field(default_factory=list, max_length=50)
    packing: list[Text] = Field(default_factory=list, max_length=50)
    minutes: Text = "0"
    hourly: Text = "0"
    overhead: Text = "0"
    fixed: Text = "0"
    wholesale: Text = "2"
    retail: Text = "2"
    asked: Text | None = None
    box: Text | None = None
    studio: Text = ""
    in_kit: Text = "ring,rod"
    units: Literal["metric", "inch"] = "metric"
    maker: Text = ""
    risk: float | None = Field(default=None, gt=0.0, lt=50.0)


class Supplied(Wire):
    """A run of kits, planned."""

    number: int = Field(ge=1)
    piece: PieceName
    revision: Revision
    report: SupplyReport
    blocked: str = Field(description="Why it cannot be carried out on the shelf; empty if it can.")
    remedy: str
    taken: int | None = Field(description="Entry of the shelf's log, where it was carried out.")


class MakeRequest(Wire):
    """What can be made of all pieces with what is there."""

    kits: int = Field(default=1, ge=1, le=10_000)


class Makeable(Wire):
    """What can be made."""

    number: int = Field(ge=1)
    report: MakeReport


class HandsAnswer(Wire):
    """What swatches say of a cord in somebody's hands."""

    number: int = Field(ge=1)
    report: SwatchReport


class TakenAnswer(Wire):
    """What was carried out on the shelf."""

    entry: int | None = Field(description="Of the shelf's log; null if nothing of it was needed.")
