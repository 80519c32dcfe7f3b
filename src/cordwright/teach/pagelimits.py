"""How far a reader may go from the plan's own cord and sizes, and from where on something gives.

Sizes are held to bounds: those of the plan, and those between which its sums hold, that is, between
which the plan, worked again, has the same knots and needs the same cord. A cord's diameter is free
from half to twice the plan's, and what goes wrong on the way is said: from where on the plan itself
would ask for other counts (here they stay), and from where on the cords close what they hang on,
or the knots of one row close round what the piece holds.
"""

from __future__ import annotations

import math
from collections import defaultdict
from typing import TYPE_CHECKING, Any

from cordwright.hang.holding import level_girth
from cordwright.knots.spec import KnotName
from cordwright.piece.fit import mean_diameter
from cordwright.piece.lengths import measure
from cordwright.plan.hung import hung
from cordwright.plan.model import RingMount, RodMount
from cordwright.plan.sizes import Sizes
from cordwright.plan.sums import length
from cordwright.teach.pageforms import CORD, SIZE, Source, same_knots
from cordwright.teach.plaintext import plain_text
from cordwright.units.form import Form

if TYPE_CHECKING:
    from collections.abc import Callable

    from cordwright.piece.model import Knot, Piece
    from cordwright.plan.sums import Sum
    from cordwright.teach.pagecuts import Forms

THINNEST, THICKEST = 0.5, 2.0
"""How thin and how thick a cord may be taken, as a part of the plan's (a choice of ours)."""

SHORTEST, LONGEST = 0.25, 3.0
"""How far a size without bounds of its own may be taken, as a part of its value (a choice of
ours)."""

LEAST_ROOM = 0.05
"""A size that may change by less than this, as a part of itself, is not offered."""

HALVINGS = 7
"""So often the room beyond a bound is halved: to a hundredth of the way."""

SAME_MM = 0.5
"""Cord of a strand that the sums and the plan worked again may differ by, mm."""


class Limits:
    """What a reader may change in a piece, and how far.

    Args:
        source: the piece, and what it was worked from.
        piece: the same, with sums over diameters and sizes alone.
        forms: where sums are put.
    """

    def __init__(self, source: Source, piece: Piece, forms: Forms) -> None:
        self._source, self._piece, self._forms = source, piece, forms
        self._here = source.again({})
        self._used = measure(self._here).used if self._here is not None else ()
        lengths = measure(piece)
        told = (*lengths.used, lengths.finished)
        self._told = {name for form in told for name, k in form.terms.items() if k}

    def sizes(self) -> list[dict[str, Any]]:
        """Every size of the plan: what it is, and between what the reader may take it.

        ``count`` is its number or ``form`` the place of its sum in the table. With sizes that may
        be changed stand their ``symbol``, ``low`` and ``high`` (mm); ``fixed`` with lengths that
        change how many knots are tied.
        """
        return [self._size(name) for name in self._piece.plan.sizes]

    def _size(self, name: str) -> dict[str, Any]:
        piece = self._piece
        amount = piece.amounts[name]
        about = plain_text(piece.plan.sizes[name].about or "")
        if not isinstance(amount, Form):
            return {"name": name, "about": about, "count": amount}
        found: dict[str, Any] = {"name": name, "about": about, "form": self._forms.of(amount)}
        symbol = f"{SIZE}{name}"
        if symbol not in piece.values:
            return found
        if symbol not in self._told:
            return {**found, "fixed": True}
        now = piece.values[symbol]
        least, most = self._asked(name, now)
        low = _reach(now, least, lambda mm: self._holds(symbol, mm))
        high = _reach(now, most, lambda mm: self._holds(symbol, mm))
        if high - low < LEAST_ROOM * now:
            return {**found, "fixed": True}
        return {**found, "symbol": symbol, "low": low, "high": high}

    def _asked(self, name: str, now: float) -> tuple[float, float]:
        """The plan's bounds of a size, mm; ours where it has none."""
        piece = self._piece

        def worth(bound: Sum | None, other: float) -> float:
            if bound is None:
                return other
            return length(bound, piece.amounts, piece.values).at(piece.values)

        spec = piece.plan.sizes[name]
        least, most = worth(spec.at_least, SHORTEST * now), worth(spec.at_most, LONGEST * now)
        return min(least, now), max(most, now)

    def _holds(self, symbol: str, mm: float) -> bool:
        """Whether the plan, worked with another size, is the piece's own sums with that size."""
        other = self._again(symbol, mm)
        if other is None:
            return False
        values = {**self._piece.values, symbol: mm}
        return all(
            abs(a.at(values) - other.mm(b)) < SAME_MM
            for a, b in zip(self._used, measure(other).used, strict=True)
        )

    def _again(self, symbol: str, mm: float) -> Piece | None:
        """The piece with one value changed; None if it has other knots then."""
        other = self._source.again({symbol: mm})
        if other is None or self._here is None or not same_knots(self._here, other):
            return None
        return other

    def cords(self) -> list[dict[str, Any]]:
        """Every cord: its diameter, how far it may be taken, between what counts stay the plan's.

        ``low`` and ``high`` are mm; ``same`` the diameters, mm, between which the plan itself
        would have the same knots.
        """
        return [self._cord(s) for s in self._source.symbols() if s.startswith(CORD)]

    def _cord(self, symbol: str) -> dict[str, Any]:
        now = self._piece.values[symbol]
        low, high = THINNEST * now, THICKEST * now

        def same(mm: float) -> bool:
            return self._again(symbol, mm) is not None

        reach = [_reach(now, low, same), _reach(now, high, same)]
        name = symbol.removeprefix(CORD)
        return {"name": name, "symbol": symbol, "low": low, "high": high, "same": reach}


