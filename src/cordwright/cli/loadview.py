"""The account of a piece's loads, shown to a maker: what programs get, in words and tables."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from cordwright.cli.show import Column, Screen
from cordwright.units.mass import format_mass

if TYPE_CHECKING:
    from cordwright.units.length import System

SHARES = {
    "knot": "at the {about}",
    "bend": "bent {about}",
    "shared": "among {about} that may not pull alike",
    "wet": "wet ({about})",
    "outdoors": "aged outdoors",
}
MOST_STRANDS = 12  # rows before the rest are left to --json


def show_loads(report: dict[str, Any], system: System) -> None:
    """Everything that the account of loads says, its cautions always among it.

    Args:
        report: the account as ``cordwright.hang.loads.load_json`` gives it.
        system: what weights are shown in.
    """
    screen = Screen()
    screen.line(report["title"], style="bold")
    screen.line(_sentence(report))
    for doubt in report["doubts"]:
        screen.line(f"- {doubt}")
    _weights(screen, report, system)
    if report["weakest"]:
        _working(screen, report)
        _strands(screen, report)
    if report["remedies"]:
        screen.heading("What would make it enough")
        for remedy in report["remedies"]:
            screen.line(f"- {remedy['text']}")
    if report["screw"]:
        _screw(screen, report["screw"])
    screen.heading("Before you hang it")
    for caution in report["cautions"]:
        screen.line(f"- {caution}")


def _sentence(report: dict[str, Any]) -> str:
    weakest = report["weakest"]
    if report["doubts"]:
        return "Not known: the tensions below cannot be believed, nor what follows from them."
    if weakest is None:
        return "Nothing hangs on these cords."
    word = report["verdict"]
    return (
        f"{word[0].upper()}{word[1:]}, by these figures: {report['factor']:.1f} times the load "
        f"with bump at the weakest place, {weakest['place']}; {report['asked']:g} times is asked."
    )


def _weights(screen: Screen, report: dict[str, Any], system: System) -> None:
    screen.heading("What hangs")
    parts = [*report["parts"]]
    if len(parts) > 1:
        keys = {"g": "weight_g", "low_g": "weight_low_g", "high_g": "weight_high_g"}
        parts.append({"what": "all", **{k: report[v] for k, v in keys.items()}})
    columns = [
        Column(""),
        Column("weight", "right"),
        Column("from", "right"),
        Column("to", "right"),
    ]
    screen.table(
        columns,
        [
            [p["what"], *(format_mass(p[k], system) for k in ("g", "low_g", "high_g"))]
            for p in parts
        ],
    )
    if report["unweighed"]:
        names = ", ".join(report["unweighed"])
        screen.line(f"Not counted, for its weight is not known: cord {names}.")


def _working(screen: Screen, report: dict[str, Any]) -> None:
    spot = report["weakest"]
    screen.heading(f"The weakest place: {spot['place']}")
    rows = [["new, dry and straight", "", f"{spot['new_n']:.0f} N", spot["new_source"]]]
    rows += [
        [SHARES[f["name"]].format(about=f["about"]), f"times {f['share']:.2f}", "", f["source"]]
        for f in spot["factors"]
    ]
    rows += [
        ["strength there", "", f"{spot['strength_n']:.0f} N", ""],
        ["load at rest", "", f"{spot['load_n']:.2f} N", ""],
        ["with bump", f"times {report['bump']:g}", f"{spot['bumped_n']:.2f} N", ""],
        ["factor reached", "", f"{spot['factor']:.1f}", ""],
        ["factor asked", "", f"{report['asked']:g}", report["asked_source"]],
    ]
    screen.table([Column(""), Column("", "right"), Column("", "right"), Column("source")], rows)
    screen.line(f"New strength: {spot['new_about']}.")


def _strands(screen: Screen, report: dict[str, Any]) -> None:
    screen.heading("The worst place of each strand")
    worst = sorted(report["strands"], key=lambda s: s["factor"])
    rows = [
        [s["place"], f"{s['load_n']:.2f} N", f"{s['strength_n']:.0f} N", f"{s['factor']:.1f}"]
        for s in worst[:MOST_STRANDS]
    ]
    screen.table(
        [
            Column("place"),
            Column("load at rest", "right"),
            Column("strength", "right"),
            Column("factor", "right"),
        ],
        rows,
    )
    if len(worst) > MOST_STRANDS:
        screen.line(f"And {len(worst) - MOST_STRANDS} more that are no worse.")


def _screw(screen: Screen, screw: dict[str, Any]) -> None:
    screen.heading("The screw hook, for guidance only")
    within = "within" if screw["within"] else "above"
    screen.line(
        f"Load with bump {screw['load_n']:.0f} N: {within} the {screw['allowed_n']:.0f} N that the "
        f"formula allows for good in {screw['wood']} of specific gravity {screw['gravity']:g} "
        f"(drawn out at {screw['ultimate_n']:.0f} N)."
    )
