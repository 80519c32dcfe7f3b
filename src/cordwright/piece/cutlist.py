"""The cut list: what to cut, where to fold it, how much of it is spare.

The rules, in order:

1. A strand needs what it uses and its spare, for a risk (`cordwright.piece.risk`).
2. A cord's length is what both halves need, rounded up to what a person measures
   (`cordwright.units.length.round_up`); for one that is folded in the middle twice the longer half.
3. Lengths of one kind of cord are raised to as few distinct ones as cost at most
   `EXTRA_CORD` more cord, exactly (`cordwright.piece.distinct`).
4. Cords of one length share fold points where they can (`cordwright.piece.folding`).
5. A cord that the plan says is already cut stays as it is; what it has too much is said.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, NamedTuple

from cordwright.piece.distinct import few_lengths
from cordwright.piece.folding import EXACT_MM, Halves, fold_points, measured
from cordwright.piece.lengths import Lengths, measure
from cordwright.piece.model import Remark
from cordwright.piece.risk import DEFAULT_RISK, Known, Needs, chances, spares, unknown
from cordwright.piece.risk import needs as needs_of
from cordwright.piece.spare import Parts, Spare, spare_by_parts

if TYPE_CHECKING:
    from cordwright.piece.model import Piece, PieceCord
    from cordwright.units.length import System

EXTRA_CORD = 0.03
"""Extra cord allowed for fewer distinct lengths, as a part of the cord of that kind. A choice of
ours: about as much as the rounding up costs in a small piece."""

Folded = Literal["middle", "uneven", "none"]


class CutCord(NamedTuple):
    """One cord of the piece, cut.

    Args:
        cord: its index in the piece.
        halves: what its strands need at least, spare included, mm.
        used_mm: what its strands use.
        spare: what is added for the strands, each.
        length_mm: what it is cut to.
        fold_mm: left and right part; None if folded in the middle, or not at all.
        given: whether the plan says that it is already cut.
    """

    cord: int
    halves: Halves
    used_mm: float
    spare: tuple[Spare, ...]
    length_mm: float
    fold_mm: tuple[float, float] | None
    given: bool

    @property
    def spare_mm(self) -> float:
        """Spare; of a cord already cut no more than it has."""
        wanted = sum(s.all for s in self.spare)
        return min(wanted, self.length_mm - self.used_mm) if self.given else wanted

    @property
    def rounding_mm(self) -> float:
        """The rest: rounding up, common lengths, an even fold of uneven halves."""
        return self.length_mm - self.used_mm - self.spare_mm

    @property
    def parts_mm(self) -> tuple[float, ...]:
        """Length of each strand's part of the cord."""
        if self.fold_mm is not None:
            return self.fold_mm
        n = len(self.spare)
        return (self.length_mm / n,) * n


@dataclass(frozen=True, slots=True)
class CutEntry:
    """Equal cords of the cut list.

    Args:
        id: A, B, C … by order of appearance in the piece.
        cord: the plan's name of the cord.
        diameter_mm: its diameter.
        length_mm: what each is cut to.
        fold: how each is folded.
        fold_mm: left and right part where these differ.
        used_mm: what the neediest of them uses.
        spare_mm: its spare.
        rounding_mm: the rest of its length.
        given: whether they are already cut.
        cords: indices of the cords in the piece.
    """

    id: str
    cord: str
    diameter_mm: float
    length_mm: float
    fold: Folded
    fold_mm: tuple[float, float] | None
    used_mm: float
    spare_mm: float
    rounding_mm: float
    given: bool
    cords: tuple[int, ...]

    @property
    def count(self) -> int:
        """How many."""
        return len(self.cords)


@dataclass(frozen=True, slots=True)
class CutList:
    """What to cut for a piece.

    Args:
        entries: equal cords together.
        cords: every cord, in the piece's order.
        lengths: the forms that all of it comes from.
        system: what lengths are rounded up in.
        chances: by cord, the chance, 0 to 1, that its strands are long enough.
        swatches: the plan's names of cords about which swatches told something.
        risk: the risk that spare was added for, 0 to 1; None if it was added by parts.
        warnings: what the maker should know.
    """

    entries: tuple[CutEntry, ...]
    cords: tuple[CutCord, ...]
    lengths: Lengths
    system: System
    chances: tuple[float, ...]
    swatches: frozenset[str]
    risk: float | None
    warnings: tuple[Remark, ...]

    @property
    def total_mm(self) -> float:
        """All cord that is cut."""
        return sum(e.count * e.length_mm for e in self.entries)

    @property
    def used_mm(self) -> float:
        """All cord that the strands use."""
        return sum(c.used_mm for c in self.cords)


def cut_list(
    piece: Piece,
    *,
    system: System = "metric",
    extra_cord: float = EXTRA_CORD,
    known: Known | None = None,
    risk: float = DEFAULT_RISK,
    parts: Parts | None = None,
) -> CutList:
    """Makes the cut list of a piece.

    Args:
        piece: the worked piece.
        system: what lengths are rounded up in.
        extra_cord: how much more cord few distinct lengths may cost, as a part of all.
        known: what swatches told of its cords; nothing if None.
        risk: chance, above 0 and below 0.5, that a strand is too short.
        parts: spare as parts of the cord instead, whatever the risk.

    Raises:
        CordwrightError: the risk is out of range.
    """
    lengths = measure(piece)
    told = known if known is not None else unknown(piece)
    doubts = needs_of(piece, lengths, told)
    if parts is None:
        spare = spares(doubts, risk)
    else:
        spare = [spare_by_parts(piece, lengths, s.id, parts) for s in piece.strands]
    needs = [_needs(piece, lengths, cord, spare) for cord in piece.cords]
    lengths_mm = _lengths(piece, needs, system, extra_cord)
    folds = _folds(piece, needs, lengths_mm, system)
    cords = tuple(
        need._replace(length_mm=mm, fold_mm=folds[need.cord])
        for need, mm in zip(needs, lengths_mm, strict=True)
    )
    return CutList(
        _entries(piece, cords),
        cords,
        lengths,
        system,
        _chances(piece, cords, doubts),
        frozenset(name for name in piece.plan.cords if told.has(name)),
        risk if parts is None else None,
        tuple(_short_spare(piece, cords)),
    )


