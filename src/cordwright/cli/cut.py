"""``cordwright cut``."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, cast

from cordwright.cli import atlas_access, options
from cordwright.cli.shelf_access import hands_of, read_plan_with_shelf
from cordwright.cli.show import show_json

if TYPE_CHECKING:
    from cordwright.units.length import System


def cut(
    path: Path,
    diameters: Sequence[str],
    sizes: Sequence[str],
    units: str,
    as_json: bool,
    *,
    risk: float | None = None,
    shelf: Path | None = None,
    maker: str = "",
) -> None:
    """Work a plan and show its cut list.

    Args:
        path: the plan file.
        diameters: other cord diameters, as in ``main=3mm``.
        sizes: other sizes, as in ``arm=40cm``.
        units: ``metric`` or ``inch``: what lengths are rounded up in, and shown in.
        as_json: for programs, in millimetres.
        risk: how many in 100 strands may be too short; None for the usual risk.
        shelf: another shelf than the usual one.
        maker: whose hands tie it.

    Raises:
        CordwrightError: the plan cannot be read or worked, or an option is wrong.
    """
    other_diameters, other_sizes = options.diameters(diameters), options.sizes(sizes)
    system = cast("System", units)  # click lets nothing else through

    from cordwright.cli.cutview import show_cuts
    from cordwright.hang.counted import as_worked, counted
    from cordwright.piece.cutlist import cut_list
    from cordwright.piece.report import cut_json
    from cordwright.piece.risk import DEFAULT_RISK
    from cordwright.piece.work import work

    part = DEFAULT_RISK if risk is None else risk / 100.0
    plan = read_plan_with_shelf(path, shelf)
    with atlas_access.figures_source() as source:
        handling, known = hands_of(plan, shelf, maker, source)
        piece = work(plan, source, sizes=other_sizes, diameters=other_diameters, handling=handling)
    shape = as_worked(piece)
    piece = counted(shape)
    cuts = cut_list(piece, system=system, known=known, risk=part)
    report = cut_json(piece, cuts, (shape.width_mm, shape.height_mm))
    if as_json:
        show_json(report)
    else:
        show_cuts(plan, report)
