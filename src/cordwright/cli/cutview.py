"""A cut list, shown to a maker: the same answer that programs get, in words and tables."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from cordwright.cli.show import Column, Screen
from cordwright.units.length import System, format_length

if TYPE_CHECKING:
    from cordwright.plan.model import Plan

MOST_NAMES = 8  # strands named in one row before the rest are counted
PARTS = {"mount": "", "added": "added", "holding": "holding cord", "wrap": "wrap"}
FOLDS = {"middle": "in the middle", "none": "not folded"}
USES = {
    "working": "working strands of knots",
    "filler": "fillers of knots",
    "holding": "holding cords and mounts",
    "free": "free cord between knots",
    "tail": "tails and fringe",
}
FROM = {
    "swatches": "The chance of {names} comes from your swatches and finished pieces.",
    "published figures": "The chance of {names} comes from how far published figures lie apart, "
    "for want of swatches; three swatches cut the spare.",
}
ENDS = {
    "tail": "tail",
    "fringe": "fringe",
    "leave": "left out",
    "laid in": "tail of a laid-in cord",
}


def show_cuts(plan: Plan, report: dict[str, Any]) -> None:
    """Everything that a maker needs before the scissors come out.

    Args:
        plan: the plan, for its words.
        report: the cut list as ``cordwright.piece.report.cut_json`` gives it.
    """
    screen = Screen()
    screen.line(plan.title, style="bold")
    if plan.about:
        screen.line(plan.about)
    _cords(screen, plan, report)
    _totals(screen, report)
    _uses(screen, report)
    _strands(screen, report)
    _spare(screen, report)
    show_warnings(screen, report["warnings"])


def show_warnings(screen: Screen, warnings: Sequence[dict[str, Any]]) -> None:
    """What a maker should know, if there is anything."""
    if warnings:
        screen.heading("Worth knowing")
    for warning in warnings:
        place = ":".join(str(warning[k]) for k in ("file", "line", "column") if warning[k])
        screen.line(f"{place}: {warning['what']}" if place else warning["what"])


def _cords(screen: Screen, plan: Plan, report: dict[str, Any]) -> None:
    screen.heading("Cut")
    columns = [
        Column(""),
        Column("cords", "right"),
        Column("of"),
        Column("length", "right"),
        Column("fold"),
        Column("spare in it", "right"),
        Column("chance", "right"),
        Column("for"),
    ]
    rows = [
        [
            cord["id"],
            str(cord["count"]),
            _words(plan, cord),
            format_length(cord["length_mm"], report["system"]),
            _fold(cord, report["system"]),
            format_length(cord["spare_mm"], report["system"]),
            in_hundred(cord["chance"]),
            PARTS[cord["part"]],
        ]
        for cord in report["cords"]
    ]
    used = [i for i, column in enumerate(columns) if column.heading != "for" or _any(rows, i)]
    screen.table([columns[i] for i in used], [[row[i] for i in used] for row in rows])


def in_hundred(chance: float) -> str:
    """A chance for a person, never more than it is.

    >>> in_hundred(0.9501), in_hundred(0.9999), in_hundred(0.004)
    ('95 in 100', 'over 99 in 100', 'under 1 in 100')
    """
    whole = math.floor(100.0 * chance + 1e-3)  # a length for 95 in 100 comes to 94.99999
    if whole >= 99 and chance > 0.99:
        return "over 99 in 100"
    return f"{whole} in 100" if whole else "under 1 in 100"


def _any(rows: Sequence[Sequence[str]], column: int) -> bool:
    return any(row[column] for row in rows)


def _words(plan: Plan, cord: dict[str, Any]) -> str:
    """The plan's name of a cord, with what it is made of."""
    spec = plan.cords[cord["cord"]]
    diameter = f"{cord['diameter_mm']:g} mm"
    return ", ".join(t for t in (cord["cord"], diameter, spec.build, spec.fibre, spec.colour) if t)


def _fold(cord: dict[str, Any], system: System) -> str:
    if cord["fold_mm"] is None:
        how = FOLDS[cord["fold"]]
    else:
        left, right = (format_length(mm, system) for mm in cord["fold_mm"])
        how = f"{left} left, {right} right"
    return f"{how}; already cut" if cord["already_cut"] else how


