"""Plain values that remember where in the file they stand.

The reader hands such values to the model, so that errors, and later the working of the piece,
can name line and column. They behave like the plain values in every other way.
"""

from __future__ import annotations

from typing import Any

from cordwright.errors import Place


class MarkedStr(str):
    """Text with its place."""

    __slots__ = ("place",)
    place: Place


class MarkedInt(int):
    """A whole number with its place."""

    place: Place


class MarkedFloat(float):
    """A decimal number with its place and the text it was written as."""

    place: Place
    text: str


class MarkedList(list[Any]):
    """A list with its place and those of its items."""

    place: Place
    places: list[Place]


class MarkedDict(dict[str, Any]):
    """A mapping with its place and those of its keys and values."""

    place: Place
    key_places: dict[str, Place]
    places: dict[str, Place]


def place_of(value: object) -> Place | None:
    """Where the value stands, if it knows."""
    place = getattr(value, "place", None)
    return place if isinstance(place, Place) else None
