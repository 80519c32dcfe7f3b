"""Whether a piece's cords carry what hangs on them, with all of the working.

At every knot of every strand: the load at rest, the same with bump, the strength there, and how
many times over the strength is there. The least of these is the piece's factor; it is held against
the factor that the plan asks for. This is arithmetic over sourced figures and says nothing of the
cord in hand: the cautions go with every verdict.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from cordwright.errors import WorkError
from cordwright.hang.strength import (
    Conditions,
    Factor,
    Strength,
    knot_factor,
    knot_words,
    lasting_factors,
    shared_factor,
    straight,
)
from cordwright.knots.spec import KnotName

if TYPE_CHECKING:
    from cordwright.piece.model import Knot, Piece

Tensions = Mapping[tuple[int, int], float]
"""Tension in N at rest by (strand, segment). Segment i is the cord above the strand's i-th stop;
the one below its last stop has the next number."""

CAUTIONS: Final = (
    "These are sums over published figures, not a test of your cord. Cotton cords of one thickness "
    "differ up to six-fold: a pull test of your own cord beats any table.",
    "Cord is taken to slide without friction over what it lies on. Where it grips a rim or an "
    "edge, one strand may keep up to 1.6 times the pull that is told here, and its neighbour less; "
    "of the unlike pulls along one strand the largest counts.",
    "Cord ages, frays and rots, knots slip and loosen: look at the piece often, and take it down "
    "when in doubt.",
    "Try it first with more than its load, low above a soft floor, and leave it there for a day.",
    "Choose hook, plug and screw by their maker's data and the local code; a ceiling is not known "
    "from below.",
    "For anything over people's heads, above a bed or a cot, or that people or animals climb on or "
    "hang from, ask a licensed person.",
)
"""What goes with every verdict."""

_MOST_THICKER: Final = 20.0  # times as thick: beyond that another cord is needed anyway
_STEP_MM: Final = 0.1


@dataclass(frozen=True, slots=True)
class Spot:
    """The worst place of one strand.

    Args:
        strand: index of the strand.
        knot: index of the knot there.
        load_n: tension at rest, N.
        bumped_n: tension with bump, N.
        strength: what the cord carries there.
        factor: strength over the load with bump; infinite where there is no load.
        place: where it is, for people.
    """

    strand: int
    knot: int
    load_n: float
    bumped_n: float
    strength: Strength
    factor: float
    place: str


@dataclass(frozen=True, slots=True)
class Remedy:
    """One thing that would make it enough.

    Args:
        kind: a thicker cord, more strands, or a lighter load.
        cord: the plan's cord, of a thicker cord.
        value: its diameter in mm; how many times as many strands; how many g less.
        text: all of that in a sentence, in millimetres and grams.
    """

    kind: Literal["thicker", "strands", "lighter"]
    cord: str | None
    value: float
    text: str


@dataclass(frozen=True, slots=True)
class Verdict:
    """Whether the cords carry the load.

    Args:
        spots: the worst place of every loaded strand, by strand.
        weakest: the worst of them all; None where no strand carries anything.
        bump: load with bump over load at rest.
        asked: factor asked for.
        enough: whether the factor reached is at least the one asked for.
        remedies: what would make it enough; empty if it is.
        cautions: what goes with it.
    """

    spots: tuple[Spot, ...]
    weakest: Spot | None
    bump: float
    asked: float
    enough: bool
    remedies: tuple[Remedy, ...]
    cautions: tuple[str, ...] = CAUTIONS

    @property
    def factor(self) -> float:
        """The factor reached: at the weakest place."""
        return self.weakest.factor if self.weakest else math.inf


def verdict(
    tensions: Tensions,
    piece: Piece,
    conditions: Conditions,
    *,
    bump: float,
    asked: float,
    load_g: float = 0.0,
) -> Verdict:
    """Hold the strength of a piece's cords against their tensions.

    Args:
        tensions: N at rest, by strand and segment. A segment that is left out between others of
            its strand is taken to carry the larger of its neighbours' tensions.
        piece: the worked piece.
        conditions: whether the cords get wet and age outdoors, and the shares the maker sets.
        bump: load with bump over load at rest, 1 or more.
        asked: factor asked for.
        load_g: everything that hangs, g, to say how much less would do; 0 if not known.

    Raises:
        WorkError: a tension of a strand or segment that the piece does not have, or that is not a
            force of 0 or more.
    """
    _check(tensions, piece)
    lasting = {
        name: lasting_factors(spec.fibre, conditions) for name, spec in piece.plan.cords.items()
    }
    spots = []
    for strand, along in _by_strand(tensions, piece):
        found = list(_spots(piece, strand, along, conditions, lasting, bump))
        if found:
            spots.append(min(found, key=lambda s: (s.factor, s.knot)))
    loaded = [s for s in spots if s.load_n > 0.0]
    weakest = min(loaded, key=lambda s: (s.factor, s.strand), default=None)
    enough = weakest is None or weakest.factor >= asked * (1.0 - 1e-9)
    remedies = () if enough else tuple(_remedies(piece, loaded, conditions, asked, load_g))
    return Verdict(tuple(loaded), weakest, bump, asked, enough, remedies)


def _check(tensions: Tensions, piece: Piece) -> None:
    for (strand, segment), n in tensions.items():
        if not (
            0 <= strand < len(piece.strands) and 0 <= segment <= len(piece.strands[strand].course)
        ):
            raise WorkError(f"The piece has no segment {segment} of a strand {strand}.")
        if not (math.isfinite(n) and n >= 0.0):
            raise WorkError(
                f"A tension of {n:g} N is not possible: cord pulls, and never pushes.",
                remedy="settle the shape again",
            )


def _by_strand(tensions: Tensions, piece: Piece) -> Iterator[tuple[int, list[float]]]:
    """Each strand that has tensions, with one for every segment of its."""
    known: dict[int, dict[int, float]] = {}
    for (strand, segment), n in tensions.items():
        known.setdefault(strand, {})[segment] = n
    for strand, given in sorted(known.items()):
        yield strand, _filled(given, len(piece.strands[strand].course) + 1)


def _filled(given: Mapping[int, float], segments: int) -> list[float]:
    above: list[float] = []
    for i in range(segments):
        above.append(given.get(i, above[-1] if above else 0.0))
    below = [0.0] * (segments + 1)
    for i in reversed(range(segments)):
        below[i] = given.get(i, below[i + 1])
    return [given.get(i, max(above[i], below[i])) for i in range(segments)]


def _spots(
    piece: Piece,
    strand: int,
    along: list[float],
    conditions: Conditions,
    lasting: Mapping[str, tuple[Factor, ...]],
    bump: float,
) -> Iterator[Spot]:
    name = piece.cords[piece.strands[strand].cord].cord
    new = straight(piece.plan.cords[name], piece.values[f"d:{name}"])
    for i, stop in enumerate(piece.strands[strand].course):
        knot = piece.knots[stop.knot]
        load = max(along[i], along[i + 1])
        here = knot_factor(knot.spec.name, _over_d(piece, knot, name), conditions.keeps)
        shared = shared_factor(len(knot.strands), conditions.keeps)
        strength = Strength(new, (here, *shared, *lasting[name]))
        factor = strength.n / (load * bump) if load > 0.0 else math.inf
        yield Spot(
            strand, stop.knot, load, load * bump, strength, factor, place(piece, strand, knot)
        )


def _over_d(piece: Piece, knot: Knot, cord: str) -> float:
    """D/d over what a lark's head hangs on; 0 for other knots."""
    if knot.spec.name is not KnotName.LARKS_HEAD:
        return 0.0
    return knot.spec.over_d * piece.values[f"d:{knot.cord}"] / piece.values[f"d:{cord}"]


