"""Fills the table of figures in docs/examples.md from the program.

Run ``python tools/examples_page.py`` after a change of the atlas or of an example; a test holds
the page to it.
"""

from __future__ import annotations

import re
from pathlib import Path

import cordwright.examples
from cordwright.hang.counted import as_worked, counted
from cordwright.knots.atlas import Atlas
from cordwright.piece.cutlist import cut_list
from cordwright.piece.report import cut_json
from cordwright.piece.work import work
from cordwright.plan.read import read_plan

PAGE = Path(__file__).parent.parent / "docs" / "examples.md"
FOLDER = Path(cordwright.examples.__path__[0])
ROW = re.compile(r"^\| `([a-z-]+)` \|.*$", re.MULTILINE)


def row(name: str, atlas: Atlas) -> str:
    """One example's row of the table."""
    piece = counted(as_worked(work(read_plan(FOLDER / f"{name}.yaml"), atlas)))
    answer = cut_json(piece, cut_list(piece))
    finished = answer["finished_length_mm"] / 10
    metres = answer["total_mm"] / 1000
    grams = sum(kind["weight_g"] for kind in answer["kinds"])
    knots = answer["knots"]
    return f"| `{name}` | {finished:.0f} cm | {metres:.1f} m | {knots} | {grams:.0f} g |"


def filled(page: str, atlas: Atlas) -> str:
    """The page with its figures made anew."""
    return ROW.sub(lambda found: row(found[1], atlas), page)


if __name__ == "__main__":
    PAGE.write_text(filled(PAGE.read_text(encoding="utf-8"), Atlas()), encoding="utf-8")
