"""Places: which strands of the line-up a step works on.

``all``, ``3``, ``1-4``, ``1 to n``, ``1-4, 9-12``, ``n+1 to end``, or a list of such. Places count
from 1 at the left; ``end`` is the last place.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from cordwright.errors import Place, PlanError
from cordwright.plan.sums import Amount, Sum, count

MOST_STRANDS = 1000
"""The most strands at once (docs/plan-format.md, Bounds)."""

_PLAIN_RANGE = re.compile(r"\s*([0-9]{1,6})\s*[-–]\s*([0-9]{1,6})\s*")  # noqa: RUF001 - en dash
_TO = re.compile(r"\bto\b")
EXAMPLES = "all, 3, 1-4, 1-4, 9-12 or n+1 to end"


@dataclass(frozen=True, slots=True)
class Run:
    """Places from ``first`` to ``last``; one place where ``last`` is ``None``."""

    first: Sum
    last: Sum | None = None


@dataclass(frozen=True, slots=True)
class Places:
    """Places as written; ``runs`` is empty for ``all``.

    Args:
        text: as it stands in the plan (a list is joined by commas).
        runs: the runs it is made of, in order.
        place: where it stands; not part of equality.

    """

    text: str
    runs: tuple[Run, ...] = field(repr=False, compare=False)
    place: Place | None = field(default=None, repr=False, compare=False)

    @classmethod
    def parse(cls, text: str, place: Place | None = None) -> Places:
        """Read places written as one text.

        Raises:
            PlanError: they cannot be read.

        """
        trimmed = text.strip()
        if trimmed == "all":
            return cls("all", (), place)
        runs = tuple(_run(part, _moved(place, at)) for part, at in _parts(text))
        return cls(", ".join(p.strip() for p, _ in _parts(text)), runs, place)

    @classmethod
    def join(cls, items: Sequence[Places], place: Place | None = None) -> Places:
        """Several written places as one, in their order.

        Raises:
            PlanError: there are none, or ``all`` stands among others.

        """
        if not items or any(not p.runs for p in items):
            raise PlanError(
                "The list names no strands." if not items else "'all' stands inside a list.",
                remedy="write places such as [1, 2, 7-8], or just all",
                place=place,
            )
        return cls(", ".join(p.text for p in items), tuple(r for p in items for r in p.runs), place)

    @property
    def names(self) -> frozenset[str]:
        """The names its sums use, without ``end``."""
        sums = (s for r in self.runs for s in (r.first, r.last) if s is not None)
        return frozenset().union(*(s.names for s in sums)) - {"end"}


ALL = Places("all", ())
"""Every place."""


def _moved(place: Place | None, by: int) -> Place | None:
    if place is None or place.column is None:
        return place
    return Place(place.file, place.line, place.column + by)


def _parts(text: str) -> Iterator[tuple[str, int]]:
    """The pieces between commas that stand in no bracket, with where they start."""
    depth = start = 0
    for at, sign in enumerate(text):
        depth += (sign == "(") - (sign == ")")
        if sign == "," and depth <= 0:
            yield text[start:at], start
            start = at + 1
    yield text[start:], start


def _run(text: str, place: Place | None) -> Run:
    plain = _PLAIN_RANGE.fullmatch(text)
    if plain:
        first, last = (Sum.parse(plain[i], _moved(place, plain.start(i)), "count") for i in (1, 2))
        return Run(first, last)
    cut = [(0, 0), *(m.span() for m in _TO.finditer(text)), (len(text), len(text))]
    pieces = [(text[before[1] : after[0]], before[1]) for before, after in pairwise(cut)]
    if len(pieces) > 2 or not all(p.strip() for p, _ in pieces):
        shown = text.strip()[:60]
        raise PlanError(
            f"'{shown}' is not a place or a run of places." if shown else "A place is missing.",
            remedy=f"write places like {EXAMPLES}",
            place=place,
        )
    sums = [Sum.parse(p, _moved(place, at), "count") for p, at in pieces]
    return Run(*sums)


def places(
    asked: Places, n: int, env: Mapping[str, Amount], round_: bool = False
) -> tuple[int, ...]:
    """The asked places as indices from 0, in their order.

    Args:
        asked: places as written.
        n: strands in the line-up (or in the motif); ``end`` is worth ``n``.
        env: value of each name in its sums.
        round_: whether the line-up is a round, so that ``7 to 2`` runs over the seam.

    Raises:
        PlanError: a place outside 1 to ``n``, a place twice, or a run that goes backwards.

    >>> places(Places.parse("7 to 2"), 8, {}, round_=True)
    (6, 7, 0, 1)

    """
    if not asked.runs:
        return tuple(range(n))
    scope = {**env, "end": float(n)}
    found: dict[int, None] = {}
    for index in (i for run in asked.runs for i in _indices(asked, run, n, scope, round_)):
        if index in found:
            raise PlanError(
                f"'{asked.text}' names strand {index + 1} twice.",
                remedy="name every strand once",
                place=asked.place,
            )
        found[index] = None
    return tuple(found)


def _indices(
    asked: Places, run: Run, n: int, scope: Mapping[str, Amount], round_: bool
) -> Iterator[int]:
    first = _one(asked, run.first, n, scope)
    if run.last is None:
        yield first
        return
    last = _one(asked, run.last, n, scope)
    if last < first and not round_:
        raise PlanError(
            f"'{asked.text}' runs backwards, from strand {first + 1} to {last + 1}.",
            remedy=f"write {last + 1}-{first + 1}, or list the strands one by one",
            place=run.first.place or asked.place,
        )
    yield from range(first, last + 1) if last >= first else (*range(first, n), *range(last + 1))


def _one(asked: Places, value: Sum, n: int, scope: Mapping[str, Amount]) -> int:
    strand = count(value, scope)
    if not 1 <= strand <= n:
        has = f"strands 1 to {n}" if n > 1 else "one strand" if n else "no strands"
        shown = asked.text if value.text == str(strand) else f"{value.text}' = '{strand}"
        raise PlanError(
            f"'{shown}' asks for strand {strand}, but there are {has} here.".replace(
                "are one", "is one"
            ),
            remedy=f"use places from 1 to {n}" if n else "mount or add cords first",
            place=value.place or asked.place,
        )
    return strand - 1