def place(piece: Piece, strand: int, knot: Knot) -> str:
    """A place for people: ``strand 3L at the square knot of Arms, row 2``."""
    text = f"strand {piece.name(strand)} at the {knot_words(knot.spec.name)}"
    if knot.section:
        text += f" of {' / '.join(knot.section)}"
    numbers = (("row", knot.row), ("knot", knot.number))
    counted = [f"{word} {n + 1}" for word, n in numbers if n]
    return ", ".join([text, *counted])


def _remedies(
    piece: Piece, spots: Iterable[Spot], conditions: Conditions, asked: float, load_g: float
) -> Iterator[Remedy]:
    failing = [s for s in spots if s.factor < asked * (1.0 - 1e-9)]
    needed: dict[str, float] = {}
    for spot in failing:
        cord = piece.cords[piece.strands[spot.strand].cord].cord
        mm = needed_mm(piece, spot, conditions, asked)
        needed[cord] = max(needed.get(cord, 0.0), mm)
    for cord, mm in needed.items():
        if math.isfinite(mm):
            now = piece.values[f"d:{cord}"]
            text = f"cord '{cord}' of {mm:.1f} mm instead of {now:g} mm, of the same make"
            yield Remedy("thicker", cord, mm, text)
    worst = min(s.factor for s in failing)
    times = math.ceil(10.0 * asked / worst - 1e-9) / 10.0
    yield Remedy(
        "strands", None, times, f"{times:g} times as many strands, if they share the load alike"
    )
    if load_g > 0.0:
        less = load_g * (1.0 - worst / asked)
        text = f"{less:.0f} g less: {load_g - less:.0f} g in all, cord included"
        yield Remedy("lighter", None, less, text)


def needed_mm(piece: Piece, spot: Spot, conditions: Conditions, asked: float) -> float:
    """Diameter in mm that a strand's cord needs at a place, to 0.1 mm; infinite if none does.

    The load stays what it is: a thicker cord's own weight and larger knots are not counted, so
    work the plan again with it.
    """
    name = piece.cords[piece.strands[spot.strand].cord].cord
    spec, now = piece.plan.cords[name], piece.values[f"d:{name}"]
    knot = piece.knots[spot.knot]
    over_mm = _over_d(piece, knot, name) * now
    rest = spot.strength.factors[1:]
    wanted = asked * spot.bumped_n
    for tenths in range(math.floor(now / _STEP_MM), math.ceil(_MOST_THICKER * now / _STEP_MM) + 1):
        mm = tenths * _STEP_MM
        if mm < now:
            continue
        here = knot_factor(knot.spec.name, over_mm / mm, conditions.keeps)
        if Strength(straight(spec, mm), (here, *rest)).n >= wanted * (1.0 - 1e-9):
            return mm
    return math.inf
