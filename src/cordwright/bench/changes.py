"""The changes that can be asked of a plan, as they come over the wire."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, JsonValue

from cordwright.bench.wire import MOST_TEXT, PlanPath, Revision, Wire


class SetValue(Wire):
    """Give a key another value; a key that is not there yet is added.

    ``value`` is a number, a text as a maker writes it (``35 cm``, ``2 * rows``), or a group or
    list of such. A named size with bounds keeps them: ``sizes.arm`` sets its value.
    """

    do: Literal["set"]
    path: PlanPath
    value: JsonValue


class Add(Wire):
    """Put a new item into a list: a step or section into ``work``, a cord into ``mount.cords``.

    ``index`` is the item's place afterwards, from 0; the length of the list puts it last.
    """

    do: Literal["add"]
    path: PlanPath = Field(description="The list, as in work or work.1.work.")
    index: int = Field(ge=0, le=100_000, description="The item's place afterwards, from 0.")
    value: JsonValue = Field(description="The item, as in {tie: square-knot, each: 4}.")


class Move(Wire):
    """Take an item out of a list and put it elsewhere, comments above it included."""

    do: Literal["move"]
    path: PlanPath = Field(description="The item, as in work.2.")
    to: PlanPath = Field(description="The list that it goes to, as the plan is before.")
    index: int = Field(ge=0, le=100_000, description="Its place there when it is done, from 0.")


class Copy(Wire):
    """Put a copy of an item into a list, comments above it included."""

    do: Literal["copy"]
    path: PlanPath = Field(description="The item, as in work.2.")
    to: PlanPath = Field(description="The list that the copy goes to.")
    index: int = Field(ge=0, le=100_000, description="The copy's place there, from 0.")


class Remove(Wire):
    """Take an item out of a list, or a key and its value out of a group."""

    do: Literal["remove"]
    path: PlanPath


class ChangeMount(Wire):
    """Hang the piece on something else; its cords stay.

    ``mount`` is as in a plan: ``{ring: {inside: 50 mm, wire: 6 mm}}``, ``{rod: {length: 60 cm,
    thick: 20 mm}}``, ``{cord: {cord: main}}`` or ``{nothing: {}}``.
    """

    do: Literal["mount"]
    mount: dict[str, JsonValue] = Field(min_length=1, max_length=1)


class ChangeHolds(Wire):
    """Let the piece hold something else, or nothing (null).

    ``holds`` is as in a plan: ``{pot: {rim: 16 cm, base: 11 cm, height: 14 cm, weight: 900 g}}``.
    """

    do: Literal["holds"]
    holds: dict[str, JsonValue] | None = Field(max_length=1)


class ChangeCord(Wire):
    """Give one of the plan's cords other properties, or add a cord of that name.

    ``cord`` is as in a plan: ``{fibre: cotton, diameter: 4 mm, build: braided, colour: sand}``;
    keys that it does not have are taken out.
    """

    do: Literal["cord"]
    name: str = Field(min_length=1, max_length=40)
    cord: dict[str, JsonValue]


Single = Annotated[
    SetValue | Add | Move | Copy | Remove | ChangeMount | ChangeHolds | ChangeCord,
    Field(discriminator="do"),
]


class Several(Wire):
    """Changes one after the other, as one: all of them or none, and undone together."""

    do: Literal["several"]
    changes: tuple[Single, ...] = Field(min_length=1, max_length=100)


Change = Annotated[
    SetValue | Add | Move | Copy | Remove | ChangeMount | ChangeHolds | ChangeCord | Several,
    Field(discriminator="do"),
]
"""One change; ``do`` says of which kind."""


class ChangeRequest(Wire):
    """A change of the state that the page shows."""

    revision: Revision
    change: Change


class TextRequest(Wire):
    """The whole text anew, as the maker typed it; it need not be a plan."""

    revision: Revision
    text: str = Field(max_length=MOST_TEXT)


class RevisionRequest(Wire):
    """Undo or redo from the state that the page shows."""

    revision: Revision


class RestoreRequest(Wire):
    """Go back to an earlier state; the states between stay in the history.

    ``revision`` is the present one, or null for a piece that was deleted.
    """

    revision: Revision | None
    to: Revision


class FromExample(Wire):
    """A copy of a plan that comes with Cordwright."""

    kind: Literal["example"]
    example: str = Field(min_length=1, max_length=80)


class FromMount(Wire):
    """A plan with cords on a mount and nothing tied yet."""

    kind: Literal["blank"]
    mount: Literal["ring", "rod", "cord", "nothing"]
    cords: int = Field(default=8, ge=1, le=500, description="How many cords.")


class FromCopy(Wire):
    """A copy of another piece in the folder."""

    kind: Literal["copy"]
    piece: str = Field(min_length=1, max_length=80)


class FromText(Wire):
    """A plan as text, as from a file that the maker chose; it need not be a plan yet."""

    kind: Literal["text"]
    text: str = Field(max_length=MOST_TEXT)


class NewPiece(Wire):
    """A new piece."""

    name: str = Field(min_length=1, max_length=80, description="Its name; its file is NAME.yaml.")
    begin: FromExample | FromMount | FromCopy | FromText = Field(
        discriminator="kind", description="What it begins from."
    )
