"""How the cords of a piece are drawn: each in its colour, or one that stands out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from cordwright.draw.caption import cord_words
from cordwright.draw.ink import PAPER, coloured, mixed
from cordwright.draw.piece_colours import rgb_of
from cordwright.draw.piece_symbols import styled
from cordwright.draw.piece_things import mount_colour

if TYPE_CHECKING:
    from cordwright.draw.wording import Wording
    from cordwright.piece.model import Piece


@dataclass(frozen=True, slots=True)
class Styles:
    """How cords are drawn.

    Args:
        strand: style of every strand of the piece.
        mount: style of the ring or rod.
        css: of all styles.
        legend: fill and words of what stands below the picture.
    """

    strand: tuple[int, ...]
    mount: int
    css: str
    legend: tuple[tuple[str, str], ...]


def piece_styles(piece: Piece, wording: Wording, only: Iterable[int] | None = None) -> Styles:
    """Every cord of the plan in its own colour.

    Args:
        piece: as worked.
        wording: how the legend is written.
        only: strands that are to stand out; the others are quiet then.
    """
    names = list(piece.plan.cords)
    fills = [rgb_of(spec.colour) for spec in piece.plan.cords.values()]
    picked = None if only is None else set(only)
    strand, css = [], []
    for s in piece.strands:
        i = names.index(piece.cords[s.cord].cord)
        loud = picked is None or s.id in picked
        strand.append(i if loud else i + len(names))
    for i, fill in enumerate(fills):
        css.append(_css(i, LOUD if picked is not None else fill))
        if picked is not None:
            css.append(_css(i + len(names), mixed(fill, PAPER, QUIET), quiet=True))
    rod = 2 * len(names)
    css.append(_css(rod, mixed(mount_colour(piece), PAPER, 0.0 if picked is None else 0.5)))
    used = {piece.cords[s.cord].cord for s in piece.strands}
    legend = [
        (fill, cord_words(piece, name, wording, made_of=True))
        for name, fill in zip(names, fills, strict=True)
        if name in used and picked is None
    ]
    return Styles(tuple(strand), rod, "".join(css), tuple(legend))


LOUD = "#c8442a"
"""Colour of a strand that is picked out."""

QUIET = 0.6
"""How much paler than they are the other strands are drawn then."""


def _css(style: int, fill: str, *, quiet: bool = False) -> str:
    ink = coloured(fill)
    edge = mixed(ink.edge, PAPER, 0.55) if quiet else ink.edge
    return styled(style, edge, fill, mixed(fill, "#ffffff", 0.3))