def _reach(now: float, bound: float, holds: Callable[[float], bool]) -> float:
    """How far towards a bound something holds."""
    if bound == now or holds(bound):
        return bound
    good, bad = now, bound
    for _ in range(HALVINGS):
        middle = 0.5 * (good + bad)
        good, bad = (middle, bad) if holds(middle) else (good, middle)
    return good


def closings(piece: Piece, forms: Forms) -> list[dict[str, Any]]:
    """What closes where cords become too thick: ``kind``, how wide it is as a sum, its room in mm.

    Args:
        piece: with sums over diameters and sizes alone.
        forms: where sums are put.
    """
    found = []
    room = _mount_room(piece)
    if room is not None:
        heads = [k for k in piece.knots if _mounted(piece, k)]
        if heads:
            wide = _wide(piece, heads)
            found.append({"kind": room[0], "wide": forms.of(wide), "room": room[1]})
    girth = girth_of(piece)
    rows = _round_rows(piece)
    if girth is not None and rows:
        widest = max((_wide(piece, row) for row in rows), key=piece.mm)
        found.append({"kind": "row", "wide": forms.of(widest), "room": girth})
    return found


def girth_of(piece: Piece) -> float | None:
    """How far it is round what the piece holds, mm; None if it holds nothing."""
    hang = piece.plan.hang
    if hang is None or hang.holds is None:
        return None
    body = hung(hang, Sizes(piece.amounts, piece.values)).holds
    return None if body is None else level_girth(body)


def net_of(piece: Piece, forms: Forms) -> int | None:
    """Where the sum of the free cord that the plan asks for in the round stands; None if none."""
    whole = Form()
    for strand in piece.strands:
        for stop in strand.course:
            if stop.asked and piece.knots[stop.knot].shape == "round":
                whole = whole + stop.free
    return forms.of(whole) if whole.terms or whole.mm else None


def _mount_room(piece: Piece) -> tuple[str, float] | None:
    """What the cords hang on, and how much of it there is for them, mm."""

    def mm(asked: Sum) -> float:
        return length(asked, piece.amounts, piece.values).at(piece.values)

    match piece.plan.mount.on:
        case RingMount() as ring:
            return "ring", math.pi * mm(ring.inside)
        case RodMount() as rod:
            return "rod", mm(rod.length)
        case _:
            return None


def _mounted(piece: Piece, knot: Knot) -> bool:
    if knot.spec.name is not KnotName.LARKS_HEAD or knot.over is not None:
        return False
    return piece.strands[knot.strands[0]].course[0].knot == knot.id


def _round_rows(piece: Piece) -> list[list[Knot]]:
    """Knots side by side in the round, row by row."""
    rows: defaultdict[object, list[Knot]] = defaultdict(list)
    for knot in piece.knots:
        if knot.shape == "round" and knot.spec.name is not KnotName.GATHERING:
            rows[knot.step, knot.section, knot.row, knot.number].append(knot)
    return [row for row in rows.values() if len(row) > 1]


def _wide(piece: Piece, knots: list[Knot]) -> Form:
    """How wide knots are side by side."""
    whole = Form()
    for knot in knots:
        whole = whole + mean_diameter((knot.cord,)) * piece.figures[knot.spec].width_d
    return whole
