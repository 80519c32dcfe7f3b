"""The fonts that printed pages are set in, and what of a maker's words they can show.

Source Sans Pro and Source Serif Pro (both SIL Open Font License 1.1, Adobe) come from registry
packages; Libertinus Serif (OFL 1.1) and DejaVu Sans Mono (its own free licence) are inside Typst
and stand in for letters that the first two lack. System fonts are never asked.

A PDF for screen readers must not hold a character that no font shows. So words are put into a form
that can be shown first: control characters and marks that turn the direction of text are left out,
and what no font has becomes a white square.
"""

from __future__ import annotations

import re
import unicodedata
from functools import cache
from importlib.resources import files
from pathlib import Path

FOLDERS = ("font_source_sans_pro", "font_source_serif_pro")
SANS, SERIF = "SourceSansPro-Regular.ttf", "SourceSerifPro-Regular.ttf"

BORROWED = (
    (0x0370, 0x03FF),  # Greek
    (0x0400, 0x045F),  # Cyrillic
    (0x05D0, 0x05EA),  # Hebrew letters
    (0x0621, 0x063A),  # Arabic letters
    (0x0641, 0x064A),
)
"""Blocks whose letters Libertinus Serif or DejaVu Sans Mono show; a test sets them all."""

STAND_IN = "\u25a1"
"""Shown for a character that no font has."""

LONG_WORD = 22
"""Letters from which on a word may be broken anywhere: no measure of the pages is narrower."""

BREAK = "\u200b"
"""Zero-width space: a line may end here."""

ISOLATE, END_ISOLATE = "\u2068", "\u2069"
"""Around words that run from right to left, so that they do not reorder what stands beside them."""


def font_folders() -> tuple[Path, ...]:
    """Folders with the fonts' files."""
    return tuple(Path(str(files(name) / "files")) for name in FOLDERS)


def showable(words: str) -> str:
    r"""Words with every character that the pages cannot show replaced or left out.

    >>> showable("Tab\there, bell\x07, leaf \U0001f33f")
    'Tab here, bell, leaf □'
    """
    known = _known()
    kept: list[str] = []
    for c in unicodedata.normalize("NFC", words):
        if c in "\t\n\r\u2028\u2029":
            kept.append(" ")
        elif c in known:
            kept.append(c)
        elif unicodedata.category(c) not in _UNSEEN:
            kept.append(STAND_IN)
    return "".join(kept)


def prepared(words: str) -> str:
    """Words as the pages take them: showable, breakable where long, kept apart where right to left.

    >>> prepared("plain words")
    'plain words'
    """
    text = _LONG.sub(_broken, showable(words))
    if any(unicodedata.bidirectional(c) in ("R", "AL") for c in text):
        return f"{ISOLATE}{text}{END_ISOLATE}"
    return text


def lost(words: str) -> bool:
    r"""Whether some character of these words has no font and is shown as a square.

    >>> lost("leaf \U0001f33f"), lost("leaf")
    (True, False)
    """
    return showable(words).count(STAND_IN) > words.count(STAND_IN)


_UNSEEN = frozenset({"Cc", "Cf", "Cs", "Mn", "Me"})
"""Categories that are left out: controls, formats and lone surrogates; marks that no font has."""

_LONG = re.compile(rf"\S{{{LONG_WORD},}}")


def _broken(found: re.Match[str]) -> str:
    """A long word with a place to break after every letter, marks staying with theirs."""
    out = ""
    for c in found.group():
        out += c if not out or unicodedata.combining(c) else BREAK + c
    return out


@cache
def _known() -> frozenset[str]:
    """Characters that a font of the pages has, whichever face they are set in."""
    from fontTools.ttLib import TTFont

    codes: set[int] = set()
    for folder, name in zip(font_folders(), (SANS, SERIF), strict=True):
        with TTFont(folder / name, lazy=True) as font:
            found = set(font.getBestCmap())
        codes = found if not codes else codes & found
    letters = {chr(c) for first, last in BORROWED for c in range(first, last + 1)}
    assigned = {c for c in letters if unicodedata.category(c)[0] == "L"}
    shown = {chr(c) for c in codes if unicodedata.category(chr(c)) not in ("Cc", "Cf", "Co", "Cn")}
    return frozenset(shown | assigned | {STAND_IN})
