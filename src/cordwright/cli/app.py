"""The commands, their arguments and options; what they do is in modules of their own."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from cordwright import __version__
from cordwright.cli.shelf import shelf
from cordwright.cli.shelf_access import MAKER, SHELF
from cordwright.cli.swatch import swatch

PLAN = click.argument("plan", metavar="PLAN", type=click.Path(path_type=Path))
JSON = click.option("--json", "as_json", is_flag=True, help="Answer in JSON, for programs.")
DIAMETER = click.option(
    "--diameter",
    "diameters",
    multiple=True,
    metavar="CORD=LENGTH",
    help="Another diameter for one of the plan's cords, as in main=3mm. May be repeated.",
)
SIZE = click.option(
    "--size",
    "sizes",
    multiple=True,
    metavar="NAME=AMOUNT",
    help="Another value for one of the plan's sizes, as in arm=40cm. May be repeated.",
)
UNITS = click.option(
    "--units",
    type=click.Choice(["metric", "inch"]),
    default="metric",
    show_default=True,
    help="What lengths are shown and rounded in.",
)
RISK = click.option(
    "--risk",
    type=click.FloatRange(0.0, 50.0, min_open=True, max_open=True),
    metavar="COUNT",
    help="How many strands of 100 may turn out too short, as in 1; 5 if left out.",
)


@click.group(
    context_settings={"help_option_names": ["-h", "--help"]},
    epilog="A PLAN is a YAML file that says what to tie; 'cordwright demo --save FILE' writes one.",
    invoke_without_command=True,
)
@click.version_option(__version__, prog_name="cordwright")
@click.pass_context
def app(context: click.Context) -> None:
    """Plan knotted cord work: how long to cut every cord, and where to fold it.

    Without a COMMAND, the workbench opens in your browser.
    """
    if context.invoked_subcommand is None:
        with bench.make_context("bench", [], parent=context) as within:
            bench.invoke(within)


@app.command()
@click.option(
    "--folder",
    type=click.Path(path_type=Path),
    envvar="CORDWRIGHT_FOLDER",
    metavar="FOLDER",
    help="Your folder of plans; Cordwright in your documents if left out.",
)
@click.option(
    "--port",
    type=click.IntRange(0, 65535),
    metavar="NUMBER",
    help="Where it answers on this computer, 0 for any free one; from 8350 if left out.",
)
@click.option("--no-browser", is_flag=True, help="Only show the address that opens it.")
@SHELF
def bench(folder: Path | None, port: int | None, no_browser: bool, file: Path | None) -> None:
    """Open the workbench: plan, see and change pieces in your browser."""
    from cordwright.cli.bench import bench as run

    run(folder, port, browser=not no_browser, shelf=file)


@app.command()
@UNITS
@click.option(
    "--save",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Write the demo plan to FILE, to change it, and do no more.",
)
def demo(units: str, save: Path | None) -> None:
    """Work a plan that comes with Cordwright, and show its cut list."""
    from cordwright.cli.demo import save_demo, show_demo

    if save is not None:
        save_demo(save)
    else:
        show_demo(units)


@app.command()
@PLAN
@DIAMETER
@SIZE
@RISK
@MAKER
@SHELF
@UNITS
@JSON
def cut(
    plan: Path,
    diameters: tuple[str, ...],
    sizes: tuple[str, ...],
    risk: float | None,
    maker: str,
    file: Path | None,
    units: str,
    as_json: bool,
) -> None:
    """Show how long to cut every cord, where to fold it, and how large the piece comes out."""
    from cordwright.cli.cut import cut as run

    run(plan, diameters, sizes, units, as_json, risk=risk, shelf=file, maker=maker)


@app.command()
@PLAN
@DIAMETER
@SIZE
@click.option(
    "--units",
    type=click.Choice(["metric", "inch"]),
    default="metric",
    show_default=True,
    help="What weights are shown in.",
)
@SHELF
@MAKER
@JSON
def load(
    plan: Path,
    diameters: tuple[str, ...],
    sizes: tuple[str, ...],
    units: str,
    file: Path | None,
    maker: str,
    as_json: bool,
) -> None:
    """Show what every strand carries when the piece hangs, and whether its cords are enough."""
    from cordwright.cli.load import load as run

    run(plan, diameters, sizes, units, as_json, shelf=file, maker=maker)


@app.command()
@PLAN
@click.option(
    "--what",
    type=click.Choice(["steps", "booklet", "page", "filming"]),
    multiple=True,
    help="Which part to write; all of them if left out. May be repeated.",
)
@click.option(
    "--paper",
    type=click.Choice(["a4", "letter"]),
    default="a4",
    show_default=True,
    help="What booklet and filming sheet are printed on.",
)
@click.option(
    "--edition",
    "editions",
    multiple=True,
    metavar="NAME:SIZE=AMOUNT,...",
    help="A size edition, as in small:arm=12cm,pot=40cm. May be repeated.",
)
@click.option("--licence", default="", metavar="TEXT", help="What buyers may do with the booklet.")
@click.option("--booklet-version", default="1", metavar="TEXT", help="The booklet's own version.")
@click.option(
    "--language",
    type=click.Choice(["en", "de", "fr"]),
    default="en",
    show_default=True,
    help="Language of the lesson.",
)
@click.option(
    "--units",
    type=click.Choice(["metric", "inch", "both"]),
    default="metric",
    show_default=True,
    help="What lengths are told in.",
)
@click.option("--left-handed", is_flag=True, help="The edition for left-handers: all mirrored.")
@click.option(
    "--pace",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Your own log, a CSV file with the columns knot, count and minutes.",
)
@DIAMETER
@SIZE
@RISK
@MAKER
@SHELF
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    metavar="FOLDER",
    help="Where to write; a folder named after the plan if left out.",
)
def teach(
    plan: Path,
    what: tuple[str, ...],
    paper: str,
    editions: tuple[str, ...],
    licence: str,
    booklet_version: str,
    language: str,
    units: str,
    left_handed: bool,
    pace: Path | None,
    diameters: tuple[str, ...],
    sizes: tuple[str, ...],
    risk: float | None,
    maker: str,
    file: Path | None,
    out: Path | None,
) -> None:
    """Write the lesson of a plan: steps, a booklet to print, a web page, a sheet to film by."""
    from cordwright.cli.teach import Asked, Hands
    from cordwright.cli.teach import teach as run

    how = (paper, editions, licence, booklet_version, Hands(risk, maker, file))
    run(Asked(plan, diameters, sizes, what, language, units, left_handed, pace, out, *how))


@app.command()
@PLAN
@SHELF
@JSON
def check(plan: Path, file: Path | None, as_json: bool) -> None:
    """Say what is wrong with a plan, or that it can be worked."""
    from cordwright.cli.check import check as run

    run(plan, as_json, file)


@app.command()
@PLAN
@click.option(
    "--pot",
    metavar="KEY=VALUE,...",
    help="Another pot: rim=18cm,base=12cm,height=16cm and weight=1.2kg, or its material and wall.",
)
@click.option("--hook", metavar="LENGTH", help="Height of the hook above the floor.")
@click.option("--clear", metavar="LENGTH", help="Least height of the lowest end above the floor.")
@DIAMETER
@SIZE
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Search for free sizes that make it fit, and write the plan with them to FILE.",
)
@click.option("--cord", metavar="LENGTH", help="With --out: most cord to cut in all.")
@click.option("--length", metavar="LENGTH", help="With --out: from the hook to the lowest end.")
@click.option("--base", metavar="LENGTH", help="With --out: height of the pot's base.")
@SHELF
@MAKER
@UNITS
@JSON
def fit(
    plan: Path,
    pot: str | None,
    hook: str | None,
    clear: str | None,
    diameters: tuple[str, ...],
    sizes: tuple[str, ...],
    out: Path | None,
    cord: str | None,
    length: str | None,
    base: str | None,
    file: Path | None,
    maker: str,
    units: str,
    as_json: bool,
) -> None:
    """Show whether a pot sits in its net and where everything comes, or find sizes that fit it."""
    from cordwright.cli.fit import Wanted
    from cordwright.cli.fit import fit as run

    asked = (pot, hook, clear, cord, length, base)
    run(plan, Wanted(*asked, diameters, sizes, out, units, as_json, file, maker))


@app.command()
@PLAN
@click.option(
    "--kits",
    type=click.IntRange(1, 1000),
    default=1,
    show_default=True,
    help="How many pieces to cut for.",
)
@click.option(
    "--spool",
    "spools",
    multiple=True,
    metavar="CORD=LENGTH[@PRICE][xN]",
    help="Cord at hand, as in main=100m or main=38m@4.75x2. May be repeated.",
)
@click.option(
    "--buy",
    "buys",
    multiple=True,
    metavar="CORD=LENGTH[@PRICE][xN]",
    help="Cord that can be bought, N at most; as in main=100m@12.50. May be repeated.",
)
@click.option(
    "--keep",
    default="50 cm",
    show_default=True,
    metavar="LENGTH",
    help="The least left-over that is worth keeping; 0 keeps none.",
)
@click.option(
    "--setup",
    default="1 cm",
    show_default=True,
    metavar="LENGTH",
    help="Cord that may be lost to open one spool fewer.",
)
@click.option(
    "--seconds",
    type=click.FloatRange(0.0, 3600.0),
    default=10.0,
    show_default=True,
    help="Time to look for a better cutting plan, for each cord.",
)
@click.option("--currency", metavar="CODE", help="Show costs, in a currency of ISO 4217: EUR.")
@click.option(
    "--fitting",
    "fittings",
    multiple=True,
    metavar="NAME[=PRICE][@WEIGHT][xN]",
    help="What else goes into a kit, as in ring=1.20@15gx2. May be repeated.",
)
@click.option(
    "--packing",
    multiple=True,
    metavar="NAME[=PRICE][@WEIGHT][xN]",
    help="What a kit is packed with, as in box=0.60@90g. May be repeated.",
)
@click.option("--minutes", default="0", metavar="NUMBER", help="Minutes of work for a kit.")
@click.option("--hourly", default="0", metavar="AMOUNT", help="What an hour of work costs.")
@click.option("--overhead", default="0", metavar="PERCENT", help="On cord, things and work.")
@click.option(
    "--fixed",
    default="0",
    metavar="AMOUNT",
    help="Spent once for the run or class, as for a room.",
)
@click.option(
    "--wholesale",
    default="2",
    show_default=True,
    metavar="NUMBER",
    help="Wholesale price, as so many times the cost.",
)
@click.option(
    "--retail",
    default="2",
    show_default=True,
    metavar="NUMBER",
    help="Retail price, as so many times the wholesale price.",
)
@click.option(
    "--asked", metavar="AMOUNT", help="Price for the break-even; the retail price if left out."
)
@click.option("--box", metavar="SIDES", help="Inside of the parcel's box, as in 30x20x5cm.")
@click.option("--studio", default="", metavar="NAME", help="Who makes the kits, for labels.")
@click.option(
    "--papers",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Write parts list, packing sheet and labels to FILE: .txt, .md, .csv or .html.",
)
@click.option(
    "--in-kit",
    default="ring,rod",
    show_default=True,
    metavar="LIST",
    help="Which of the plan's ring, rod and pot go into each kit, or none.",
)
@click.option(
    "--take",
    is_flag=True,
    help="Carry it out on the shelf: take what is cut, keep the left-overs worth keeping.",
)
@DIAMETER
@SIZE
@RISK
@SHELF
@MAKER
@UNITS
@JSON
def supply(plan: Path, **asked: Any) -> None:
    """Show which spool each length is cut from, what a kit weighs and what it costs.

    With a folder for PLAN: which of its plans can be made from the spools, as they are or with
    other sizes within their bounds.
    """
    from cordwright.cli.supply import supply as run
    from cordwright.supply.asked import Asked

    run(plan, Asked(**asked))


@app.command()
@click.argument("name", required=False)
@click.option("--fillers", type=click.IntRange(min=0), help="Strands that the knot runs round.")
@click.option("--strands", type=click.IntRange(min=1), help="Strands that take part in all.")
@click.option("--turns", type=click.IntRange(min=1), help="Turns of a gathering knot.")
@click.option("--hand", type=click.Choice(["left", "right"]), help="Left or right.")
@click.option("--regenerate", is_flag=True, help="Tighten the whole atlas again; takes minutes.")
@click.option("--draw", is_flag=True, help="Draw the knots and how they are tied, as SVG.")
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    metavar="FOLDER",
    default=Path("knot-pictures"),
    show_default=True,
    help="With --draw: where the pictures go.",
)
@JSON
def knots(
    name: str | None,
    fillers: int | None,
    strands: int | None,
    turns: int | None,
    hand: str | None,
    regenerate: bool,
    draw: bool,
    out: Path,
    as_json: bool,
) -> None:
    """Show how high and wide the tight knots are and how much cord they use.

    Without NAME all knots of the atlas; with it, that knot, which is tightened now if the atlas
    does not have it.
    """
    from cordwright.cli.knots import Asked, asked_for, regenerate_atlas, show_knots

    asked = Asked(name, fillers, strands, turns, hand)
    if regenerate:
        regenerate_atlas()
    elif draw:
        from cordwright.cli.knotpictures import draw_knots

        draw_knots([s for s in asked_for(asked) if hand or s.hand == "left"], out)
    else:
        show_knots(asked, as_json)


@app.command()
@PLAN
@click.option(
    "--what",
    default="piece,chart,scene",
    show_default=True,
    metavar="LIST",
    help="What to draw, separated by commas: piece, chart, scene, strand=3L.",
)
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path("drawings"),
    show_default=True,
    metavar="DIR",
    help="Folder for everything that is drawn.",
)
@click.option("--png", is_flag=True, help="Write pictures as PNG too.")
@click.option(
    "--detail",
    type=click.Choice(["low", "high"]),
    default="high",
    show_default=True,
    help="How fine the scene is.",
)
@DIAMETER
@SIZE
@SHELF
@MAKER
@UNITS
def draw(
    plan: Path,
    what: str,
    out: Path,
    png: bool,
    detail: str,
    diameters: tuple[str, ...],
    sizes: tuple[str, ...],
    file: Path | None,
    maker: str,
    units: str,
) -> None:
    """Draw the whole piece, the chart to work from, one strand's way, and a 3-D scene."""
    from cordwright.cli.draw import Asked
    from cordwright.cli.draw import draw as run

    run(plan, out, Asked(what, png, detail, units, file, maker), diameters, sizes)


app.add_command(shelf)
app.add_command(swatch)
