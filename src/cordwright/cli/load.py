"""``cordwright load``."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, cast

from cordwright.cli import atlas_access, options
from cordwright.cli.shelf_access import hands_of, read_plan_with_shelf
from cordwright.cli.show import show_json

if TYPE_CHECKING:
    from cordwright.units.length import System


def load(
    path: Path,
    diameters: Sequence[str],
    sizes: Sequence[str],
    units: str,
    as_json: bool,
    *,
    shelf: Path | None = None,
    maker: str = "",
) -> None:
    """Hang a piece with what it holds, and show what its cords carry.

    Args:
        path: the plan file.
        diameters: other cord diameters, as in ``main=3mm``.
        sizes: other sizes, as in ``arm=40cm``.
        units: ``metric`` or ``inch``: what weights are shown in.
        as_json: for programs, in N and g.
        shelf: another shelf than the usual one.
        maker: whose hands tie it.

    Raises:
        CordwrightError: the plan cannot be read or worked, an option is wrong, or there is nothing
            that the piece hangs from.
    """
    other_diameters, other_sizes = options.diameters(diameters), options.sizes(sizes)
    system = cast("System", units)  # click lets nothing else through

    from cordwright.cli.loadview import show_loads
    from cordwright.hang.carrying import carry, told_of
    from cordwright.hang.loads import load_json
    from cordwright.piece.work import work

    plan = read_plan_with_shelf(path, shelf)
    with atlas_access.figures_source() as source:
        handling, _ = hands_of(plan, shelf, maker, source)
        piece = work(plan, source, sizes=other_sizes, diameters=other_diameters, handling=handling)
    carried = carry(piece, told_of(piece, other_sizes))
    report = load_json(piece, carried.tensions, carried.told, carried.doubts)
    if as_json:
        show_json(report)
    else:
        show_loads(report, system)
