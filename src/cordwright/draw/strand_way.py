"""One strand's way: it stands out along the whole piece, and the rest is quiet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cordwright.draw.piece_sheet import Sheet, piece_sheet
from cordwright.draw.wording import english
from cordwright.errors import CordwrightError

if TYPE_CHECKING:
    from cordwright.draw.placed import Placed
    from cordwright.draw.wording import Wording
    from cordwright.piece.model import Piece


def strands_named(piece: Piece, name: str) -> tuple[int, ...]:
    """The strands that a name means: one, as in ``3L``, or both of a cord, as in ``3``.

    Raises:
        CordwrightError: the piece has no such strand.
    """
    wanted = name.strip().upper()
    found = [s.id for s in piece.strands if piece.name(s.id) == wanted]
    if not found and wanted.isdecimal():
        cord = int(wanted) - 1
        found = [s.id for s in piece.strands if s.cord == cord]
    if found:
        return tuple(found)
    if not piece.strands:
        raise CordwrightError(f"There is no strand '{name}': the piece has no cords.")
    first, last = piece.name(0), piece.name(len(piece.strands) - 1)
    raise CordwrightError(
        f"There is no strand '{name}' in this piece.",
        remedy=f"name one from {first} to {last}, or a cord from 1 to {len(piece.cords)}",
    )


def strand_sheet(what: Placed, name: str, *, wording: Wording | None = None) -> Sheet:
    """The whole piece with one strand or cord picked out.

    Args:
        what: the piece in space.
        name: of a strand, as in ``3L``, or of a cord, as in ``3``.
        wording: how words and lengths are written; English and metric if None.

    Raises:
        CordwrightError: the piece has no such strand.
    """
    only = strands_named(what.piece, name)
    wording = wording or english()
    kind = "strand" if len(only) == 1 else "cord"
    title = wording.say(kind, title=what.piece.plan.title, name=name.strip().upper())
    return piece_sheet(what, wording=wording, only=only, title=title)
