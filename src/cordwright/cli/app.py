"""The commands, their arguments and options; what they do is in modules of their own.

Commands with many options have them in a module of their own too.
"""

from __future__ import annotations

from pathlib import Path

import click

from cordwright import __version__
from cordwright.cli.ask_supply import supply
from cordwright.cli.ask_teach import teach
from cordwright.cli.asking import DIAMETER, JSON, PLAN, RISK, SIZE, UNITS
from cordwright.cli.shelf import shelf
from cordwright.cli.shelf_access import MAKER, SHELF
from cordwright.cli.swatch import swatch


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
    default="piece,chart,knots,scene",
    show_default=True,
    metavar="LIST",
    help="What to draw, separated by commas: piece, chart, knots, scene, strand=3L.",
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
    """Draw the whole piece, its chart, its knots, one strand's way, and a 3-D scene."""
    from cordwright.cli.draw import Asked
    from cordwright.cli.draw import draw as run

    run(plan, out, Asked(what, png, detail, units, file, maker), diameters, sizes)


for command in (teach, supply, shelf, swatch):
    app.add_command(command)
