"""``cordwright check``."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from cordwright.cli import atlas_access
from cordwright.cli.shelf_access import read_plan_with_shelf
from cordwright.cli.show import Screen, show_json
from cordwright.errors import CordwrightError, Place

if TYPE_CHECKING:
    from cordwright.piece.model import Piece


def check(path: Path, as_json: bool, shelf: Path | None = None) -> None:
    """Read and work a plan, and say what is wrong or worth knowing.

    Raises:
        CordwrightError: the plan cannot be read or worked; with ``as_json`` this is written as
            JSON first.
    """
    from cordwright.cli.cutview import show_warnings
    from cordwright.cli.trouble import parts
    from cordwright.hang.counted import as_worked, counted
    from cordwright.piece.cutlist import cut_list
    from cordwright.piece.work import work

    try:
        plan = read_plan_with_shelf(path, shelf)
        with atlas_access.figures_source() as source:
            piece = work(plan, source)
        remarks = (*piece.warnings, *cut_list(counted(as_worked(piece))).warnings)
    except CordwrightError as error:
        if as_json:
            errors = [_finding(e.what, e.place, e.remedy) for e in parts(error)]
            show_json({"ok": False, "errors": errors, "warnings": []})
        raise
    warnings = [_finding(r.what, r.step) for r in remarks]
    if as_json:
        show_json({"ok": True, "errors": [], "warnings": warnings, **_counts(piece)})
    else:
        screen = Screen()
        counts = ", ".join(f"{n} {what}" for what, n in _counts(piece).items())
        screen.line(f"{piece.plan.title}: the plan can be worked ({counts}).")
        show_warnings(screen, warnings)


def _counts(piece: Piece) -> dict[str, int]:
    return {
        "cords": len(piece.cords),
        "strands": len(piece.strands),
        "knots": len(piece.knots),
    }


def _finding(what: str, place: Place | None, remedy: str = "") -> dict[str, Any]:
    return {
        "what": what,
        "try": remedy or None,
        "file": place.file if place else None,
        "line": place.line if place else None,
        "column": place.column if place else None,
    }
