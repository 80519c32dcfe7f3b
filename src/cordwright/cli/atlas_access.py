"""Where the commands get tight knots from: the one place that knows how the atlas is opened."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from cordwright.piece.figures import FiguresSource


def figures_source() -> FiguresSource:
    """The atlas of tight knots, which tightens what it does not have."""
    from cordwright.knots.atlas import Atlas

    return Atlas()