def _chances(piece: Piece, cords: Sequence[CutCord], doubts: Needs) -> tuple[float, ...]:
    """By cord, the chance of its worse strand."""
    lengths = [0.0] * len(piece.strands)
    for cut in cords:
        for strand, mm in zip(piece.cords[cut.cord].strands, cut.parts_mm, strict=True):
            lengths[strand] = mm
    found = chances(doubts, lengths)
    return tuple(min(found[s] for s in piece.cords[cut.cord].strands) for cut in cords)


def _needs(piece: Piece, lengths: Lengths, cord: PieceCord, spares: Sequence[Spare]) -> CutCord:
    """What a cord's strands need; its length is still open, 0, unless it is given."""
    used = [piece.mm(lengths.used[s]) for s in cord.strands]
    spare = tuple(spares[s] for s in cord.strands)
    given = cord.cut is not None
    least = [u if given else u + s.all for u, s in zip(used, spare, strict=True)]
    halves = Halves(cord.fold, least[0], least[1] if len(least) > 1 else 0.0)
    length = piece.mm(cord.cut) if cord.cut is not None else 0.0
    return CutCord(cord.id, halves, sum(used), spare, length, None, given)


def _lengths(
    piece: Piece, needs: Sequence[CutCord], system: System, extra_cord: float
) -> list[float]:
    """What each cord is cut to, mm."""
    least = [n.length_mm if n.given else measured(n.halves, system) for n in needs]
    by_kind: defaultdict[str, list[float]] = defaultdict(list)
    for need, mm in zip(needs, least, strict=True):
        if not need.given:
            by_kind[piece.cords[need.cord].cord].append(mm)
    raised = {kind: few_lengths(mm, extra_cord) for kind, mm in by_kind.items()}
    return [
        mm if need.given else raised[piece.cords[need.cord].cord][mm]
        for need, mm in zip(needs, least, strict=True)
    ]


def _folds(
    piece: Piece, needs: Sequence[CutCord], lengths_mm: Sequence[float], system: System
) -> Mapping[int, tuple[float, float] | None]:
    alike: defaultdict[tuple[str, float], dict[int, Halves]] = defaultdict(dict)
    for need, mm in zip(needs, lengths_mm, strict=True):
        alike[piece.cords[need.cord].cord, mm][need.cord] = need.halves
    folds: dict[int, tuple[float, float] | None] = {}
    for (_, mm), cords in alike.items():
        folds.update(fold_points(cords, mm, system))
    return folds


def _entries(piece: Piece, cords: Sequence[CutCord]) -> tuple[CutEntry, ...]:
    groups: defaultdict[object, list[CutCord]] = defaultdict(list)
    for cut in cords:
        cord = piece.cords[cut.cord]
        key = (cord.cord, cut.length_mm, _folded(cut), cut.fold_mm, cut.given)
        groups[key].append(cut)
    return tuple(_entry(piece, letters(i), group) for i, group in enumerate(groups.values()))


def _entry(piece: Piece, name: str, group: Sequence[CutCord]) -> CutEntry:
    first = group[0]
    neediest = max(group, key=lambda c: c.used_mm + c.spare_mm)
    cord = piece.cords[first.cord].cord
    return CutEntry(
        name,
        cord,
        piece.values[f"d:{cord}"],
        first.length_mm,
        _folded(first),
        first.fold_mm,
        neediest.used_mm,
        neediest.spare_mm,
        neediest.rounding_mm,
        first.given,
        tuple(c.cord for c in group),
    )


def _folded(cut: CutCord) -> Folded:
    if cut.halves.fold == "none":
        return "none"
    return "middle" if cut.fold_mm is None else "uneven"


def letters(index: int) -> str:
    """The name of an entry, from 0: A to Z, then AA, AB ….

    >>> [letters(i) for i in (0, 25, 26, 701, 702)]
    ['A', 'Z', 'AA', 'ZZ', 'AAA']
    """
    name = ""
    index += 1
    while index:
        index, letter = divmod(index - 1, 26)
        name = chr(ord("A") + letter) + name
    return name


def _short_spare(piece: Piece, cords: Sequence[CutCord]) -> list[Remark]:
    """Warnings of cords already cut that reach, but with less spare than is wise."""
    remarks = []
    for cut in cords:
        wanted = sum(s.all for s in cut.spare)
        left = cut.length_mm - cut.used_mm
        if cut.given and left < wanted - EXACT_MM:
            remarks.append(
                Remark(
                    f"Cord {cut.cord + 1} is cut to {cut.length_mm:.0f} mm and leaves "
                    f"{left:.0f} mm; {wanted:.0f} mm of spare would be wise.",
                    piece.cords[cut.cord].step,
                )
            )
    return remarks
