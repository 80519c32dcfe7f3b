"""Where the commands get tight knots from: the one place that knows how the atlas is opened."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from cordwright.knots.spec import KnotFigures
    from cordwright.piece.figures import FiguresSource


def figures_source() -> FiguresSource:
    """The atlas of tight knots, which tightens what it does not have."""
    from cordwright.knots.atlas import Atlas

    return Atlas()


def entries() -> Sequence[KnotFigures]:
    """Every knot that the atlas comes with."""
    from cordwright.knots.atlas import Atlas

    return tuple(Atlas().entries())


def regenerate() -> Path:
    """Tighten every knot of the atlas again; gives the file that was written."""
    from cordwright.knots.atlas import regenerate

    return regenerate()
