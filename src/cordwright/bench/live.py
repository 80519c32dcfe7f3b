"""Messages on the live channel ``/api/live?piece=NAME``, both ways; every one is a JSON object."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, TypeAdapter

from cordwright.bench.changes import Single  # noqa: TC001 - pydantic reads it at run time
from cordwright.bench.models import (  # noqa: TC001 - pydantic reads them at run time
    Document,
    Hanging,
    Numbers,
    Picture,
    Problem,
)
from cordwright.bench.wire import Revision, Wire


class DocumentMessage(Wire):
    """The piece as it stands: at first, and whenever it changes, in whatever tab or editor."""

    kind: Literal["document"] = "document"
    document: Document


class NumbersMessage(Wire):
    """Numbers of the present state, or of a try."""

    kind: Literal["numbers"] = "numbers"
    numbers: Numbers


class HangingMessage(Wire):
    """Loads and fit of the present state."""

    kind: Literal["hanging"] = "hanging"
    hanging: Hanging


class PictureMessage(Wire):
    """A picture can be fetched."""

    kind: Literal["picture"] = "picture"
    picture: Picture


class ProblemMessage(Wire):
    """A try, or a later stage of the work, went wrong; the state itself stands."""

    kind: Literal["problem"] = "problem"
    revision: Revision
    trying: int | None
    problems: list[Problem]


class ProgressMessage(Wire):
    """Something takes longer than a second; ``cancel`` ends it."""

    kind: Literal["progress"] = "progress"
    revision: Revision
    stage: Literal["numbers", "picture", "hanging"]
    what: str = Field(description="What is being done, in words.")
    share: float | None = Field(description="How much of it is done, 0 to 1; null if unknown.")
    state: Literal["running", "done", "cancelled"]


class GoneMessage(Wire):
    """The piece was deleted, or its file was taken away."""

    kind: Literal["gone"] = "gone"
    what: str


ServerMessage = Annotated[
    DocumentMessage
    | NumbersMessage
    | HangingMessage
    | PictureMessage
    | ProblemMessage
    | ProgressMessage
    | GoneMessage,
    Field(discriminator="kind"),
]


class TryMessage(Wire):
    """Numbers, and a quick picture, of changes that are not saved: while something is dragged.

    A newer try takes the place of an older one that has not been answered.
    """

    kind: Literal["try"]
    revision: Revision
    trying: int = Field(ge=0, le=2**53 - 1, description="Counts up; comes back with the answer.")
    changes: tuple[Single, ...] = Field(min_length=1, max_length=100)


class CancelMessage(Wire):
    """End what takes long; the last picture stays."""

    kind: Literal["cancel"]


class RefreshMessage(Wire):
    """Work everything of the present state again, as after ``cancel``."""

    kind: Literal["refresh"]


ClientMessage = Annotated[TryMessage | CancelMessage | RefreshMessage, Field(discriminator="kind")]

CLIENT: TypeAdapter[ClientMessage] = TypeAdapter(ClientMessage)
SERVER: TypeAdapter[ServerMessage] = TypeAdapter(ServerMessage)
