"""``cordwright supply``: its options."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from cordwright.cli.asking import DIAMETER, JSON, PLAN, RISK, SIZE, UNITS
from cordwright.cli.shelf_access import MAKER, SHELF


@click.command()
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
