"""The answers of ``cordwright supply``, shown to a maker."""

from __future__ import annotations

from typing import Any

from cordwright.cli.show import Column, Screen
from cordwright.units.length import System, format_length
from cordwright.units.mass import format_mass

ENDS = {
    "proved": "No plan can be better.",
    "time": "Time ran out before that was settled: more --seconds may help.",
    "size": "There are too many ways to cut for it to be settled.",
}
VERDICTS = {"yes": "fits", "no": "does not fit", "not found": "no way to cut it was found"}


def show_supply(report: dict[str, Any], system: System) -> None:
    """What to cut from which spool, what a kit weighs, what it costs.

    Args:
        report: as ``cordwright.supply.report.supply_json`` gives it.
        system: what lengths and weights are shown in.
    """
    screen = Screen()
    kits = f", {report['kits']} kits" if report["kits"] > 1 else ""
    screen.line(f"{report['title']}{kits}", style="bold")
    for cord in report["cords"]:
        _cord(screen, cord, system)
    _fittings(screen, report["fittings"], system)
    _weight(screen, report["weight"], system)
    if report["price"] is not None:
        _price(screen, report["price"])
    if report["taken"] is not None:
        screen.heading("Taken off the shelf")
        screen.line(
            f"What is cut is off the shelf, what is kept is on it; cordwright shelf undo "
            f"{report['taken']} takes that back."
        )


def _cord(screen: Screen, cord: dict[str, Any], system: System) -> None:
    def mm(value: float) -> str:
        return format_length(value, system)

    screen.heading(f"Cut {cord['cord']}: {mm(cord['need_mm'])}")
    rows = []
    for spool in cord["spools"]:
        name = f"buy {spool['id']}, number {spool['number']}" if spool["bought"] else spool["id"]
        rest = "nothing" if not spool["rest_mm"] else mm(spool["rest_mm"])
        pieces = ", ".join(_piece(p, system) for p in spool["pieces"])
        rows.append([name, mm(spool["length_mm"]), pieces, rest, "keep" if spool["kept"] else ""])
    heads = Column("spool"), Column("has", "right"), Column("cut"), Column("leaves", "right")
    screen.table([*heads, Column("")], rows)
    if cord["missing"]:
        pieces = ", ".join(_piece(p, system) for p in cord["missing"])
        screen.line(f"Not enough: {pieces} cannot be cut. Add --spool or --buy for it.")
    if not cord["spools"]:
        return
    screen.line(
        f"Lost {mm(cord['lost_mm'])}, kept {mm(cord['kept_mm'])}, "
        f"{cord['set_ups']} lengths to measure."
    )
    if cord["proved"]:
        screen.line(ENDS["proved"])
    else:
        screen.line(
            f"A better plan could save {mm(cord['cost_mm'] - cord['bound_mm'])} of cord at most, "
            f"{100 * cord['gap']:.2g} % of all. {ENDS[cord['end']]}"
        )


def _piece(piece: dict[str, Any], system: System) -> str:
    return f"{piece['count']} × {piece['id']} {format_length(piece['length_mm'], system)}"  # noqa: RUF001 - the sign for times


def _fittings(screen: Screen, fittings: list[dict[str, Any]], system: System) -> None:
    if not fittings:
        return
    from cordwright.supply.fittings import MEASURES

    screen.heading("In each kit")
    rows = []
    for thing in fittings:
        measures = MEASURES[thing["sort"]].format(
            *(format_length(mm, system) for mm in thing["measures_mm"])
        )
        rows.append([thing["sort"], measures, *_there(thing)])
    heads = ("", "size", "on the shelf", "price of one")
    screen.table([Column(h) for h in heads], rows)
    if any(f["on_shelf"] is None for f in fittings):
        screen.line(
            "What is not on the shelf has no price and no weight here: add it there, give it with "
            "--fitting, or leave it out with --in-kit."
        )


def _there(thing: dict[str, Any]) -> tuple[str, str]:
    if thing["on_shelf"] is None:
        return "not there", ""
    short = f"; {thing['short']} too few" if thing["short"] else ""
    return f"{thing['count']} of {thing['on_shelf']}{short}", thing["price"] or "not known"


def _weight(screen: Screen, weight: dict[str, Any], system: System) -> None:
    screen.heading("A kit weighs")

    def grams(value: float | None) -> str:
        return "not known" if value is None else format_mass(value, system)

    rows = [["cord", grams(weight["cord_g"])]]
    if weight["low_g"] is not None and weight["low_g"] < weight["high_g"]:
        rows[0][1] += f" ({grams(weight['low_g'])} to {grams(weight['high_g'])})"
    rows += [["fittings and packing", grams(weight["things_g"])]]
    rows += [["together", grams(weight["gross_g"])]]
    if weight["volumetric_g"] is not None:
        rows.append(["charged for its box as", grams(weight["volumetric_g"])])
    screen.table([Column(""), Column("")], rows)


def _price(screen: Screen, price: dict[str, Any]) -> None:
    screen.heading(f"Costs, {price['currency']}")
    rows = [[line["what"], line["amount"]] for line in price["lines"]]
    rows += [["all kits", price["total"]], ["one kit", price["per_kit"]]]
    rows += [["wholesale", price["wholesale"]], ["retail", price["retail"]]]
    screen.table([Column(""), Column("", "right")], rows)
    even = price["break_even"]
    at = f"{price['currency']} {price['asked']}"
    if even is None:
        screen.line(f"At {at} no number of sales earns back what is spent once.")
    elif even == 0:
        screen.line("Nothing is spent once for the run, so there is nothing to earn back.")
    else:
        screen.line(f"At {at} what is spent once is earned back with {even} sold.")
    if price["unpriced"]:
        screen.line(f"Without a price, and not in these sums: {', '.join(price['unpriced'])}.")


def show_made(report: dict[str, Any]) -> None:
    """What can be made of the plans in a folder.

    Args:
        report: as ``cordwright.supply.report.make_json`` gives it.
    """
    screen = Screen()
    rows = []
    for plan in report["plans"]:
        verdict = plan["trouble"] or VERDICTS[plan["fits"]]
        rows.append([plan["file"], plan["title"] or "", verdict, _changed(plan)])
    heads = ("plan", "piece", "as planned", "with other sizes")
    screen.table([Column(h) for h in heads], rows)


def _changed(plan: dict[str, Any]) -> str:
    if plan["lacking"]:
        return f"there is no {', no '.join(plan['lacking'])}"
    if plan["together"] is None:
        return "" if plan["fits"] in ("yes", None) else "not even at its least"
    word = "as large as" if plan["fits"] == "yes" else "fits with"
    ways = [_sizes(plan["together"]), *(_sizes(way) for way in plan["alone"])]
    return f"{word} {'; or '.join(ways)}"


def _sizes(way: dict[str, Any]) -> str:
    return ", ".join(f"{s['name']} {_value(s['value'])}" for s in way["sizes"])


def _value(text: str) -> str:
    return format_length(float(text.removesuffix(" mm")), "metric") if " mm" in text else text
