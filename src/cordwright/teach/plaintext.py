"""The plan's words, made fit for a line of text: no control, no line break, no mark of ours."""

from __future__ import annotations

import unicodedata

OPEN, CLOSE = "\ue000", "\ue001"
"""What lengths stand between while a line is put together; private use, so no plan needs them."""

_DROPPED = frozenset({"Cc", "Cs", "Co", "Cn"})
_BLANK = frozenset({"Zl", "Zp", "Zs"})
_TURNING = frozenset("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
"""Characters that make later text run the other way: a plan must not turn ours round."""


def plain_text(text: str) -> str:
    r"""Words on one line, with nothing in them that is not to be read.

    >>> plain_text("two\nlines \x1b[1m and\u202e more")
    'two lines [1m and more'
    """
    spaced = "".join(" " if c in "\t\r\n" or unicodedata.category(c) in _BLANK else c for c in text)
    kept = (c for c in spaced if c not in _TURNING and unicodedata.category(c) not in _DROPPED)
    return " ".join("".join(kept).split())
