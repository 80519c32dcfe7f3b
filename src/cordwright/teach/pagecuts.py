"""What the page computes a cut list from: the piece's sums, so that a reader can fit them.

Sums stand in one table, each as a list: mm, then the coefficient of every symbol in order. Strands
that are alike share an entry.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from cordwright.piece.cutlist import EXTRA_CORD
from cordwright.piece.lengths import Tally, Use, measure
from cordwright.piece.weight import weight
from cordwright.teach.pagedoubts import doubt_of
from cordwright.teach.pageforms import CORD
from cordwright.units.form import Form

if TYPE_CHECKING:
    from cordwright.piece.lengths import Lengths
    from cordwright.piece.model import Piece, PieceCord, Strand
    from cordwright.piece.risk import Known


class Forms:
    """A table of sums over the same symbols; equal ones stand in it once.

    Args:
        symbols: in the order of their coefficients.
    """

    def __init__(self, symbols: Sequence[str]) -> None:
        self.symbols = tuple(symbols)
        self._places = {name: i for i, name in enumerate(self.symbols, start=1)}
        self._known: dict[tuple[float, ...], int] = {}

    def of(self, form: Form) -> int:
        """Where in the table a sum stands.

        Raises:
            KeyError: it uses a symbol that the table does not have.
        """
        row = [form.mm] + [0.0] * len(self.symbols)
        for name, k in form.terms.items():
            row[self._places[name]] += k
        while len(row) > 1 and row[-1] == 0.0:
            row.pop()
        return self._known.setdefault(tuple(row), len(self._known))

    def table(self) -> list[list[float]]:
        """All sums."""
        return [list(row) for row in self._known]


def cut_data(piece: Piece, known: Known, forms: Forms) -> dict[str, Any]:
    """Cords and strands with their sums.

    Args:
        piece: with sums over diameters and sizes alone.
        known: what is known of its cords.
        forms: where sums are put.
    """
    lengths = measure(piece)
    kinds = list(dict.fromkeys(str(k.spec.name) for k in piece.knots))
    strands = _Strands(piece, lengths, kinds, forms)
    cords = [_cord(piece, cord, strands, forms) for cord in piece.cords]
    used = list(dict.fromkeys(c.cord for c in piece.cords))
    return {
        "extra": EXTRA_CORD,
        "cords": cords,
        "strands": strands.table,
        "kinds": kinds,
        "doubts": {name: doubt_of(piece, known, name, kinds) for name in used},
        "finished": forms.of(lengths.finished),
        "weights": {name: _grams(piece, name) for name in used},
    }


def _cord(piece: Piece, cord: PieceCord, strands: _Strands, forms: Forms) -> dict[str, Any]:
    return {
        "cord": cord.cord,
        "part": cord.part,
        "fold": cord.fold,
        "strands": [strands.of(piece.strands[s]) for s in cord.strands],
        "cut": forms.of(cord.cut) if cord.cut is not None else None,
    }


class _Strands:
    """Strands by what they use; alike ones stand in the table once."""

    def __init__(self, piece: Piece, lengths: Lengths, kinds: Sequence[str], forms: Forms) -> None:
        self.table: list[dict[str, Any]] = []
        self._piece, self._lengths, self._forms = piece, lengths, forms
        self._kinds = {kind: i for i, kind in enumerate(kinds)}
        self._known: dict[object, int] = {}

    def of(self, strand: Strand) -> int:
        uses = self._lengths.strands[strand.id]
        knotted = [(k, self._forms.of(f)) for k, f in self._knotted(strand).items()]
        tail, free = (self._forms.of(uses.get(use, Form())) for use in (Use.TAIL, Use.FREE))
        cord = self._piece.cords[strand.cord].cord
        key = (cord, tail, free, tuple(knotted), len(strand.course))
        if key not in self._known:
            self._known[key] = len(self.table)
            self.table.append(
                {
                    "tail": tail,
                    "free": free,
                    "knotted": knotted,
                    "knots": max(1, len(strand.course)),
                }
            )
        return self._known[key]

    def _knotted(self, strand: Strand) -> Mapping[int, Form]:
        """Cord in knots by kind of knot."""
        found: defaultdict[int, Tally] = defaultdict(Tally)
        for stop in strand.course:
            kind = self._kinds[str(self._piece.knots[stop.knot].spec.name)]
            found[kind].add(stop.take_up)
        return {kind: tally.form() for kind, tally in found.items()}


def _grams(piece: Piece, name: str) -> float | None:
    """Grams for each metre and each square mm of diameter; None if the fibre is not known.

    A cord of the same make weighs as much as its cross-section is large.
    """
    metre = weight(piece, name, 1000.0)
    return None if metre is None else metre.g / piece.values[f"{CORD}{name}"] ** 2
