"""Headings and labels of printed pages: the messages ``print-…`` of a language's catalogue."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from cordwright.teach.words import Words


@dataclass(frozen=True, slots=True)
class Labels:
    """The labels of one language, in its units.

    Args:
        words: the language's messages.
    """

    words: Words

    @property
    def language(self) -> str:
        """Its code."""
        return self.words.language

    def __call__(self, key: str, **values: str | int) -> str:
        """A label with its values filled in.

        Raises:
            CordwrightError: there is no such label, or a value is missing.
        """
        return self.words.text(f"print-{key}", **values)

    def some(self, *keys: str) -> Mapping[str, str]:
        """Several labels that take no values, by key."""
        return {key: self(key) for key in keys}
