"""Names of pieces: what may be one, and so the name of a file in the maker's folder.

A name never says where a file is: it holds no separator, begins with no dot, and is none of the
names that an operating system keeps for devices.
"""

from __future__ import annotations

import re
import unicodedata
from typing import Final

from cordwright.bench.wire import MOST_NAME
from cordwright.errors import CordwrightError

ENDINGS: Final = (".yaml", ".yml")
"""Of plan files, the first of them for new ones."""

MOST_BYTES: Final = 200
"""Of a name in UTF-8: file systems take 255 with ending and all."""

_FORBIDDEN = re.compile(r'[<>:"/\\|?*\x00-\x1f\x7f]')
# Names of devices on Windows, whatever follows after a dot: "Naming Files, Paths, and Namespaces",
# Microsoft's documentation of Win32 (from memory, unchecked).
_DEVICES = re.compile(r"(?i)(con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])(\..*)?")


class NameError_(CordwrightError):  # noqa: N801, N818 - Python has a NameError of its own
    """No piece can have that name."""


def checked(name: str) -> str:
    """A name as pieces have it: composed (NFC), and one that a file can have.

    Raises:
        NameError_: no piece can have it.

    >>> checked("Oxbow planter 2")
    'Oxbow planter 2'
    """
    text = unicodedata.normalize("NFC", name)
    wrong = _wrong(text)
    if wrong:
        raise NameError_(
            f"A piece cannot be called '{_shown(text)}': {wrong}.",
            remedy="use letters, digits, spaces and -, as in oxbow-planter",
        )
    return text


def _wrong(text: str) -> str:
    if not text or len(text) > MOST_NAME or len(text.encode("utf-8", "replace")) > MOST_BYTES:
        return f"a name has 1 to {MOST_NAME} characters"
    if text != text.strip() or text[0] in ".~" or text[-1] == ".":
        return "it begins or ends with a space, a dot or ~"
    if _FORBIDDEN.search(text) or any(unicodedata.category(c) in ("Cc", "Cf", "Cs") for c in text):
        return "it holds a character that file names cannot have"
    if _DEVICES.fullmatch(text):
        return "the operating system keeps that name for itself"
    if text.lower().endswith(ENDINGS):
        return "leave out the ending"
    return ""


def _shown(text: str) -> str:
    kept = "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in text)
    return kept if len(kept) <= 40 else kept[:40] + "…"
