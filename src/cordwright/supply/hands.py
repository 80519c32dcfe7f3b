"""What the shelf's swatches and finished pieces teach, against the tight knots of the atlas."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from cordwright.cords.swatch import (
    Finished,
    Hands,
    Measured,
    Swatch,
    hands,
    measured,
    used_trial,
)
from cordwright.errors import SupplyError
from cordwright.knots.spec import KnotName, KnotSpec
from cordwright.piece.lengths import KNOTTED, measure
from cordwright.piece.risk import mix_of, rounded_shares
from cordwright.supply.records import FinishedEntry, ShelfCord, SwatchEntry
from cordwright.supply.shelf import Shelf, find, items
from cordwright.supply.swatchknot import ideal
from cordwright.supply.writing import write_item

if TYPE_CHECKING:
    from collections.abc import Mapping

    from cordwright.cords.swatch_model import Trial
    from cordwright.piece.figures import FiguresSource
    from cordwright.piece.model import Piece

PLAN_KEYS = ("fibre", "diameter", "build", "colour", "weight", "strength")


def plan_cords(db: Shelf) -> Mapping[str, Mapping[str, str]]:
    """The shelf's cords as a plan writes them: by name, the plan's keys with their texts."""
    found = {}
    for cord in items(db, ShelfCord):
        texts = write_item(cord)
        found[cord.name] = {key: texts[key] for key in PLAN_KEYS if texts[key]}
    return found


def swatch_of(db: Shelf, entry: SwatchEntry, figures: FiguresSource) -> Measured:
    """The factors of a swatch on the shelf.

    Raises:
        CordwrightError: a factor that no cord has; a knot that cannot be tied.
    """
    cord = find(db, ShelfCord, entry.cord)
    swatch = Swatch(
        entry.maker,
        entry.cord,
        entry.knot,
        entry.knots,
        entry.height_mm,
        entry.used_mm,
        entry.width_mm,
    )
    return measured(swatch, ideal(entry, cord.diameter_mm, figures))


def known_hands(db: Shelf, figures: FiguresSource) -> Hands:
    """All that the shelf's swatches and finished pieces teach.

    Raises:
        CordwrightError: one of them is not possible.
    """
    square = figures.figures(KnotSpec(KnotName.SQUARE_KNOT, 4))
    return hands(
        [swatch_of(db, entry, figures) for entry in items(db, SwatchEntry)],
        [trial_of(entry) for entry in items(db, FinishedEntry)],
        ideal_ratio=square.take_up_d[0] / square.height_d,
    )


def trial_of(entry: FinishedEntry) -> Trial:
    """The take-up factor that a finished piece on the shelf shows.

    Raises:
        CordwrightError: a factor that no cord has.
    """
    e = entry
    return used_trial(Finished(e.maker, e.cord, e.mix, e.knots, e.knotted_mm, e.free_mm, e.used_mm))


def finished_entry(
    piece: Piece, cord: str, name: str, used_mm: float, maker: str = ""
) -> FinishedEntry:
    """What a finished piece used of one cord, beside what ideal cord would have used.

    Args:
        piece: worked without handling.
        cord: the plan's name of a cord that is on the shelf.
        name: of the entry.
        used_mm: what was cut of it, less what was left over, mm.
        maker: who tied it.

    Raises:
        SupplyError: the plan's cord is not on the shelf, or has no knots.
    """
    spec = piece.plan.cords.get(cord)
    if spec is None or spec.shelf is None:
        raise SupplyError(
            f"The plan has no cord '{cord}' that is on the shelf.",
            remedy="name it on the shelf in the plan: shelf: NAME",
        )
    lengths = measure(piece)
    strands = [s for s in piece.strands if piece.cords[s.cord].cord == cord]
    knotted, all_mm = 0.0, 0.0
    by_kind: defaultdict[str, float] = defaultdict(float)
    values: dict[int, float] = {}
    for strand in strands:
        uses = lengths.strands[strand.id]
        here = sum(piece.mm(uses[use]) for use in KNOTTED if use in uses)
        knotted += here
        all_mm += piece.mm(lengths.used[strand.id])
        for kind, share in mix_of(piece, strand, values).items():
            by_kind[kind] += share * here
    if not by_kind:
        raise SupplyError(f"No knot is tied in '{cord}'.", remedy="name another cord")
    knots = sum(len(s.course) for s in strands)
    return FinishedEntry(
        name, spec.shelf, rounded_shares(by_kind), knots, knotted, all_mm - knotted, used_mm, maker
    )
