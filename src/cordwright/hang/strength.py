"""What a cord carries: new and straight, then less at a knot, over a ring, wet, old, shared.

A cord's own figure counts if the plan has one; else its fibre's and build's breaking force per
squared diameter, low end. Every loss is a factor that can be seen and changed, with its source.
Breaking force goes with the squared diameter for cords of one make (the published tables of
three-strand rope keep to that within a third from 5 mm to 20 mm). Nothing here replaces a pull
test of one's own cord: cotton cords of one thickness differ up to six-fold (from memory,
unchecked).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from cordwright.hang.tables import Row, table
from cordwright.knots.spec import KnotName

if TYPE_CHECKING:
    from cordwright.plan.hanging import Keeps
    from cordwright.plan.model import CordSpec

MAKERS_FIGURE: Final = "the plan's own figure for this cord"
MAKERS_SHARE: Final = "set in the plan, under keeps"


@dataclass(frozen=True, slots=True)
class Straight:
    """What a cord carries new, dry and straight.

    Args:
        n: force that parts it, N.
        about: how it was found, for people.
        source: where the figure comes from.
        known: whether the figure is of this cord or its fibre, not the weakest of all fibres.
    """

    n: float
    about: str
    source: str
    known: bool


@dataclass(frozen=True, slots=True)
class Factor:
    """One share of its strength that a cord keeps: why, how much (0 to 1), and by which source."""

    name: str
    about: str
    share: float
    source: str


@dataclass(frozen=True, slots=True)
class Strength:
    """What a cord carries at one place: new, and with every factor."""

    new: Straight
    factors: tuple[Factor, ...]

    @property
    def share(self) -> float:
        """The share that is kept after all factors, 0 to 1."""
        return math.prod(f.share for f in self.factors)

    @property
    def n(self) -> float:
        """Force that parts the cord there, N."""
        return self.new.n * self.share


@dataclass(frozen=True, slots=True)
class Conditions:
    """What a piece's cords meet: whether they get wet, whether they age outdoors."""

    wet: bool
    outdoors: bool
    keeps: Keeps | None = None


_SPOKEN: Final = {
    KnotName.LARKS_HEAD: "lark's head",
    KnotName.OVERHAND: "overhand knot",
    KnotName.GATHERING: "gathering knot",
}


def knot_words(name: KnotName) -> str:
    """A knot's name as people say it.

    >>> knot_words(KnotName.SQUARE_KNOT), knot_words(KnotName.LARKS_HEAD)
    ('square knot', "lark's head")
    """
    return _SPOKEN.get(name, name.value.replace("-", " "))


def straight(cord: CordSpec, diameter_mm: float) -> Straight:
    """What a cord carries new, dry and straight.

    Args:
        cord: the plan's cord; its own ``strength`` is for its own diameter, and goes with the
            squared diameter from there.
        diameter_mm: the diameter it is worked in, mm.
    """
    own = cord.breaking_n
    if own is not None:
        scale = (diameter_mm / cord.diameter_mm) ** 2
        changed = "" if math.isclose(scale, 1.0) else f" at {cord.diameter_mm:g} mm, scaled"
        return Straight(own * scale, f"{cord.strength}{changed}", MAKERS_FIGURE, known=True)
    row, known = breaking(cord.fibre, cord.build or "")
    about = f"{row.low:g} N/mm2 of squared diameter for {row.what}, low end"
    if not known:
        about += f": '{cord.fibre}' is not in the table, so the weakest fibre counts"
    return Straight(row.low * diameter_mm**2, about, row.source, known)


def breaking(fibre: str, build: str) -> tuple[Row, bool]:
    """Breaking force over squared diameter of a fibre and build, and whether the fibre is known.

    An unknown build counts as any; of an unknown fibre the weakest row counts.
    """
    rows = table("breaking")
    fibre, build = fibre.strip().lower(), build.strip().lower()
    row = rows.get(f"{fibre}, {build}") or rows.get(fibre)
    return (row, True) if row else (min(rows.values(), key=lambda r: r.low), False)


def knot_factor(name: KnotName, over_d: float, keeps: Keeps | None) -> Factor:
    """What a cord keeps at a loaded knot.

    A lark's head is a knot and a bend over a ring or rod in one; the smaller share of the two
    counts, for both are the loss at the cord's first sharp bend.

    Args:
        name: the knot.
        over_d: lark's head only: diameter of what it hangs on over the cord's, D/d.
        keeps: shares that the maker sets.
    """
    rows = table("knots")
    if keeps is not None and keeps.knots is not None:
        knot = Factor("knot", knot_words(name), keeps.knots, MAKERS_SHARE)
    else:
        row = rows.get(name.value, rows["any"])
        knot = Factor("knot", knot_words(name), row.low, row.source)
    if name is not KnotName.LARKS_HEAD or over_d <= 0.0:
        return knot
    bend = bend_factor(over_d, keeps)
    return bend if bend.share < knot.share else knot


def bend_factor(over_d: float, keeps: Keeps | None) -> Factor:
    """What a cord keeps when bent over a ring or rod: 1 - 0.5 / sqrt(D/d).

    The rule is one for wire rope, from memory, unchecked; it meets the sourced 0.5 at D/d = 1 and
    stays below the sourced 0.95 at 40. Below D/d = 1 the share falls in proportion, so that it
    never reaches nothing (unchecked).
    """
    if keeps is not None and keeps.bend is not None:
        return Factor("bend", f"over D/d {over_d:.2g}", keeps.bend, MAKERS_SHARE)
    row = table("conditions")["bend at D/d 1"]
    share = 1.0 - row.low / math.sqrt(over_d) if over_d >= 1.0 else row.low * over_d
    return Factor("bend", f"over D/d {over_d:.2g}", share, row.source)


def lasting_factors(fibre: str, conditions: Conditions) -> tuple[Factor, ...]:
    """What a cord keeps wet and outdoors, whatever its knots; only factors that apply."""
    keeps, found = conditions.keeps, []
    if conditions.wet:
        if keeps is not None and keeps.wet is not None:
            found.append(Factor("wet", fibre, keeps.wet, MAKERS_SHARE))
        else:
            rows = table("wet")
            row = rows.get(fibre.strip().lower(), rows["any"])
            found.append(Factor("wet", row.what, row.low, row.source))
    if conditions.outdoors:
        if keeps is not None and keeps.outdoors is not None:
            found.append(Factor("outdoors", "aged", keeps.outdoors, MAKERS_SHARE))
        else:
            row = table("conditions")["outdoors"]
            found.append(Factor("outdoors", "aged", row.low, row.source))
    return tuple(found)


def shared_factor(strands: int, keeps: Keeps | None) -> tuple[Factor, ...]:
    """What counts of a strand beside others that may be pulled less; nothing for one alone."""
    if strands < 2:
        return ()
    if keeps is not None and keeps.shared is not None:
        return (Factor("shared", f"{strands} strands", keeps.shared, MAKERS_SHARE),)
    row = table("conditions")["shared"]
    return (Factor("shared", f"{strands} strands", row.low, row.source),)
