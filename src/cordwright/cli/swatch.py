"""``cordwright swatch``."""

from __future__ import annotations

from pathlib import Path

import click

from cordwright.cli.asking import JSON
from cordwright.cli.shelf import item_from, say
from cordwright.cli.shelf_access import MAKER, SHELF


@click.group()
def swatch() -> None:
    """Teach the program what your cord and your hands make of knots."""


@swatch.command()
@click.argument("cord")
@click.option(
    "--knot",
    default="square-knot",
    show_default=True,
    metavar="NAME",
    help="Which knot: any that cordwright knots lists.",
)
@click.option("--knots", required=True, metavar="COUNT", help="How many, one below the other.")
@click.option("--fillers", metavar="COUNT", help="Round how many strands; 2 if left out.")
@click.option("--strands", metavar="COUNT", help="Of a braid (count its full rounds), an overhand.")
@click.option("--turns", metavar="COUNT", help="Of a gathering knot.")
@click.option("--slant", metavar="DEGREES", help="Of rows of double half hitches; 0 if left out.")
@click.option("--across", metavar="COUNT", help="Hitches in a row, or lark's heads side by side.")
@click.option("--mount", metavar="TEXT", help="What lark's heads are on: ring or rod.")
@click.option("--thick", metavar="LENGTH", help="Of ring wire, rod, holding cord or fillers.")
@click.option("--height", required=True, metavar="LENGTH", help="Of all knots together.")
@click.option("--width", metavar="LENGTH", help="Of the sinnet.")
@click.option("--start", required=True, metavar="LENGTH", help="One working strand before.")
@click.option("--left", required=True, metavar="LENGTH", help="What is left of it after the knots.")
@MAKER
@click.option("--note", metavar="TEXT", help="Anything else.")
@SHELF
def add(cord: str, start: str, left: str, file: Path | None, **fields: str | None) -> None:
    """Enter a swatch: knots tied in the shelf's CORD with a measured working strand."""
    from cordwright.cli import atlas_access
    from cordwright.supply import shelf as store
    from cordwright.supply.hands import swatch_of
    from cordwright.supply.records import SwatchEntry
    from cordwright.supply.swatched import used_mm
    from cordwright.supply.writing import KINDS

    kind = KINDS["swatch"]
    texts = {w: t for w, t in fields.items() if t}
    texts |= {"cord": cord, "used": f"{used_mm(start, left):.3f} mm"}
    with store.open_shelf(file) as db, atlas_access.figures_source() as source:
        item = item_from(kind, {"name": store.free_name(db, kind, cord), **texts})
        if isinstance(item, SwatchEntry):
            swatch_of(db, item, source)  # refuses slips of the pen before they are kept
        store.add(db, item)
    say(f"The swatch '{item.name}' is on the shelf.")


@swatch.command()
@click.argument("plan", type=click.Path(path_type=Path))
@click.option("--cord", required=True, metavar="NAME", help="The plan's name of the cord.")
@click.option("--cut", "cut_all", required=True, metavar="LENGTH", help="All that was cut of it.")
@click.option("--left", required=True, metavar="LENGTH", help="All that was left or trimmed off.")
@MAKER
@SHELF
def log(plan: Path, cord: str, cut_all: str, left: str, maker: str, file: Path | None) -> None:
    """Enter what a finished piece of a PLAN really used of a cord that is on the shelf."""
    from cordwright.cli import atlas_access
    from cordwright.cli.shelf_access import read_plan_with_shelf
    from cordwright.cords.swatch import Finished, used_trial
    from cordwright.hang.counted import as_worked, counted
    from cordwright.piece.work import work
    from cordwright.supply import shelf as store
    from cordwright.supply.hands import finished_entry
    from cordwright.supply.swatched import used_mm
    from cordwright.supply.writing import KINDS

    used = used_mm(cut_all, left)
    read = read_plan_with_shelf(plan, file)
    with store.open_shelf(file) as db, atlas_access.figures_source() as source:
        piece = counted(as_worked(work(read, source)))
        name = store.free_name(db, KINDS["finished"], read.title)
        entry = finished_entry(piece, cord, name, used, maker)
        used_trial(
            Finished(
                maker,
                entry.cord,
                entry.mix,
                entry.knots,
                entry.knotted_mm,
                entry.free_mm,
                entry.used_mm,
            )
        )
        store.add(db, entry)
    say(f"'{name}' is on the shelf.")


@swatch.command("list")
@SHELF
@JSON
def list_(file: Path | None, as_json: bool) -> None:
    """List all swatches and finished pieces."""
    from cordwright.cli.shelfview import show_all
    from cordwright.supply.shelf import open_shelf

    with open_shelf(file) as db:
        show_all(db, ["swatch", "finished"], None, as_json)


@swatch.command()
@click.argument("cord")
@MAKER
@SHELF
@JSON
def show(cord: str, maker: str, file: Path | None, as_json: bool) -> None:
    """Show what swatches say of the shelf's CORD in a maker's hands, and how sure that is."""
    from cordwright.cli import atlas_access
    from cordwright.cli.show import Column, Screen, show_json
    from cordwright.supply.hands import known_hands
    from cordwright.supply.records import ShelfCord
    from cordwright.supply.shelf import find, open_shelf
    from cordwright.supply.swatched import hands_json

    with open_shelf(file) as db, atlas_access.figures_source() as source:
        find(db, ShelfCord, cord)
        hands = known_hands(db, source)
    report = hands_json(hands, cord, maker)
    if as_json:
        show_json(report)
        return
    parts, spare = report["factors"], report["spare"]
    screen = Screen()
    screen.line(f"{cord}, against the tight knot:")
    rows = [
        [what.replace("_", "-"), f"{p['factor']:.3f}", f"{p['low']:.3f} to {p['high']:.3f}"]
        for what, p in parts.items()
    ]
    heads = [Column("of knots"), Column("factor", "right"), Column("90 in 100 within", "right")]
    screen.table(heads, rows)
    screen.line(f"Spare of knotted cord that is enough 95 times in 100: {spare:.0%}.")
    if not parts["take_up"]["known"]:
        screen.line("No swatch tells of this cord or maker yet: this is the published spread.")
