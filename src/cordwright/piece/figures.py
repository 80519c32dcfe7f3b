"""Where a piece gets its knots' figures from."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from cordwright.knots.spec import KnotFigures, KnotSpec


class FiguresSource(Protocol):
    """Anything that knows the figures of tight knots: the atlas, or a fixture in a test."""

    def figures(self, spec: KnotSpec) -> KnotFigures:
        """Figures of the tight knot.

        Raises:
            KnotError: if the knot cannot be tied as specified.
        """
        ...
