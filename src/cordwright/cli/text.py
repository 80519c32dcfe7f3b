"""Text from outside, made fit for a terminal."""

from __future__ import annotations

REPLACEMENT = "\N{REPLACEMENT CHARACTER}"


def clean(text: str, *, keep_ends: bool = False) -> str:
    r"""The text on one line, with nothing in it that a terminal would obey.

    Args:
        text: any text, also from a file that somebody else wrote.
        keep_ends: keep white space at both ends.

    >>> clean("two\nlines and \x1b[31mred")
    'two lines and �[31mred'
    """
    one_line = "".join(" " if c in "\r\n\t" else c for c in text)
    shown = "".join(c if c.isprintable() else REPLACEMENT for c in one_line)
    return shown if keep_ends else shown.strip()
