"""Arguments and options that several commands have in common."""

from __future__ import annotations

from pathlib import Path

import click

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