def _totals(screen: Screen, report: dict[str, Any]) -> None:
    system = report["system"]
    screen.heading("In all")
    columns = [
        Column("cord"),
        Column("cut", "right"),
        Column("used", "right"),
        Column("weight", "right"),
    ]
    rows = [
        [
            kind["cord"],
            format_length(kind["cut_mm"], system),
            format_length(kind["used_mm"], system),
            _weight(kind),
        ]
        for kind in report["kinds"]
    ]
    if len(rows) > 1:
        total = [format_length(report[key], system) for key in ("total_mm", "used_mm")]
        rows.append(["all", *total, ""])
    screen.table(columns, rows)
    finished = format_length(report["finished_length_mm"], system)
    screen.line(f"Finished length {finished} from the top to the deepest end, hanging straight.")
    if report["width_mm"] is not None:
        wide, high = (format_length(report[key], system) for key in ("width_mm", "height_mm"))
        screen.line(f"As worked, laid flat: {wide} wide over its knots, {high} high with its ends.")


def _weight(kind: dict[str, Any]) -> str:
    if kind["weight_g"] is None:
        return "not known"
    low, most_likely, high = (kind[k] for k in ("weight_low_g", "weight_g", "weight_high_g"))
    return f"{most_likely:.0f} g ({low:.0f} to {high:.0f} g)"


def _uses(screen: Screen, report: dict[str, Any]) -> None:
    system = report["system"]
    screen.heading("Where the cord goes")
    uses = [[USES[use], format_length(mm, system)] for use, mm in report["uses_mm"].items() if mm]
    screen.table([Column("for"), Column("length", "right")], uses)
    if len(report["sections"]) > 1:
        screen.heading("In which section")
        sections = [
            [" / ".join(section["path"]) or "outside all sections", section["used_mm"]]
            for section in report["sections"]
        ]
        rows = [[name, format_length(mm, system)] for name, mm in sections]
        screen.table([Column("section"), Column("length", "right")], rows)


def _strands(screen: Screen, report: dict[str, Any]) -> None:
    system = report["system"]
    screen.heading("What each strand uses, and has over at its end")
    columns = [
        Column("strands"),
        Column("of"),
        Column("use", "right"),
        Column("over", "right"),
        Column("end"),
    ]

    def alike(strand: dict[str, Any]) -> tuple[str, ...]:
        lengths = (format_length(strand[k], system) for k in ("used_mm", "over_mm"))
        return (strand["cut"], *lengths, ENDS[strand["ends"]])

    strands: dict[tuple[str, ...], list[str]] = {}
    for strand in report["strands"]:
        strands.setdefault(alike(strand), []).append(strand["id"])
    rows = [[_names(names), *key] for key, names in strands.items()]
    screen.table(columns, rows)


def _names(names: Sequence[str]) -> str:
    shown = ", ".join(names[:MOST_NAMES])
    return f"{shown} and {len(names) - MOST_NAMES} more" if len(names) > MOST_NAMES else shown


def _spare(screen: Screen, report: dict[str, Any]) -> None:
    parts = report["spare_parts"]
    screen.heading("Why there is spare")
    for why in (parts["why_knots"], parts["why_free"]):
        screen.line(f"{why[0].upper()}{why[1:]}.")
    by_source: dict[str, list[str]] = {}
    for name, source in parts["known_from"].items():
        by_source.setdefault(source, []).append(name)
    for source, names in by_source.items():
        for name in names:
            screen.line(
                f"{name}: {parts['knots'][name]:.0%} of its cord in knots, "
                f"{parts['free'][name]:.0%} of its free cord."
            )
        screen.line(FROM[source].format(names=", ".join(names)))
    if parts["risk"] is not None:
        screen.line(
            f"So much spare leaves a risk of {100 * parts['risk']:g} in 100 that a strand is too "
            "short; --risk chooses another."
        )
    screen.line("The chance is that of the worse strand of a cord to be long enough.")
