"""The sourced tables of strengths, densities and shares, one CSV file each in ``data``.

Every row has a value with its range, a unit and a source; what could not be traced says 'from
memory, unchecked'. docs/loads.md says which end of a range counts where.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Final

DATA: Final = Path(__file__).with_name("data")


@dataclass(frozen=True, slots=True)
class Row:
    """One figure of a table.

    Args:
        what: what it is of; its key in the table.
        value: the likeliest value.
        low: low end of its range.
        high: high end of its range.
        unit: unit of all three; ``1`` for a plain share.
        source: where it was found.
    """

    what: str
    value: float
    low: float
    high: float
    unit: str
    source: str


@cache
def table(name: str) -> Mapping[str, Row]:
    """A table by the name of its file: rows by what they are of, in the order of the file.

    >>> table("woods")["pine"].low
    0.35
    """
    with (DATA / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        rows = (
            Row(
                r["what"],
                float(r["value"]),
                float(r["low"]),
                float(r["high"]),
                r["unit"],
                r["source"],
            )
            for r in csv.DictReader(file)
        )
        return MappingProxyType({row.what: row for row in rows})


def names() -> list[str]:
    """Every table there is."""
    return sorted(path.stem for path in DATA.glob("*.csv"))
