"""Words within pictures, from the catalogues: the messages ``draw-…`` of a language."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cordwright.draw.wording import Wording

if TYPE_CHECKING:
    from cordwright.teach.words import Words

OTHER = {"left": "right", "right": "left"}


def wording(words: Words, *, left_handed: bool = False) -> Wording:
    """How pictures are worded in a language and its units.

    Args:
        words: the language's messages.
        left_handed: whether the pictures are to be mirrored: then hands and sides are swapped in
            their words, as they are in the picture.
    """

    def say(key: str, /, **values: str | int) -> str:
        hand = values.get("hand")
        if left_handed and isinstance(hand, str):
            values["hand"] = OTHER[hand]
        return words.text(f"draw-{key}", **values)

    return Wording(say, words.length, words.number)
