"""``cordwright teach``: its options."""

from __future__ import annotations

from pathlib import Path

import click

from cordwright.cli.asking import DIAMETER, PLAN, RISK, SIZE
from cordwright.cli.shelf_access import MAKER, SHELF


@click.command()
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
