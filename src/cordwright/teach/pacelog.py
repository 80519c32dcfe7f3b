"""A maker's own pace, from the log that they keep.

The log is a CSV file with the columns ``knot``, ``count`` and ``minutes``: what was tied, how many
of it, and how long that took. Other columns are left alone. Entries of one knot are added up; the
range is that of the entries, and at least a quarter to either side of their mean.
"""

from __future__ import annotations

import csv
import io
import math
from collections import defaultdict
from pathlib import Path
from typing import NamedTuple

from cordwright.errors import CordwrightError, Place
from cordwright.knots.spec import KnotName
from cordwright.teach.amounts import Span
from cordwright.teach.pace import KNOTS, Pace

COLUMNS = ("knot", "count", "minutes")
EVEN = 0.25  # nobody's hands are steadier than a quarter from day to day (a choice of ours)
MOST_BYTES = 1_000_000


class Entry(NamedTuple):
    """One line of a log: so many of a knot in so many seconds."""

    knot: str
    tied: float
    seconds: float


def read_pace(path: Path) -> Pace:
    """The pace of a log; knots that it does not have keep the common figures.

    Raises:
        CordwrightError: the file cannot be read, or says something that cannot be; with its place.
    """
    try:
        raw = path.read_bytes()
    except OSError as error:
        raise CordwrightError(
            f"The log cannot be read: {error.strerror or error}.",
            remedy="give a CSV file with the columns knot, count and minutes",
            place=Place(str(path)),
        ) from None
    if len(raw) > MOST_BYTES:
        raise _wrong(path, None, "The log is larger than 1 MB.", "take the older entries out")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise _wrong(path, None, "The log is not UTF-8 text.", "save it as CSV (UTF-8)") from None
    return pace_of(entries(text, path))


def entries(text: str, path: Path) -> tuple[Entry, ...]:
    """The entries of a log.

    Raises:
        CordwrightError: a column is missing, a knot unknown, or a number not one above 0.
    """
    reader = csv.reader(io.StringIO(text, newline=""))
    try:
        rows = [(reader.line_num, row) for row in reader if any(cell.strip() for cell in row)]
    except csv.Error as error:
        raise _wrong(
            path, reader.line_num, f"The log is no CSV: {error}.", "save it anew"
        ) from None
    head = [cell.strip().lower() for cell in rows[0][1]] if rows else []
    missing = [name for name in COLUMNS if name not in head]
    if missing:
        raise _wrong(
            path, 1, f"The log has no column '{missing[0]}'.", "begin with: knot,count,minutes"
        )
    at = [head.index(name) for name in COLUMNS]
    return tuple(_entry(path, line, row, at) for line, row in rows[1:])


def _entry(path: Path, line: int, row: list[str], at: list[int]) -> Entry:
    cells = [row[i].strip() if i < len(row) else "" for i in at]
    names = [k.value for k in KnotName]
    if cells[0] not in names:
        raise _wrong(
            path, line, f"'{cells[0][:40]}' is no knot of ours.", f"write one of {', '.join(names)}"
        )
    count, minutes = (_number(path, line, cell) for cell in cells[1:])
    return Entry(cells[0], count, minutes * 60.0)


def _number(path: Path, line: int, cell: str) -> float:
    try:
        value = float(cell)
    except ValueError:
        value = math.nan
    if not (math.isfinite(value) and 0.0 < value <= 1e6):
        raise _wrong(path, line, f"'{cell[:40]}' is not a number above 0.", "write it like 12.5")
    return value


def _wrong(path: Path, line: int | None, what: str, remedy: str) -> CordwrightError:
    return CordwrightError(what, remedy=remedy, place=Place(str(path), line))


def pace_of(log: tuple[Entry, ...]) -> Pace:
    """The pace that a log shows.

    >>> pace_of((Entry("half-knot", 10, 60.0), Entry("half-knot", 10, 120.0))).of("half-knot")
    Span(low_s=6.0, likely_s=9.0, high_s=12.0)
    """
    by_knot: defaultdict[str, list[Entry]] = defaultdict(list)
    for entry in log:
        by_knot[entry.knot].append(entry)
    own = {name: _span(found) for name, found in by_knot.items()}
    return Pace({**KNOTS, **own}, frozenset(own))


def _span(found: list[Entry]) -> Span:
    each = [e.seconds / e.tied for e in found]
    mean = sum(e.seconds for e in found) / sum(e.tied for e in found)
    return Span(min(*each, mean * (1.0 - EVEN)), mean, max(*each, mean * (1.0 + EVEN)))
