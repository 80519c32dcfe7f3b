"""Where the commands get tight knots from: the one place that knows how the atlas is opened."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from cordwright.cli.describe import describe
from cordwright.cli.progress import progress_bar

if TYPE_CHECKING:
    from cordwright.knots.atlas import Atlas
    from cordwright.knots.spec import KnotFigures
    from cordwright.piece.figures import FiguresSource


@contextmanager
def figures_source() -> Iterator[FiguresSource]:
    """Figures of tight knots; those that have to be tightened are shown with a progress bar."""
    with atlas() as source:
        yield source


@contextmanager
def atlas() -> Iterator[Atlas]:
    """The atlas itself, for what needs the knots' curves too."""
    from cordwright.knots.atlas import Atlas

    with progress_bar() as report:
        yield Atlas(watch=lambda spec, share: report(describe(spec), share))


def entries() -> Sequence[KnotFigures]:
    """Every knot that the atlas comes with."""
    from cordwright.knots.atlas import Atlas

    return tuple(Atlas().entries())


def regenerate() -> Path:
    """Tighten every knot of the atlas again; gives the file that was written."""
    from cordwright.knots.atlas import regenerate

    with progress_bar() as report:
        return regenerate(lambda name, number, of: report(f"{name} ({number + 1} of {of})", 0.0))
