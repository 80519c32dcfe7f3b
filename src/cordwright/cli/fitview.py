"""The account of how a piece fits, shown to a maker: what programs get, in words and tables."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from cordwright.cli.show import Column, Screen
from cordwright.units.length import format_length
from cordwright.units.mass import format_mass

if TYPE_CHECKING:
    from cordwright.units.length import System

CAUTION = (
    "This says nothing of strength: see what it carries with 'cordwright load', and try it low "
    "above a soft floor."
)


def show_fit(report: dict[str, Any], system: System, out: Path | None) -> None:
    """Everything that the account says.

    Args:
        report: the account as ``cordwright.hang.fit.fit_json`` gives it.
        system: what lengths and weights are shown in.
        out: where a new plan was written, if one was asked for.
    """
    screen = Screen()
    screen.line(report["title"], style="bold")
    what = report["holds"]
    weight = format_mass(report["weight_g"], system)
    screen.line(f"The {what} ({weight}) {'fits' if report['fits'] else 'does not fit'}.")
    for trouble in report["troubles"]:
        screen.line(f"- {trouble['what']}")
        screen.line(f"  try: {trouble['remedy']}")
    _lengthen(screen, report, system)
    if report["refit"]:
        _changes(screen, report["refit"], out)
    _heights(screen, report, system)
    _held(screen, report, system)
    for remark in report["remarks"]:
        screen.line(remark)
    screen.line(CAUTION)


def _lengthen(screen: Screen, report: dict[str, Any], system: System) -> None:
    if not report["lengthen"]:
        return
    screen.heading("Any one of these lets it sit")
    for name in report["lengthen"]:
        now, least = (format_length(name[k], system) for k in ("now_mm", "at_least_mm"))
        screen.line(f"- {name['size']}: {least} instead of {now}")


def _changes(screen: Screen, refit: dict[str, Any], out: Path | None) -> None:
    for missed in refit["missed"]:
        screen.line(f"- {missed}")
    if refit["changes"]:
        screen.heading("Sizes that were tried last" if refit["missed"] else "Changed sizes")
        columns = [Column("size"), Column("before", "right"), Column("after", "right")]
        rows = [[c["size"], c["before"], c["after"]] for c in refit["changes"]]
        screen.table(columns, rows)
    elif not refit["missed"]:
        screen.line("No size has to change.")
    if out is not None and not refit["missed"]:
        screen.line(f"Wrote {out}. See what it needs:")
        screen.command(f"cordwright cut {out}")


def _heights(screen: Screen, report: dict[str, Any], system: System) -> None:
    screen.heading("Where everything comes")
    what, floor = report["holds"], report["hook_mm"] is not None
    columns = [Column(""), Column("below the hook", "right")]
    columns += [Column("above the floor", "right")] if floor else []
    rows = []
    for name, key in (
        (f"rim of the {what}" if what in ("pot", "bowl") else f"top of the {what}", "rim"),
        (f"base of the {what}", "base"),
        ("lowest end", "lowest"),
    ):
        height = report[key]
        shown = [signed(height["below_hook_mm"], system)]
        shown += [signed(height["above_floor_mm"], system)] if floor else []
        rows.append([name, *shown])
    screen.table(columns, rows)
    added, long = report["added_up_mm"], report["length_mm"]
    screen.line(
        f"It hangs {format_length(long, system)} long; straight, its lengths add up to "
        f"{format_length(added, system)}. Cord to cut: {format_length(report['cord_mm'], system)}."
    )


def signed(mm: float, system: System) -> str:
    """A height that may be negative."""
    return f"{'-' if mm < 0.0 else ''}{format_length(abs(mm), system)}"


def _held(screen: Screen, report: dict[str, Any], system: System) -> None:
    def show(mm: float) -> str:
        return format_length(mm, system)

    screen.heading("How it is held")
    gap, way, push = report["gap"], report["way"], report["push"]
    screen.line(
        f"Largest opening of the net round it: {show(gap['across_mm'])} across; "
        f"{show(gap['passes_mm'])} would let it through."
    )
    if way:
        screen.line(
            f"The net's uppermost round opens to {show(way['mouth_mm'])}, and it is "
            f"{show(way['round_mm'])} round."
        )
    if push:
        screen.line(
            f"Pushed aside by {push['push_n']:.1f} N it moves {show(push['shift_mm'])} and tilts "
            f"by some {push['tilt_deg']:.0f}°. Cord holds it up to {show(push['support_mm'])} "
            f"above its base; its mass lies at {show(push['middle_of_mass_mm'])}."
        )
